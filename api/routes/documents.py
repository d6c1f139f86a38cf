"""What is printed of a plan, or opened elsewhere: PDF, spreadsheets, DXF, labels, plots."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Annotated, Any, Literal

import sqlalchemy as sa
from fastapi import Depends, Query
from fastapi.responses import Response
from starlette.exceptions import HTTPException

import optimiser as lib
from api.callers import Reader, TheStore
from api.documents import plan_plots
from api.openapi import Routes
from api.over_time import batches_svg, rack_svg
from api.planned_walls import PlannedWalls, planned_walls
from api.store import history, ledger, papers, plans
from api.store.engine import Store, now
from api.store.ledger import Piece
from api.store.refusals import Missing
from api.store.tables import orders, runs
from optimiser import LabelSheet

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest, Order, Paper

router = Routes(prefix="/v1", tags=["documents"])

PDF, SVG, DXF = "application/pdf", "image/svg+xml", "image/vnd.dxf"
CSV = "text/csv; charset=utf-8"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_MOST_PLANS = 30

PaperName = Annotated[Literal["a4", "a3"], Query(description="Paper of every page.")]
SheetSize = Annotated[float | None, Query(ge=0, le=1000, description="A size of paper in mm.")]
Labels = Annotated[int | None, Query(ge=1, le=100)]
FirstLabel = Annotated[
    int, Query(ge=1, le=10_000, description="The first label still on the first sheet.")
]
SawAddress = Annotated[
    str,
    Query(
        max_length=500,
        pattern=r"^(https?://[^\s#]+)?$",
        description="Where the codes lead; else they hold part and job.",
        openapi_examples={
            "none": {"summary": "part and job", "value": ""},
            "own": {"summary": "an address", "value": "https://saw.example/plan-1"},
        },
    ),
]


def _get(path: str, media: str) -> Callable[..., Any]:
    """Make the decorator of a route that answers a file, described as one in the OpenAPI text."""
    text = media in (SVG, CSV)
    schema = {"type": "string"} if text else {"type": "string", "format": "binary"}
    content = {media: {"schema": schema}}
    responses: dict[int | str, dict[str, Any]] = {
        200: {"description": "The file", "content": content}
    }
    return router.get(path, response_class=Response, responses=responses)


def _sheet(
    columns: Labels = None,
    rows: Labels = None,
    label_width_mm: SheetSize = None,
    label_height_mm: SheetSize = None,
    left_mm: SheetSize = None,
    top_mm: SheetSize = None,
    gap_across_mm: SheetSize = None,
    gap_down_mm: SheetSize = None,
    page_width_mm: SheetSize = None,
    page_height_mm: SheetSize = None,
) -> LabelSheet:
    """Read the sheet of labels; a common one when nothing is said of it."""
    given = {
        "columns": columns,
        "rows": rows,
        "label_width_mm": label_width_mm,
        "label_height_mm": label_height_mm,
        "left_mm": left_mm,
        "top_mm": top_mm,
        "gap_across_mm": gap_across_mm,
        "gap_down_mm": gap_down_mm,
        "page_width_mm": page_width_mm,
        "page_height_mm": page_height_mm,
    }
    said = {name: value for name, value in given.items() if value is not None}
    return lib.label_sheet_from_document(said, name="query") if said else lib.USUAL_SHEET


TheSheet = Annotated[LabelSheet, Depends(_sheet)]


@_get("/plans/{plan_id}/booklet.pdf", PDF)
def get_booklet(plan_id: str, store: TheStore, caller: Reader, paper: PaperName = "a4") -> Response:
    """Return the cutting booklet: cautions, stock to fetch, every layout with cuts to tick."""
    made = _made(store, caller.firm, plan_id)
    pdf = lib.booklet_pdf(made.request, made.plan, title="Cutting booklet", paper=_paper(paper))
    return _answer(pdf, PDF, f"booklet-{plan_id}.pdf")


@_get("/plans/{plan_id}/labels.pdf", PDF)
def get_labels(
    plan_id: str,
    store: TheStore,
    caller: Reader,
    sheet: TheSheet,
    first_label: FirstLabel = 1,
    saw_address: SawAddress = "",
) -> Response:
    """Return a label for each part in the order of cutting, on sheets of the size given."""
    made = _made(store, caller.firm, plan_id)
    pdf = lib.part_labels_pdf(
        made.request,
        made.plan,
        sheet,
        title="Part labels",
        first=first_label,
        saw_address=saw_address,
    )
    return _answer(pdf, PDF, f"labels-{plan_id}.pdf")


@_get("/plans/{plan_id}/walls.pdf", PDF)
def get_walls(plan_id: str, store: TheStore, caller: Reader, paper: PaperName = "a4") -> Response:
    """Return set-out sheets and drawings of a batch's walls, boarded as planned."""
    walls = _walls(store, caller.firm, plan_id)
    pdf = lib.walls_pdf(walls.frames, title="Walls", paper=_paper(paper))
    return _answer(pdf, PDF, f"walls-{plan_id}.pdf")


