"""What breaks around the service costs an answer or a wait, and nothing that was kept."""

from __future__ import annotations

import asyncio
import itertools
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import psycopg
import pytest
import sqlalchemy as sa

from api.hub import LET_IN_AT_ONCE, TOLD_AT_ONCE, Door, Hub
from api.runner import Runner
from api.store import plans, runs
from api.store.engine import Store
from api.store.plans import Made
from api.store.runs import Asked, Claim, LeaseLost, Progress
from tests.api.bodies import Caller, a_request_body, a_service, the_problem
from tests.api.test_runs import ended, run_of

MADE = Made(
    request="{}",
    plan="{}",
    extra="{}",
    pictures=(),
    order=None,
    order_csv=None,
    offcuts_used=frozenset(),
    progress=Progress(cost=1, bound=1, layouts=1, spent=0.1),
)


def ask(store: Store, firm: str) -> str:
    asked = Asked(kind="request", document="{}", body_hash="", seconds=9.0, who="test")
    with store.write() as connection:
        return runs.ask(connection, firm, asked)[0]


def claim(store: Store, owner: str) -> Claim:
    found = runs.claim_next(store, owner)
    assert found is not None
    return found


def test_a_full_disk_is_told_and_nothing_is_kept_by_half() -> None:
    app = a_service()
    service = Caller(app)
    # What SQLite answers when the disk is full, it also answers when it may not grow.
    pages: list[int] = []

    @sa.event.listens_for(app.state.store.engine, "begin")
    def _limit(connection: sa.Connection) -> None:
        full = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        limit = full if pages else 1_000_000
        connection.exec_driver_sql(f"PRAGMA max_page_count = {limit}")

    job = {"name": "A", "notes": "n" * 5000}
    assert service.post("/v1/jobs", job).status_code == 201
    pages.append(1)
    refused = []
    for number in range(20):
        answer = service.post("/v1/jobs", {**job, "name": f"full {number}"})
        if answer.status_code != 201:
            the_problem(answer, status=503, kind="store-away")
            assert answer.headers["retry-after"]
            refused.append(f"full {number}")
    assert refused

    pages.clear()

    kept = {item["job"]["name"] for item in service.get("/v1/jobs").json()["items"]}
    assert kept.isdisjoint(refused)
    assert service.post("/v1/jobs", {**job, "name": refused[0]}).status_code == 201
    audit = service.get("/v1/audit").json()["items"]
    assert len([line for line in audit if line["action"] == "add job"]) == len(kept) + 1


@contextmanager
def gone(url: str) -> Iterator[None]:
    """Take a PostgreSQL database away, its open connections too, and give it back."""
    name = sa.make_url(url).database
    at = str(sa.make_url(url).query["host"])
    with psycopg.connect(f"host={at} user=postgres", autocommit=True) as server:
        server.execute(f'ALTER DATABASE "{name}" ALLOW_CONNECTIONS false'.encode())
        server.execute(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = %s", (name,)
        )
        yield
        server.execute(f'ALTER DATABASE "{name}" ALLOW_CONNECTIONS true'.encode())


