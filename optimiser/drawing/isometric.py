"""Boxes in three dimensions: what an isometric view is made of, nearer ones over those behind.

x runs down to the right, out runs down to the left, up runs up; all three to one scale. Boxes that
do not share space can be drawn one after another so that none hides what stands before it: the
order comes from the boxes alone.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from optimiser.domain.frame import Box, Frame, Member
from optimiser.drawing.labels import Block, put
from optimiser.drawing.letters import plain
from optimiser.drawing.scene import FINE, INK, PAPER, TINT, Area, Item, Pen, Point, Polygon
from optimiser.drawing.wall_page import ceiling_line
from optimiser.units import Tenths

PEN = Pen(INK, FINE)
# Room round the view for marks at its edges, in mm of paper.
AROUND = 4.0
_SIZES = {"x": "dx", "y": "dy", "z": "dz"}
_COS, _SIN = math.cos(math.pi / 6), 0.5


@dataclass(frozen=True, slots=True)
class Look:
    """How a member is painted: the fills of its top, front and right end, and its outline."""

    fills: tuple[str, str, str]
    pen: Pen


# By how much light falls on each side.
SOLID = Look((PAPER, TINT, "#b9b9b9"), PEN)


@dataclass(frozen=True, slots=True)
class Reach:
    """How far boxes reach on the flat of an isometric view, in tenths at full size."""

    left: float
    right: float
    top: float
    bottom: float

    @property
    def size(self) -> tuple[int, int]:
        """Return width and height, rounded up."""
        return math.ceil(self.right - self.left), math.ceil(self.bottom - self.top)

    def origin_in(self, room: Area, scale: float) -> Point:
        """Return where the wall's origin lies on paper when the view is in the middle of `room`."""
        x, y = room.middle
        return (
            x - (self.left + self.right) / 20 / scale,
            y - (self.top + self.bottom) / 20 / scale,
        )


