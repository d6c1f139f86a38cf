"""One run worked on to its end by whoever has its claim: a process of its own, or the service.

`main` is what that process does. A thread renews the lease every second,
tells how far the solver is, and hears whether to stop. It ends the process when the lease is lost:
another worker has the run then, and two must not write.
"""

from __future__ import annotations

import logging
import os
import signal
import time
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from threading import Event, Thread
from typing import TYPE_CHECKING

import sqlalchemy as sa

import optimiser as lib
from api.batch import History
from api.logs import log_lines
from api.solving import find_deliveries, layouts_of, solve
from api.store import ledger, lives, plans, results, runs
from api.store.engine import Store, now
from api.store.plans import Made
from api.store.results import Found
from api.store.runs import Claim, LeaseLost, Progress
from optimiser import InvalidInput, NoPlan, PlanRefused, Problem

if TYPE_CHECKING:
    from optimiser import CuttingPlan, PlanProgress

_log = logging.getLogger(__name__)
BEAT_SECONDS = 1.0
MOST_NAMED = 15  # letters that Linux keeps of a process's name
# A planner told to stop hands over its best plan; a deadline leaves it time to.
SPARE_SECONDS = 0.5


class Heart:
    """Beats while a run is worked on; use as a context."""

    def __init__(self, store: Store, claim: Claim) -> None:
        self._store = store
        self._claim = claim
        self._progress = Progress()
        self._ended = Event()
        self._stop = Event()
        self.lost = Event()
        self._thread = Thread(target=self._beat, daemon=True)

    def __enter__(self) -> Heart:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ended.set()
        self._thread.join()

    def cancelled(self) -> bool:
        """Return whether the planner shall stop."""
        return self._stop.is_set()

    def complete(self, plan: CuttingPlan) -> None:
        """Take a complete plan."""
        self._progress = replace(self._progress, layouts=layouts_of(plan))
        self.progress(
            lib.PlanProgress(cost=plan.money.net, bound=plan.bound, seconds=round(plan.seconds, 3))
        )

    def progress(self, state: PlanProgress) -> None:
        """Take how far the planner is."""
        self._progress = replace(
            self._progress, cost=state.cost, bound=state.bound, spent=state.seconds
        )

    def _beat(self) -> None:
        while not self._ended.wait(BEAT_SECONDS):
            try:
                with self._store.write() as connection:
                    if runs.renew(connection, self._claim, self._progress):
                        self._stop.set()
            except LeaseLost:
                self.lost.set()
                self._stop.set()
                return
            except sa.exc.SQLAlchemyError as fault:
                # The database may come back before the lease runs out.
                _log.warning("run.beat_failed run=%s fault=%s", self._claim.run, fault)


def work_on(store: Store, claim: Claim) -> None:
    """Plan a run and end it. Raises what the planner raised, after writing it to the run.

    Raises LeaseLost, with nothing written, when another worker has it.
    """
    with store.read() as connection:
        held = None
        if claim.takes_rack:
            held = ledger.held_by(connection, claim.firm, claim.plan)
        left = None if claim.deadline is None else claim.deadline - now(connection) - SPARE_SECONDS
    if left is not None and left <= 0:
        trouble, remedy = "its deadline passed before it began", "Give it longer, or ask again"
        late = (Problem(f"run {claim.run}", trouble, remedy),)
        runs.end_without_plan(store, claim, late)
        raise NoPlan(late)
    try:
        with Heart(store, claim) as heart:
            made: Made | Found
            if claim.kind == runs.WITHOUT_PLAN:
                made = find_deliveries(claim.document, at_most=left, cancelled=heart.cancelled)
            else:
                made = solve(
                    claim.kind,
                    claim.document,
                    held,
                    at_most=left,
                    history=lambda: _history(store, claim.firm),
                    watch=heart.complete,
                    tell=heart.progress,
                    cancelled=heart.cancelled,
                )
        if isinstance(made, Found):
            results.finish(store, claim, made)
        else:
            plans.finish(store, claim, made)
    except (InvalidInput, NoPlan, PlanRefused) as fault:
        runs.end_without_plan(store, claim, fault.problems)
        raise
    except (LeaseLost, sa.exc.SQLAlchemyError):
        raise
    except Exception as fault:
        trouble, remedy = "the program failed", "The fault is logged; please report it"
        runs.end_without_plan(store, claim, (Problem(f"run {claim.run}", trouble, remedy),))
        raise fault


def work_here(store: Store, claim: Claim) -> None:
    """Work on a run within the call that asked for it. Raises as `work_on` does, but not LeaseLost.

    A machine that gives the call no time may cost it the lease: the run is another worker's then,
    and the call answers with the run as it stands.
    """
    with suppress(LeaseLost):
        work_on(store, claim)


def _history(store: Store, firm: str) -> History:
    known, today = lives.lives_of(store, firm)
    return History(lives=known, coming=(), today=today)


def main(url: str, run: str, owner: str, attempt: int) -> None:
    """Work on a run that was claimed for this process, in the store at `url`."""
    log_lines()
    _call_process(run)
    store = Store(url)
    with store.read() as connection:
        claim = runs.claim_of(connection, run)
    if (claim.owner, claim.attempt) != (owner, attempt):
        return

    def hand_back(*_: object) -> None:
        # At once and from here: a solver may not look up for a while, and nothing is written yet.
        with suppress(Exception):
            runs.hand_back(Store(store.url), claim)
        os._exit(0)

    signal.signal(signal.SIGTERM, hand_back)
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the service, which tells us
    began = time.monotonic()
    try:
        work_on(store, claim)
    except (InvalidInput, NoPlan):
        pass  # written to the run; the program is sound
    except LeaseLost:
        _log.warning("run.lease_lost run=%s", run)
    _log.info("run.ended firm=%s run=%s seconds=%.2f", claim.firm, run, time.monotonic() - began)


def _call_process(run: str) -> None:
    """Let the system's list of processes show which run this is, where it can."""
    with suppress(OSError):
        Path("/proc/self/comm").write_text(run[:MOST_NAMED], encoding="ascii")
