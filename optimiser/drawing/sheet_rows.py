"""The table beside a sheet: its cut list with boxes to tick, its cut-outs, its small parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from optimiser.domain.plan import SheetLayout
from optimiser.domain.request import SheetMaterial
from optimiser.drawing.sheet_cuts import Bought
from optimiser.drawing.sheet_list import cut_out_rows, cut_rows, used_rows
from optimiser.drawing.sheet_parts import Contents
from optimiser.drawing.table import Cell, Row, paragraph
from optimiser.drawing.ticks import boxes_width, tick_boxes

_TEXT = 56.0
_GAP = 4.0


def column_width(layout: SheetLayout) -> float:
    """Return the paper across that the table of a layout takes, the gap to the next included."""
    return boxes_width(layout.count) + 1 + _TEXT + _GAP


def sheet_rows(
    layout: SheetLayout,
    material: SheetMaterial,
    bought: Bought,
    used: Mapping[tuple[str, int], int],
    found: Contents,
) -> list[Row]:
    """Return the ordered cuts with boxes to tick, how cut-outs are made, the key of small parts."""
    width = column_width(layout) - _GAP
    rows = _with_boxes(layout, material, bought) if layout.cuts else []
    rows += cut_out_rows(layout, material, width)
    rows += used_rows(used, material, width)
    if found.key or found.unlabelled:
        rows += [Row(()), Row((Cell(0, "Too small for a label", bold=True),), ruled=True)]
    for text, key in found.key.items():
        first, *others = paragraph(text, width - 7)
        rows.append(Row((Cell(5, key, "end", bold=True), Cell(7, first.cells[0].text))))
        rows += [Row((Cell(7, row.cells[0].text),)) for row in others]
    for text in found.unlabelled:
        rows += paragraph(text, width)
    return rows


def _with_boxes(layout: SheetLayout, material: SheetMaterial, bought: Bought) -> list[Row]:
    start = boxes_width(layout.count) + 1
    boxes = tick_boxes(layout.count)
    heads, *rows = (
        replace(row, cells=tuple(replace(cell, at=cell.at + start) for cell in row.cells))
        for row in cut_rows(layout, material, bought.trim)
    )
    return [heads, *(replace(row, boxes=boxes) for row in rows)]
