"""One length layout as a strip to scale: parts, cuts in order, offcuts, scrap, kerf and end trim.

Above the strip stand the cuts with their settings from the left end as bought, as a tape reads;
below it whatever is too narrow for its own label, and a box to tick for each cut.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from optimiser.domain.plan import LengthLayout, PlacedLength
from optimiser.domain.request import LengthMaterial
from optimiser.drawing.flags import Flag, FlagRow, Side, flag_row
from optimiser.drawing.hatch import Fill, JobMark, filled, job_symbol, part_tag
from optimiser.drawing.labels import Block, Placed, fit
from optimiser.drawing.letters import plain, shorten, text_width
from optimiser.drawing.page import OFFCUT_PEN, SCRAP_PEN
from optimiser.drawing.scene import (
    BOLD,
    GREY,
    INK,
    MEDIUM,
    THIN,
    Area,
    Item,
    Pen,
    Rect,
    Text,
    View,
)
from optimiser.drawing.ticks import tick_line
from optimiser.units import Tenths, mm

STRIP = 10.0
_HEADING = 5.0
_HEADING_SIZE = 3.2
_BELOW = 3.0
_TO_TICKS = 1.4
# A shortened label tells parts apart only if some of it is left.
_ROOM_FOR_SHORTENED = 18.0
_LED_OUT = 26.0
_NEIGHBOURS = 1.5


@dataclass(frozen=True, slots=True)
class Strip:
    """A drawn strip and the height of paper that it takes, from its heading to its last label."""

    items: tuple[Item, ...]
    height: float


@dataclass(frozen=True, slots=True)
class Looks:
    """What all strips of one drawing share: job marks and names by part, and the paper's edges."""

    marks: Mapping[str, JobMark]
    names: Mapping[str, str]
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class _Sized:
    length: Tenths
    trim: Tenths


def stock_size(layout: LengthLayout, material: LengthMaterial) -> tuple[Tenths, Tenths]:
    """Return length as bought and end trim of what a layout cuts. Raises KeyError if unknown."""
    if layout.offcut:
        offcuts = {offcut.id: offcut for offcut in material.offcuts}
        return offcuts[layout.stock].length, offcuts[layout.stock].end_trim
    return {stock.id: stock.length for stock in material.stock}[layout.stock], material.end_trim


def draw_strip(
    layout: LengthLayout,
    material: LengthMaterial,
    looks: Looks,
    *,
    number: int,
    left: float,
    top: float,
    scale: float,
) -> Strip:
    """Return one strip with its heading at `top` and its left end at `left`."""
    sized = _Sized(*stock_size(layout, material))
    view = View(left, 0, scale)
    probe = _cut_flags(layout, sized, view, looks, edge=0)
    edge = top + _HEADING + probe.depth
    cuts = _cut_flags(layout, sized, view, looks, edge=edge)
    view = View(left, edge + STRIP, scale)
    inside, led_out = _contents(layout, looks, view)
    below = flag_row(led_out, edge=edge + STRIP, side=Side.BELOW, low=looks.low, high=looks.high)
    foot = edge + STRIP + below.depth + _TO_TICKS
    named = [f"{cut.n} | {mm(cut.at)}" for cut in layout.cuts]
    ticks, high = tick_line(named, layout.count, left=left, right=looks.high, top=foot)
    items = (
        *_heading(layout, sized, number, top, looks),
        *_ground(layout, material, sized, view),
        *inside,
        *cuts.items,
        *below.items,
        *ticks,
    )
    return Strip(items, foot + high + _BELOW - top)


def _heading(
    layout: LengthLayout, sized: _Sized, number: int, top: float, looks: Looks
) -> tuple[Item, ...]:
    y = top + 3.4
    left = looks.low
    times = f"× {layout.count}"
    rack = "offcut from the rack" if layout.offcut else ""
    taken = text_width(f"{number}.  × 9999  ", _HEADING_SIZE, bold=True) + text_width(rack) + 14
    stock = f"{shorten(plain(layout.stock), 110)} · {mm(sized.length)}"
    stock = shorten(stock, looks.high - left - taken, _HEADING_SIZE)
    items: list[Item] = [
        Text(left, y, f"{number}.", _HEADING_SIZE, bold=True),
        Text(left + 9, y, stock, _HEADING_SIZE),
    ]
    x = left + 9 + text_width(stock, _HEADING_SIZE) + 3
    items.append(Text(x, y, times, _HEADING_SIZE, bold=True))
    if rack:
        x += text_width(times, _HEADING_SIZE, bold=True) + 4
        box = Area(x, y - 3.1, text_width(rack) + 2, 4.2)
        items += [Rect(box, "none", Pen(INK, MEDIUM)), Text(x + 1, y - 0.1, rack)]
    return tuple(items)


