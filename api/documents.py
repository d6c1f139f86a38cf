"""Everything of a plan that is printed or opened elsewhere, by the name of its file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import optimiser as lib
from api.inputs import read_text

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest, Frame, Job, LabelSheet, Order, Paper

# What a folder may hold of an earlier plan, so that nobody prints a stale one.
NAMES = (
    "booklet.pdf",
    "labels.pdf",
    "walls.pdf",
    "order.pdf",
    "order.xlsx",
    "delivery-note.pdf",
    "parts.csv",
    "parts.xlsx",
    "plan.xlsx",
    "cuts.csv",
    "layouts.dxf",
    "plots/waste.svg",
    "plots/money.svg",
)
TITLES = {
    "booklet.pdf": "Cutting booklet",
    "labels.pdf": "Part labels",
    "walls.pdf": "Set-out sheets and wall drawings",
    "order.pdf": "Order",
    "order.xlsx": "Order, spreadsheet",
    "order.csv": "Order, CSV",
    "order-2.pdf": "Second order",
    "order-2.xlsx": "Second order, spreadsheet",
    "order-2.csv": "Second order, CSV",
    "delivery-note.pdf": "Delivery note with split list",
    "parts.csv": "Parts, CSV",
    "parts.xlsx": "Parts, spreadsheet",
    "plan.xlsx": "Plan, spreadsheet",
    "cuts.csv": "Cuts, CSV",
    "layouts.dxf": "Board layouts, DXF",
    "plan.json": "Plan, JSON",
    "request.json": "Request, JSON",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Printing:
    """How documents are printed: paper, label sheet, its first free label, where codes lead."""

    paper: Paper = field(default_factory=lambda: lib.Paper.A4)
    sheet: LabelSheet = field(default_factory=lambda: lib.USUAL_SHEET)
    first: int = 1
    saw_address: str = ""


def printing_from_text(
    *, paper: str = "a4", sheet: Path | None = None, first: int = 1, saw_address: str = ""
) -> Printing:
    """Read how to print from what a command line gives. Raises InvalidInput."""
    labels = (
        lib.USUAL_SHEET
        if sheet is None
        else lib.read_label_sheet(read_text(sheet), name=sheet.name)
    )
    require_first(first, labels)
    return Printing(
        paper=lib.Paper[paper.upper()], sheet=labels, first=first, saw_address=saw_address
    )


def require_first(first: int, sheet: LabelSheet) -> None:
    """Refuse a first label that the sheet does not have. Raises InvalidInput."""
    if not 1 <= first <= sheet.count:
        trouble = f"{first} is not on a sheet of {sheet.count} labels"
        remedy = f"Give a number from 1 to {sheet.count}"
        raise lib.InvalidInput((lib.Problem("first label", trouble, remedy),))


def cutting_files(
    request: CuttingRequest, plan: CuttingPlan, printing: Printing
) -> dict[str, str | bytes]:
    """Return what a plan alone yields: booklet, labels, parts, cuts, layouts, plots."""
    files: dict[str, str | bytes] = {
        "booklet.pdf": lib.booklet_pdf(
            request, plan, title="Cutting booklet", paper=printing.paper
        ),
        "labels.pdf": lib.part_labels_pdf(
            request,
            plan,
            printing.sheet,
            title="Part labels",
            first=printing.first,
            saw_address=printing.saw_address,
        ),
        "parts.csv": lib.parts_csv(request, plan),
        "parts.xlsx": lib.parts_xlsx(request, plan),
        "plan.xlsx": lib.plan_xlsx(request, plan),
        "cuts.csv": lib.cuts_csv(plan),
        **{f"plots/{name}.svg": svg for name, svg in plan_plots(request, plan).items()},
    }
    if any(sheets.layouts for sheets in plan.sheets):
        files["layouts.dxf"] = lib.layouts_dxf(request, plan)
    return files


def wall_files(frames: Sequence[Frame], printing: Printing) -> dict[str, str | bytes]:
    """Return what the walls of a batch yield on paper."""
    if not frames:
        return {}
    title = "Set-out sheets and wall drawings"
    return {"walls.pdf": lib.walls_pdf(frames, title=title, paper=printing.paper)}


def order_papers(
    request: CuttingRequest,
    plan: CuttingPlan,
    orders: Sequence[Order],
    jobs: Sequence[Job],
    printing: Printing,
) -> dict[str, str | bytes]:
    """Return each order as PDF and XLSX, and the delivery note with what each job takes of them.

    The second order's files are called order-2.
    """
    paper = printing.paper
    note = lib.delivery_note_pdf(request, plan, orders, jobs, paper=paper)
    files: dict[str, str | bytes] = {"delivery-note.pdf": note}
    for number, order in enumerate(orders, start=1):
        name = "order" if number == 1 else f"order-{number}"
        files[f"{name}.pdf"] = lib.order_pdf(order, paper=paper)
        files[f"{name}.xlsx"] = lib.order_xlsx(order)
    return files


def plan_plots(request: CuttingRequest, plan: CuttingPlan) -> Mapping[str, str]:
    """Draw where a plan's stock goes and what it costs beside its bound, as SVG by name."""
    bars = [
        lib.CostBar(name=item.material, cost=item.money.net, bound=item.bound)
        for item in plan.materials
    ]
    bars.append(lib.CostBar(name="all", cost=plan.money.net, bound=plan.bound))
    return {
        "waste": lib.draw_spent(
            lib.spent_by_material(request, plan),
            lib.spent_by_job(request, plan),
            title="Where the stock goes",
        ),
        "money": lib.draw_costs(bars, title="Cost and proven bound"),
    }
