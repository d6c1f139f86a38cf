"""A plan's rest asked for: all that it is planned from, put into one document."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

import optimiser as lib
from api import ticks as ticking
from api.callers import Caller
from api.continuing import unused_offcuts
from api.store import ledger, plans, ticks
from api.store.refusals import Conflict
from api.store.runs import Asked
from api.store.tables import runs as runs_table
from optimiser import Problem

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest


def rest_of(
    connection: sa.Connection,
    caller: Caller,
    plan_id: str,
    seconds: float,
    hashed: str,
    key: str | None,
) -> Asked:
    """Ask for the rest of a confirmed plan, from its ticks as they stand.

    Raises Missing, or Conflict unless the plan is confirmed, not continued, and ticked.
    """
    row = plans.lock_confirmed(connection, caller.firm, plan_id)
    request, plan = read_plan(row)
    found = ticks.of_plan(connection, caller.firm, plan_id)
    ticked = ticking.add_up(plan, found)
    if not ticked.pieces and not ticked.floor:
        trouble, remedy = "nothing is ticked on it", "Tick what was cut or went wrong first"
        raise Conflict(Problem(f"plan {plan_id}", trouble, remedy))
    extra = json.loads(row.extra)
    racked = ledger.racked_by(connection, caller.firm, plan_id) | set(extra.get("adopted", ()))
    own = ledger.ever(connection, caller.firm, racked)
    is_continuation = "continues" in extra
    document = {
        "continues": plan_id,
        "is_continuation": is_continuation,
        "request": json.loads(row.request),
        "plan": json.loads(row.plan),
        "marks": ticking.marks_document(plan, ticked),
        "seconds": seconds,
        "withheld": [] if is_continuation else unused_offcuts(request, plan),
        "own": [
            {
                "label": piece.label,
                "material": piece.material,
                "length": piece.length,
                "width": piece.width,
                "height": piece.height,
            }
            for piece in own
        ],
        "prices": _prices(connection, row),
    }
    return Asked(
        kind="replan",
        document=json.dumps(document),
        body_hash=hashed,
        seconds=seconds,
        who=caller.who,
        idempotency_key=key,
        continues=(plan_id, len(found), tuple(sorted(racked))),
    )


def _prices(connection: sa.Connection, row: sa.Row[Any]) -> dict[str, Any] | None:
    """Return the first merchant's prices that a plan was made with, None for a bare request."""
    asked = json.loads(
        connection.execute(
            sa.select(runs_table.c.document).where(runs_table.c.id == row.run)
        ).scalar_one()
    )
    prices = asked.get("prices") or next(iter(asked.get("merchants") or ()), None)
    return prices if isinstance(prices, dict) else None


def read_plan(row: sa.Row[Any]) -> tuple[CuttingRequest, CuttingPlan]:
    """Return a plan that was made, with the request it answers."""
    request = lib.request_from_document(json.loads(row.request), name="request")
    return request, lib.plan_from_document(json.loads(row.plan), name="plan")
