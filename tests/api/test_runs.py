"""Longer work: watched, cancelled, and finished whoever dies; small work answered at once."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import sqlalchemy as sa

import optimiser as lib
from api.runner import Runner
from api.store import runs as store_runs
from api.store.engine import Store, now
from api.store.tables import runs as runs_table
from api.working import MOST_NAMED
from tests.api.bodies import (
    Caller,
    a_batch_body,
    a_request_body,
    a_service,
    the_problem,
    without_offcuts,
)

ROOT = Path(__file__).parents[2]
PATIENCE = 300.0  # for a starved machine; a test that is right never waits as long


@pytest.fixture(autouse=True)
def _leases_outlast_a_starved_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let runners here wait ten minutes longer before they take a silent worker for a dead one.

    A worker that gets no time of the machine for ten seconds would lose its run rightly, and the
    attempts counted here would be one more. What is known to be dead is taken up at once as ever;
    that leases run out is tested in `store/test_runs.py`.
    """
    forsaken = store_runs._is_forsaken
    monkeypatch.setattr(store_runs, "_is_forsaken", lambda at: forsaken(at - 600))


@pytest.fixture
def service(store_url: str) -> Caller:
    return Caller(a_service(store=store_url))


@pytest.fixture
def start(store_url: str) -> Iterator[Callable[[], Runner]]:
    """Start runners on the store, and stop them in the end."""
    started: list[Runner] = []

    def begin() -> Runner:
        runner = Runner(Store(store_url), workers=1)
        runner.start()
        started.append(runner)
        return runner

    yield begin
    for runner in started:
        runner.stop()


def hard(**changes: object) -> dict[str, Any]:
    """Ask for a plan that is neither proven at once nor given up before its seconds are over."""
    body = a_request_body(lengths=[], **changes)
    body["sheets"][0]["stock"][0]["available"] = None
    body["sheets"][0]["parts"] = [
        {
            "id": f"p{n}",
            "job": "A",
            "width_mm": 211 + 37 * (n * 7 % 23) + n,
            "height_mm": 305 + 29 * (n * 11 % 31),
            "quantity": 1,
        }
        for n in range(60)
    ]
    return body


def wait_for(ask: Callable[[], Any], wanted: Callable[[Any], bool]) -> Any:
    end = time.monotonic() + PATIENCE
    while not wanted(found := ask()):
        assert time.monotonic() < end, f"still {found}"
        time.sleep(0.1)
    return found


def run_of(service: Caller, body: dict[str, Any], query: str = "", **headers: str) -> str:
    answer = service.post(f"/v1/plans{query}", body, **headers)
    assert answer.status_code == 202, answer.text
    assert answer.headers["location"] == f"/v1/runs/{answer.json()['id']}"
    return str(answer.json()["id"])


def ended(service: Caller, run: str) -> dict[str, Any]:
    found = wait_for(
        lambda: service.get(f"/v1/runs/{run}").json(),
        lambda document: document["ended"] is not None,
    )
    assert isinstance(found, dict)
    return found


def require_sound_plan(service: Caller, run: dict[str, Any]) -> None:
    made = service.get(f"/v1/plans/{run['plan']}").json()
    request = lib.request_from_document(made["request"], name="request")
    assert lib.check_plan(request, lib.plan_from_document(made["plan"], name="plan")) == ()
    assert run["net_cost"] == made["plan"]["net_cost"]
    assert run["lower_bound"] == made["plan"]["lower_bound"]


def worker_of(run: str) -> int | None:
    """Find the process that works on a run."""
    for folder in Path("/proc").iterdir():
        if folder.name.isdigit():
            try:
                name = (folder / "comm").read_text(encoding="utf-8").strip()
            except OSError:
                continue
            if name == run[:MOST_NAMED]:
                return int(folder.name)
    return None


def test_longer_work_waits_for_a_runner_and_is_done_once(
    service: Caller, start: Callable[[], Runner]
) -> None:
    run = run_of(service, a_request_body(seconds=3))
    waiting = service.get(f"/v1/runs/{run}").json()
    assert (waiting["state"], waiting["plan"], waiting["seconds_asked"]) == ("queued", None, 3)

    start()

    done = ended(service, run)
    assert (done["state"], done["attempt"], done["problems"]) == ("done", 1, [])
    require_sound_plan(service, done)


