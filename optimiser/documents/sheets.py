"""What the workbooks and the CSV files hold: plain tables of a plan, its parts and its order.

A cell is text, a whole number, a size in mm, a share, or money; only the writers know how each
file shows it. Sizes stay exact: a tenth of a millimetre is the last decimal that they have.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from optimiser.documents.booklet import ranges
from optimiser.documents.placed import part_lines, stock_name
from optimiser.domain.order import Order
from optimiser.domain.parts import BoardPart, CutOut
from optimiser.domain.plan import (
    CuttingPlan,
    LengthLayout,
    LengthPlan,
    SheetLayout,
    SheetPlan,
    Stretch,
)
from optimiser.domain.request import CuttingRequest
from optimiser.units import mm

Cell: TypeAlias = "str | int | None"


class Kind(Enum):
    """What a column holds. Sizes come in tenths of a millimetre, money in pence."""

    TEXT = "text"
    COUNT = "count"
    SIZE = "size"
    MONEY = "money"
    SHARE = "share"


@dataclass(frozen=True, slots=True)
class Head:
    """A column: what it is called, what it holds, and how wide a spreadsheet shows it."""

    name: str
    kind: Kind = Kind.TEXT
    width: int = 14


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table with its name; a share is in tenths of a percent, None is an empty cell.

    `sums` are rows below the table that belong to no column's filter.
    """

    name: str
    heads: tuple[Head, ...]
    rows: tuple[tuple[Cell, ...], ...]
    sums: tuple[tuple[Cell, ...], ...] = ()


def parts_sheet(request: CuttingRequest, plan: CuttingPlan) -> Sheet:
    """Return the parts that a plan cuts, in the columns that a part list is read from."""
    return Sheet("parts", _PART_HEADS, tuple(row for row, _ in _parts(request, plan)))


_PART_HEADS = (
    Head("job", width=12),
    Head("part", width=20),
    Head("material", width=20),
    Head("length mm", Kind.SIZE, 11),
    Head("width mm", Kind.SIZE, 11),
    Head("height mm", Kind.SIZE, 11),
    Head("quantity", Kind.COUNT, 10),
    Head("name", width=26),
    Head("turn", width=7),
    Head("cut outs", width=28),
)


def _parts(request: CuttingRequest, plan: CuttingPlan) -> Iterator[tuple[tuple[Cell, ...], str]]:
    """Yield the row of each part, and the layouts that it is cut from."""
    boards = {(item.material, part.id): part for item in request.sheets for part in item.parts}
    for line in part_lines(request, plan):
        part = line.first
        board = boards.get((part.material, part.part))
        yield (
            (
                part.job,
                part.part,
                part.material,
                part.length or None,
                part.width or None,
                part.height or None,
                line.quantity,
                part.name,
                None if board is None else ("yes" if board.turn else "no"),
                None if board is None else cut_outs_text(board),
            ),
            ranges(line.layouts),
        )


def cut_outs_text(part: BoardPart) -> str:
    """Write cut-outs as a part list has them: x, y, width, height, one behind the other."""

    def text(hole: CutOut) -> str:
        return " ".join(mm(size) for size in (hole.x, hole.y, hole.width, hole.height))

    return "; ".join(text(hole) for hole in part.cut_outs)


def plan_sheets(request: CuttingRequest, plan: CuttingPlan) -> tuple[Sheet, ...]:
    """Return a plan as tables: materials with money, layouts, cuts in their order, parts."""
    return (
        _materials(plan),
        Sheet("layouts", _LAYOUT_HEADS, tuple(_layouts(plan))),
        cuts_sheet(plan),
        Sheet(
            "parts",
            (*_PART_HEADS, Head("layouts", width=14)),
            tuple((*row, layouts) for row, layouts in _parts(request, plan)),
        ),
    )


_LAYOUT_HEADS = (
    Head("material", width=20),
    Head("layout", Kind.COUNT, 8),
    Head("stock or offcut", width=26),
    Head("from rack", width=10),
    Head("times", Kind.COUNT, 8),
    Head("cuts", Kind.COUNT, 8),
    Head("parts", Kind.COUNT, 8),
    Head("jobs", width=20),
    Head("offcuts kept", width=30),
)


