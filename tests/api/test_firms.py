"""Each firm sees only its own; a public service asks every caller for a key with the right role."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from fastapi import FastAPI

from api.callers import Buckets
from api.examples import EXAMPLES
from api.store.engine import Store
from api.store.keys import ROLES, list_keys, make_key, revoke_key
from tests.api.bodies import Caller, a_batch_body, a_request_body, a_service, the_problem
from tests.api.test_openapi import example_of, operations

# What a firm's name for its own thing leads to: the same name, another thing.
OWN_NAMES = {("put", "/v1/price-books/{name}"), ("put", "/v1/price-books/{name}/file")}


def a_key(app: FastAPI, firm: str, *roles: str) -> str:
    store: Store = app.state.store
    with store.write() as connection:
        return make_key(connection, firm=firm, name="test", roles=roles or ROLES)


@pytest.fixture
def app(store_url: str) -> FastAPI:
    return a_service(store=store_url, public=True, rate=1e6)


@pytest.fixture
def document(app: FastAPI) -> dict[str, Any]:
    return app.openapi()


@pytest.fixture
def ours(app: FastAPI) -> Caller:
    return Caller(app, a_key(app, "ours"))


@pytest.fixture
def kept(ours: Caller) -> dict[str, str]:
    """Keep one thing of every kind for our firm; return their ids as routes name them."""
    body = a_batch_body()
    wall = ours.post("/v1/walls", body["walls"][0]).json()
    assert ours.put("/v1/price-books/usual", body["prices"]).status_code == 201
    assert ours.post("/v1/rack", EXAMPLES["rack"]).status_code == 201
    plan = ours.post("/v1/batches", body).json()
    (order,) = ours.get("/v1/orders").json()["items"]
    diagram = ours.get(f"/v1/plans/{plan['id']}/diagrams").json()["diagrams"][0]
    dealt = ours.post("/v1/deliveries", {**EXAMPLES["deal"], "seconds": 0.1}).json()
    return {
        "dealt": dealt["id"],
        "plan_id": plan["id"],
        "run_id": plan["run"],
        "wall_id": wall["id"],
        "job_id": wall["job"],
        "order_id": order["id"],
        "label": EXAMPLES["rack"][0]["id"],
        "diagram": diagram["name"],
    }


def filled(path: str, kept: dict[str, str]) -> str:
    name = kept["diagram"] if "diagrams" in path else "usual"
    if path == "/v1/deliveries/{run_id}":
        return path.format(run_id=kept["dealt"])
    return path.format(name=name, **kept)


def of_things(document: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, method, operation in operations(document):
        if "{" in path:
            yield method, path, operation


def test_with_another_firms_key_nothing_of_ours_is_there(
    app: FastAPI, document: dict[str, Any], ours: Caller, kept: dict[str, str]
) -> None:
    theirs = Caller(app, a_key(app, "theirs"))
    walked = []
    for method, path, operation in of_things(document):
        if (method, path) in OWN_NAMES:
            continue
        json = example_of(document, operation) if "requestBody" in operation else None

        answer = theirs.ask(method.upper(), filled(path, kept), json=json)

        the_problem(answer, status=404, kind="http-404")
        walked.append((method, path))
    assert len(walked) >= 18

    # Nothing was changed by any of it, and all of it was there to be found.
    for method, path in walked:
        if method == "get":
            assert ours.get(filled(path, kept)).status_code == 200, path
    assert ours.get(f"/v1/plans/{kept['plan_id']}").json()["state"] == "draft"


def test_another_firms_lists_are_empty(
    app: FastAPI, document: dict[str, Any], ours: Caller, kept: dict[str, str]
) -> None:
    theirs = Caller(app, a_key(app, "theirs"))
    lists = [
        path
        for path, method, operation in operations(document)
        if method == "get"
        and path.startswith("/v1")
        and "{" not in path
        and "application/json" in operation["responses"]["200"]["content"]
    ]

    assert {"/v1/plans", "/v1/runs", "/v1/rack", "/v1/ledger", "/v1/audit"} <= set(lists)
    for path in lists:
        assert theirs.get(path).json()["items"] == [], path
        assert ours.get(path).json()["items"], path
    assert kept


def test_a_name_that_another_firm_has_too_is_ones_own(
    app: FastAPI, ours: Caller, kept: dict[str, str]
) -> None:
    theirs = Caller(app, a_key(app, "theirs"))
    assert kept

    answer = theirs.put("/v1/price-books/usual", {**EXAMPLES["price-book"], "merchant": "Other"})

    assert answer.json()["version"] == 1
    assert ours.get("/v1/price-books/usual").json()["prices"] == EXAMPLES["price-book"]
    same = [{**EXAMPLES["rack"][0], "length_mm": 555}]
    assert theirs.post("/v1/rack", same).status_code == 201
    (piece,) = ours.get("/v1/rack").json()["items"]
    assert piece["length_mm"] == EXAMPLES["rack"][0]["length_mm"]


def test_walls_and_prices_of_another_firm_cannot_be_planned(
    app: FastAPI, ours: Caller, kept: dict[str, str]
) -> None:
    assert ours.get(f"/v1/walls/{kept['wall_id']}").status_code == 200
    theirs = Caller(app, a_key(app, "theirs"))
    prices = EXAMPLES["price-book"]

    by_wall = theirs.post("/v1/batches", {"wall_ids": [kept["wall_id"]], "prices": prices})
    by_book = theirs.post("/v1/batches", {"walls": [EXAMPLES["wall"]], "price_book": "usual"})

    the_problem(by_wall, status=404, kind="http-404")
    the_problem(by_book, status=404, kind="http-404")


@pytest.mark.parametrize("key", [None, "", "sk_wrong"])
def test_without_a_key_that_is_known_nothing_is_answered(
    app: FastAPI, document: dict[str, Any], key: str | None
) -> None:
    nobody = Caller(app, key)
    for path, method, operation in operations(document):
        if not path.startswith("/v1"):
            continue
        json = example_of(document, operation) if "requestBody" in operation else None

        answer = nobody.ask(method.upper(), path, json=json)

        the_problem(answer, status=401, kind="http-401")
        assert answer.headers["www-authenticate"] == "Bearer"


def test_a_key_that_only_reads_changes_nothing(app: FastAPI, document: dict[str, Any]) -> None:
    reader = Caller(app, a_key(app, "ours", "read"))
    for path, method, operation in operations(document):
        if path.startswith("/v1") and method != "get":
            json = example_of(document, operation) if "requestBody" in operation else None
            the_problem(
                reader.ask(method.upper(), path.replace("{", "").replace("}", ""), json=json),
                status=403,
                kind="http-403",
            )
    the_problem(reader.get("/v1/audit"), status=403, kind="http-403")


def test_a_key_that_plans_cannot_order(app: FastAPI) -> None:
    planner = Caller(app, a_key(app, "ours", "read", "plan"))
    made = planner.post("/v1/plans", a_request_body())
    assert made.status_code == 201

    answer = planner.post(f"/v1/plans/{made.json()['id']}/confirm")

    assert "'order'" in the_problem(answer, status=403, kind="http-403")["title"]


def test_a_revoked_key_is_worthless(app: FastAPI) -> None:
    key = a_key(app, "ours")
    assert Caller(app, key).get("/v1/plans").status_code == 200
    with app.state.store.write() as connection:
        (made,) = list_keys(connection)
        revoke_key(connection, made.id)

    the_problem(Caller(app, key).get("/v1/plans"), status=401, kind="http-401")


def test_a_key_is_nowhere_in_the_store(app: FastAPI) -> None:
    key = a_key(app, "ours")
    with app.state.store.read() as connection:
        rows = connection.exec_driver_sql("SELECT * FROM keys").all()

    assert rows
    assert key not in str(rows)


def test_who_did_what_is_in_the_audit_log(ours: Caller) -> None:
    made = ours.post("/v1/plans", a_request_body()).json()
    ours.post(f"/v1/plans/{made['id']}/confirm")

    lines = ours.get("/v1/audit").json()["items"]

    assert [(line["action"], line["thing"]) for line in lines] == [
        ("ask request", made["run"]),
        ("confirm plan", made["id"]),
    ]
    assert all(line["who"].startswith("test (key-") for line in lines)


def test_too_many_calls_are_told_when_to_come_back(store_url: str) -> None:
    app = a_service(store=store_url, public=True, rate=1)
    caller, other = Caller(app, a_key(app, "ours")), Caller(app, a_key(app, "theirs"))

    answers = [caller.get("/v1/runs") for _ in range(20)]

    refused = [answer for answer in answers if answer.status_code != 200]
    the_problem(refused[-1], status=429, kind="http-429")
    assert int(refused[-1].headers["retry-after"]) >= 1
    assert other.get("/v1/runs").status_code == 200


def test_calls_are_let_through_again_as_time_passes() -> None:
    buckets = Buckets(rate=2.0)

    first = [buckets.wait("key", 100.0) for _ in range(5)]

    assert first == [0, 0, 0, 0, 0.5]
    assert buckets.wait("key", 100.5) == 0
    assert buckets.wait("key", 100.5) == 0.5
    assert buckets.wait("key", 90.0) == 0.5  # a clock that jumps back gives nothing away


def test_this_machines_service_asks_for_no_key(store_url: str) -> None:
    assert Caller(a_service(store=store_url)).get("/v1/runs").status_code == 200