@pytest.mark.parametrize("store_url", ["postgresql"], indirect=True)
def test_a_database_that_goes_and_comes_back_is_waited_for(store_url: str) -> None:
    service = Caller(a_service(store=store_url))
    run = run_of(service, a_request_body(seconds=3, sheets=[]))
    runner = Runner(Store(store_url), workers=1)

    with gone(store_url):
        runner.start()
        for path in ("/v1/jobs", f"/v1/runs/{run}"):
            the_problem(service.get(path), status=503, kind="store-away")
        the_problem(service.post("/v1/jobs", {"name": "A"}), status=503, kind="store-away")
        the_problem(service.get("/ready"), status=503, kind="store-away")
        assert service.get("/health").status_code == 200

    assert service.get("/ready").status_code == 200
    assert service.post("/v1/jobs", {"name": "A"}).status_code == 201
    done = ended(service, run)
    runner.stop()
    assert (done["state"], done["attempt"]) == ("done", 1)


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_clock_that_jumps_ahead_costs_an_attempt_and_no_run_ends_twice(
    store: Store, firm: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    # On PostgreSQL the database's own clock counts, for all machines alike.
    run = ask(store, firm)
    first = claim(store, "first")
    real = time.time
    monkeypatch.setattr("api.store.engine.time.time", lambda: real() + 86_400)
    second = claim(store, "second")

    with pytest.raises(LeaseLost):
        plans.finish(store, first, MADE)
    plans.finish(store, second, MADE)

    assert (first.run, second.run, second.attempt) == (run, run, 2)
    assert runs.claim_next(store, "third") is None


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_clock_that_jumps_back_takes_no_run_from_its_worker(
    store: Store, firm: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(store, firm)
    held = claim(store, "first")
    real = time.time
    monkeypatch.setattr("api.store.engine.time.time", lambda: real() - 86_400)

    assert runs.claim_next(store, "second") is None
    with store.write() as connection:
        assert not runs.renew(connection, held, Progress())
    plans.finish(store, held, MADE)
    assert runs.claim_next(store, "second") is None


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_thousand_watchers_cost_one_look_at_a_time_and_all_hear_the_end(
    store: Store, firm: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    run = ask(store, firm)
    held = claim(store, "worker")
    looks: list[int] = []
    look = Hub._read

    def counted(hub: Hub, watched: list[str]) -> dict[str, Any]:
        looks.append(len(watched))
        if len(looks) == 3:
            plans.finish(store, held, MADE)
        return look(hub, watched)

    monkeypatch.setattr(Hub, "_read", counted)
    monkeypatch.setattr("api.hub.LOOK_SECONDS", 0.01)

    async def watch(hub: Hub) -> list[bytes]:
        return [event async for event in hub.changes(run) if event]

    async def everybody() -> list[list[bytes]]:
        hub = Hub(store)
        return await asyncio.gather(*(watch(hub) for _ in range(1000)))

    heard = asyncio.run(everybody())

    assert all(b'"state": "done"' in events[-1] for events in heard)
    assert all(len(events) == 2 for events in heard)
    assert len({id(events[-1]) for events in heard}) == 1  # written once, for all of them
    assert len(looks) < 10


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_others_get_their_turn_while_many_watchers_are_told(
    store: Store, firm: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("api.hub.PAUSE_SECONDS", 0.0)
    run = ask(store, firm)
    told: list[int] = []

    async def watch(hub: Hub) -> None:
        async for _ in hub.changes(run):
            told.append(len(told))

    async def between() -> list[int]:
        hub = Hub(store)
        watching = [asyncio.create_task(watch(hub)) for _ in range(200)]
        seen = [0]
        while seen[-1] < len(watching):
            await asyncio.sleep(0)
            seen.append(len(told))
        for task in watching:
            task.cancel()
        await asyncio.gather(*watching, return_exceptions=True)
        return [after - before for before, after in itertools.pairwise(seen)]

    steps = asyncio.run(between())

    assert sum(steps) == 200
    assert max(steps) <= 2 * TOLD_AT_ONCE


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_quiet_stream_hears_that_we_are_still_there(
    store: Store, firm: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("api.hub.LOOK_SECONDS", 0.01)
    run = ask(store, firm)

    async def listen() -> list[bytes | None]:
        stream = Hub(store).changes(run)
        first = await anext(stream)
        monkeypatch.setattr("api.hub.QUIET_SECONDS", 0.0)
        heard = [first, await anext(stream)]
        await stream.aclose()
        return heard

    first, second = asyncio.run(listen())

    assert first is not None
    assert b'"state": "queued"' in first
    assert second is None


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_who_leaves_in_the_middle_of_a_stream_is_forgotten(store: Store, firm: str) -> None:
    run = ask(store, firm)

    async def leave() -> tuple[int, bool]:
        hub = Hub(store)
        stream = hub.changes(run)
        while not await anext(stream):
            pass
        await stream.aclose()
        looking = hub._looking
        assert looking is not None
        await looking
        return len(hub._watchers), hub._looking is None

    assert asyncio.run(leave()) == (0, True)


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_what_the_hub_knows_is_asked_of_the_store_no_more_but_stays_with_its_firm(
    store: Store, firm: str
) -> None:
    run = ask(store, firm)

    async def watched() -> list[bool]:
        hub = Hub(store)
        before = hub.knows(firm, run)
        stream = hub.changes(run)
        await anext(stream)
        known = [before, hub.knows(firm, run), hub.knows("firm-other", run), hub.knows(firm, "x")]
        await stream.aclose()
        return known

    assert asyncio.run(watched()) == [False, True, False, False]


def test_watchers_who_all_come_at_once_leave_others_their_turn(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    came: list[str] = []

    async def app(scope: Any, _receive: Any, _send: Any) -> None:
        came.append(scope["path"])

    async def everybody() -> None:
        monkeypatch.setattr("api.hub.PAUSE_SECONDS", 0.0)
        door: Any = Door(app)
        paths = [*["/v1/runs/run-1/events"] * 100, "/v1/plans", "/v1/rack/label/events"]
        await asyncio.gather(*(door({"type": "http", "path": path}, None, None) for path in paths))

    asyncio.run(everybody())

    assert len(came) == 102
    assert came.index("/v1/plans") < 3 * LET_IN_AT_ONCE
    assert came.index("/v1/rack/label/events") < 3 * LET_IN_AT_ONCE
