"""Tables beside a drawing: rows of text that flow into as many columns as the paper allows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from optimiser.drawing.letters import wrap
from optimiser.drawing.scene import (
    INK,
    PAPER,
    SMALLEST_TEXT,
    THIN,
    Area,
    Item,
    Line,
    Pen,
    Rect,
    Text,
)

ROW = 3.5
BOX = 2.4


@dataclass(frozen=True, slots=True)
class Cell:
    """A text in a row, `at` mm from the row's left edge; `anchor` as in SVG."""

    at: float
    text: str
    anchor: str = "start"
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table; `ruled` draws a line beneath it.

    `boxes` are empty boxes to tick, each its place from the row's left edge and its width in mm.
    """

    cells: tuple[Cell, ...]
    ruled: bool = False
    boxes: tuple[tuple[float, float], ...] = ()


def paragraph(text: str, width: float, *, bold: bool = False) -> list[Row]:
    """Return text as rows of at most `width` mm."""
    return [Row((Cell(0, line, bold=bold),)) for line in wrap(text, width, bold=bold)]


def rows_held(area: Area, column: float) -> int:
    """Return how many rows `draw_rows` can show in `area`."""
    return max(1, int(area.height / ROW)) * max(1, int((area.width + 2) / column))


def columns_needed(rows: int, height: float) -> int:
    """Return in how many columns `rows` rows stand in `height` mm."""
    return -(-rows // max(1, int(height / ROW)))


def draw_rows(rows: Sequence[Row], area: Area, column: float) -> tuple[Item, ...]:
    """Return the rows in columns of `column` mm that fill `area` from the left.

    Rows for which there is no room are counted in the last one.
    """
    deep, wide = max(1, int(area.height / ROW)), max(1, int((area.width + 2) / column))
    shown = list(rows)
    if len(rows) > deep * wide:
        kept = deep * wide - 1
        shown = [*rows[:kept], Row((Cell(0, f"… and {len(rows) - kept} lines more"),))]
    items: list[Item] = []
    for index, row in enumerate(shown):
        x = area.x + index // deep * column
        y = area.y + index % deep * ROW + 2.6
        for cell in row.cells:
            items.append(Text(x + cell.at, y, cell.text, SMALLEST_TEXT, cell.anchor, cell.bold))
        for at, broad in row.boxes:
            items.append(Rect(Area(x + at, y - BOX + 0.3, broad, BOX), PAPER, Pen(INK, THIN)))
        if row.ruled:
            items.append(Line(x, y + 0.75, x + column - 4, y + 0.75, Pen(INK, THIN)))
    return tuple(items)
