"""Runs whose result is no plan: kept with the run itself, in the transaction that ends it."""

from __future__ import annotations

from dataclasses import dataclass

import sqlalchemy as sa

from api.store.engine import Store, lock_firm
from api.store.refusals import Missing
from api.store.runs import WITHOUT_PLAN, Claim, Progress, end_with_plan, require_lease
from api.store.tables import runs


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A result as JSON text, with what the run tells of it."""

    result: str
    progress: Progress


def finish(store: Store, claim: Claim, found: Found) -> None:
    """End a run with its result. Raises LeaseLost, with nothing written, when another has it."""
    with store.write() as connection:
        lock_firm(connection, claim.firm)
        cancelled = require_lease(connection, claim)
        end_with_plan(connection, claim, cancelled=cancelled, progress=found.progress)
        connection.execute(
            sa.update(runs).where(runs.c.id == claim.run).values(result=found.result)
        )


def of_run(connection: sa.Connection, firm: str, run: str) -> str:
    """Return the result of a run. Raises Missing when there is none yet."""
    wanted = sa.select(runs.c.result).where(
        runs.c.id == run,
        runs.c.firm == firm,
        runs.c.kind == WITHOUT_PLAN,
        runs.c.result.is_not(None),
    )
    found = connection.execute(wanted).scalar()
    if found is None:
        raise Missing("result of run", run)
    return str(found)
