"""Ticks at the saw: only ever added, each once by the name that its phone gave it."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa

from api.store.engine import lock_firm, now
from api.store.tables import ticks

MOST = 100_000


def add(
    connection: sa.Connection, firm: str, plan: str, found: Sequence[dict[str, Any]], who: str
) -> int:
    """Add those ticks that are not there yet, in their order; return how many were new."""
    lock_firm(connection, firm)
    at = now(connection)
    known = set(connection.execute(sa.select(ticks.c.tick).where(ticks.c.plan == plan)).scalars())
    seq = last(connection, plan)
    new: dict[str, dict[str, Any]] = {}
    for one in found:
        if one["tick"] not in known:
            new.setdefault(one["tick"], one)
    rows = [
        {
            "plan": plan,
            "seq": number,
            "firm": firm,
            "tick": one["tick"],
            "who": who,
            "at": at,
            "document": json.dumps(one),
        }
        for number, one in enumerate(new.values(), start=seq + 1)
    ]
    if rows:
        connection.execute(sa.insert(ticks), rows)
    return len(rows)


def last(connection: sa.Connection, plan: str) -> int:
    """Return the number of a plan's last tick, 0 where there is none."""
    wanted = sa.select(sa.func.max(ticks.c.seq)).where(ticks.c.plan == plan)
    return int(connection.execute(wanted).scalar() or 0)


def of_plan(connection: sa.Connection, firm: str, plan: str) -> list[dict[str, Any]]:
    """Return a plan's ticks as they came, each with its number, who sent it, and when."""
    rows = connection.execute(
        sa.select(ticks)
        .where(ticks.c.firm == firm, ticks.c.plan == plan)
        .order_by(ticks.c.seq)
        .limit(MOST)
    )
    return [
        {**json.loads(row.document), "seq": row.seq, "who": row.who, "came": row.at} for row in rows
    ]
