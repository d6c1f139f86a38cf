"""Plans from the moment they are made: a draft, confirmed, undone or dropped.

Each step is one transaction over the plan, its order and the rack's ledger, so that no crash leaves
one without the others.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

import optimiser as lib
from api.store.engine import Store, lock_firm, now
from api.store.ledger import Entry, Piece, put_up, release, take_back, use
from api.store.refusals import Conflict, Missing, Stale
from api.store.runs import Claim, Progress, end_with_plan, require_lease
from api.store.tables import continuations, drawings, orders, plans
from optimiser import Problem

if TYPE_CHECKING:
    from optimiser import CuttingPlan

# Where new offcuts go unless the caller says so.
PLACES = {"length": "lengths", "board": "boards"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing kept with its plan."""

    name: str
    title: str
    svg: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A plan that was made, with all that is kept of it. Texts are JSON, money is pence."""

    request: str
    plan: str
    extra: str
    pictures: tuple[Picture, ...]
    order: str | None
    order_csv: str | None
    offcuts_used: frozenset[str]
    progress: Progress
    # Where a batch is ordered from two merchants: document and CSV of the second order.
    more_orders: tuple[tuple[str, str], ...] = ()


def finish(store: Store, claim: Claim, made: Made) -> None:
    """End a run with its plan, in one transaction; what the plan leaves on the rack is let go.

    Raises LeaseLost, with nothing written, when another worker has the run.
    """
    with store.write() as connection:
        lock_firm(connection, claim.firm)
        cancelled = require_lease(connection, claim)
        end_with_plan(connection, claim, cancelled=cancelled, progress=made.progress)
        at = now(connection)
        connection.execute(
            sa.update(plans)
            .where(plans.c.id == claim.plan)
            .values(
                state="draft",
                version=plans.c.version + 1,
                request=made.request,
                plan=made.plan,
                extra=made.extra,
                cost=made.progress.cost,
                bound=made.progress.bound,
                changed=at,
            )
        )
        if made.pictures:
            rows = [
                {
                    "plan": claim.plan,
                    "name": picture.name,
                    "place": place,
                    "title": picture.title,
                    "packed": zlib.compress(picture.svg.encode()),
                }
                for place, picture in enumerate(made.pictures)
            ]
            connection.execute(sa.insert(drawings), rows)
        if made.order is not None:
            texts = ((made.order, made.order_csv or ""), *made.more_orders)
            id_ = claim.plan.replace("plan-", "order-")
            rows = [
                {
                    "id": id_ if place == 1 else f"{id_}-{place}",
                    "firm": claim.firm,
                    "plan": claim.plan,
                    "state": "draft",
                    "document": document,
                    "csv": csv,
                    "created": at,
                    "changed": at,
                }
                for place, (document, csv) in enumerate(texts, start=1)
            ]
            connection.execute(sa.insert(orders), rows)
        if claim.takes_rack:
            release(
                connection,
                claim.firm,
                claim.plan,
                who=claim.who,
                why="not used by the plan",
                but=made.offcuts_used,
            )


def find(connection: sa.Connection, firm: str, plan: str) -> sa.Row[Any]:
    """Return a plan's row. Raises Missing."""
    row = connection.execute(
        sa.select(plans).where(plans.c.id == plan, plans.c.firm == firm)
    ).first()
    if row is None:
        raise Missing("plan", plan)
    return row


def confirm(
    connection: sa.Connection,
    firm: str,
    plan: str,
    *,
    who: str,
    version: int | None = None,
    place: str | None = None,
) -> tuple[Piece, ...]:
    """Use the offcuts that a plan holds, rack the ones it makes, and place its order.

    Returns the new pieces. Raises Missing, Stale, or Conflict unless the plan is a draft.
    """
    row = _lock(connection, firm, plan, version)
    _require_state(row, "draft", "confirm")
    use(connection, firm, plan, who=who)
    why = Entry(who=who, why="left over by the plan", plan=plan)
    leaves = json.loads(row.extra).get("leaves")
    if leaves is None:
        made = lib.plan_from_document(json.loads(row.plan), name="plan")
        left = [*left_over(made, place)]
    else:
        left = [_piece(one, place) for one in leaves]
    new = put_up(connection, firm, left, why)
    _set(connection, plan, state="confirmed", order="placed")
    return new


def undo(
    connection: sa.Connection, firm: str, plan: str, *, who: str, version: int | None = None
) -> None:
    """Reverse a confirmed plan by events: its offcuts come back, the new ones go.

    Raises Missing, Stale, or Conflict when it is not confirmed or a new offcut is in use.
    """
    row = _lock(connection, firm, plan, version)
    _require_state(row, "confirmed", "undo")
    require_not_continued(connection, plan)
    _require_nothing_came(connection, plan)
    take_back(connection, firm, plan, who=who)
    _set(connection, plan, state="undone", order="withdrawn")


def drop(
    connection: sa.Connection, firm: str, plan: str, *, who: str, version: int | None = None
) -> None:
    """Give up a draft and what it holds. Raises Missing, Stale or Conflict."""
    row = _lock(connection, firm, plan, version)
    _require_state(row, "draft", "drop")
    release(connection, firm, plan, who=who, why="plan dropped")
    _set(connection, plan, state="dropped", order="withdrawn")


