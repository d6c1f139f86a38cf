"""One box of a wall from the front and from above, with its sizes from the wall's own lines.

What stands beside the box and belongs to another is outlined as far as the view reaches.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TypeAlias

from optimiser.domain.frame import Box, Frame, Member
from optimiser.drawing.dimensions import signed
from optimiser.drawing.isometric import ends, standing
from optimiser.drawing.section_page import Piece, Section
from optimiser.drawing.wall_page import ceiling_line, height_at
from optimiser.units import Tenths, mm

# How far a view reaches past its box, so that what it meets is seen, and how much of the existing
# wall is drawn, in tenths.
REACH = 1_000
_HOUSE = 400
# Parts nearer than this touch: uprights under a sloping plate have a gap at one side. Parts that
# meet over less than the second have but an edge in common. Tenths.
_TOUCH, _SHARED = 50, 100
# Heights of which one is written for all, in tenths: levels out by less are the same rail.
_SAME = 100

Window: TypeAlias = tuple[int, int, int, int]


def meeting(frame: Frame, members: Sequence[Member]) -> list[Member]:
    """Return the wall's other members that touch one of `members` with a face, in their order."""
    own = [standing(frame, member) for member in members]
    # Two places may be held by equal parts: a member is told by its place, not by its mark.
    inside = {(member.mark, member.box) for member in members}
    others = [(m, standing(frame, m)) for m in frame.members if (m.mark, m.box) not in inside]
    return [m for m, box in others if any(_touch(box, mine) for mine in own)]


def clipped(member: Member, bounds: Box) -> Member | None:
    """Return as much of a member as lies within `bounds`, None where nothing does.

    A member that follows the ceiling keeps its height, which comes from the ceiling.
    """
    axes = "xy" if member.follows_ceiling else "xyz"
    cut: dict[str, Tenths] = {}
    for axis in axes:
        (low, high), (least, most) = ends(member.box, axis), ends(bounds, axis)
        low, high = max(low, least), min(high, most)
        if low >= high:
            return None
        cut |= {axis: Tenths(low), f"d{axis}": Tenths(high - low)}
    place = {name: getattr(member.box, name) for name in ("x", "y", "z", "dx", "dy", "dz")}
    return replace(member, box=Box(**{**place, **cut}))


def around(boxes: Sequence[Box]) -> Box:
    """Return the box that holds all of `boxes`, and `REACH` more on every side."""
    low = {axis: min(ends(box, axis)[0] for box in boxes) - REACH for axis in "xyz"}
    high = {axis: max(ends(box, axis)[1] for box in boxes) + REACH for axis in "xyz"}
    corner = {axis: Tenths(low[axis]) for axis in "xyz"}
    size = {f"d{axis}": Tenths(high[axis] - low[axis]) for axis in "xyz"}
    return Box(**corner, **size)


def front_view(frame: Frame, members: Sequence[Member], beside: Sequence[Member]) -> Section:
    """Return the box from the front: sizes along it from the centre line, heights from the datum.

    Written are the left faces of its uprights, its ends, and the undersides of what lies level.
    """
    boxes = [standing(frame, member) for member in members]
    left, right = _range(boxes, "x")
    low, high = _range(boxes, "z")
    x0, x1 = max(left - REACH, 0), min(right + REACH, int(frame.width))
    floor = round(min(height_at(frame, x, ceiling=False) for x in (x0, x1)))
    bends = [z for _, z in ceiling_line(frame, x0, x1)]
    z0, z1 = max(low - REACH, floor), min(high + REACH, round(max(bends)))
    window = (x0, x1, z0, z1)
    half = int(frame.width) // 2
    ups = {int(m.box.x) for m in members if "upright" in m.kind} | {left, right}
    levels = [int(standing(frame, m).z) for m in members if "upright" not in m.kind]
    heights = _apart([low, *levels, high])
    seen = _nearest_last(frame, members, "y", ("x", "z"))
    line = [(x - x0, round(z) - z0) for x, z in ceiling_line(frame, x0, x1)]
    ground = [(x - x0, round(height_at(frame, x, ceiling=False)) - z0) for x in (x0, x1)]
    edges = [(*a, *b) for a, b in pairwise(line)] if z1 >= min(bends) else []
    edges += [(*ground[0], *ground[1])] if z0 <= floor else []
    edges += [(0, 0, 0, z1 - z0)] if x0 == 0 and not frame.left_free else []
    edges += (
        [(x1 - x0, 0, x1 - x0, z1 - z0)] if x1 == int(frame.width) and not frame.right_free else []
    )
    return Section(
        name="from the front",
        size=(x1 - x0, z1 - z0),
        timbers=tuple(_front(frame, m, window) for m in seen),
        boards=(),
        across=tuple((x - x0, signed(x - half) if x != half else "0") for x in sorted(ups)),
        upward=tuple((z - z0, signed(z).removeprefix("+")) for z in heights),
        edges=tuple(edges),
        centre=half - x0 if x0 <= half <= x1 else None,
        beyond=_outlined(_front(frame, m, window) for m in beside),
        whole=(left - x0, right - x0, low - z0, high - z0),
    )


