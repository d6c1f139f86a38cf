"""Calls that came before under the same idempotency key."""

from __future__ import annotations

import sqlalchemy as sa

from api.store.refusals import Conflict
from api.store.tables import runs
from optimiser import Problem


def known_run(connection: sa.Connection, firm: str, key: str | None, body_hash: str) -> str | None:
    """Return the run that came with an idempotency key before.

    Raises Conflict when it came with another content.
    """
    if key is None:
        return None
    row = connection.execute(
        sa.select(runs.c.id, runs.c.body_hash).where(
            runs.c.firm == firm, runs.c.idempotency_key == key
        )
    ).first()
    if row is None:
        return None
    if row.body_hash != body_hash:
        trouble = f"{key!r} came with another content before"
        remedy = "Take a new key for new work, and the old one only to repeat the same call"
        raise Conflict(Problem("Idempotency-Key", trouble, remedy))
    return str(row.id)
