"""A process that plans a rest anew and confirms it, and kills itself (-9) before statement `at`."""

from __future__ import annotations

import os
import signal

import sqlalchemy as sa

from api.store import plans, ticks
from api.store.engine import Store
from tests.api.store.builders import a_made, an_ask
from tests.api.store.killing import FINISHED, LEASED


def a_rest(store: Store, firm: str, plan: str, labels: tuple[str, ...], owner: str) -> None:
    """Tick, ask for the rest, finish it with the first offcut cut, and confirm it."""
    from api.store import ledger, runs
    from api.store.runs import Asked

    with store.write() as connection:
        ticks.add(connection, firm, plan, [{"tick": "van-1", "kind": "done"}], "fitter")
    with store.write() as connection:
        plans.lock_confirmed(connection, firm, plan)
        asked: Asked = an_ask(materials=None, kind="replan", continues=(plan, 1, labels))
        _, claim = runs.ask(connection, firm, asked, owner=owner)
    assert claim is not None
    with store.read() as connection:
        held = [piece.label for piece in ledger.held_by(connection, firm, claim.plan)]
    plans.finish(store, claim, a_made(used=held[:1], left=1))
    with store.write() as connection:
        plans.confirm(connection, firm, claim.plan, who="fitter")


def replan_and_confirm(url: str, firm: str, plan: str, labels: tuple[str, ...], at: int) -> None:
    store = Store(url)
    count = 0

    def step(*_: object) -> None:
        nonlocal count
        count += 1
        if count == at:
            os.kill(os.getpid(), signal.SIGKILL)

    for event in ("before_cursor_execute", "after_cursor_execute", "commit"):
        sa.event.listen(store.engine, event, step)
    a_rest(store, firm, plan, labels, LEASED)
    os._exit(FINISHED)
