"""Plans that were made: to read, confirm, undo and drop; their diagrams and orders."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from functools import lru_cache, partial
from typing import Annotated, Any, Literal

import sqlalchemy as sa
from fastapi import Query
from fastapi.responses import JSONResponse, PlainTextResponse, Response
from starlette.exceptions import HTTPException

import optimiser as lib
from api.answers import (
    After,
    IfMatch,
    IfNoneMatch,
    Limit,
    etag,
    listed,
    moment,
    money,
    plan_text,
    tagged,
    tagged_by_content,
    version_from,
)
from api.callers import Buyer, Planner, Reader, TheStore
from api.drawings import Sketch, cutting_sketches
from api.openapi import Routes
from api.store import keys, ledger, papers, plans
from api.store.engine import Store
from api.store.refusals import Missing
from api.store.tables import orders
from api.store.tables import plans as plans_table

router = Routes(prefix="/v1", tags=["plans"])
Place = Annotated[
    str | None,
    Query(min_length=1, max_length=200, description="Where the new offcuts go on the rack."),
]
State = Literal["draft", "confirmed", "undone", "dropped"]
OrderState = Literal["draft", "placed", "part received", "received", "withdrawn"]


@router.get("/plans")
def list_plans(
    store: TheStore,
    caller: Reader,
    state: State | None = None,
    limit: Limit = 50,
    after: After = None,
) -> dict[str, Any]:
    """List the firm's plans, newest first."""
    with store.read() as connection:
        rows, following = papers.page(
            connection, plans_table, caller.firm, most=limit, after=after, state=state
        )
    return listed([_summary(row) for row in rows], following)


