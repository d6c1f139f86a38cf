"""Which plan goes on from which, and the offcuts that it holds meanwhile."""

from __future__ import annotations

import sqlalchemy as sa

from api.store.ledger import reserve_own
from api.store.tables import continuations


def continue_from(
    connection: sa.Connection,
    firm: str,
    plan: str,
    before: tuple[str, int, tuple[str, ...]],
    who: str,
) -> None:
    """Write down that a plan to be goes on from another; hold what that one racked and is free.

    `before`: the other plan, its last tick, and the labels of the offcuts it racked.
    """
    continued, seq, labels = before
    connection.execute(
        sa.insert(continuations).values(plan=plan, firm=firm, continues=continued, marks=seq)
    )
    reserve_own(connection, firm, plan, labels, who)
