"""A process that plans and confirms, and kills itself (-9) before its statement number `at`."""

from __future__ import annotations

import os
import signal

import sqlalchemy as sa

from api.store import plans
from api.store.engine import Store
from tests.api.store.builders import a_made, ask, held

FINISHED, LEASED = 0, "killed"


def plan_and_confirm(url: str, firm: str, material: str, at: int) -> None:
    store = Store(url)
    count = 0

    def step(*_: object) -> None:
        nonlocal count
        count += 1
        if count == at:
            os.kill(os.getpid(), signal.SIGKILL)

    for event in ("before_cursor_execute", "after_cursor_execute", "commit"):
        sa.event.listen(store.engine, event, step)
    claim = ask(store, firm, owner=LEASED, materials=(material,))
    plans.finish(store, claim, a_made(used=held(store, claim)[:1], material=material))
    with store.write() as connection:
        plans.confirm(connection, firm, claim.plan, who="fitter")
    os._exit(FINISHED)