def test_a_cancelled_run_keeps_its_best_plan(service: Caller, start: Callable[[], Runner]) -> None:
    run = run_of(service, hard(seconds=500))
    start()
    told = wait_for(
        lambda: service.get(f"/v1/runs/{run}").json(),
        lambda document: document["layouts"] is not None,
    )
    assert told["state"] == "running"
    assert float(told["lower_bound"]) <= float(told["net_cost"])

    assert service.post(f"/v1/runs/{run}/cancel").json()["cancel_asked"]

    done = ended(service, run)
    assert done["state"] == "cancelled"
    assert done["seconds"] < 400
    require_sound_plan(service, done)


def test_at_its_deadline_a_run_keeps_its_best_plan(
    service: Caller, store_url: str, start: Callable[[], Runner]
) -> None:
    run = run_of(service, hard(seconds=500), "?deadline_seconds=604800")
    start()
    wait_for(
        lambda: service.get(f"/v1/runs/{run}").json(),
        lambda document: document["layouts"] is not None,
    )
    # It comes now: one of so many seconds could pass on a starved machine before there is a plan.
    with Store(store_url).write() as connection:
        sooner = sa.update(runs_table).where(runs_table.c.id == run)
        connection.execute(sooner.values(deadline=now(connection)))

    done = ended(service, run)

    assert done["state"] == "done"
    assert done["seconds"] < 400
    require_sound_plan(service, done)


def test_a_run_survives_the_death_of_its_worker(
    service: Caller, start: Callable[[], Runner]
) -> None:
    run = run_of(service, hard(seconds=3))
    start()
    os.kill(wait_for(lambda: worker_of(run), bool), signal.SIGKILL)

    done = ended(service, run)

    assert (done["state"], done["attempt"]) == ("done", 2)
    require_sound_plan(service, done)


def test_a_run_survives_the_death_of_the_service_and_is_not_done_twice(
    service: Caller, store_url: str, start: Callable[[], Runner]
) -> None:
    run = run_of(service, hard(seconds=4))
    other = run_of(service, a_request_body(seconds=3))
    command = [sys.executable, "-m", "api.cli", "work", "--store", store_url]
    first = subprocess.Popen(command, cwd=ROOT)
    wait_for(lambda: worker_of(run), bool)
    first.kill()
    first.wait()

    start()

    for id_ in (run, other):
        done = ended(service, id_)
        # The worker outlives its service and holds its lease: nobody begins the run again.
        assert (done["state"], done["attempt"]) == ("done", 1)
        require_sound_plan(service, done)


def test_a_runner_that_is_told_to_stop_hands_its_run_back(service: Caller, store_url: str) -> None:
    run = run_of(service, hard(seconds=500))
    runner = Runner(Store(store_url), workers=1)
    runner.start()
    wait_for(
        lambda: service.get(f"/v1/runs/{run}").json(),
        lambda document: document["layouts"] is not None,
    )

    runner.stop()

    store = Store(store_url)
    wait_for(lambda: worker_of(run), lambda found: found is None)
    with store.read() as connection:
        row = connection.execute(sa.select(runs_table).where(runs_table.c.id == run)).one()
    assert row.state == "queued" or row.lease_until == 0.0
    service.post(f"/v1/runs/{run}/cancel")


def test_events_tell_each_change_until_the_end(
    service: Caller, start: Callable[[], Runner]
) -> None:
    run = run_of(service, a_request_body(seconds=3))
    start()

    stream = service.get(f"/v1/runs/{run}/events")

    assert stream.headers["content-type"].startswith("text/event-stream")
    told = [
        json.loads(line.removeprefix("data: "))
        for line in stream.text.splitlines()
        if line.startswith("data: ")
    ]
    states = list(dict.fromkeys(document["state"] for document in told))
    assert states[-1] == "done"
    assert set(states) <= {"queued", "running", "done"}
    assert told[-1] == service.get(f"/v1/runs/{run}").json()


