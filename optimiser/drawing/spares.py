"""What it costs to be spared a second trip: one column for each level, the spares named below."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from optimiser.domain.spares import SpareLevel, SparesTable
from optimiser.drawing.letters import wrap
from optimiser.drawing.page import HEADER, header, inside
from optimiser.drawing.scene import (
    GREY,
    INK,
    MEDIUM,
    SMALLEST_TEXT,
    THIN,
    TINT,
    Area,
    Item,
    Line,
    Page,
    Pen,
    Rect,
    Text,
)
from optimiser.drawing.svg import svg_text
from optimiser.drawing.table import ROW, Cell, Row, draw_rows
from optimiser.units import pounds

_WIDTH = 190.0
_CHART = 62.0
_AXIS = 14.0
_BELOW = 10.0
_LABEL = 3.0
_LETTER = 0.62  # of a text's height


def draw_spares(table: SparesTable, *, title: str) -> str:
    """Return the chart and table of spares as SVG text; a page as high as its table."""
    rows = [row for level in table.levels for row in _rows(level)]
    high = HEADER + _CHART + _BELOW + len(rows) * ROW + 26
    area = inside(_WIDTH, high)
    facts = (
        "cost of spares for each chance of a second trip",
        f"without spares {_percent(table.chance_without)}",
    )
    chart = Area(area.x + _AXIS, area.y + HEADER + 4, area.width - _AXIS, _CHART)
    below = Area(area.x, chart.bottom + _BELOW, area.width, len(rows) * ROW + 1)
    return svg_text(
        Page(
            _WIDTH,
            high,
            title,
            (
                Rect(Area(0, 0, _WIDTH, high), "#ffffff"),
                *header(title, facts, area),
                *spare_columns(table.levels, chart),
                *draw_rows(rows, below, area.width),
            ),
        )
    )


def spare_columns(levels: tuple[SpareLevel, ...], chart: Area) -> list[Item]:
    """Return a column for each level, as high as its cost, inside an area that leaves room on the
    left for the figures of the scale."""
    most = max(1, *(level.cost for level in levels))
    ground = chart.bottom - 6
    tall = ground - chart.y - 6
    items: list[Item] = []
    for part in (0, 1, 2):
        y = ground - tall * part / 2
        items.append(Line(chart.x, y, chart.right, y, Pen(GREY if part else INK, THIN)))
        items.append(Text(chart.x - 2, y + 0.9, pounds(most * part // 2), SMALLEST_TEXT, "end"))
    step = chart.width / len(levels)
    for place, level in enumerate(levels):
        height = tall * level.cost / most
        left = chart.x + place * step + step * 0.25
        middle = left + step * 0.25
        if height > 0:
            bar = Area(left, ground - height, step * 0.5, height)
            items.append(Rect(bar, TINT, Pen(INK, MEDIUM)))
        said = pounds(level.cost) if level.reached else f"{pounds(level.cost)}, not reached"
        # No line runs through a figure.
        wide = _LETTER * _LABEL * len(said)
        top = ground - height - 1.4 - _LABEL
        items.append(Rect(Area(middle - wide / 2, top, wide, _LABEL + 0.8), "#ffffff"))
        items.append(Text(middle, ground - height - 1.4, said, _LABEL, "middle", bold=True))
        items.append(
            Text(middle, ground + 4, f"at most {100 * float(level.level):g} %", _LABEL, "middle")
        )
    return items


def _rows(level: SpareLevel) -> list[Row]:
    named = ", ".join(f"{count} × {stock}" for _, stock, count in level.spares)
    said = f"{_percent(level.level)}: leaves {_percent(level.chance)}, cost {pounds(level.cost)}"
    lines = wrap(named or "no spare", _WIDTH - 80)
    rows = [Row((Cell(0, said, bold=True), Cell(58, lines[0])))]
    rows += [Row((Cell(58, line),)) for line in lines[1:]]
    return [*rows[:-1], replace(rows[-1], ruled=True)]


def _percent(chance: float | Fraction) -> str:
    return f"{100 * float(chance):.1f} %"