def _cut_flags(
    layout: LengthLayout, sized: _Sized, view: View, looks: Looks, *, edge: float
) -> FlagRow:
    flags = [Flag(view.x(cut.at), (str(cut.n), mm(cut.at)), bold=True) for cut in layout.cuts]
    if all(cut.at != 0 for cut in layout.cuts):
        flags.append(Flag(view.x(0), ("0",)))
    flags.append(Flag(view.x(sized.length), (mm(sized.length),)))
    return flag_row(flags, edge=edge, side=Side.ABOVE, low=looks.low, high=looks.high)


def _ground(
    layout: LengthLayout, material: LengthMaterial, sized: _Sized, view: View
) -> tuple[Item, ...]:
    """Draw the whole length as bought, its trims and the kerfs."""
    whole = _area(view, 0, sized.length)
    items: list[Item] = [Rect(whole, "none", Pen(INK, BOLD))]
    if sized.trim:
        ends = (0, sized.length - sized.trim)
        items += [Rect(_area(view, start, sized.trim), GREY) for start in ends]
    for cut in layout.cuts:
        kerf = min(material.kerf, sized.length - cut.at)
        items.append(Rect(_area(view, cut.at, kerf), INK, Pen(INK, THIN)))
    return tuple(items)


def _contents(
    layout: LengthLayout, looks: Looks, view: View
) -> tuple[tuple[Item, ...], list[Flag]]:
    items: list[Item] = []
    led_out: list[Flag] = []
    reaches: list[Area] = []
    others: list[Flag] = []
    for part in sorted(layout.parts, key=lambda part: part.start):
        mark = looks.marks[part.job]
        area = _area(view, part.start, part.length)
        items += filled(area, mark.fill)
        items.append(Rect(area, "none", Pen(INK, THIN)))
        label = _centred(_part_blocks(part, looks, area.width), area.grown(-0.25))
        if label:
            items += label.items
        else:
            text = shorten(part_tag(part.part, mark), _LED_OUT, bold=True)
            led_out.append(Flag(area.middle[0], (text, mm(part.length)), bold=True))
            reaches.append(area)
    for kind, stretches in (("offcut", layout.offcuts), ("scrap", layout.scrap)):
        for stretch in stretches:
            area = _area(view, stretch.start, stretch.length)
            text = f"{kind} {mm(stretch.length)}"
            label, ground = _remainder(kind, text, area)
            items += ground
            if label:
                items += label.items
            else:
                others.append(Flag(area.middle[0], (text,)))
    return tuple(items), [*_runs(led_out, reaches), *others]


def _centred(blocks: Sequence[Block], room: Area) -> Placed | None:
    return fit(blocks, room, (), upright=(False,), tries=(0.5,))


def _remainder(kind: str, text: str, area: Area) -> tuple[Placed | None, tuple[Item, ...]]:
    room = area.grown(-0.4)
    if kind == "offcut":
        label = _centred([Block((text,), bold=(0,)), Block(tuple(text.split()), bold=(0, 1))], room)
        return label, (*filled(area, Fill.NONE), Rect(area.grown(-0.3), "none", OFFCUT_PEN))
    label = _centred([Block((text,)), Block(tuple(text.split()))], room)
    return label, (*filled(area, Fill.CROSSED), Rect(area, "none", SCRAP_PEN))


def _part_blocks(part: PlacedLength, looks: Looks, width: float) -> Sequence[Block]:
    mark = looks.marks[part.job]
    identity = plain(part.part)
    name = plain(looks.names.get(part.part, ""))
    size = mm(part.length)

    def symbol(x: float, y: float) -> tuple[Item, ...]:
        return job_symbol(mark, x, y)

    blocks = [
        Block((identity, size), (symbol,), (1,)),
        Block((part_tag(part.part, mark), size), (), (1,)),
    ]
    if name:
        blocks.insert(0, Block((f"{identity} {name}", size), (symbol,), (1,)))
    if width >= _ROOM_FOR_SHORTENED:
        short = shorten(part_tag(part.part, mark), width - 2)
        blocks.append(Block((short, size), (), (1,)))
    return blocks


def _runs(flags: Sequence[Flag], areas: Sequence[Area]) -> list[Flag]:
    """Give neighbours with the same label one label with their number."""
    runs: list[tuple[Flag, Area, int]] = []
    for flag, area in zip(flags, areas, strict=True):
        # A kerf lies between neighbours; anything wider than a label's height is another part.
        if runs and runs[-1][0].lines == flag.lines and area.x - runs[-1][1].right < _NEIGHBOURS:
            first, reach, count = runs[-1]
            runs[-1] = (
                first,
                Area(reach.x, reach.y, area.right - reach.x, reach.height),
                count + 1,
            )
        else:
            runs.append((flag, area, 1))
    return [
        Flag(area.middle[0], (f"{count} × {flag.lines[0]}", *flag.lines[1:]), bold=True)
        if count > 1
        else flag
        for flag, area, count in runs
    ]


def _area(view: View, start: int, length: int) -> Area:
    return Area(view.x(start), view.bottom - STRIP, view.size(length), STRIP)
