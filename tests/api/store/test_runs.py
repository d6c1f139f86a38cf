"""Runs: fair turns in the queue, leases that run out, and one end for each."""

from __future__ import annotations

from typing import Any

import pytest
import sqlalchemy as sa

from api.store import plans, runs
from api.store.engine import Store
from api.store.refusals import Conflict, Missing
from api.store.runs import MOST_ATTEMPTS, LeaseLost, Progress
from api.store.tables import firms
from api.store.tables import plans as plans_table
from api.store.tables import runs as runs_table
from optimiser import Problem
from tests.api.store.builders import (
    a_length,
    a_made,
    an_ask,
    ask,
    free,
    held,
    rack_up,
    require_balance,
)


def a_firm(store: Store, name: str) -> str:
    with store.write() as connection:
        connection.execute(sa.insert(firms).values(id=name, name=name, created=0.0))
    return name


def queue(store: Store, firm: str, **changes: Any) -> str:
    with store.write() as connection:
        run, claim = runs.ask(connection, firm, an_ask(**changes))
    assert claim is None
    return run


def state_of(store: Store, run: str) -> str:
    with store.read() as connection:
        wanted = sa.select(runs_table.c.state).where(runs_table.c.id == run)
        return str(connection.execute(wanted).scalar_one())


def let_lease_run_out(store: Store, run: str) -> None:
    with store.write() as connection:
        late = sa.update(runs_table).where(runs_table.c.id == run).values(lease_until=1.0)
        connection.execute(late)


def test_within_a_firm_the_oldest_run_goes_first(store: Store, firm: str) -> None:
    asked = [queue(store, firm) for _ in range(3)]

    taken = [runs.claim_next(store, "worker") for _ in range(4)]

    assert [claim.run for claim in taken if claim] == asked
    assert taken[3] is None


def test_a_firm_with_many_runs_delays_another_by_one_at_most(store: Store, firm: str) -> None:
    many = [queue(store, firm) for _ in range(5)]
    other = queue(store, a_firm(store, "other"))

    order = []
    for _ in range(6):
        claim = runs.claim_next(store, "worker")
        assert claim is not None
        order.append(claim.run)
        plans.finish(store, claim, a_made())

    assert order[:2] == [many[0], other]
    assert order[2:] == many[1:]


def test_firms_with_as_many_runs_under_way_take_turns(store: Store, firm: str) -> None:
    other = a_firm(store, "other")
    for _ in range(3):
        queue(store, firm)
        queue(store, other)

    taken = [runs.claim_next(store, "worker") for _ in range(6)]

    assert [claim.firm for claim in taken if claim] == [firm, other] * 3


