"""The cuts of one sheet layout as lines on paper, each with its number and its setting.

Follows the cut list alone: a cut divides a named piece, so its place follows from the cuts before.
A cut that ends at the edge of the sheet is labelled outside it; any other on its own line.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from optimiser.domain.plan import SheetLayout
from optimiser.domain.stock import EdgeTrim
from optimiser.drawing.flags import Flag, FlagRow, Side, flag_column, flag_row
from optimiser.drawing.labels import Block, put, room_of
from optimiser.drawing.scene import FINE, INK, THIN, Area, Item, Line, Pen, Point, Rect, View
from optimiser.units import Tenths, mm

RIP = "rip"
# How far flags may reach past the corners of the sheet, in mm of paper.
_PAST = 6.0
_STEPS = 24
_REACHES = (3.0, 4.5, 6.0, 8.0, 10.0, 13.0, 16.0, 20.0)
_TURNS = 24
# Grounds of labels may touch by this much: their letters still stand apart.
_TOUCH = -0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """A sheet or rack offcut as it comes: its size, the trim off its edges, the kerf of a cut."""

    width: Tenths
    height: Tenths
    trim: EdgeTrim
    kerf: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLine:
    """A cut in its place: the rectangle that the blade turns to dust, from the corner as bought."""

    n: int
    rip: bool
    at: Tenths
    x: int
    y: int
    width: int
    height: int

    @property
    def text(self) -> str:
        """Return number and setting."""
        return f"{self.n} | {mm(self.at)}"


@dataclass(frozen=True, slots=True)
class Edges:
    """The flags on the four sides of a sheet."""

    above: FlagRow
    below: FlagRow
    left: FlagRow
    right: FlagRow


def cut_lines(layout: SheetLayout, bought: Bought) -> tuple[CutLine, ...]:
    """Return the cuts in their order. Raises KeyError if a cut divides a piece that is not there.

    "na" is the near (left or lower) piece of cut n, "nb" the far one, a kerf beyond.
    """
    trim, kerf = bought.trim, bought.kerf
    pieces: dict[str, tuple[int, int, int, int]] = {
        "sheet": (
            trim.left,
            trim.bottom,
            bought.width - trim.across,
            bought.height - trim.along,
        )
    }
    lines = []
    for cut in layout.cuts:
        x, y, width, height = pieces.pop(cut.of)
        rip = cut.direction == RIP
        lost = min(kerf, (width if rip else height) - cut.at)
        past = cut.at + lost
        if rip:
            pieces[f"{cut.n}a"] = (x, y, cut.at, height)
            pieces[f"{cut.n}b"] = (x + past, y, width - past, height)
            place = (x + cut.at, y, lost, height)
        else:
            pieces[f"{cut.n}a"] = (x, y, width, cut.at)
            pieces[f"{cut.n}b"] = (x, y + past, width, height - past)
            place = (x, y + cut.at, width, lost)
        lines.append(
            CutLine(
                n=cut.n,
                rip=rip,
                at=cut.at,
                x=place[0],
                y=place[1],
                width=place[2],
                height=place[3],
            )
        )
    return tuple(lines)


def draw_kerfs(lines: Sequence[CutLine], view: View) -> tuple[Item, ...]:
    """Return the gap that each cut leaves, to scale but never too thin to see."""
    return tuple(
        Rect(view.area(line.x, line.y, line.width, line.height), INK, Pen(INK, THIN))
        for line in lines
    )


def edge_flags(
    lines: Sequence[CutLine], bought: Bought, view: View, led_out: Sequence[Flag]
) -> Edges:
    """Return running dimensions below and left, and the cuts that end above or right.

    `led_out` are further flags on the right edge, at their y on paper.
    """
    sheet = view.area(0, 0, bought.width, bought.height)
    across = {0, bought.width, *(line.x for line in lines if line.rip and _low(line, bought))}
    upward = {0, bought.height, *(line.y for line in lines if not line.rip and _left(line, bought))}
    above = [
        Flag(view.x(line.x) + view.size(line.width) / 2, (line.text,), bold=True)
        for line in lines
        if line.rip and _outside(line, bought)
    ]
    right = [
        Flag(view.y(line.y) - view.size(line.height) / 2, (line.text,), bold=True)
        for line in lines
        if not line.rip and _outside(line, bought)
    ]
    low, high = sheet.x - _PAST, sheet.right + _PAST
    top, bottom = sheet.y - _PAST, sheet.bottom + _PAST
    below = [Flag(view.x(x), (mm(x),)) for x in across]
    left = [Flag(view.y(y), (mm(y),)) for y in upward]
    return Edges(
        flag_row(above, edge=sheet.y, side=Side.ABOVE, low=low, high=high),
        flag_row(below, edge=sheet.bottom, side=Side.BELOW, low=low, high=high),
        flag_column(left, edge=sheet.x, side=Side.LEFT, low=top, high=bottom),
        flag_column([*right, *led_out], edge=sheet.right, side=Side.RIGHT, low=top, high=bottom),
    )


def inner_labels(
    lines: Sequence[CutLine], bought: Bought, view: View, taken: Iterable[Area]
) -> tuple[Item, ...]:
    """Return the labels of cuts that end inside the sheet, each on its line near the far end.

    A cut too short for that has its number alone, or led to the nearest free place; where all is
    full (slivers only) it goes without, as the table has every cut.
    """
    sheet = view.area(0, 0, bought.width, bought.height)
    occupied = [area.grown(_TOUCH) for area in taken]
    items: list[Item] = []
    for line in lines:
        if _outside(line, bought):
            continue
        for try_ in itertools.chain(_on_line(line, view), _led_out(line, view)):
            room = room_of(try_.block, *try_.at, upright=try_.upright)
            if sheet.holds(room) and not any(room.meets(area) for area in occupied):
                occupied.append(room.grown(_TOUCH))
                items += try_.leader
                items += put(try_.block, *try_.at, upright=try_.upright).items
                break
    return tuple(items)


@dataclass(frozen=True, slots=True)
class _Try:
    """A place for a label, and the leader that would join it to its line."""

    block: Block
    at: Point
    upright: bool = False
    leader: tuple[Item, ...] = ()


def _on_line(line: CutLine, view: View) -> Iterator[_Try]:
    """Offer places on the line from its far end on, then just past its ends."""
    area = view.area(line.x, line.y, line.width, line.height)
    length = area.height if line.rip else area.width
    for text in (line.text, str(line.n)):
        block = Block((text,), bold=(0,))
        half = block.length / 2
        slack = length - block.length - 1
        for step in range(_STEPS + 1 if slack >= 0 else 0):
            inset = half + 0.5 + slack * step / _STEPS
            yield _Try(block, _point(line, area, inset), line.rip)
    for inset in (-half - 0.4, length + half + 0.4):
        yield _Try(block, _point(line, area, inset), line.rip)


def _led_out(line: CutLine, view: View) -> Iterator[_Try]:
    """Offer places around the line's middle, near ones first, with a leader to it."""
    x, y = view.area(line.x, line.y, line.width, line.height).middle
    block = Block((str(line.n),), bold=(0,))
    for reach, turn in itertools.product(_REACHES, range(_TURNS)):
        angle = 2 * math.pi * turn / _TURNS
        at = x + reach * math.cos(angle), y + reach * math.sin(angle)
        yield _Try(block, at, leader=(Line(x, y, *at, Pen(INK, FINE)),))


def _point(line: CutLine, area: Area, inset: float) -> Point:
    """Return the point on the line (or past it) that lies `inset` from its far end."""
    x, y = area.middle
    return (x, area.y + inset) if line.rip else (area.right - inset, y)


def _outside(line: CutLine, bought: Bought) -> bool:
    """Return whether the far end of a cut lies on the trimmed edge of the sheet."""
    if line.rip:
        return line.y + line.height >= bought.height - bought.trim.top
    return line.x + line.width >= bought.width - bought.trim.right


def _low(line: CutLine, bought: Bought) -> bool:
    return line.y <= bought.trim.bottom


def _left(line: CutLine, bought: Bought) -> bool:
    return line.x <= bought.trim.left
