"""Calls that meet each other, leases lost within a call, machines without room for a process."""

from __future__ import annotations

import time
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

import httpx
import pytest
import sqlalchemy as sa

from api import runner as runner_module
from api.examples import EXAMPLES
from api.runner import Runner
from api.solving import solve
from api.store import runs
from api.store.engine import Store, lock_firm
from api.store.plans import Made
from api.store.tables import runs as runs_table
from tests.api.bodies import Caller, a_request_body, a_service, the_problem
from tests.api.test_deliveries import Ordered
from tests.api.test_runs import ended, run_of, wait_for

only_postgresql = pytest.mark.parametrize("store_url", ["postgresql"], indirect=True)


@pytest.fixture
def service(store_url: str) -> Caller:
    return Caller(a_service(store=store_url))


def both(service: Caller, call: Callable[[], httpx.Response]) -> list[httpx.Response]:
    """Make a call twice at once: both wait for the firm's row, and then go on."""
    store: Store = service.app.state.store
    waiting = sa.text(
        "SELECT count(*) FROM pg_stat_activity"
        " WHERE datname = current_database() AND wait_event_type = 'Lock'"
    )

    def stuck() -> int:
        with store.read() as connection:
            return int(connection.execute(waiting).scalar_one())

    with ThreadPoolExecutor(2) as pool:
        with store.write() as connection:
            lock_firm(connection, service.app.state.local_firm)
            made: list[Future[httpx.Response]] = [pool.submit(call) for _ in range(2)]
            wait_for(stuck, lambda number: number == 2)
        return [one.result() for one in made]


@only_postgresql
def test_a_delivery_that_is_sent_twice_at_once_is_written_down_once(service: Caller) -> None:
    order = Ordered(service).confirmed()
    line = {"line": order.line("2400"), "good": 1}

    answers = both(service, lambda: order.send(line, key="the same"))

    assert [one.status_code for one in answers] == [201, 201]
    assert len({one.json()["delivery"]["id"] for one in answers}) == 1
    found = service.get(f"/v1/orders/{order.id}/deliveries").json()
    assert len(found["deliveries"]) == 1
    assert found["lines"][line["line"] - 1]["good"] == 1


@only_postgresql
def test_the_rest_that_is_asked_for_twice_at_once_is_planned_once(service: Caller) -> None:
    order = Ordered(service).confirmed()
    lost = {"tick": "van-1", "phone": "van", "kind": "damaged", "at": "2026-12-01T08:00:00Z"}
    place = {"material": "c16-38x63", "layout": 1, "piece": 1}
    marked = service.post(f"/v1/plans/{order.plan}/marks", {"ticks": [lost | place]})
    assert marked.status_code == 200, marked.text

    answers = both(
        service,
        lambda: service.post(
            f"/v1/plans/{order.plan}/replan", {"seconds": 0.2}, idempotency_key="the same"
        ),
    )

    assert sorted(one.status_code for one in answers) in ([201, 201], [201, 202])
    again = service.post(
        f"/v1/plans/{order.plan}/replan", {"seconds": 0.2}, idempotency_key="the same"
    )
    assert again.status_code == 201
    drafts = service.get("/v1/plans?state=draft").json()["items"]
    assert [one["id"] for one in drafts] == [again.json()["id"]]


@pytest.mark.parametrize("path", ["/v1/batches", "/v1/deliveries"])
@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_call_sent_again_is_answered_though_its_wall_is_gone(service: Caller, path: str) -> None:
    wall = service.post("/v1/walls", EXAMPLES["wall"]).json()["id"]
    service.put("/v1/price-books/usual", EXAMPLES["price-book"])
    asked: dict[str, Any] = {"wall_ids": [wall], "price_book": "usual", "seconds": 9}
    if path == "/v1/deliveries":
        asked["terms"] = EXAMPLES["deal"]["terms"]
    first = service.post(path, asked, idempotency_key="the same")
    assert first.status_code == 202, first.text
    service.ask("DELETE", f"/v1/walls/{wall}")

    again = service.post(path, asked, idempotency_key="the same")

    assert (again.status_code, again.json()) == (202, first.json())
    other = service.post(path, {**asked, "seed": 2}, idempotency_key="the same")
    the_problem(other, status=409, kind="conflict")


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_call_that_loses_its_lease_answers_with_the_run(
    service: Caller, monkeypatch: pytest.MonkeyPatch
) -> None:
    store: Store = service.app.state.store

    def slowly(*given: Any, **more: Any) -> Made:
        made = solve(*given, **more)
        with store.write() as connection:
            lapsed = sa.update(runs_table).values(lease_until=0.0)
            connection.execute(lapsed)
        assert runs.claim_next(store, "another") is not None
        return made

    monkeypatch.setattr("api.working.solve", slowly)

    answer = service.post("/v1/plans", a_request_body())

    assert answer.status_code == 202, answer.text
    assert (answer.json()["state"], answer.json()["attempt"]) == ("running", 2)
    assert answer.headers["location"] == f"/v1/runs/{answer.json()['id']}"


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_run_that_no_process_could_be_started_for_waits_for_room(
    service: Caller, store_url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    run = run_of(service, a_request_body(seconds=3, sheets=[]))
    make = runner_module._process
    tried: list[float] = []

    def process(asked: tuple[str, str, str, int]) -> Any:
        tried.append(time.monotonic())
        made = make(asked)
        if len(tried) < 3:
            monkeypatch.setattr(made, "start", no_room)
        return made

    def no_room() -> None:
        raise BlockingIOError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(runner_module, "NO_ROOM_SECONDS", 0.0)
    monkeypatch.setattr(runner_module, "_process", process)
    runner = Runner(Store(store_url), workers=1)
    runner.start()

    done = ended(service, run)

    runner.stop()
    assert len(tried) == 3
    assert (done["state"], done["attempt"]) == ("done", 1)
