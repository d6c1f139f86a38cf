"""The frame in three dimensions: every timber as a box, nearer ones over those behind, to scale.

An isometric view from before the wall, its right and above. Boxes that do not share space can be
drawn one after another so that none hides what stands before it: the order comes from the boxes
alone. Boards are left off; they would hide the frame.
"""

from __future__ import annotations

import math
from dataclasses import replace

from optimiser.domain.frame import Box, Frame, Member
from optimiser.drawing.hatch import Fill
from optimiser.drawing.letters import plain
from optimiser.drawing.page import HEADER, WALL_CAUTION, fill_entry, footer, header, inside
from optimiser.drawing.scene import (
    FINE,
    INK,
    PAPER,
    TINT,
    Item,
    Page,
    Pen,
    Point,
    Polygon,
    scale_for,
    scale_text,
)
from optimiser.drawing.svg import svg_text
from optimiser.drawing.wall_page import ceiling_line
from optimiser.units import Tenths

_A3 = (420.0, 297.0)
_PEN = Pen(INK, FINE)
# Sides of a box by how much light falls on them: top, front, right end.
_TOP, _FRONT, _END = PAPER, TINT, "#b9b9b9"
_COS, _SIN = math.cos(math.pi / 6), 0.5


def draw_pictorial(frame: Frame, *, title: str) -> str:
    """Return an isometric view of a framed wall as one A3 page, SVG in mm.

    x runs down to the right, out runs down to the left, up runs up; all three to one scale.
    """
    boxes = [_standing(frame, member) for member in frame.members]
    corners = [
        _flat(x, y, z)
        for box in boxes
        for x in _ends(box, "x")
        for y in _ends(box, "y")
        for z in _ends(box, "z")
    ]
    left, right = min(p[0] for p in corners), max(p[0] for p in corners)
    top, bottom = min(p[1] for p in corners), max(p[1] for p in corners)
    margins = inside(*_A3)
    entries = (fill_entry("timber; boards left off", Fill.TINT, _PEN),)
    foot, height = footer(entries, WALL_CAUTION, margins)
    room = margins.width, margins.height - HEADER - height - 4
    scale = scale_for((math.ceil(right - left), math.ceil(bottom - top)), room)
    shift = (
        margins.x + (room[0] - (right - left) / 10 / scale) / 2 - left / 10 / scale,
        margins.y + HEADER + (room[1] - (bottom - top) / 10 / scale) / 2 - top / 10 / scale,
    )
    items: list[Item] = []
    for index in painting_order(boxes):
        items += _faces(frame, frame.members[index], shift, scale)
    facts = (f"job {plain(frame.job)}", f"isometric, scale {scale_text(scale)} along each axis")
    return svg_text(Page(*_A3, title, (*header(title, facts, margins), *items, *foot)))


def painting_order(boxes: list[Box]) -> list[int]:
    """Return the boxes' numbers so that each comes after all that it hides.

    Of two boxes apart along an axis, that further right, further out or higher up is the nearer.
    """
    before: list[list[int]] = [[] for _ in boxes]
    waiting = [0] * len(boxes)
    for i, one in enumerate(boxes):
        for j in range(i):
            nearer = _nearer(one, boxes[j])
            if nearer and _overlap(one, boxes[j]):
                first, then = (j, i) if nearer > 0 else (i, j)
                before[first].append(then)
                waiting[then] += 1
    ready = [i for i, count in enumerate(waiting) if not count]
    order: list[int] = []
    left = set(range(len(boxes)))
    while left:
        # Three boxes can hide each other in a ring; the furthest then goes first.
        index = ready.pop() if ready else min(left, key=lambda k: _depth(boxes[k]))
        if index not in left:
            continue
        left.discard(index)
        order.append(index)
        for then in before[index]:
            waiting[then] -= 1
            if not waiting[then] and then in left:
                ready.append(then)
    return order


def _nearer(one: Box, other: Box) -> int:
    """Return 1 where `one` stands before `other` as seen, -1 where behind, 0 where neither."""
    for axis in "xyz":
        a, b = _ends(one, axis), _ends(other, axis)
        if a[0] >= b[1]:
            return 1
        if b[0] >= a[1]:
            return -1
    return 0


def _overlap(one: Box, other: Box) -> bool:
    """Return whether the outlines of two boxes may meet on paper."""
    a, b = _hexagon(one), _hexagon(other)
    return all(p[0] < q[1] and q[0] < p[1] for p, q in zip(a, b, strict=True))


def _hexagon(box: Box) -> tuple[tuple[float, float], ...]:
    """Return the box's outline as its reach in three directions of paper: it is a hexagon."""
    x, y, z = _ends(box, "x"), _ends(box, "y"), _ends(box, "z")
    return (
        (x[0] - y[1], x[1] - y[0]),
        (x[0] - z[1], x[1] - z[0]),
        (y[0] - z[1], y[1] - z[0]),
    )


def _depth(box: Box) -> int:
    return box.x + box.y + box.z


def _ends(box: Box, axis: str) -> tuple[int, int]:
    low = int(getattr(box, axis))
    return low, low + int(getattr(box, f"d{axis}"))


def _flat(x: float, y: float, z: float) -> Point:
    return (x - y) * _COS, (x + y) * _SIN - z


def _standing(frame: Frame, member: Member) -> Box:
    """Return a member's box; what follows the ceiling as if level at its highest point, so that it
    comes after all that stands under it."""
    box = member.box
    if not member.follows_ceiling:
        return box
    top = max(z for _, z in ceiling_line(frame, box.x, box.x + box.dx))
    return replace(box, z=Tenths(int(top) - box.dz))


def _faces(frame: Frame, member: Member, shift: Point, scale: float) -> list[Item]:
    box = member.box
    (x0, x1), (y0, y1), (z0, z1) = _ends(box, "x"), _ends(box, "y"), _ends(box, "z")
    line: list[tuple[int, float]] = [(x0, z1), (x1, z1)]
    if member.follows_ceiling:
        line = ceiling_line(frame, x0, x1)
        z1 = round(line[-1][1])
        z0 = z1 - box.dz
    back = line[::-1]
    sides: tuple[tuple[str, tuple[tuple[float, float, float], ...]], ...] = (
        (_TOP, (*((x, y0, z) for x, z in line), *((x, y1, z) for x, z in back))),
        (_FRONT, (*((x, y1, z) for x, z in line), *((x, y1, z - box.dz) for x, z in back))),
        (_END, ((x1, y0, z0), (x1, y1, z0), (x1, y1, z1), (x1, y0, z1))),
    )
    return [
        Polygon(
            tuple(
                (shift[0] + p[0] / 10 / scale, shift[1] + p[1] / 10 / scale)
                for p in (_flat(*corner) for corner in side)
            ),
            fill,
            _PEN,
        )
        for fill, side in sides
    ]
