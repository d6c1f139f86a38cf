"""Bars of money: where a plan's stock goes, by material and by job, and cost beside its bound.

Told apart by fill and words, never by colour alone; each bar says its figures.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from optimiser.domain.charted import CostBar, Spent
from optimiser.drawing.hatch import Fill, filled
from optimiser.drawing.letters import plain, shorten, text_width
from optimiser.drawing.page import (
    HEADER,
    OFFCUT_PEN,
    SCRAP_PEN,
    fill_entry,
    footer,
    inside,
    line_entry,
    set_page,
)
from optimiser.drawing.scene import (
    BOLD,
    GREY,
    INK,
    MEDIUM,
    PAPER,
    SMALLEST_TEXT,
    THIN,
    Area,
    Entry,
    Item,
    Line,
    Pen,
    Rect,
    Text,
    Told,
)
from optimiser.drawing.svg import svg_text
from optimiser.units import half_up, pounds

_WIDTH = 190.0
_BAR, _STEP = 6.0, 9.5
_HEAD = 8.0
_AXIS = 7.0
_NAME = 34.0
_PART_PEN = Pen(INK, THIN)
_SAW = "#6e6e6e"
_BOUND_PEN = Pen(INK, BOLD)
# Round steps for the figures below an axis, in pence.
_STEPS = tuple(base * 10**power for power in range(8) for base in (1, 2, 5))


def draw_spent(by_material: Sequence[Spent], by_job: Sequence[Spent], *, title: str) -> str:
    """Return two sets of bars as SVG text (mm): each material's stock and each job's, in money."""
    entries = (
        fill_entry("in parts", Fill.TINT, _PART_PEN),
        fill_entry("offcut, kept", Fill.NONE, OFFCUT_PEN),
        fill_entry("scrap", Fill.CROSSED, SCRAP_PEN),
        Entry("kerf and trim", lambda area: (Rect(area, _SAW),)),
    )
    caption = (
        "Money without VAT. What a layout wastes is shared by the jobs cut from it, in the measure "
        "of their parts."
    )
    groups = (("each material's stock", by_material), ("each job's share of it", by_job))
    said = max(
        (text_width(_spent_text(item)) for _, items in groups for item in items), default=0.0
    )
    most = max((item.total for _, items in groups for item in items), default=Fraction(0))

    def drawn(area: Area) -> list[Item]:
        room = Area(area.x + _NAME, area.y, area.width - _NAME - said - 3, area.height)
        items: list[Item] = []
        y = area.y
        for name, group in groups:
            items.append(Text(area.x, y + 4, name, 3.0, bold=True))
            bars = Area(room.x, y + _HEAD, room.width, len(group) * _STEP)
            items += _axis(bars, most)
            for place, item in enumerate(group):
                items += _spent_bar(item, most, _bar_area(bars, place), area.x)
            y = bars.bottom + _AXIS
        return items

    high = sum(_HEAD + len(group) * _STEP + _AXIS for _, group in groups)
    facts = ("in money, not in area",)
    return _page(title, facts, high, drawn, entries, caption)


def draw_costs(bars: Sequence[CostBar], *, title: str) -> str:
    """Return a bar for each net cost of a plan or material, with its bound, as SVG text (mm)."""
    entries = (
        fill_entry("no plan can cost less", Fill.TINT, _PART_PEN),
        fill_entry("could still be saved, at most", Fill.RISING, _PART_PEN),
        line_entry("proven bound", _BOUND_PEN),
    )
    most = Fraction(max((item.cost for item in bars), default=0))
    said = max((text_width(_cost_text(item)) for item in bars), default=0.0)

    def drawn(area: Area) -> list[Item]:
        width = area.width - _NAME - said - 3
        room = Area(area.x + _NAME, area.y + 2, width, len(bars) * _STEP)
        items = _axis(room, most)
        for place, item in enumerate(bars):
            items += _cost_bar(item, most, _bar_area(room, place), area.x)
        return items

    high = 2 + len(bars) * _STEP + _AXIS
    caption = "Net cost: purchase + value of rack offcuts − credit for kept offcuts, without VAT."
    return _page(title, ("net cost and proven bound",), high, drawn, entries, caption)


def _page(
    title: str,
    facts: Sequence[str],
    high: float,
    drawn: Callable[[Area], list[Item]],
    entries: Sequence[Entry],
    caption: str,
) -> str:
    wide = inside(_WIDTH, 1000)
    _, foot = footer(entries, caption, wide)
    height = 2 * wide.y + HEADER + high + foot
    margins = inside(_WIDTH, height)
    area = Area(margins.x, margins.y + HEADER, margins.width, high)
    told = Told(
        heading=title,
        facts=tuple(facts),
        note="",
        entries=tuple(entries),
        caution=caption,
        items=tuple(drawn(area)),
        views=(area,),
    )
    page = set_page((_WIDTH, height), title, told)
    # A page shows these on any ground, so they bring their own.
    ground = Rect(Area(0, 0, _WIDTH, height), PAPER)
    return svg_text(replace(page, items=(ground, *page.items)))


def _bar_area(bars: Area, place: int) -> Area:
    return Area(bars.x, bars.y + place * _STEP + (_STEP - _BAR) / 2, bars.width, _BAR)


def _axis(bars: Area, most: Fraction) -> list[Item]:
    """Draw upright lines at round sums, their figures below, some four to eight of them."""
    step = next((step for step in _STEPS if most <= 6 * step), _STEPS[-1])
    items: list[Item] = []
    for number in range(int(most / step) + 1 if most else 1):
        x = bars.x + _scaled(Fraction(number * step), most, bars.width)
        items.append(Line(x, bars.y, x, bars.bottom, Pen(INK if number == 0 else GREY, THIN)))
        items.append(Text(x, bars.bottom + 3.6, pounds(number * step), SMALLEST_TEXT, "middle"))
    return items


def _scaled(value: Fraction, most: Fraction, width: float) -> float:
    return float(value / most) * width if most else 0.0


def _spent_bar(item: Spent, most: Fraction, area: Area, left: float) -> list[Item]:
    pieces = (
        (item.parts, Fill.TINT, _PART_PEN),
        (item.kept, Fill.NONE, OFFCUT_PEN),
        (item.scrap, Fill.CROSSED, SCRAP_PEN),
    )
    items: list[Item] = [_name(item.name, left, area)]
    x = area.x
    for value, fill, pen in pieces:
        piece = Area(x, area.y, _scaled(value, most, area.width), area.height)
        x = piece.right
        if piece.width > 0:
            items += (*filled(piece, fill), Rect(piece, "none", pen))
    saw = Area(x, area.y, _scaled(item.saw, most, area.width), area.height)
    if saw.width > 0:
        items.append(Rect(saw, _SAW))
    return [*items, *_said(_spent_text(item), saw.right + 2, area)]


def _spent_text(item: Spent) -> str:
    share = float(100 * item.waste / item.total) if item.total else 0.0
    return f"{_sum(item.total)}, wasted {_sum(item.waste)} ({share:.1f} %)"


def _cost_bar(item: CostBar, most: Fraction, area: Area, left: float) -> list[Item]:
    bound = area.x + _scaled(Fraction(max(0, min(item.bound, item.cost))), most, area.width)
    end = area.x + _scaled(Fraction(max(0, item.cost)), most, area.width)
    sure = Area(area.x, area.y, bound - area.x, area.height)
    open_ = Area(bound, area.y, end - bound, area.height)
    items: list[Item] = [_name(item.name, left, area)]
    items += (*filled(sure, Fill.TINT), Rect(sure, "none", _PART_PEN))
    if open_.width > 0:
        items += (*filled(open_, Fill.RISING), Rect(open_, "none", Pen(INK, MEDIUM)))
    items.append(Line(bound, area.y - 1.2, bound, area.bottom + 1.2, _BOUND_PEN))
    return [*items, *_said(_cost_text(item), end + 2, area)]


def _cost_text(item: CostBar) -> str:
    if item.cost == item.bound:
        return f"{pounds(item.cost)}, proven"
    return f"{pounds(item.cost)}, bound {pounds(item.bound)}"


def _said(text: str, x: float, area: Area) -> tuple[Item, ...]:
    """Write beside a bar, over the lines of the axis."""
    return (
        Rect(Area(x - 0.6, area.y + 1.2, text_width(text) + 1.2, 3.6), PAPER),
        Text(x, area.y + 4, text),
    )


def _name(name: str, left: float, area: Area) -> Text:
    return Text(left, area.y + 4, shorten(plain(name), _NAME - 2))


def _sum(value: Fraction) -> str:
    return pounds(half_up(value))
