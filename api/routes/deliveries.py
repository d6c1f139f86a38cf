"""What came for an order: written down line by line, and the plan's rest planned anew where it
matters.
"""

from __future__ import annotations

import hashlib
import json
from contextlib import suppress
from datetime import UTC, date, datetime
from typing import Annotated, Any

import sqlalchemy as sa
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field, model_validator

import optimiser as lib
from api import receiving
from api import ticks as ticking
from api.answers import (
    IfMatch,
    IfNoneMatch,
    etag,
    moment,
    run_document,
    tagged,
    version_from,
)
from api.callers import Buyer, Caller, Reader, TheStore
from api.limits import require_within_limits
from api.openapi import Routes
from api.replanning import read_plan, rest_of
from api.routes.planning import SHORT_SECONDS, IdempotencyKey
from api.routes.runs import run_row
from api.store import deliveries, ledger, papers, plans, runs, ticks
from api.store.deliveries import Came
from api.store.engine import Store, lock_firm
from api.store.refusals import Conflict, Missing
from api.store.tables import orders
from api.working import work_here
from optimiser import InvalidInput, NoPlan, PlanRefused, Problem

router = Routes(prefix="/v1", tags=["orders"])
_Count = Annotated[int, Field(ge=0, le=100_000)]
_Size = Annotated[float, Field(gt=0, le=100_000)]
_Note = Annotated[str, Field(max_length=2000)]


class Instead(BaseModel):
    """Pieces that came in the place of what was ordered: a length, or a sheet by both its sides."""

    model_config = ConfigDict(extra="forbid")

    material: Annotated[str, Field(min_length=1, max_length=200)]
    quantity: Annotated[int, Field(ge=1, le=1000)]
    length_mm: _Size | None = None
    width_mm: _Size | None = None
    height_mm: _Size | None = None
    note: _Note = ""

    @model_validator(mode="after")
    def _has_sizes(self) -> Instead:
        if not receiving.one_size(self.length_mm, self.width_mm, self.height_mm):
            raise ValueError("give length_mm, or width_mm and height_mm")
        return self


class CameLine(BaseModel):
    """One line of the order: how many came good, came damaged, will not come, came as others.

    What is not spoken of is still to come.
    """

    model_config = ConfigDict(extra="forbid")

    line: Annotated[int, Field(ge=1, le=100_000, description="Of the order's lines, from 1.")]
    good: _Count = 0
    damaged: _Count = 0
    short: Annotated[int, Field(ge=0, le=100_000, description="Will not come at all.")] = 0
    instead: Annotated[list[Instead], Field(max_length=50)] = []
    note: _Note = ""


class DeliveryBody(BaseModel):
    """What came, or the delivery that this one takes back because it was typed wrong.

    `replan_seconds`: the plan is planned anew at once when it lost a piece, and thought about for
    so long; without it that is only offered.
    """

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={
            "examples": [
                {
                    "came": "2026-12-01",
                    "delivery_note": "4711",
                    "lines": [{"line": 1, "good": 3, "damaged": 1, "note": "a corner is off"}],
                    "replan_seconds": 1,
                }
            ]
        },
    )

    came: date | None = None
    delivery_note: Annotated[str, Field(max_length=200)] = ""
    note: _Note = ""
    lines: Annotated[list[CameLine], Field(max_length=2000)] = []
    undoes: Annotated[str | None, Field(max_length=60)] = None
    replan_seconds: Annotated[float | None, Field(ge=0, le=600)] = None

    @model_validator(mode="after")
    def _is_one_of_two(self) -> DeliveryBody:
        if bool(self.lines) == (self.undoes is not None):
            raise ValueError("give the lines that came, or the delivery that this one undoes")
        if self.undoes is not None and self.replan_seconds is not None:
            raise ValueError("nothing is planned anew when a delivery is undone")
        return self