def top_view(frame: Frame, members: Sequence[Member], beside: Sequence[Member]) -> Section:
    """Return the box from above: the existing wall at the top, distances from it at the left."""
    boxes = [standing(frame, member) for member in members]
    left, right = _range(boxes, "x")
    back, front = _range(boxes, "y")
    x0, x1 = max(left - REACH, 0), min(right + REACH, int(frame.width))
    y0, y1 = max(back - REACH, -_HOUSE), front + REACH // 2
    half = int(frame.width) // 2
    out = {y for box in boxes for y in ends(box, "y")}
    seen = _nearest_last(frame, members, "z", ("x", "y"))
    wide = x1 - x0

    def flat(member: Member) -> Piece:
        box = member.box
        place = int(box.x) - x0, y1 - int(box.y + box.dy)
        return Piece(*place, int(box.dx), int(box.dy), mark=member.mark)

    behind = y0 < 0
    return Section(
        name="from above",
        size=(wide, y1 - y0),
        timbers=tuple(flat(m) for m in seen),
        boards=(),
        across=tuple((x - x0, signed(x - half) if x != half else "0") for x in (left, right)),
        upward=tuple((y1 - y, mm(y)) for y in sorted(out | ({0} if behind else set()))),
        house=(Piece(0, y1, wide, -y0),) if behind else (),
        edges=((0, y1, wide, y1),) if behind else (),
        centre=half - x0 if x0 <= half <= x1 else None,
        beyond=_outlined(flat(m) for m in beside),
        whole=(left - x0, right - x0, y1 - front, y1 - back),
    )


def _front(frame: Frame, member: Member, window: Window) -> Piece:
    """Return a member from the front, from the window's lower left corner."""
    x0, _, z0, _ = window
    box = standing(frame, member)
    outline: tuple[tuple[int, int], ...] = ()
    if member.follows_ceiling:
        tops = [(x - x0, round(z) - z0) for x, z in ceiling_line(frame, box.x, box.x + box.dx)]
        outline = (*tops, *((x, z - box.dz) for x, z in reversed(tops)))
    place = int(box.x) - x0, int(box.z) - z0
    return Piece(*place, int(box.dx), int(box.dz), mark=member.mark, outline=outline)


def _nearest_last(
    frame: Frame, members: Sequence[Member], toward: str, flat: tuple[str, str]
) -> list[Member]:
    """Return the members in the order they are painted, less those that another hides wholly."""
    boxes = [standing(frame, member) for member in members]
    order = sorted(range(len(members)), key=lambda i: (ends(boxes[i], toward)[1], i))
    kept: list[Member] = []
    for at, index in enumerate(order):
        nearer = (boxes[i] for i in order[at + 1 :])
        if not any(all(_holds(box, boxes[index], axis) for axis in flat) for box in nearer):
            kept.append(members[index])
    return kept


def _holds(one: Box, other: Box, axis: str) -> bool:
    (low, high), (least, most) = ends(one, axis), ends(other, axis)
    return low <= least and most <= high


def _outlined(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    return tuple(dict.fromkeys(replace(piece, mark="") for piece in pieces))


def _range(boxes: Sequence[Box], axis: str) -> tuple[int, int]:
    return min(ends(box, axis)[0] for box in boxes), max(ends(box, axis)[1] for box in boxes)


def _touch(one: Box, other: Box) -> bool:
    gaps = (
        _gap(one.x, one.dx, other.x, other.dx),
        _gap(one.y, one.dy, other.y, other.dy),
        _gap(one.z, one.dz, other.z, other.dz),
    )
    return max(gaps) <= _TOUCH and sorted(gaps)[1] <= -_SHARED


def _gap(low: int, size: int, other: int, its: int) -> int:
    """Return how far two stretches are apart; below 0 by how much they overlap."""
    return max(low, other) - min(low + size, other + its)


def _apart(heights: Iterable[int]) -> list[int]:
    """Return heights in order, less those within 10 mm above one that is written."""
    kept: list[int] = []
    for height in sorted(set(heights)):
        if not kept or height - kept[-1] > _SAME:
            kept.append(height)
    return kept
