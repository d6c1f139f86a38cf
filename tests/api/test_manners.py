"""The service's manners: pages, filters, versions, headers, figures, and limits."""

from __future__ import annotations

from typing import Any

import pytest

from api.examples import EXAMPLES
from tests.api.bodies import Caller, a_request_body, a_service, the_problem

JOB: dict[str, Any] = {"name": "A", "client": "Demo Client"}


@pytest.fixture
def service(store_url: str) -> Caller:
    return Caller(a_service(store=store_url))


def test_pages_give_each_thing_once_newest_first(service: Caller) -> None:
    for number in range(7):
        assert service.post("/v1/jobs", {"name": f"job {number}"}).status_code == 201

    seen: list[str] = []
    after = ""
    for _ in range(3):
        page = service.get(f"/v1/jobs?limit=3{after}").json()
        seen += [item["job"]["name"] for item in page["items"]]
        after = f"&after={page['next']}"

    assert seen == [f"job {number}" for number in reversed(range(7))]
    assert page["next"] is None


def test_a_page_after_something_unknown_is_not_found(service: Caller) -> None:
    the_problem(service.get("/v1/jobs?after=none"), status=404, kind="http-404")


@pytest.mark.parametrize("query", ["limit=0", "limit=201", "limit=many"])
def test_a_page_of_no_size_is_refused_by_name(service: Caller, query: str) -> None:
    problem = the_problem(service.get(f"/v1/jobs?{query}"), status=422, kind="invalid-input")

    assert "limit" in problem["problems"][0]["field"]


def test_lists_are_filtered(service: Caller) -> None:
    rack = [
        {"id": "a", "material": "pine", "length_mm": 700},
        {"id": "b", "material": "mdf", "width_mm": 400, "height_mm": 500},
        {"id": "c", "material": "pine", "length_mm": 800},
    ]
    service.post("/v1/rack", rack)

    pine = service.get("/v1/rack?material=pine&limit=1").json()

    assert [item["id"] for item in pine["items"]] == ["a"]
    rest = service.get(f"/v1/rack?material=pine&after={pine['next']}").json()
    assert [item["id"] for item in rest["items"]] == ["c"]
    assert service.get("/v1/rack?free=false").json()["items"] == []
    assert service.get("/v1/plans?state=confirmed").json() == {"items": [], "next": None}


def test_office_and_van_cannot_overwrite_each_other(service: Caller) -> None:
    made = service.post("/v1/jobs", JOB)
    path, tag = made.headers["location"], made.headers["etag"]

    office = service.put(path, {**JOB, "needed": "Monday"}, if_match=tag)
    van = service.put(path, {**JOB, "needed": "Tuesday"}, if_match=tag)

    assert office.status_code == 200
    the_problem(van, status=412, kind="stale")
    assert service.get(path).json()["job"]["needed"] == "Monday"
    assert service.get(path).headers["etag"] == office.headers["etag"] != tag


def test_what_has_not_changed_is_not_sent_again(service: Caller) -> None:
    made = service.post("/v1/plans", a_request_body())
    path, tag = made.headers["location"], made.headers["etag"]

    assert service.get(path, if_none_match=tag).status_code == 304
    service.post(f"{path}/confirm")
    again = service.get(path, if_none_match=tag)
    assert (again.status_code, again.json()["state"]) == (200, "confirmed")


def test_an_etag_that_is_none_is_refused_by_name(service: Caller) -> None:
    path = service.post("/v1/jobs", JOB).headers["location"]

    problem = the_problem(
        service.put(path, JOB, if_match="yesterday's"), status=422, kind="invalid-input"
    )

    assert problem["problems"][0]["field"] == "If-Match"


def test_two_jobs_of_one_name_are_refused(service: Caller) -> None:
    service.post("/v1/jobs", JOB)
    other = service.post("/v1/jobs", {"name": "B"}).headers["location"]

    the_problem(service.post("/v1/jobs", JOB), status=409, kind="conflict")
    the_problem(service.put(other, JOB), status=409, kind="conflict")