@router.get("/orders/{order_id}/deliveries")
def list_deliveries(
    order_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return how each line of an order stands, and every delivery for it, oldest first."""
    with store.read() as connection:
        row = papers.find_one(connection, orders, caller.firm, order_id)
        came = deliveries.of_order(connection, caller.firm, order_id)
        made = runs.plans_made(connection, [one.run for one in came if one.run])
    lines = receiving.lines_of(json.loads(row.document), deliveries.standing(came))
    undone = {json.loads(one.document).get("undoes") for one in came}
    answer = {
        "order": order_id,
        "state": row.state,
        "lines": [_line(line) for line in lines],
        "deliveries": [{**_delivery(one, made), "undone": one.id in undone} for one in came],
    }
    # A plan that a delivery asked for is made after it, and changes the answer, not the order.
    tag = f"{row.version}-{len(made)}" if made else row.version
    return tagged(if_none_match, tag, lambda: json.dumps(answer))


@router.post("/orders/{order_id}/deliveries", status_code=201)
def receive_delivery(
    order_id: str,
    body: DeliveryBody,
    store: TheStore,
    caller: Buyer,
    if_match: IfMatch = None,
    idempotency_key: IdempotencyKey = None,
) -> JSONResponse:
    """Write down what came for an order, and tell which layouts of its plan lost a piece.

    Those become ticks at the saw; with `replan_seconds` the rest is planned anew from what really
    came, as a new plan that continues this one. A delivery that was typed wrong is taken back by
    another that `undoes` it, as long as no plan was made from it.
    """
    require_within_limits(seconds=body.replan_seconds or 0)
    hashed = hashlib.sha256(f"{order_id} {body.model_dump_json()}".encode()).hexdigest()
    version = version_from(if_match)
    claim = None
    with store.write() as connection:
        # Before the look whether it came before: of two of one call the second waits for the first.
        lock_firm(connection, caller.firm)
        row = deliveries.known(connection, caller.firm, order_id, idempotency_key, hashed)
        if row is None:
            order = deliveries.lock_order(connection, caller.firm, order_id, version)
            id_ = deliveries.new_id()
            came = _Receipt(connection, caller, order, id_).take(body)
            run = None
            if came["touches"] and body.replan_seconds is not None:
                is_short = body.replan_seconds <= SHORT_SECONDS
                asked = rest_of(connection, caller, came["plan"], body.replan_seconds, hashed, None)
                run, claim = runs.ask(
                    connection, caller.firm, asked, owner="service" if is_short else None
                )
            state = came.pop("state")
            written = Came(
                document=came,
                state=state,
                who=caller.who,
                body_hash=hashed,
                idempotency_key=idempotency_key,
                run=run,
            )
            deliveries.add(connection, caller.firm, order_id, id_, written)
            papers.note(connection, caller.firm, caller.who, "receive delivery", order_id)
    if claim is not None:
        # What came is written down whatever becomes of the plan; the run tells why it has none.
        with suppress(InvalidInput, NoPlan, PlanRefused):
            work_here(store, claim)
    return _answer(store, caller.firm, order_id, id_ if row is None else row.id)


class _Receipt:
    """One delivery taken in: what it says of the order, and the ticks that it makes on the plan."""

    def __init__(
        self, connection: sa.Connection, caller: Caller, order: sa.Row[Any], id_: str
    ) -> None:
        self._connection = connection
        self._caller = caller
        self._order = order
        self._id = id_
        self._document = json.loads(order.document)
        self._rows = deliveries.of_order(connection, caller.firm, order.id)
        self._standing = deliveries.standing(self._rows)

    def take(self, body: DeliveryBody) -> dict[str, Any]:
        """Return the delivery as it is kept, with the order's `state` after it."""
        if body.undoes is not None:
            return self._undo(body)
        given = [line.model_dump(exclude_defaults=True) for line in body.lines]
        before = receiving.lines_of(self._document, self._standing)
        receiving.require_fitting(before, given)
        kept: dict[str, Any] = {
            "came": (body.came or datetime.now(UTC).date()).isoformat(),
            "delivery_note": body.delivery_note,
            "note": body.note,
            "lines": given,
        }
        after = receiving.lines_of(self._document, [*self._standing, kept])
        plan, made = self._mark(given, before)
        return {
            **kept,
            "plan": plan.id,
            "ticks": [tick["tick"] for tick in made],
            "touches": receiving.touched(read_plan(plan)[1], made),
            "instead": sum(tick["kind"] == "floor" for tick in made),
            "promised": self._promised(plan, made),
            "state": receiving.state_of(after),
        }

    def _mark(
        self, given: list[dict[str, Any]], lines: list[receiving.Line]
    ) -> tuple[sa.Row[Any], list[dict[str, Any]]]:
        """Tick what is missing and what lies there instead on the plan that is being cut."""
        connection, firm = self._connection, self._caller.firm
        chain = deliveries.chain(connection, firm, self._order.plan)
        plan = chain[-1]
        if not any(receiving.lost_by(line) for line in given):
            return plan, []
        if plan.state != "confirmed":
            remedy = "Confirm it or drop it first: what came short is marked on what is cut"
            trouble = f"goes on as {plan.id}, which is {plan.state}"
            raise Conflict(Problem(f"plan {self._order.plan}", trouble, remedy))
        ordered_for, first = read_plan(chain[0])
        request, drawn = read_plan(plan)
        ticked = ticking.add_up(drawn, ticks.of_plan(connection, firm, plan.id))
        later = [json.loads(one.extra).get("in_hand", []) for one in chain[1:]]
        made: list[dict[str, Any]] = []
        for line in given:
            if receiving.lost_by(line) == 0:
                continue
            made += receiving.floor_ticks(self._id, line, request)
            ordered = lines[line["line"] - 1]
            found = receiving.stock_of(ordered, ordered_for, first, later)
            if found is None:
                continue
            stock = receiving.Stock(
                material=found[0],
                name=found[1],
                there=_there(request, found) if later else ordered.ordered,
            )
            if stock.there:
                lost = receiving.lost_by(line) + self._lost_before(plan.id, line["line"])
                made += receiving.ticks_for(self._id, line, stock, drawn, ticked, lost)
        if made:
            ticking.require_fitting(drawn, made)
            ticks.add(connection, firm, plan.id, made, self._caller.who)
        return plan, made

    def _lost_before(self, plan: str, number: int) -> int:
        return sum(
            receiving.lost_by(line)
            for one in self._standing
            if one["plan"] == plan
            for line in one["lines"]
            if line["line"] == number
        )

    def _promised(self, plan: sa.Row[Any], made: list[dict[str, Any]]) -> list[dict[str, str]]:
        """Name offcuts of the sizes that missing pieces would leave and that other plans hold."""
        drawn = {item.material: item.layouts for item in read_plan(plan)[1].materials}
        sizes = {
            (
                tick["material"],
                *(getattr(left, name, None) for name in ("length", "width", "height")),
            )
            for tick in made
            if tick["kind"] != "floor"
            for left in drawn[tick["material"]][tick["layout"] - 1].offcuts
        }
        if not sizes:
            return []
        racked = ledger.racked_by(self._connection, self._caller.firm, plan.id)
        return [
            {"offcut": piece.label, "plan": piece.held_by}
            for piece in ledger.pieces(self._connection, self._caller.firm, labels=racked)
            if piece.held_by is not None
            and (piece.material, piece.length, piece.width, piece.height) in sizes
        ]

    def _undo(self, body: DeliveryBody) -> dict[str, Any]:
        wrong = next((one for one in self._standing if one["id"] == body.undoes), None)
        if wrong is None:
            raise Missing("delivery", str(body.undoes))
        if wrong["ticks"]:
            plans.require_not_continued(self._connection, wrong["plan"])
            undone = [
                {
                    "tick": f"{self._id}-{n}",
                    "phone": receiving.PHONE,
                    "kind": "undo",
                    "undoes": name,
                }
                for n, name in enumerate(wrong["ticks"], start=1)
            ]
            ticks.add(self._connection, self._caller.firm, wrong["plan"], undone, self._caller.who)
        left = [one for one in self._standing if one is not wrong]
        return {
            "came": (body.came or datetime.now(UTC).date()).isoformat(),
            "delivery_note": body.delivery_note,
            "note": body.note,
            "lines": [],
            "undoes": body.undoes,
            "plan": wrong["plan"],
            "ticks": [],
            "touches": [],
            "instead": 0,
            "promised": [],
            "state": receiving.state_of(receiving.lines_of(self._document, left)),
        }


def _there(request: lib.CuttingRequest, stock: tuple[str, str]) -> int:
    """Return how many of a stock in hand a request gives its plan."""
    for item in request.materials:
        for one in item.stock:
            if (item.material, one.id) == stock:
                return one.available or 0
    return 0


def _answer(store: Store, firm: str, order: str, id_: str) -> JSONResponse:
    with store.read() as connection:
        row = papers.find_one(connection, orders, firm, order)
        came = deliveries.of_order(connection, firm, order)
        made = runs.plans_made(connection, [one.run for one in came if one.run])
    kept = next(one for one in came if one.id == id_)
    lines = receiving.lines_of(json.loads(row.document), deliveries.standing(came))
    run = None
    if kept.run is not None:
        found, plan = run_row(store, firm, kept.run)
        run = run_document(found, plan)
    answer = {
        "order": order,
        "state": row.state,
        "lines": [_line(line) for line in lines],
        "delivery": _delivery(kept, made),
        "run": run,
    }
    headers = {**etag(row.version), "Location": f"/v1/orders/{order}/deliveries"}
    return JSONResponse(answer, status_code=201, headers=headers)


def _line(line: receiving.Line) -> dict[str, Any]:
    return {
        "line": line.number,
        "item": line.item,
        "description": line.description,
        "charge": line.charge,
        "ordered": line.ordered,
        "good": line.good,
        "damaged": line.damaged,
        "short": line.short,
        "instead": line.instead,
        "to_come": line.to_come,
    }


def _delivery(row: sa.Row[Any], made: dict[str, str]) -> dict[str, Any]:
    kept = json.loads(row.document)
    return {
        "id": row.id,
        "who": row.who,
        "written": moment(row.created),
        "came": kept["came"],
        "delivery_note": kept["delivery_note"],
        "note": kept["note"],
        "lines": kept["lines"],
        "undoes": kept.get("undoes"),
        "plan": kept["plan"],
        "touches": kept["touches"],
        "instead": kept["instead"],
        "promised": kept["promised"],
        "run": row.run,
        "new_plan": made.get(row.run),
    }