def pictures(connection: sa.Connection, plan: str) -> Iterator[Picture]:
    """Return the drawings kept with a plan, in their order."""
    rows = connection.execute(
        sa.select(drawings).where(drawings.c.plan == plan).order_by(drawings.c.place)
    )
    for row in rows:
        svg = zlib.decompress(row.packed).decode()
        yield Picture(name=row.name, title=row.title, svg=svg)


def require_version(found: int, version: int | None, what: str) -> None:
    """Refuse a change that was made on an older version than the one kept. Raises Stale."""
    if version is not None and version != found:
        trouble = f"names version {version} of {what}, which is at version {found} now"
        raise Stale(Problem("If-Match", trouble, "Read it again, look at the change, and repeat"))


def continued_by(connection: sa.Connection, plan: str) -> str | None:
    """Return the plan that goes on from a plan, unless it was dropped or undone."""
    wanted = (
        sa.select(continuations.c.plan)
        .join(plans, plans.c.id == continuations.c.plan)
        .where(continuations.c.continues == plan, plans.c.state.not_in(("dropped", "undone")))
    )
    found = connection.execute(wanted).scalar()
    return None if found is None else str(found)


def continued_at(connection: sa.Connection, plan: str) -> int | None:
    """Return the last tick that the plan which goes on was made from; None where there is none."""
    wanted = (
        sa.select(continuations.c.marks)
        .join(plans, plans.c.id == continuations.c.plan)
        .where(continuations.c.continues == plan, plans.c.state.not_in(("dropped", "undone")))
    )
    found = connection.execute(wanted).scalar()
    return None if found is None else int(found)


def require_not_continued(connection: sa.Connection, plan: str) -> None:
    """Raise Conflict when a plan goes on as another one."""
    successor = continued_by(connection, plan)
    if successor is not None:
        remedy = f"Go on with {successor}, or drop or undo that one first"
        raise Conflict(Problem(f"plan {plan}", f"is continued by {successor}", remedy))


def _require_nothing_came(connection: sa.Connection, plan: str) -> None:
    """Raise Conflict when goods of a plan's orders have come: they do not go away by undoing."""
    came = sa.select(orders.c.id).where(
        orders.c.plan == plan, orders.c.state.in_(("part received", "received"))
    )
    order = connection.execute(came).scalar()
    if order is not None:
        remedy = "Take the delivery back if it was typed wrong; else go on with the plan"
        raise Conflict(Problem(f"plan {plan}", f"goods of its order {order} have come", remedy))


def lock_confirmed(connection: sa.Connection, firm: str, plan: str) -> sa.Row[Any]:
    """Return a plan that is being cut, and let nobody change the firm's plans meanwhile.

    Raises Missing, or Conflict unless it is confirmed and not continued.
    """
    row = _lock(connection, firm, plan, None)
    _require_state(row, "confirmed", "plan anew")
    require_not_continued(connection, plan)
    return row


def _piece(document: dict[str, Any], place: str | None) -> Piece:
    return Piece(
        label="",
        material=document["material"],
        length=document.get("length"),
        width=document.get("width"),
        height=document.get("height"),
        place=place or PLACES["length" if "length" in document else "board"],
    )


def _lock(connection: sa.Connection, firm: str, plan: str, version: int | None) -> sa.Row[Any]:
    lock_firm(connection, firm)
    row = find(connection, firm, plan)
    require_version(row.version, version, plan)
    return row


def _require_state(row: sa.Row[Any], wanted: str, doing: str) -> None:
    if row.state != wanted:
        trouble = f"is {row.state}"
        remedy = f"Only a plan that is {wanted} can be asked to {doing}"
        raise Conflict(Problem(f"plan {row.id}", trouble, remedy))


def _set(connection: sa.Connection, plan: str, *, state: str, order: str) -> None:
    at = now(connection)
    connection.execute(
        sa.update(plans)
        .where(plans.c.id == plan)
        .values(state=state, version=plans.c.version + 1, changed=at)
    )
    connection.execute(
        sa.update(orders)
        .where(orders.c.plan == plan)
        .values(state=order, version=orders.c.version + 1, changed=at)
    )


def left_over(plan: CuttingPlan, place: str | None) -> Iterator[Piece]:
    """List the offcuts that a plan makes, without labels."""
    for lengths in plan.lengths:
        for length_layout in lengths.layouts:
            for stretch in length_layout.offcuts * length_layout.count:
                yield Piece(
                    label="",
                    material=lengths.material,
                    length=stretch.length,
                    width=None,
                    height=None,
                    place=place or PLACES["length"],
                )
    for sheets in plan.sheets:
        for sheet_layout in sheets.layouts:
            for left in sheet_layout.offcuts * sheet_layout.count:
                yield Piece(
                    label="",
                    material=sheets.material,
                    length=None,
                    width=left.width,
                    height=left.height,
                    place=place or PLACES["board"],
                )