@router.get("/plans/{plan_id}")
def get_plan(
    plan_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return a plan with the request it answers, its order, shares and framed walls."""
    with store.read() as connection:
        row = _with_order(connection, caller.firm, plan_id)
    return tagged(if_none_match, row.version, lambda: plan_text(row, row.order))


@router.post("/plans/{plan_id}/confirm")
def confirm_plan(
    plan_id: str,
    store: TheStore,
    caller: Buyer,
    place: Place = None,
    if_match: IfMatch = None,
) -> Response:
    """Use the rack's offcuts as planned, rack the new ones with labels, and place the order."""
    version = version_from(if_match)
    with store.write() as connection:
        new = plans.confirm(
            connection, caller.firm, plan_id, who=caller.who, version=version, place=place
        )
        papers.note(connection, caller.firm, caller.who, "confirm plan", plan_id)
        version = plans.find(connection, caller.firm, plan_id).version
    racked = [{**ledger.piece_document(piece), "place": piece.place} for piece in new]
    answer = {"id": plan_id, "state": "confirmed", "racked": racked}
    return JSONResponse(answer, headers=etag(version))


@router.post("/plans/{plan_id}/undo")
def undo_plan(plan_id: str, store: TheStore, caller: Buyer, if_match: IfMatch = None) -> Response:
    """Reverse a confirmed plan by events: its offcuts come back, the new ones go."""
    version = version_from(if_match)
    with store.write() as connection:
        plans.undo(connection, caller.firm, plan_id, who=caller.who, version=version)
        papers.note(connection, caller.firm, caller.who, "undo plan", plan_id)
        version = plans.find(connection, caller.firm, plan_id).version
    return JSONResponse({"id": plan_id, "state": "undone"}, headers=etag(version))


@router.delete("/plans/{plan_id}")
def drop_plan(plan_id: str, store: TheStore, caller: Planner, if_match: IfMatch = None) -> Response:
    """Give up a draft; the offcuts it holds are free again."""
    version = version_from(if_match)
    with store.write() as connection:
        plans.drop(connection, caller.firm, plan_id, who=caller.who, version=version)
        papers.note(connection, caller.firm, caller.who, "drop plan", plan_id)
        version = plans.find(connection, caller.firm, plan_id).version
    return JSONResponse({"id": plan_id, "state": "dropped"}, headers=etag(version))


@router.get("/plans/{plan_id}/diagrams")
def list_diagrams(plan_id: str, store: TheStore, caller: Reader) -> dict[str, Any]:
    """List the diagrams of a plan and the drawings of its walls."""
    return {
        "diagrams": [
            {
                "name": sketch.name,
                "title": sketch.title,
                "material": sketch.material or None,
                "href": f"/v1/plans/{plan_id}/diagrams/{sketch.name}.svg",
            }
            for sketch in _sketches(store, caller.firm, plan_id).values()
        ]
    }


@router.get(
    "/plans/{plan_id}/diagrams/{name}.svg",
    response_class=Response,
    responses={200: {"content": {"image/svg+xml": {}}}},
)
def get_diagram(plan_id: str, name: str, store: TheStore, caller: Reader) -> Response:
    """Return one diagram."""
    sketch = _sketches(store, caller.firm, plan_id).get(name)
    if sketch is None:
        raise HTTPException(404, f"plan {plan_id} has no diagram {name!r}")
    return Response(sketch.draw(), media_type="image/svg+xml")


@router.get("/plans/{plan_id}/order")
def get_plan_order(
    plan_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return the order of a batch; the first where there are two (`/orders?plan=` lists both)."""
    return tagged_by_content(if_none_match, _order(store, caller.firm, plan_id).document)


@router.get("/plans/{plan_id}/order.csv", response_class=PlainTextResponse)
def get_plan_order_csv(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return the order of a batch as CSV."""
    text = _order(store, caller.firm, plan_id).csv
    return Response(text, media_type="text/csv; charset=utf-8")


@router.get("/orders")
def list_orders(
    store: TheStore,
    caller: Reader,
    state: OrderState | None = None,
    plan: Annotated[str | None, Query(max_length=60, description="The id of a plan.")] = None,
    limit: Limit = 50,
    after: After = None,
) -> dict[str, Any]:
    """List the firm's orders, newest first."""
    with store.read() as connection:
        rows, following = papers.page(
            connection, orders, caller.firm, most=limit, after=after, state=state, plan=plan
        )
    return listed([_order_document(row) for row in rows], following)


@router.get("/orders/{order_id}")
def get_order(
    order_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return one order with its lines."""
    with store.read() as connection:
        row = papers.find_one(connection, orders, caller.firm, order_id)
    document = {**_order_document(row), "order": json.loads(row.document)}
    return tagged(if_none_match, row.version, lambda: json.dumps(document))


@router.get("/orders/{order_id}/order.csv", response_class=PlainTextResponse)
def get_order_csv(order_id: str, store: TheStore, caller: Reader) -> Response:
    """Return one order as CSV."""
    with store.read() as connection:
        row = papers.find_one(connection, orders, caller.firm, order_id)
    return Response(row.csv, media_type="text/csv; charset=utf-8")


@router.get(
    "/orders/{order_id}/order.xml",
    response_class=Response,
    responses={200: {"content": {"application/xml": {"schema": {"type": "string"}}}}},
)
def get_order_xml(
    order_id: str,
    store: TheStore,
    caller: Reader,
    buyer: Annotated[
        str | None, Query(min_length=1, max_length=200, description="Who orders; else the firm.")
    ] = None,
) -> Response:
    """Return one order as UBL 2.1 Order XML; its number is the order's id."""
    with store.read() as connection:
        row = papers.find_one(connection, orders, caller.firm, order_id)
        name = buyer or keys.firm_name(connection, caller.firm)
    order = lib.order_from_document(json.loads(row.document))
    issued = datetime.fromtimestamp(row.changed, UTC).date().isoformat()
    text = lib.order_ubl(order, number=order_id, issued=issued, buyer=name)
    return Response(text, media_type="application/xml")


def answer_plan(store: Store, firm: str, plan: str, *, status: int) -> Response:
    """Answer a plan that was made just now."""
    with store.read() as connection:
        row = _with_order(connection, firm, plan)
    headers = {**etag(row.version), "Location": f"/v1/plans/{plan}"}
    text = plan_text(row, row.order)
    return Response(text, status_code=status, media_type="application/json", headers=headers)


def made_plan(connection: sa.Connection, firm: str, plan: str) -> sa.Row[Any]:
    """Find a plan that has been made; one still being made is not there yet."""
    row = plans.find(connection, firm, plan)
    if row.plan is None:
        raise Missing("plan", plan)
    return row


def _with_order(connection: sa.Connection, firm: str, plan: str) -> sa.Row[Any]:
    """Find a plan that has been made, with the document of its first order as `order`.

    One question instead of two: pages and vans read plans more often than anything else.
    """
    wanted = (
        sa.select(plans_table, orders.c.document.label("order"))
        .outerjoin(orders, orders.c.plan == plans_table.c.id)
        .where(plans_table.c.id == plan, plans_table.c.firm == firm)
    )
    row = connection.execute(wanted.order_by(orders.c.id).limit(1)).first()
    if row is None or row.plan is None:
        raise Missing("plan", plan)
    return row


def _sketches(store: Store, firm: str, plan: str) -> dict[str, Sketch]:
    """Name every drawing of a plan: those of its walls, kept with it, and its cutting diagrams."""
    with store.read() as connection:
        row = made_plan(connection, firm, plan)
        kept = [
            Sketch(name=p.name, title=p.title, material="", draw=partial(str, p.svg))
            for p in plans.pictures(connection, plan)
        ]
    return {sketch.name: sketch for sketch in (*kept, *_cutting(row.request, row.plan))}


# A page asks for one diagram after the other of the same plan, and what is drawn of it never
# changes: reading it anew each time would take longer than drawing.
@lru_cache(maxsize=4)
def _cutting(request: str, plan: str) -> tuple[Sketch, ...]:
    asked = lib.request_from_document(json.loads(request), name="request")
    made = lib.plan_from_document(json.loads(plan), name="plan")
    return tuple(cutting_sketches(asked, made))


def _order_of(connection: sa.Connection, plan: str) -> sa.Row[Any] | None:
    of_plan = sa.select(orders).where(orders.c.plan == plan)
    return connection.execute(of_plan.order_by(orders.c.id)).first()


def _order(store: Store, firm: str, plan: str) -> sa.Row[Any]:
    with store.read() as connection:
        made_plan(connection, firm, plan)
        row = _order_of(connection, plan)
    if row is None:
        raise HTTPException(404, "this plan came from a cutting request, which has no order")
    return row


def _summary(row: sa.Row[Any]) -> dict[str, Any]:
    return {
        "id": row.id,
        "run": row.run,
        "state": row.state,
        "version": row.version,
        "created": moment(row.created),
        "net_cost": money(row.cost),
        "lower_bound": money(row.bound),
    }


def _order_document(row: sa.Row[Any]) -> dict[str, Any]:
    return {
        "id": row.id,
        "plan": row.plan,
        "state": row.state,
        "version": row.version,
        "created": moment(row.created),
        "changed": moment(row.changed),
    }
