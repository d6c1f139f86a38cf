"""Killed at any statement of a replan, the books balance and one plan goes on after a restart."""

from __future__ import annotations

import multiprocessing
import signal

import sqlalchemy as sa

from api.store import ledger, plans, runs, ticks
from api.store.engine import Store
from api.store.tables import plans as plans_table
from tests.api.store.builders import a_draft, a_made, free, held, require_balance
from tests.api.store.killing import FINISHED
from tests.api.store.killing_replan import a_rest, replan_and_confirm
from tests.api.store.test_killed import MOST_STEPS, let_time_pass


def a_confirmed_plan(store: Store, firm: str) -> tuple[str, tuple[str, ...]]:
    plan, _ = a_draft(store, firm, use=0, left=2)
    with store.write() as connection:
        new = plans.confirm(connection, firm, plan, who="fitter")
    return plan, tuple(piece.label for piece in new)


def restart(store: Store, firm: str, plan: str, labels: tuple[str, ...]) -> str:
    """Do what a service does that comes up again, and what its caller would then do."""
    let_time_pass(store)
    claim = runs.claim_next(store, "restarted")
    if claim is not None:
        plans.finish(store, claim, a_made(used=held(store, claim)[:1], left=1))
    with store.read() as connection:
        successor = plans.continued_by(connection, plan)
    if successor is None:
        a_rest(store, firm, plan, labels, "again")
        with store.read() as connection:
            successor = plans.continued_by(connection, plan)
        assert successor is not None
        return successor
    with store.write() as connection:
        if plans.find(connection, firm, successor).state == "draft":
            plans.confirm(connection, firm, successor, who="fitter")
    return successor


def test_a_kill_at_any_statement_of_a_replan_loses_and_doubles_nothing(
    store: Store, firm: str, store_url: str
) -> None:
    processes = multiprocessing.get_context("forkserver")
    processes.set_forkserver_preload(["tests.api.store.killing_replan"])
    # Every eleventh statement: the steps of any plan are killed one by one elsewhere.
    for at in range(1, MOST_STEPS, 11):
        plan, labels = a_confirmed_plan(store, firm)
        process = processes.Process(
            target=replan_and_confirm, args=(store_url, firm, plan, labels, at)
        )
        process.start()
        process.join()
        require_balance(store, firm)
        if process.exitcode == FINISHED:
            break
        assert process.exitcode == -signal.SIGKILL

        successor = restart(store, firm, plan, labels)

        require_balance(store, firm)
        with store.read() as connection:
            states = dict(
                tuple(row)
                for row in connection.execute(
                    sa.select(plans_table.c.id, plans_table.c.state).where(
                        plans_table.c.id.in_((plan, successor))
                    )
                )
            )
            racked = ledger.racked_by(connection, firm, successor)
            assert ticks.last(connection, plan) == 1
        assert states == {plan: "confirmed", successor: "confirmed"}
        # One of the plan's two offcuts was cut, the other lies there, and the rest left one.
        assert len(set(labels) & free(store, firm)) == 1
        assert len(racked & free(store, firm)) == 1
    else:
        raise AssertionError("the process never came to its end")
