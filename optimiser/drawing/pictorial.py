"""The frame in three dimensions: every timber as a box, nearer ones over those behind, to scale.

An isometric view from before the wall, its right and above. Boxes that do not share space can be
drawn one after another so that none hides what stands before it: the order comes from the boxes
alone. Boards are left off; they would hide the frame.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from optimiser.domain.frame import Box, Frame, Member
from optimiser.drawing.hatch import Fill
from optimiser.drawing.labels import Block, put
from optimiser.drawing.letters import plain, shorten
from optimiser.drawing.page import (
    HEADER,
    WALL_CAUTION,
    fill_entry,
    footer,
    header,
    inside,
    text_entry,
)
from optimiser.drawing.scene import (
    FINE,
    INK,
    PAPER,
    TINT,
    Area,
    Item,
    Page,
    Paper,
    Pen,
    Point,
    Polygon,
    scale_for,
    scale_text,
)
from optimiser.drawing.svg import svg_text
from optimiser.drawing.table import Cell, Row, draw_rows, paragraph
from optimiser.drawing.wall_page import ceiling_line
from optimiser.units import Tenths, mm

_PEN = Pen(INK, FINE)
# Sides of a box by how much light falls on them: top, front, right end.
_TOP, _FRONT, _END = PAPER, TINT, "#b9b9b9"
# The list of parts at the right, and room round the view for marks at its edges, in mm of paper.
_SIDE, _AROUND = 64.0, 4.0
_COUNT_AT, _LENGTH_AT = 42.0, 56.0
_COS, _SIN = math.cos(math.pi / 6), 0.5


def draw_pictorial(frame: Frame, *, title: str) -> str:
    """Return an isometric view of a framed wall as one A3 page, SVG in mm; see `pictorial_page`."""
    return svg_text(pictorial_page(frame, title=title))


def draw_box(frame: Frame, group: str, *, title: str) -> str:
    """Return one box of a framed wall as one A3 page, SVG in mm; see `box_page`."""
    return svg_text(box_page(frame, group, title=title))


def pictorial_page(frame: Frame, *, title: str, paper: Paper = Paper.A3) -> Page:
    """Return an isometric view of a framed wall.

    x runs down to the right, out runs down to the left, up runs up; all three to one scale. Each
    mark stands once, on the part of it that shows most; those that hide are listed.
    """
    return _page(frame, frame.members, title, paper, each=False)


def box_page(frame: Frame, group: str, *, title: str, paper: Paper = Paper.A3) -> Page:
    """Return one box of a framed wall, its members of one `group`, seen like the whole frame.

    Every part that shows has its mark, and the parts are listed beside it.
    """
    return _page(frame, [m for m in frame.members if m.group == group], title, paper, each=True)


def _page(frame: Frame, members: Sequence[Member], title: str, paper: Paper, *, each: bool) -> Page:
    boxes = [_standing(frame, member) for member in members]
    corners = [
        _flat(x, y, z)
        for box in boxes
        for x in _ends(box, "x")
        for y in _ends(box, "y")
        for z in _ends(box, "z")
    ]
    left, right = min(p[0] for p in corners), max(p[0] for p in corners)
    top, bottom = min(p[1] for p in corners), max(p[1] for p in corners)
    margins = inside(*paper.level)
    entries = (
        fill_entry("timber; boards left off", Fill.TINT, _PEN),
        text_entry("mark of a part" if each else "mark of a part, each once", "U1"),
    )
    foot, height = footer(entries, WALL_CAUTION, margins)
    deep = margins.height - HEADER - height - 4
    room = margins.width - _SIDE - 2 * _AROUND, deep - 2 * _AROUND
    scale = scale_for((math.ceil(right - left), math.ceil(bottom - top)), room)
    shift = (
        margins.x + _AROUND + (room[0] - (right - left) / 10 / scale) / 2 - left / 10 / scale,
        margins.y + HEADER + _AROUND + (room[1] - (bottom - top) / 10 / scale) / 2
        - top / 10 / scale,
    )  # fmt: skip
    order = painting_order(boxes)
    drawn = [_faces(frame, members[index], shift, scale) for index in order]
    marks, hidden = _marks([members[index] for index in order], drawn, each=each)
    side = Area(margins.right - _SIDE + 4, margins.y + HEADER, _SIDE - 4, deep)
    facts = (f"job {plain(frame.job)}", f"isometric, scale {scale_text(scale)} along each axis")
    everything = (
        *header(title, facts, margins),
        *(side for sides in drawn for side in sides),
        *marks,
        *draw_rows(_rows(members, hidden, side.width), side, side.width + 2),
        *foot,
    )
    return Page(*paper.level, title, everything)


def _marks(
    members: Sequence[Member], drawn: Sequence[Sequence[Polygon]], *, each: bool
) -> tuple[list[Item], list[str]]:
    """Return the marks on parts in the order they are drawn, and those with no room in sight."""
    items: list[Item] = []
    taken: list[Area] = []
    shown: set[str] = set()
    # Long parts first: the short ones are nearer the eye and easier to find by what is left.
    for index in sorted(range(len(members)), key=lambda i: (-members[i].length, i)):
        mark = members[index].mark
        if mark in shown and not each:
            continue
        later = [side.points for sides in drawn[index + 1 :] for side in sides]
        for point in _points_on(drawn[index]):
            label = put(Block((plain(mark),), bold=(0,)), *point)
            covered = any(_inside(point, side) for side in later)
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
            ends = min(
                pairwise([*corners, corners[0]]), key=lambda edge: math.dist(edge[0], edge[1])
            )
            aim = (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
            yield x + (aim[0] - x) * share, y + (aim[1] - y) * share


def _inside(point: Point, corners: Sequence[Point]) -> bool:
    """Return whether a point lies within a polygon, by the edges that a ray from it crosses."""
    x, y = point
    crossed = False
    for (x0, y0), (x1, y1) in pairwise([*corners, corners[0]]):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            crossed = not crossed
    return crossed


def _rows(members: Sequence[Member], hidden: Sequence[str], width: float) -> list[Row]:
    """Return the list of parts: mark, kind, how many, how long."""
    rows: list[Row] = []
    if hidden:
        names = ", ".join(plain(mark) for mark in hidden)
        rows += [*paragraph(f"Marks hidden in this view: {names}", width), Row(())]
    heads = (Cell(0, "Timbers", bold=True), Cell(_COUNT_AT, "pieces", "end", bold=True))
    rows.append(Row((*heads, Cell(_LENGTH_AT, "length", "end", bold=True)), ruled=True))
    counts = Counter((m.mark, m.kind, m.length) for m in members)
    for mark, kind, length in sorted(counts, key=lambda part: (part[0][:1], len(part[0]), part)):
        name = shorten(f"{plain(mark)}  {plain(kind)}", _COUNT_AT - 12)
        count = Cell(_COUNT_AT, str(counts[mark, kind, length]), "end")
        rows.append(Row((Cell(0, name), count, Cell(_LENGTH_AT, mm(length), "end"))))
    return rows


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


def _faces(frame: Frame, member: Member, shift: Point, scale: float) -> list[Polygon]:
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