def reach(boxes: Sequence[Box]) -> Reach:
    """Return how far `boxes`, at least one, reach on the flat of the view."""
    corners = [
        _flat(x, y, z)
        for box in boxes
        for x in ends(box, "x")
        for y in ends(box, "y")
        for z in ends(box, "z")
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Reach(min(xs), max(xs), min(ys), max(ys))


def marks_on(
    members: Sequence[Member], drawn: Sequence[Sequence[Polygon]], *, each: bool
) -> tuple[list[Item], list[str]]:
    """Return the marks on parts in the order they are drawn, and those with no room in sight."""
    items: list[Item] = []
    taken: list[Area] = []
    shown: set[str] = set()
    reaches = [[(_reach(side.points), side.points) for side in sides] for sides in drawn]
    # Long parts first: the short ones are nearer the eye and easier to find by what is left.
    for index in sorted(range(len(members)), key=lambda i: (-members[i].length, i)):
        mark = members[index].mark
        if mark in shown and not each:
            continue
        later = [side for sides in reaches[index + 1 :] for side in sides]
        for point in _points_on(drawn[index]):
            label = put(Block((plain(mark),), bold=(0,)), *point)
            covered = any(_near(point, area) and _inside(point, side) for area, side in later)
            if not covered and not any(label.area.meets(other) for other in taken):
                items += label.items
                taken.append(label.area)
                shown.add(mark)
                break
    return items, sorted({m.mark for m in members} - shown, key=lambda mark: (mark[0], len(mark)))


def _points_on(sides: Sequence[Polygon]) -> Iterator[Point]:
    """Yield places for a mark: along the middle of the front, then of the end and of the top."""
    for side in (sides[1], sides[2], sides[0]):
        corners = side.points
        x, y = (sum(p[i] for p in corners) / len(corners) for i in (0, 1))
        for share in (0.0, 0.3, -0.3, 0.6, -0.6):
            # Towards the middle of the shortest edge, which is an end of the part.
            short = min(
                pairwise([*corners, corners[0]]), key=lambda edge: math.dist(edge[0], edge[1])
            )
            aim = (short[0][0] + short[1][0]) / 2, (short[0][1] + short[1][1]) / 2
            yield x + (aim[0] - x) * share, y + (aim[1] - y) * share


def _reach(points: Sequence[Point]) -> Area:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Area(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def _near(point: Point, area: Area) -> bool:
    x, y = point
    return area.x <= x <= area.right and area.y <= y <= area.bottom


def _inside(point: Point, corners: Sequence[Point]) -> bool:
    """Return whether a point lies within a polygon, by the edges that a ray from it crosses."""
    x, y = point
    crossed = False
    for (x0, y0), (x1, y1) in pairwise([*corners, corners[0]]):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            crossed = not crossed
    return crossed


def painting_order(boxes: Sequence[Box]) -> tuple[int, ...]:
    """Return the boxes' numbers so that each comes after all that it hides.

    Of two boxes apart along an axis, that further right, further out or higher up is the nearer.
    """
    return _order(tuple(boxes))


# A wall is drawn for the screen and again for each paper: the order is the same.
@lru_cache(maxsize=256)
def _order(boxes: tuple[Box, ...]) -> tuple[int, ...]:
    before: list[list[int]] = [[] for _ in boxes]
    waiting = [0] * len(boxes)
    for i, one in enumerate(boxes):
        for j in range(i):
            nearer = _nearer(one, boxes[j])
            if nearer and overlap(one, boxes[j]):
                first, then = (j, i) if nearer > 0 else (i, j)
                before[first].append(then)
                waiting[then] += 1
    ready = [i for i, count in enumerate(waiting) if not count]
    found: list[int] = []
    left = set(range(len(boxes)))
    while left:
        # Three boxes can hide each other in a ring; the furthest then goes first.
        index = ready.pop() if ready else min(left, key=lambda k: _depth(boxes[k]))
        if index not in left:
            continue
        left.discard(index)
        found.append(index)
        for then in before[index]:
            waiting[then] -= 1
            if not waiting[then] and then in left:
                ready.append(then)
    return tuple(found)


def _nearer(one: Box, other: Box) -> int:
    """Return 1 where `one` stands before `other` as seen, -1 where behind, 0 where neither."""
    for axis in "xyz":
        low, far = getattr(one, axis), getattr(other, axis)
        if low >= far + getattr(other, _SIZES[axis]):
            return 1
        if far >= low + getattr(one, _SIZES[axis]):
            return -1
    return 0


def overlap(one: Box, other: Box) -> bool:
    """Return whether the outlines of two boxes may meet on paper."""
    return all(
        low < end and start < high
        for (low, high), (start, end) in zip(_hexagon(one), _hexagon(other), strict=True)
    )


@lru_cache(maxsize=4096)
def _hexagon(box: Box) -> tuple[tuple[float, float], ...]:
    """Return the box's outline as its reach in three directions of paper: it is a hexagon."""
    x, y, z = ends(box, "x"), ends(box, "y"), ends(box, "z")
    return (
        (x[0] - y[1], x[1] - y[0]),
        (x[0] - z[1], x[1] - z[0]),
        (y[0] - z[1], y[1] - z[0]),
    )


def _depth(box: Box) -> int:
    return box.x + box.y + box.z


def ends(box: Box, axis: str) -> tuple[int, int]:
    """Return where a box begins and ends along "x", "y" or "z", in tenths."""
    low = int(getattr(box, axis))
    return low, low + int(getattr(box, _SIZES[axis]))


def _flat(x: float, y: float, z: float) -> Point:
    return (x - y) * _COS, (x + y) * _SIN - z


def standing(frame: Frame, member: Member) -> Box:
    """Return a member's box; what follows the ceiling as if level at its highest point, so that it
    comes after all that stands under it."""
    box = member.box
    if not member.follows_ceiling:
        return box
    top = max(z for _, z in ceiling_line(frame, box.x, box.x + box.dx))
    return replace(box, z=Tenths(int(top) - box.dz))


def sides_of(
    frame: Frame, member: Member, origin: Point, scale: float, *, look: Look = SOLID
) -> list[Polygon]:
    """Return top, front and right end of a member, with the wall's origin at `origin` on paper."""
    box = member.box
    (x0, x1), (y0, y1), (z0, z1) = ends(box, "x"), ends(box, "y"), ends(box, "z")
    line: list[tuple[int, float]] = [(x0, z1), (x1, z1)]
    if member.follows_ceiling:
        line = ceiling_line(frame, x0, x1)
        z1 = round(line[-1][1])
        z0 = z1 - box.dz
    back = line[::-1]
    top, front, end = look.fills
    sides: tuple[tuple[str, tuple[tuple[float, float, float], ...]], ...] = (
        (top, (*((x, y0, z) for x, z in line), *((x, y1, z) for x, z in back))),
        (front, (*((x, y1, z) for x, z in line), *((x, y1, z - box.dz) for x, z in back))),
        (end, ((x1, y0, z0), (x1, y1, z0), (x1, y1, z1), (x1, y0, z1))),
    )
    return [
        Polygon(
            tuple(
                (origin[0] + p[0] / 10 / scale, origin[1] + p[1] / 10 / scale)
                for p in (_flat(*corner) for corner in side)
            ),
            fill,
            look.pen,
        )
        for fill, side in sides
    ]
