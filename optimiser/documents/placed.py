"""Every part of a plan in the order in which it comes off the saw, and what else each one is.

Documents and workbooks read the plan through this: one place knows where a part lies, which copy
of a layout it comes from, and what its request says of it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.plan import CuttingPlan, LengthLayout, SheetLayout
from optimiser.domain.request import CuttingRequest
from optimiser.units import Tenths, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One part as cut: `number` of `of` equal ones, from copy `copy` of a material's layout.

    `length` is 0 for a board, `width` and `height` are 0 for a timber; sizes as asked, not as they
    lie. Layouts are counted from 1 in each material, as on the diagrams.
    """

    part: str
    job: str
    name: str
    material: str
    length: Tenths
    width: Tenths
    height: Tenths
    cut_outs: int
    layout: int
    copy: int
    stock: str
    number: int
    of: int

    @property
    def size(self) -> str:
        """Return the size as people write it."""
        return mm(self.length) if self.length else f"{mm(self.width)} × {mm(self.height)}"


def stock_name(layout: LengthLayout | SheetLayout) -> str:
    """Name what a layout is cut from: stock, an offcut from the rack, or a part's cut-out."""
    if isinstance(layout, SheetLayout) and layout.cut_out is not None:
        return f"cut-out {layout.cut_out + 1} of {layout.stock}"
    return f"offcut {layout.stock}" if layout.offcut else layout.stock


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """All equal parts of one id: how many are cut, from which layouts."""

    first: Placed
    quantity: int
    layouts: tuple[int, ...]


def placed_parts(request: CuttingRequest, plan: CuttingPlan) -> tuple[Placed, ...]:
    """Return every part of a plan, lengths first, in the order of layouts and of places on them.

    Raises KeyError when the plan cuts a part that the request does not list.
    """
    found = [*_lengths(request, plan), *_boards(request, plan)]
    of = Counter((item[0].id, item[1]) for item in found)
    seen: Counter[tuple[str, str]] = Counter()
    placed = []
    for part, material, layout, copy, stock in found:
        seen[part.id, material] += 1
        board = part if isinstance(part, BoardPart) else None
        placed.append(
            Placed(
                part=part.id,
                job=part.job,
                name=part.name,
                material=material,
                length=Tenths(0) if isinstance(part, BoardPart) else part.length,
                width=board.width if board else Tenths(0),
                height=board.height if board else Tenths(0),
                cut_outs=len(board.cut_outs) if board else 0,
                layout=layout,
                copy=copy,
                stock=stock,
                number=seen[part.id, material],
                of=of[part.id, material],
            )
        )
    return tuple(placed)


def part_lines(request: CuttingRequest, plan: CuttingPlan) -> tuple[PartLine, ...]:
    """Return the parts of a plan by material and id, in the order in which they are first cut."""
    groups: dict[tuple[str, str], list[Placed]] = {}
    for item in placed_parts(request, plan):
        groups.setdefault((item.material, item.part), []).append(item)
    return tuple(
        PartLine(
            first=group[0],
            quantity=len(group),
            layouts=tuple(dict.fromkeys(item.layout for item in group)),
        )
        for group in groups.values()
    )


def _lengths(
    request: CuttingRequest, plan: CuttingPlan
) -> Iterator[tuple[LengthPart | BoardPart, str, int, int, str]]:
    asked = {item.material: {part.id: part for part in item.parts} for item in request.lengths}
    for material in plan.lengths:
        for number, layout in enumerate(material.layouts, start=1):
            ordered = sorted(layout.parts, key=lambda part: part.start)
            for copy in range(1, layout.count + 1):
                for part in ordered:
                    known = asked[material.material][part.part]
                    yield known, material.material, number, copy, layout.stock


def _boards(
    request: CuttingRequest, plan: CuttingPlan
) -> Iterator[tuple[LengthPart | BoardPart, str, int, int, str]]:
    asked = {item.material: {part.id: part for part in item.parts} for item in request.sheets}
    for material in plan.sheets:
        for number, layout in enumerate(material.layouts, start=1):
            for copy in range(1, layout.count + 1):
                for part in layout.parts:
                    known = asked[material.material][part.part]
                    yield known, material.material, number, copy, layout.stock
