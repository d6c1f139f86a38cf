"""How much planning one firm may ask for within an hour: what it asked for, or used where it ended.

Who replans at the saw or for a delivery is not held up: somebody stands there and waits.
"""

from __future__ import annotations

import sqlalchemy as sa

from api.store.engine import lock_firm, now
from api.store.refusals import TooMuch
from api.store.repeats import known_run
from api.store.runs import ENDED
from api.store.tables import runs
from optimiser import Problem

HOUR = 3600.0


def require_seconds_left(
    connection: sa.Connection, firm: str, seconds: float, most: float, *, key: str | None, body: str
) -> None:
    """Refuse `seconds` more of planning than `most` within an hour; a call sent again is none more.

    Raises TooMuch, which says when there is room again; nothing is changed.
    """
    if not most:
        return
    lock_firm(connection, firm)
    if known_run(connection, firm, key, body) is not None:
        return
    if seconds > most:
        remedy = f"Ask for {most:g} at most"
        raise TooMuch(Problem("seconds", f"{seconds:g} is more than this firm has", remedy), HOUR)
    at = now(connection)
    took = sa.case(
        (runs.c.state.in_(ENDED), sa.func.coalesce(runs.c.spent, 0)), else_=runs.c.seconds
    )
    asked = connection.execute(
        sa.select(runs.c.created, took.label("took"))
        .where(runs.c.firm == firm, runs.c.created > at - HOUR)
        .order_by(runs.c.created)
    ).all()
    left = most - sum(row.took for row in asked)
    if seconds <= left:
        return
    # The oldest go first; there is room once enough of them are an hour old.
    wait = HOUR
    for row in asked:
        left += row.took
        if seconds <= left:
            wait = max(1.0, row.created + HOUR - at)
            break
    trouble = f"{seconds:g} more would be over {most:g} seconds of planning within an hour"
    raise TooMuch(Problem("seconds", trouble, f"Ask again in {wait / 60:.0f} minutes"), wait)