@_get("/plans/{plan_id}/order.pdf", PDF)
def get_order_pdf(
    plan_id: str, store: TheStore, caller: Reader, paper: PaperName = "a4"
) -> Response:
    """Return the order of a batch; the first where there are two."""
    return _order_pdf(_orders(store, caller.firm, plan_id)[0], paper)


@_get("/plans/{plan_id}/order.xlsx", XLSX)
def get_order_xlsx(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return the order of a batch as a spreadsheet; the first where there are two."""
    return _order_xlsx(_orders(store, caller.firm, plan_id)[0])


@_get("/orders/{order_id}/order.pdf", PDF)
def get_one_order_pdf(
    order_id: str, store: TheStore, caller: Reader, paper: PaperName = "a4"
) -> Response:
    """Return one order."""
    return _order_pdf(_one_order(store, caller.firm, order_id), paper)


@_get("/orders/{order_id}/order.xlsx", XLSX)
def get_one_order_xlsx(order_id: str, store: TheStore, caller: Reader) -> Response:
    """Return one order as a spreadsheet."""
    return _order_xlsx(_one_order(store, caller.firm, order_id))


@_get("/plans/{plan_id}/delivery-note.pdf", PDF)
def get_delivery_note(
    plan_id: str, store: TheStore, caller: Reader, paper: PaperName = "a4"
) -> Response:
    """Return what comes, to be ticked, and what each job takes of it."""
    made = _made(store, caller.firm, plan_id)
    kept = _orders(store, caller.firm, plan_id)
    pdf = lib.delivery_note_pdf(
        made.request,
        made.plan,
        [item.order for item in kept],
        _walls(store, caller.firm, plan_id).jobs,
        number=", ".join(item.number for item in kept),
        paper=_paper(paper),
    )
    return _answer(pdf, PDF, f"delivery-note-{plan_id}.pdf")


@_get("/plans/{plan_id}/parts.csv", CSV)
def get_parts_csv(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return the parts that the plan cuts as a part list."""
    made = _made(store, caller.firm, plan_id)
    return _answer(lib.parts_csv(made.request, made.plan), CSV, f"parts-{plan_id}.csv")


@_get("/plans/{plan_id}/parts.xlsx", XLSX)
def get_parts_xlsx(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return the parts that the plan cuts as a part list in a spreadsheet."""
    made = _made(store, caller.firm, plan_id)
    return _answer(lib.parts_xlsx(made.request, made.plan), XLSX, f"parts-{plan_id}.xlsx")


@_get("/plans/{plan_id}/cuts.csv", CSV)
def get_cuts_csv(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return every cut in the order of work."""
    made = _made(store, caller.firm, plan_id)
    return _answer(lib.cuts_csv(made.plan), CSV, f"cuts-{plan_id}.csv")


@_get("/plans/{plan_id}/plan.xlsx", XLSX)
def get_plan_xlsx(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return the plan as a spreadsheet: materials with money, layouts, cuts, parts."""
    made = _made(store, caller.firm, plan_id)
    return _answer(lib.plan_xlsx(made.request, made.plan), XLSX, f"{plan_id}.xlsx")


@_get("/plans/{plan_id}/layouts.dxf", DXF)
def get_layouts_dxf(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return the board layouts as DXF in millimetres."""
    made = _made(store, caller.firm, plan_id)
    return _answer(lib.layouts_dxf(made.request, made.plan), DXF, f"layouts-{plan_id}.dxf")


@_get("/plans/{plan_id}/plots/waste.svg", SVG)
def plot_waste(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return where the money of the stock goes, by material and by job."""
    return _plot(store, caller.firm, plan_id, "waste")


@_get("/plans/{plan_id}/plots/money.svg", SVG)
def plot_money(plan_id: str, store: TheStore, caller: Reader) -> Response:
    """Return the cost of each material beside its proven bound."""
    return _plot(store, caller.firm, plan_id, "money")


@_get("/plots/batches.svg", SVG)
def plot_batches(store: TheStore, caller: Reader) -> Response:
    """Return the cost of the firm's latest 30 plans beside their proven bounds."""
    with store.read() as connection:
        costs = history.plan_costs(connection, caller.firm, most=_MOST_PLANS)
    return _answer(batches_svg(costs), SVG, "batches.svg")


@_get("/plots/rack.svg", SVG)
def plot_rack(store: TheStore, caller: Reader) -> Response:
    """Return the rack over time, from the ledger."""
    with store.read() as connection:
        steps = history.rack_steps(connection, caller.firm)
        at = now(connection)
    return _answer(rack_svg(steps, now=at), SVG, "rack.svg")


@_get("/rack/labels.pdf", PDF)
def get_rack_labels(
    store: TheStore,
    caller: Reader,
    sheet: TheSheet,
    first_label: FirstLabel = 1,
    offcut: Annotated[
        list[str] | None, Query(max_length=1000, description="Labels of offcuts; all if none.")
    ] = None,
    plan: Annotated[
        str | None, Query(max_length=60, description="Only those that this plan racked.")
    ] = None,
) -> Response:
    """Return labels for offcuts on the rack."""
    pieces = _pieces(store, caller.firm, offcut, plan)
    labels = [
        lib.RackLabel(
            label=piece.label,
            material=piece.material,
            size=lib.offcut_size(piece.length, piece.width, piece.height),
            place=piece.place,
        )
        for piece in pieces
    ]
    pdf = lib.rack_labels_pdf(labels, sheet, title="Rack labels", first=first_label)
    return _answer(pdf, PDF, "rack-labels.pdf")


@dataclass(frozen=True, slots=True)
class _Made:
    request: CuttingRequest
    plan: CuttingPlan


def _row(connection: sa.Connection, firm: str, plan: str) -> sa.Row[Any]:
    """Find a plan that has been made. Raises Missing."""
    row = plans.find(connection, firm, plan)
    if row.plan is None:
        raise Missing("plan", plan)
    return row


def _made(store: Store, firm: str, plan: str) -> _Made:
    with store.read() as connection:
        row = _row(connection, firm, plan)
    return _Made(
        lib.request_from_document(json.loads(row.request), name="request"),
        lib.plan_from_document(json.loads(row.plan), name="plan"),
    )


@dataclass(frozen=True, slots=True)
class _Kept:
    order: Order
    number: str
    dated: str


def _orders(store: Store, firm: str, plan: str) -> list[_Kept]:
    with store.read() as connection:
        _row(connection, firm, plan)
        of_plan = sa.select(orders).where(orders.c.plan == plan).order_by(orders.c.id)
        rows = list(connection.execute(of_plan))
    if not rows:
        raise HTTPException(404, "this plan came from a cutting request, which has no order")
    return [_kept(row) for row in rows]


def _one_order(store: Store, firm: str, order: str) -> _Kept:
    with store.read() as connection:
        return _kept(papers.find_one(connection, orders, firm, order))


def _kept(row: sa.Row[Any]) -> _Kept:
    day = datetime.fromtimestamp(row.changed, UTC).date().isoformat()
    return _Kept(lib.order_from_document(json.loads(row.document)), str(row.id), day)


def _order_pdf(kept: _Kept, paper: str) -> Response:
    pdf = lib.order_pdf(kept.order, number=kept.number, dated=kept.dated, paper=_paper(paper))
    return _answer(pdf, PDF, f"{kept.number}.pdf")


def _order_xlsx(kept: _Kept) -> Response:
    return _answer(lib.order_xlsx(kept.order), XLSX, f"{kept.number}.xlsx")


def _walls(store: Store, firm: str, plan: str) -> PlannedWalls:
    """Frame the walls of a batch again, as it was asked for and as its plan chose."""
    with store.read() as connection:
        row = _row(connection, firm, plan)
        run = connection.execute(sa.select(runs).where(runs.c.id == row.run)).one()
    if run.kind != "batch":
        raise HTTPException(404, "this plan came from a cutting request, which has no walls")
    return planned_walls(run.document, request=row.request, plan=row.plan)


def _pieces(
    store: Store, firm: str, labels: list[str] | None, plan: str | None
) -> tuple[Piece, ...]:
    """Find offcuts on the rack. Raises Missing for a plan or a label that the firm has not."""
    with store.read() as connection:
        found = ledger.pieces(connection, firm)
        if plan is not None:
            plans.find(connection, firm, plan)
            lines = ledger.events(connection, firm, plan=plan, most=1_000_000)
            racked = {line.label for line in lines if line.kind == "racked"}
            found = tuple(piece for piece in found if piece.label in racked)
    if labels is not None:
        known = {piece.label: piece for piece in found}
        for label in labels:
            if label not in known:
                raise Missing("offcut", label)
        found = tuple(known[label] for label in labels)
    return found


def _plot(store: Store, firm: str, plan: str, name: str) -> Response:
    made = _made(store, firm, plan)
    return _answer(plan_plots(made.request, made.plan)[name], SVG, f"{name}-{plan}.svg")


def _paper(name: str) -> Paper:
    return lib.Paper[name.upper()]


def _answer(content: str | bytes, media: str, name: str) -> Response:
    """Answer a file under a name of letters, digits, points and hyphens only."""
    way = "inline" if media in (PDF, SVG) else "attachment"
    headers = {"Content-Disposition": f'{way}; filename="{name}"'}
    return Response(content, media_type=media, headers=headers)