def test_a_wall_is_kept_changed_and_removed_under_the_job_it_names(service: Caller) -> None:
    wall = EXAMPLES["wall"]
    made = service.post("/v1/walls", wall)
    path = made.headers["location"]
    (job,) = service.get("/v1/jobs?name=A").json()["items"]
    assert made.json()["job"] == job["id"]

    changed = service.put(path, {**wall, "client": "Other"}, if_match=made.headers["etag"])

    assert changed.json()["wall"]["client"] == "Other"
    assert service.get(f"/v1/walls?job={job['id']}").json()["items"] == [changed.json()]
    assert service.ask("DELETE", path).status_code == 204
    the_problem(service.get(path), status=404, kind="http-404")


def test_a_wall_that_cannot_be_read_is_not_kept(service: Caller) -> None:
    broken = {**EXAMPLES["wall"], "wall": {"depth_mm": -1}}

    the_problem(service.post("/v1/walls", broken), status=422, kind="invalid-input")

    assert service.get("/v1/walls").json()["items"] == []


def test_a_price_book_holds_from_its_day_on_and_old_versions_stay(service: Caller) -> None:
    old, new = EXAMPLES["price-book"], {**EXAMPLES["price-book"], "vat_percent": 25}
    service.put("/v1/price-books/usual?valid_from=2026-01-01", old)
    service.put("/v1/price-books/usual?valid_from=2026-07-01", new)

    assert service.get("/v1/price-books/usual?on=2026-06-30").json()["prices"] == old
    assert service.get("/v1/price-books/usual?on=2026-07-01").json()["prices"] == new
    before = service.get("/v1/price-books/usual?on=2025-12-31")
    problem = the_problem(before, status=422, kind="invalid-input")
    assert "holds from 2026-01-01 on" in problem["problems"][0]["trouble"]
    assert len(service.get("/v1/price-books?name=usual").json()["items"]) == 2


def test_offcuts_are_put_up_all_or_none(service: Caller) -> None:
    service.post("/v1/rack", [{"id": "a", "material": "pine", "length_mm": 700}])
    both = [
        {"id": "new", "material": "pine", "length_mm": 700},
        {"id": "a", "material": "pine", "length_mm": 700},
    ]

    the_problem(service.post("/v1/rack", both), status=409, kind="conflict")

    assert [item["id"] for item in service.get("/v1/rack").json()["items"]] == ["a"]


def test_a_correction_is_told_with_who_and_why(service: Caller) -> None:
    service.post("/v1/rack", [{"id": "a", "material": "pine", "length_mm": 700}])
    gone = {"kind": "scrapped", "why": "split"}

    assert service.post("/v1/rack/a/corrections", gone).status_code == 201

    assert service.get("/v1/rack").json()["items"] == []
    racked, scrapped = service.get("/v1/rack/a/events").json()["items"]
    assert (scrapped["kind"], scrapped["who"], scrapped["why"]) == ("scrapped", "local", "split")
    (last,) = service.get(f"/v1/ledger?after={racked['id']}").json()["items"]
    assert last == scrapped
    the_problem(service.post("/v1/rack/a/corrections", gone), status=409, kind="conflict")


def test_work_over_the_limits_is_refused_naming_each(service: Caller) -> None:
    body = a_request_body(seconds=601)
    body["lengths"][0]["parts"][0]["quantity"] = 60_000

    problem = the_problem(service.post("/v1/plans", body), status=422, kind="invalid-input")

    assert {item["field"] for item in problem["problems"]} == {"seconds", "parts"}