def test_a_run_whose_worker_is_gone_is_worked_on_again(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    run = queue(store, firm)
    first = runs.claim_next(store, "dead")
    assert first is not None
    assert runs.claim_next(store, "worker") is None
    let_lease_run_out(store, run)

    second = runs.claim_next(store, "worker")

    assert second is not None
    assert (second.run, second.attempt) == (run, 2)
    assert held(store, second) == ("A",)


def test_a_run_ends_once_though_two_workers_bring_a_plan(store: Store, firm: str) -> None:
    run = queue(store, firm)
    slow = runs.claim_next(store, "slow")
    assert slow is not None
    let_lease_run_out(store, run)
    quick = runs.claim_next(store, "quick")
    assert quick is not None
    plans.finish(store, quick, a_made())

    with pytest.raises(LeaseLost):
        plans.finish(store, slow, a_made())
    with pytest.raises(LeaseLost):
        runs.end_without_plan(store, slow, ())
    with pytest.raises(LeaseLost), store.write() as connection:
        runs.renew(connection, slow, Progress())

    assert state_of(store, run) == "done"


def test_a_run_that_ends_its_workers_fails_in_the_end_and_frees_the_rack(
    store: Store, firm: str
) -> None:
    rack_up(store, firm, [a_length("A")])
    run = queue(store, firm)
    for _ in range(MOST_ATTEMPTS):
        assert runs.claim_next(store, "worker") is not None
        assert free(store, firm) == set()
        let_lease_run_out(store, run)

    assert runs.claim_next(store, "worker") is None

    assert state_of(store, run) == "failed"
    assert free(store, firm) == {"A"}
    require_balance(store, firm)


def test_a_run_handed_back_has_lost_no_attempt(store: Store, firm: str) -> None:
    queue(store, firm)
    first = runs.claim_next(store, "leaving")
    assert first is not None

    runs.hand_back(store, first)

    second = runs.claim_next(store, "staying")
    assert second is not None
    assert second.attempt == 1


def test_progress_is_told_and_the_lease_renewed(store: Store, firm: str) -> None:
    claim = ask(store, firm)
    let_lease_run_out(store, claim.run)

    with store.write() as connection:
        stop = runs.renew(connection, claim, Progress(cost=500, bound=400, layouts=3, spent=1.5))

    assert not stop
    assert runs.claim_next(store, "other") is None
    with store.read() as connection:
        row = connection.execute(sa.select(runs_table)).one()
    assert (row.cost, row.bound, row.layouts, row.spent) == (500, 400, 3, 1.5)


def test_a_cancelled_run_is_told_to_stop_and_keeps_its_best_plan(store: Store, firm: str) -> None:
    claim = ask(store, firm)
    with store.write() as connection:
        runs.cancel(connection, firm, claim.run, who="office")

    with store.write() as connection:
        assert runs.renew(connection, claim, Progress())
    plans.finish(store, claim, a_made())

    assert state_of(store, claim.run) == "cancelled"
    with store.read() as connection:
        assert plans.find(connection, firm, claim.plan).state == "draft"


def test_cancelling_in_the_queue_ends_a_run_and_frees_its_offcuts(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    run = queue(store, firm)
    assert free(store, firm) == set()

    for _ in range(2):  # the second changes nothing
        with store.write() as connection:
            runs.cancel(connection, firm, run, who="office")

    assert state_of(store, run) == "cancelled"
    assert free(store, firm) == {"A"}
    assert runs.claim_next(store, "worker") is None


def test_a_cancelled_run_whose_worker_is_gone_is_not_begun_again(store: Store, firm: str) -> None:
    claim = ask(store, firm)
    with store.write() as connection:
        runs.cancel(connection, firm, claim.run, who="office")
    let_lease_run_out(store, claim.run)

    assert runs.claim_next(store, "worker") is None
    assert state_of(store, claim.run) == "cancelled"


def test_past_its_deadline_a_run_is_told_to_stop(store: Store, firm: str) -> None:
    late = ask(store, firm, deadline_seconds=-1.0)
    early = ask(store, firm, deadline_seconds=600.0)

    with store.write() as connection:
        assert runs.renew(connection, late, Progress())
        assert not runs.renew(connection, early, Progress())


def test_the_same_key_with_the_same_content_is_the_same_run(store: Store, firm: str) -> None:
    first = queue(store, firm, idempotency_key="k")

    assert queue(store, firm, idempotency_key="k") == first
    assert queue(store, a_firm(store, "other"), idempotency_key="k") != first


def test_the_same_key_with_another_content_is_refused(store: Store, firm: str) -> None:
    queue(store, firm, idempotency_key="k")

    with pytest.raises(Conflict, match="came with another content before"):
        queue(store, firm, idempotency_key="k", body_hash="other")


def test_a_run_without_a_plan_says_why(store: Store, firm: str) -> None:
    claim = ask(store, firm)

    runs.end_without_plan(store, claim, (Problem("parts", "too long", "Shorten them"),))

    assert state_of(store, claim.run) == "failed"
    with store.read() as connection:
        row = connection.execute(sa.select(runs_table.c.problem)).scalar_one()
        state = connection.execute(sa.select(plans_table.c.state)).scalar_one()
    assert row == '[{"field": "parts", "trouble": "too long", "remedy": "Shorten them"}]'
    assert state == "dropped"


def test_another_firms_run_is_missing(store: Store, firm: str) -> None:
    run, other = queue(store, firm), a_firm(store, "other")

    with pytest.raises(Missing), store.write() as connection:
        runs.cancel(connection, other, run, who="x")
