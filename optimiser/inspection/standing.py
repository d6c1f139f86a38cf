"""Where timbers stand: nothing in one another, nothing outside the wall, no end on air.

Knows boxes only; why a member is there is the business of whoever put it there.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Frame, Member
from optimiser.inspection.space import (
    ROUNDING,
    Block,
    Corners,
    block_of,
    ceilings,
    corners,
    holes_of,
    is_filled,
    lying,
    meeting,
)

_AXIS_NAMES = "xyz"
# An end rests where other timbers lie against half of it at the least: common practice, no source.
_LEAST_REST = 2


def name_of(member: Member) -> str:
    """Say which member is meant: its mark, kind and place."""
    box = member.box
    place = f"{box.x / 10:g}, {box.y / 10:g}, {box.z / 10:g}"
    return f"{member.kind} {member.mark or '(no mark)'} at {place}"


def shared_space(frame: Frame) -> Iterator[Fault]:
    """Yield each two pieces, timbers and boards, that stand in one another."""
    yield from _members(frame)
    boxes, flat = corners(m.box for m in frame.members), corners(b.box for b in frame.boards)
    holes = [holes_of(board) for board in frame.boards]
    for i, j in np.argwhere(meeting(boxes, flat)):
        member, board = frame.members[i], frame.boards[j]
        low, high = int(flat[j, 0, 0]), int(flat[j, 1, 0])
        common = lying(frame, member, low, high).shared(block_of(board.box))
        if common is not None and is_filled(common, holes[j]):
            yield Fault(name_of(member), f"shares space with board {board.mark} of {board.face}")
    for i, j in np.argwhere(np.triu(meeting(flat, flat), 1)):
        one, other = frame.boards[i], frame.boards[j]
        common = block_of(one.box).shared(block_of(other.box))
        if common is not None and is_filled(common, holes[i] + holes[j]):
            yield Fault(
                f"board {one.mark} of {one.face}",
                f"shares space with board {other.mark} of {other.face}",
            )


def _members(frame: Frame) -> Iterator[Fault]:
    bent = [m for m in frame.members if m.follows_ceiling]
    flat = [m for m in frame.members if not m.follows_ceiling]
    boxes = corners(m.box for m in flat)
    for i, j in np.argwhere(np.triu(meeting(boxes, boxes), 1)):
        yield Fault(name_of(flat[i]), f"shares space with {name_of(flat[j])}")
    pairs = [(one, other) for one in bent for other in flat]
    for one, other in [*pairs, *combinations(bent, 2)]:
        a, b = one.box, other.box
        start, end = max(a.x, b.x), min(a.x + a.dx, b.x + b.dx)
        if start >= end or a.y + a.dy <= b.y or b.y + b.dy <= a.y:
            continue
        common = lying(frame, one, start, end).shared(lying(frame, other, start, end))
        if common is not None and common.high[2] - common.low[2] > ROUNDING:
            yield Fault(name_of(one), f"shares space with {name_of(other)}")


def outside(frame: Frame) -> Iterator[Fault]:
    """Yield each timber or board that leaves the wall, or stands in something of the house."""
    limits = Block((0, 0, 0), (int(frame.width), int(frame.depth), 1))
    for member in frame.members:
        block = block_of(member.box)
        if _leaves(block, limits) or block.low[2] < 0 or _over(frame, block, member.box.dz):
            yield Fault(name_of(member), "reaches outside the wall")
    for board in frame.boards:
        if _leaves(block_of(board.box), limits):
            yield Fault(f"board {board.mark} of {board.face}", "reaches outside the wall")
    for solid in frame.solids:
        stands = block_of(solid.box)
        for member in frame.members:
            if block_of(member.box).shared(stands):
                yield Fault(name_of(member), f"stands in {solid.name}")
        for board in frame.boards:
            if block_of(board.box).shared(stands):
                yield Fault(f"board {board.mark} of {board.face}", f"stands in {solid.name}")


def _leaves(block: Block, limits: Block) -> bool:
    return any(block.low[i] < 0 or block.high[i] > limits.high[i] for i in range(2))


def _over(frame: Frame, block: Block, height: int) -> bool:
    lowest, _ = ceilings(frame.levels, block.low[0], block.high[0])
    return block.low[2] + height > lowest + ROUNDING


def loose_ends(frame: Frame, *, fit: int) -> Iterator[Fault]:
    """Yield each end of a timber, plates apart, that bears on no other; `fit`: what uprights are
    cut short under the plate over them."""
    members = frame.members
    boxes = corners(m.box for m in members)
    axes = np.array([_axis(member) for member in members])
    asked = np.array([not member.kind.endswith("plate") for member in members], dtype=np.bool_)
    for member in members:
        if int(member.length) not in (member.box.dx, member.box.dy, member.box.dz):
            yield Fault(name_of(member), f"is {member.length / 10:g} long, but not in its place")
    for axis in range(3):
        for way in (0, 1):
            ends = np.flatnonzero(asked & (axes == axis))
            held = _held(frame, boxes, ends, (axis, way), fit)
            for number in ends[~held]:
                yield Fault(name_of(members[number]), f"{('start', 'end')[way]} bears on nothing")


def _axis(member: Member) -> int:
    """Return along which axis a member runs: by its length, else by what it is."""
    box = member.box
    runs = [i for i, size in enumerate((box.dx, box.dy, box.dz)) if size == member.length]
    if len(runs) == 1:
        return runs[0]
    return 2 if "upright" in member.kind else 1 if member.kind == "return" else 0


def _held(
    frame: Frame, boxes: Corners, ends: NDArray[np.int64], end: tuple[int, int], fit: int
) -> NDArray[np.bool_]:
    """Return which of the timbers `ends` bear on others at one end, along one axis."""
    axis, way = end
    sides = [i for i in range(3) if i != axis]
    own, others = boxes[ends], _grown(frame, boxes)
    low = np.maximum(own[:, None, 0], others[None, :, 0])[:, :, sides]
    high = np.minimum(own[:, None, 1], others[None, :, 1])[:, :, sides]
    area = np.clip(high - low, 0, None).prod(axis=2)
    at = own[:, way, axis]
    slack = fit if (axis, way) == (2, 1) else 0
    touching = np.abs(_faces_toward(frame, boxes, own, end, fit) - at[:, None]) <= slack
    touching[np.arange(len(ends)), ends] = False
    face = (own[:, 1] - own[:, 0])[:, sides].prod(axis=1)
    held = (area * touching).sum(axis=1) * _LEAST_REST >= face
    if axis == 0:
        # A sill or head may lie on or under a short upright instead of ending against one.
        flush = boxes[None, :, 1, 2] == own[:, None, 0, 2]
        flush |= boxes[None, :, 0, 2] == own[:, None, 1, 2]
        inside = (boxes[None, :, 0, 0] <= at[:, None]) & (at[:, None] <= boxes[None, :, 1, 0])
        in_line = (boxes[None, :, :, 1] == own[:, None, :, 1]).all(axis=2)
        held |= (flush & inside & in_line).any(axis=1)
    return np.asarray(held)


def _grown(frame: Frame, boxes: Corners) -> Corners:
    """Return the boxes, those that follow the ceiling with all the heights they come to."""
    grown = boxes.copy()
    for i, member in enumerate(frame.members):
        if member.follows_ceiling:
            grown[i, 1, 2] = lying(frame, member, int(boxes[i, 0, 0]), int(boxes[i, 1, 0])).high[2]
    return grown


def _faces_toward(
    frame: Frame, boxes: Corners, own: Corners, end: tuple[int, int], fit: int
) -> NDArray[np.float64]:
    """Return where each box's face lies that looks at an end: one that follows the ceiling has
    its underside at another height for each."""
    axis, way = end
    found = np.broadcast_to(boxes[None, :, 1 - way, axis], (len(own), len(boxes))).astype(float)
    if axis == 2 and way == 1 and frame.levels:
        xs = [float(level.x) for level in frame.levels]
        tops = [float(level.ceiling) for level in frame.levels]
        left, right = np.interp(own[:, 0, 0], xs, tops), np.interp(own[:, 1, 0], xs, tops)
        lowest = np.minimum(left, right)
        for x, top in zip(xs, tops, strict=True):
            inside = (own[:, 0, 0] < x) & (x < own[:, 1, 0])
            lowest = np.where(inside, np.minimum(lowest, top), lowest)
        for i, member in enumerate(frame.members):
            if member.follows_ceiling:
                under = lowest - member.box.dz
                # Within its fit and the rounding of the levels an upright ends at the plate.
                near = np.abs(under - own[:, 1, 2]) <= fit + 2 * ROUNDING
                found[:, i] = np.where(near, own[:, 1, 2], under)
    return found