def test_the_figures_are_those_of_the_work_done(service: Caller) -> None:
    service.post("/v1/rack", [{"id": "a", "material": "pine", "length_mm": 700}])
    service.post("/v1/plans", a_request_body())
    service.post("/v1/plans", a_request_body(seconds=3))

    answer = service.get("/metrics")

    assert answer.headers["content-type"].startswith("text/plain; version=0.0.4")
    figures = dict(
        line.rsplit(" ", 1) for line in answer.text.splitlines() if not line.startswith("#")
    )
    assert figures['scantling_runs{state="done"}'] == "1"
    assert figures['scantling_runs{state="queued"}'] == "1"
    assert figures["scantling_solve_seconds_count"] == "1"
    assert 0 < float(figures["scantling_solve_seconds_sum"]) < 60
    assert 0 <= float(figures["scantling_gap_ratio"]) < 1
    assert (figures["scantling_rack_pieces"], figures["scantling_rack_held"]) == ("1", "0")


def test_a_store_that_is_gone_is_told_plainly_and_comes_back(
    service: Caller, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert service.get("/ready").json() == {"status": "ready"}
    store = service.app.state.store
    engine = store._engine
    away = type(store)("postgresql://nobody@/none?host=/nonexistent")
    monkeypatch.setattr(store, "_engine", away._engine)

    assert service.get("/health").status_code == 200
    the_problem(service.get("/ready"), status=503, kind="store-away")
    told = service.post("/v1/plans", a_request_body())
    the_problem(told, status=503, kind="store-away")
    assert told.headers["retry-after"] == "5"

    monkeypatch.setattr(store, "_engine", engine)
    assert service.post("/v1/plans", a_request_body()).status_code == 201


def test_every_answer_tells_a_browser_to_do_nothing_but_show_it(service: Caller) -> None:
    for path in ("/health", "/v1/plans", "/v1/plans/none"):
        headers = service.get(path).headers
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["x-frame-options"] == "DENY"
        assert "default-src 'none'" in headers["content-security-policy"]


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "https://elsewhere.example"},
        {"host": "elsewhere.example"},
        {"host": "localhost.elsewhere.example:8000"},
        {"origin": "null"},
        {"origin": "http://[broken"},
    ],
)
def test_a_page_from_elsewhere_cannot_call_a_service_without_keys(
    service: Caller, headers: dict[str, str]
) -> None:
    answer = service.post("/v1/plans", a_request_body(), **headers)

    the_problem(answer, status=403, kind="other-site")
    assert service.get("/v1/plans").json()["items"] == []


@pytest.mark.parametrize("headers", [{"origin": "http://127.0.0.1:8000"}, {"host": "[::1]:8000"}])
def test_this_machines_own_pages_may_call_it(service: Caller, headers: dict[str, str]) -> None:
    assert service.get("/v1/plans", **headers).status_code == 200


def test_a_firm_asks_for_so_much_planning_an_hour(store_url: str) -> None:
    service = Caller(a_service(store=store_url, hourly=20.0))
    first = service.post("/v1/plans", a_request_body(seconds=9))
    assert first.status_code == 202

    answer = service.post("/v1/plans", a_request_body(seconds=12))

    # Nine are asked for and not used yet; they count until an hour after they were asked for.
    problem = the_problem(answer, status=429, kind="too-much")
    assert problem["problems"][0]["field"] == "seconds"
    assert 3500 < int(answer.headers["Retry-After"]) <= 3601
    assert len(service.get("/v1/runs").json()["items"]) == 1
    assert service.post("/v1/plans", a_request_body(seconds=10)).status_code == 202


def test_seconds_not_used_are_given_back_and_a_call_sent_again_counts_once(store_url: str) -> None:
    service = Caller(a_service(store=store_url, hourly=4.0))
    headers = {"Idempotency-Key": "van"}

    for _ in range(3):
        answer = service.post("/v1/plans", a_request_body(seconds=4))
        assert answer.status_code == 202
        service.post(f"/v1/runs/{answer.json()['id']}/cancel")
    for _ in range(3):
        sent = service.ask("POST", "/v1/plans", json=a_request_body(seconds=3), headers=headers)
        assert sent.status_code == 202
    more = service.post("/v1/plans", a_request_body(seconds=2))
    the_problem(more, status=429, kind="too-much")
