"""The rack over time: how much lay there, and how much of it plans held, lengths above boards."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

from optimiser.domain.charted import RackMoment
from optimiser.drawing.hatch import Fill, filled
from optimiser.drawing.page import HEADER, fill_entry, footer, header, inside
from optimiser.drawing.scene import (
    GREY,
    INK,
    MEDIUM,
    PAPER,
    SMALLEST_TEXT,
    THIN,
    TINT,
    Area,
    Item,
    Line,
    Page,
    Pen,
    Polygon,
    Polyline,
    Rect,
    Text,
)
from optimiser.drawing.svg import svg_text
from optimiser.units import metres, square_metres

_WIDTH = 190.0
_PANEL, _BETWEEN = 48.0, 18.0
_AXIS = 16.0
_LINE = Pen(INK, MEDIUM)
_UNIT = {"length": 10_000, "area": 100_000_000}


def draw_rack(
    moments: Sequence[RackMoment],
    *,
    until: float,
    marks: Sequence[tuple[float, str]],
    title: str,
) -> str:
    """Return the rack over time as SVG text (mm), from the first of the `moments` to `until`.

    Moments are in the order of time; `marks` are places on that axis with their names. Raises
    ValueError without a moment.
    """
    if not moments:
        raise ValueError("a rack over time needs a moment")
    entries = (
        fill_entry("on the rack", Fill.TINT, Pen(INK, THIN)),
        fill_entry("of it, held by plans", Fill.RISING, Pen(INK, THIN)),
    )
    last = moments[-1]
    wide = inside(_WIDTH, 1000)
    _, foot = footer(entries, "", wide)
    height = 2 * wide.y + HEADER + 2 * (_PANEL + _BETWEEN) + foot
    margins = inside(_WIDTH, height)
    shown, _ = footer(entries, "", margins)
    items: list[Item] = [Rect(Area(0, 0, _WIDTH, height), PAPER)]
    lengths = "length" if last.lengths == 1 else "lengths"
    boards = "board" if last.boards == 1 else "boards"
    facts = (
        f"now {last.lengths} {lengths}, {metres(last.length)} m",
        f"{last.boards} {boards}, {square_metres(last.area)} m²",
    )
    items += header(title, facts, margins)
    panels = (
        ("lengths, m", "length", lambda m: m.length, lambda m: m.held_length),
        ("boards, m²", "area", lambda m: m.area, lambda m: m.held_area),
    )
    for place, (name, unit, of, held) in enumerate(panels):
        top = margins.y + HEADER + 6 + place * (_PANEL + _BETWEEN)
        area = Area(margins.x + _AXIS, top, margins.width - _AXIS - 4, _PANEL)
        items.append(Text(margins.x, top - 2, name, 3.0, bold=True))
        items += _panel(moments, until, area, of, held, _UNIT[unit])
        items += _marks(moments, until, area, marks)
    return svg_text(Page(_WIDTH, height, title, (*items, *shown)))


def _panel(
    moments: Sequence[RackMoment],
    until: float,
    area: Area,
    of: Callable[[RackMoment], int],
    held: Callable[[RackMoment], int],
    unit: int,
) -> list[Item]:
    most = _round_up(max(1, *(-(-of(moment) // unit) for moment in moments)))
    items: list[Item] = []

    def high(value: int) -> float:
        return area.height * value / unit / most

    ends = [*(moment.at for moment in moments[1:]), until]
    steps: list[tuple[float, float]] = []
    taken: list[Area] = []
    for moment, end in zip(moments, ends, strict=True):
        left, right = (_across(at, moments, until, area) for at in (moment.at, end))
        if held(moment) and right > left:
            deep = high(held(moment))
            taken.append(Area(left, area.bottom - deep, right - left, deep))
        top = area.bottom - high(of(moment))
        steps += [(left, top), (right, top)]
    line = tuple(_without_twins(steps))
    ground = ((line[-1][0], area.bottom), (line[0][0], area.bottom))
    items.append(Polygon((*line, *ground), TINT))
    for held_then in taken:
        items += (*filled(held_then, Fill.RISING), Rect(held_then, "none", Pen(INK, THIN)))
    items.append(Polyline(line, _LINE))
    for share in (0, 1, 2):
        y = area.bottom - area.height * share / 2
        items.append(Line(area.x, y, area.right, y, Pen(INK if share == 0 else GREY, THIN)))
        figure = f"{most * share / 2:g}"
        items.append(Text(area.x - 2, y + 0.9, figure, SMALLEST_TEXT, "end"))
    return items


def _round_up(most: int) -> int:
    """Return the least even round number that an axis can end at."""
    power = 1
    while most > 10 * power:
        power *= 10
    return next(base * power for base in (2, 4, 6, 8, 10) if base * power >= most)


def _without_twins(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    return [points[0], *(after for before, after in pairwise(points) if before != after)]


def _across(at: float, moments: Sequence[RackMoment], until: float, area: Area) -> float:
    start = moments[0].at
    share = (at - start) / (until - start) if until > start else 0.0
    return area.x + area.width * min(1.0, max(0.0, share))


def _marks(
    moments: Sequence[RackMoment],
    until: float,
    area: Area,
    marks: Sequence[tuple[float, str]],
) -> list[Item]:
    items: list[Item] = []
    for at, name in marks:
        x = _across(at, moments, until, area)
        items.append(Line(x, area.bottom, x, area.bottom + 1.4, Pen(INK, THIN)))
        items.append(Text(x, area.bottom + 4.6, name, SMALLEST_TEXT, "middle"))
    return items
