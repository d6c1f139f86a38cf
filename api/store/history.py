"""What the plots read: every step of the rack with the piece it moved, and what plans cost."""

from __future__ import annotations

from dataclasses import dataclass

import sqlalchemy as sa

from api.store.tables import offcuts, plans, rack_events


@dataclass(frozen=True, slots=True, kw_only=True)
class RackStep:
    """One event of the ledger with the size of its piece, in tenths; `at` in seconds since 1970."""

    at: float
    on_rack: int
    held: int
    length: int | None
    width: int | None
    height: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCost:
    """A plan that was made: its net cost and bound in pence."""

    id: str
    created: float
    cost: int
    bound: int


def rack_steps(connection: sa.Connection, firm: str) -> tuple[RackStep, ...]:
    """Return every step of the firm's rack, oldest first."""
    same = sa.and_(offcuts.c.firm == rack_events.c.firm, offcuts.c.label == rack_events.c.label)
    wanted = (
        sa.select(
            rack_events.c.at,
            rack_events.c.on_rack,
            rack_events.c.held,
            offcuts.c.length,
            offcuts.c.width,
            offcuts.c.height,
        )
        .join(offcuts, same)
        .where(rack_events.c.firm == firm)
        .order_by(rack_events.c.id)
    )
    return tuple(
        RackStep(
            at=row.at,
            on_rack=row.on_rack,
            held=row.held,
            length=row.length,
            width=row.width,
            height=row.height,
        )
        for row in connection.execute(wanted)
    )


def plan_costs(connection: sa.Connection, firm: str, *, most: int) -> tuple[PlanCost, ...]:
    """Return the firm's latest plans that were made and not dropped, oldest first."""
    wanted = (
        sa.select(plans.c.id, plans.c.created, plans.c.cost, plans.c.bound)
        .where(
            plans.c.firm == firm,
            plans.c.plan.is_not(None),
            plans.c.state.in_(("draft", "confirmed")),
        )
        .order_by(plans.c.created.desc(), plans.c.id.desc())
        .limit(most)
    )
    rows = list(connection.execute(wanted))
    return tuple(
        PlanCost(id=row.id, created=row.created, cost=row.cost, bound=row.bound)
        for row in reversed(rows)
    )