def test_the_same_call_with_the_same_key_is_done_once(service: Caller) -> None:
    body = a_request_body()

    first = service.post("/v1/plans", body, idempotency_key="order 66")
    second = service.post("/v1/plans", body, idempotency_key="order 66")

    assert (first.status_code, second.status_code) == (201, 201)
    assert first.json() == second.json()
    assert len(service.get("/v1/plans").json()["items"]) == 1
    other = service.post("/v1/plans", a_request_body(seed=2), idempotency_key="order 66")
    the_problem(other, status=409, kind="conflict")


def test_a_run_without_a_plan_says_why(service: Caller, start: Callable[[], Runner]) -> None:
    body = a_request_body(seconds=3)
    body["lengths"][0]["parts"][0]["length_mm"] = 9000
    run = run_of(service, body)
    start()

    done = ended(service, run)

    assert (done["state"], done["plan"]) == ("failed", None)
    assert "9000" in json.dumps(done["problems"])


def test_small_work_that_has_no_plan_is_refused_and_frees_the_rack(service: Caller) -> None:
    service.post("/v1/rack", [{"id": "R1", "material": "c16-38x63", "length_mm": 1130}])
    body = without_offcuts(a_request_body())
    body["lengths"][0]["parts"][0]["length_mm"] = 9000

    the_problem(service.post("/v1/plans?use_rack=true", body), status=422, kind="invalid-input")

    (piece,) = service.get("/v1/rack?free=true").json()["items"]
    assert piece["id"] == "R1"


def test_a_plan_with_the_firms_rack_holds_uses_and_gives_back(service: Caller) -> None:
    rack = [
        {"id": "long", "material": "c16-38x63", "length_mm": 2290},
        {"id": "board", "material": "mdf-12", "width_mm": 950, "height_mm": 1550},
        {"id": "short", "material": "c16-38x63", "length_mm": 700},
    ]
    assert service.post("/v1/rack?place=van", rack).status_code == 201
    body = without_offcuts(a_request_body())
    made = service.post("/v1/plans?use_rack=true", body)
    assert made.status_code == 201, made.text
    plan = made.json()["id"]
    kinds = ("lengths", "sheets")
    layouts = [item for kind in kinds for m in made.json()["plan"][kind] for item in m["layouts"]]
    used = {layout["stock"] for layout in layouts if layout["offcut"]}
    left = sum(layout["count"] * len(layout["offcuts"]) for layout in layouts)
    assert used

    def labels(query: str) -> set[str]:
        return {item["id"] for item in service.get(f"/v1/rack{query}").json()["items"]}

    assert labels("?free=false") == used
    confirmed = service.post(f"/v1/plans/{plan}/confirm?place=shelf", if_match='"2"')
    assert confirmed.status_code == 200, confirmed.text
    new = {item["id"] for item in confirmed.json()["racked"]}
    assert len(new) == left
    assert labels("") == {"long", "board", "short"} - used | new
    the_problem(service.post(f"/v1/plans/{plan}/undo", if_match='"2"'), status=412, kind="stale")

    assert service.post(f"/v1/plans/{plan}/undo", if_match='"3"').status_code == 200

    assert labels("?free=true") == {"long", "board", "short"}
    the_problem(service.post(f"/v1/plans/{plan}/confirm"), status=409, kind="conflict")


def test_a_batch_is_planned_from_kept_walls_and_prices(service: Caller) -> None:
    body = a_batch_body()
    wall = service.post("/v1/walls", body["walls"][0]).json()
    service.put("/v1/price-books/usual", body["prices"])

    asked = {"wall_ids": [wall["id"]], "price_book": "usual", "seconds": 0.2}
    answer = service.post("/v1/batches", asked)

    assert answer.status_code == 201, answer.text
    assert answer.json()["walls"][0]["job"] == "A"
    (batch,) = service.get("/v1/batches").json()["items"]
    assert (batch["run"], batch["jobs"]) == (answer.json()["run"], ["A"])
    (order,) = service.get("/v1/orders?state=draft").json()["items"]
    service.post(f"/v1/plans/{order['plan']}/confirm")
    placed = service.get(f"/v1/orders/{order['id']}").json()
    assert (placed["state"], placed["order"]) == ("placed", answer.json()["order"])