def _layouts(plan: CuttingPlan) -> Iterator[tuple[Cell, ...]]:
    for material in plan.materials:
        layouts: Sequence[LengthLayout | SheetLayout] = material.layouts
        for number, layout in enumerate(layouts, start=1):
            kept = [
                mm(left.length)
                if isinstance(left, Stretch)
                else f"{mm(left.width)} × {mm(left.height)}"
                for left in layout.offcuts
            ]
            yield (
                material.material,
                number,
                stock_name(layout),
                "yes" if layout.offcut else "no",
                layout.count,
                len(layout.cuts),
                len(layout.parts),
                ", ".join(sorted({part.job for part in layout.parts})),
                "; ".join(kept),
            )


def cuts_sheet(plan: CuttingPlan) -> Sheet:
    """Return every cut of a plan in the order of work, with what it is set to."""
    heads = (
        Head("material", width=20),
        Head("layout", Kind.COUNT, 8),
        Head("stock or offcut", width=26),
        Head("times", Kind.COUNT, 8),
        Head("cut", Kind.COUNT, 7),
        Head("piece", width=9),
        Head("how", width=12),
        Head("set at mm", Kind.SIZE, 11),
        Head("from edge", width=12),
        Head("tool", width=8),
    )
    return Sheet("cuts", heads, tuple(_cuts(plan)))


def _cuts(plan: CuttingPlan) -> Iterator[tuple[Cell, ...]]:
    for lengths in plan.lengths:
        for number, bar in enumerate(lengths.layouts, start=1):
            for cut in bar.cuts:
                yield (
                    lengths.material,
                    number,
                    stock_name(bar),
                    bar.count,
                    cut.n,
                    "length",
                    "crosscut",
                    cut.at,
                    "left end",
                    "saw",
                )
    for sheets in plan.sheets:
        for number, board in enumerate(sheets.layouts, start=1):
            for sawn in board.cuts:
                yield (
                    sheets.material,
                    number,
                    stock_name(board),
                    board.count,
                    sawn.n,
                    sawn.of,
                    sawn.direction,
                    sawn.at,
                    sawn.edge,
                    sawn.tool,
                )


def _materials(plan: CuttingPlan) -> Sheet:
    heads = (
        Head("material", width=22),
        Head("bought", Kind.COUNT, 9),
        Head("from rack", Kind.COUNT, 10),
        Head("parts", Kind.SHARE, 9),
        Head("offcut kept", Kind.SHARE, 12),
        Head("scrap", Kind.SHARE, 9),
        Head("kerf and trim", Kind.SHARE, 14),
        Head("purchase", Kind.MONEY, 11),
        Head("rack offcuts", Kind.MONEY, 12),
        Head("kept offcuts", Kind.MONEY, 12),
        Head("net cost", Kind.MONEY, 11),
        Head("proven bound", Kind.MONEY, 14),
        Head("proven", width=8),
    )
    money = plan.money
    total: tuple[Cell, ...] = (
        "all",
        *(None,) * 6,
        money.purchase,
        money.offcuts_used,
        money.credit,
        money.net,
        plan.bound,
        "yes" if plan.proven else "no",
    )
    return Sheet("materials", heads, tuple(map(_material, plan.materials)), (total,))


def _material(item: LengthPlan | SheetPlan) -> tuple[Cell, ...]:
    total = max(1, item.usage.total)
    use = item.usage
    return (
        item.material,
        sum(layout.count for layout in item.layouts if layout.bought),
        sum(layout.count for layout in item.layouts if layout.offcut),
        *(
            round(1000 * share / total)
            for share in (use.part, use.offcut, use.scrap, use.kerf + use.trim)
        ),
        item.money.purchase,
        item.money.offcuts_used,
        item.money.credit,
        item.money.net,
        item.bound,
        "yes" if item.proven else "no",
    )


def order_sheet(order: Order) -> Sheet:
    """Return the lines of an order with net sum, VAT and total below them."""
    heads = (
        Head("line", Kind.COUNT, 7),
        Head("item", width=26),
        Head("description", width=38),
        Head("quantity", Kind.COUNT, 10),
        Head("unit price", Kind.MONEY, 11),
        Head("line total", Kind.MONEY, 11),
        Head("jobs", width=18),
        Head("needed by", width=12),
    )
    rows = tuple(
        (
            number,
            line.item,
            line.description,
            line.quantity,
            line.price,
            line.total,
            ", ".join(line.jobs),
            line.needed,
        )
        for number, line in enumerate(order.lines, start=1)
    )
    named = (
        (f"net, {order.currency}", order.net),
        (f"VAT {order.vat_rate / 100:g} %", order.vat),
        (f"total, {order.currency}", order.total),
    )
    sums = tuple((None, None, name, None, None, sum_, None, None) for name, sum_ in named)
    return Sheet("order", heads, rows, sums)
