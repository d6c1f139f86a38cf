"""What came for an order: deliveries are only ever added, and the order's state follows from them.

One that was typed wrong is taken back by another that undoes it; both stay.
"""

from __future__ import annotations

import json
import secrets
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from api.store.engine import lock_firm, now
from api.store.papers import find_one
from api.store.plans import require_version
from api.store.refusals import Conflict
from api.store.tables import continuations, deliveries, orders, plans
from optimiser import Problem

# An order goes from one of these to another as goods come, and back as deliveries are undone.
TAKES = ("placed", "part received", "received")


@dataclass(frozen=True, slots=True, kw_only=True)
class Came:
    """One delivery to write down. `state`: the order's when it is counted in."""

    document: dict[str, Any]
    state: str
    who: str
    body_hash: str
    idempotency_key: str | None = None
    run: str | None = None


def lock_order(
    connection: sa.Connection, firm: str, order: str, version: int | None
) -> sa.Row[Any]:
    """Return an order that goods can come for, held to the end of the transaction.

    Raises Missing, Stale, or Conflict unless it is placed.
    """
    lock_firm(connection, firm)
    row = find_one(connection, orders, firm, order)
    require_version(row.version, version, order)
    if row.state not in TAKES:
        remedy = "Goods come for an order that is placed: confirm its plan first"
        raise Conflict(Problem(f"order {order}", f"is {row.state}", remedy))
    return row


def known(
    connection: sa.Connection, firm: str, order: str, key: str | None, body_hash: str
) -> sa.Row[Any] | None:
    """Return the delivery that came with an idempotency key before, if one did.

    Raises Conflict when it came with another content, or for another order.
    """
    if key is None:
        return None
    row = connection.execute(
        sa.select(deliveries).where(deliveries.c.firm == firm, deliveries.c.idempotency_key == key)
    ).first()
    if row is not None and (row.body_hash != body_hash or row.order != order):
        trouble = f"{key!r} came with another content before"
        remedy = "Take a new key for a new delivery, and the old one only to repeat the same call"
        raise Conflict(Problem("Idempotency-Key", trouble, remedy))
    return row


def of_order(connection: sa.Connection, firm: str, order: str) -> list[sa.Row[Any]]:
    """Return an order's deliveries as they were written down, oldest first."""
    wanted = sa.select(deliveries).where(deliveries.c.firm == firm, deliveries.c.order == order)
    return list(connection.execute(wanted.order_by(deliveries.c.seq)))


def standing(rows: list[sa.Row[Any]]) -> list[dict[str, Any]]:
    """Return the documents, each with its id, of deliveries that none has undone."""
    documents = [{"id": row.id, **json.loads(row.document)} for row in rows]
    undone = {one["undoes"] for one in documents if one.get("undoes")}
    return [one for one in documents if not one.get("undoes") and one["id"] not in undone]


def new_id() -> str:
    """Return the id of a delivery to be; its ticks are named by it."""
    return f"delivery-{secrets.token_hex(8)}"


def add(connection: sa.Connection, firm: str, order: str, id_: str, came: Came) -> None:
    """Write a delivery down and let the order's state follow; the order is locked."""
    at = now(connection)
    before = sa.select(sa.func.coalesce(sa.func.max(deliveries.c.seq), 0)).where(
        deliveries.c.order == order
    )
    connection.execute(
        sa.insert(deliveries).values(
            id=id_,
            firm=firm,
            order=order,
            seq=connection.execute(before).scalar_one() + 1,
            who=came.who,
            created=at,
            document=json.dumps(came.document, ensure_ascii=False),
            idempotency_key=came.idempotency_key,
            body_hash=came.body_hash,
            run=came.run,
        )
    )
    connection.execute(
        sa.update(orders)
        .where(orders.c.id == order)
        .values(state=came.state, version=orders.c.version + 1, changed=at)
    )


def chain(connection: sa.Connection, firm: str, plan: str) -> list[sa.Row[Any]]:
    """Return a plan and the plans that go on from it, each from the one before."""
    found = [_plan(connection, firm, plan)]
    while True:
        wanted = (
            sa.select(continuations.c.plan)
            .join(plans, plans.c.id == continuations.c.plan)
            .where(
                continuations.c.firm == firm,
                continuations.c.continues == found[-1].id,
                plans.c.state.not_in(("dropped", "undone")),
            )
        )
        following = connection.execute(wanted).scalar()
        if following is None:
            return found
        found.append(_plan(connection, firm, following))


def _plan(connection: sa.Connection, firm: str, plan: str) -> sa.Row[Any]:
    return find_one(connection, plans, firm, plan)
