"""Where timbers stand: nothing in one another, nothing outside the wall, no end on air.

Knows boxes only; why a member is there is the business of whoever put it there.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Frame, Member
from optimiser.inspection.space import (
    ROUNDING,
    Block,
    Corners,
    Pieces,
    corners,
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


def shared_space(pieces: Pieces) -> Iterator[Fault]:
    """Yield each two pieces, timbers and boards, that stand in one another."""
    frame, flats, holes = pieces.frame, pieces.flats, pieces.holes
    yield from _members(pieces)
    for i, j in np.argwhere(meeting(pieces.members, pieces.boards)):
        member, board, flat = frame.members[i], frame.boards[j], flats[j]
        common = lying(frame, member, flat.low[0], flat.high[0]).shared(flat)
        if common is not None and is_filled(common, holes[j]):
            yield Fault(name_of(member), f"shares space with board {board.mark} of {board.face}")
    for i, j in np.argwhere(np.triu(meeting(pieces.boards, pieces.boards), 1)):
        one, other = frame.boards[i], frame.boards[j]
        common = flats[i].shared(flats[j])
        if common is not None and is_filled(common, holes[i] + holes[j]):
            yield Fault(
                f"board {one.mark} of {one.face}",
                f"shares space with board {other.mark} of {other.face}",
            )


def _members(pieces: Pieces) -> Iterator[Fault]:
    frame, boxes = pieces.frame, pieces.members
    members = frame.members
    bent = np.array(pieces.bent, dtype=np.int64)
    follows = np.zeros(len(members), dtype=np.bool_)
    follows[bent] = True
    level = np.flatnonzero(~follows)
    for i, j in np.argwhere(np.triu(meeting(boxes[level], boxes[level]), 1)):
        yield Fault(name_of(members[level[i]]), f"shares space with {name_of(members[level[j]])}")
    # What follows the ceiling is compared where it lies there.
    grown = _grown(pieces)
    for i, j in np.argwhere(meeting(grown[bent], grown)):
        if follows[j] and j <= bent[i]:
            continue
        one, other = members[bent[i]], members[j]
        start, end = max(one.box.x, other.box.x), min(boxes[bent[i], 1, 0], boxes[j, 1, 0])
        common = lying(frame, one, start, end).shared(lying(frame, other, start, end))
        if common is not None and common.high[2] - common.low[2] > ROUNDING:
            yield Fault(name_of(one), f"shares space with {name_of(other)}")


def outside(pieces: Pieces) -> Iterator[Fault]:
    """Yield each timber or board that leaves the wall, or stands in something of the house."""
    frame = pieces.frame
    limits = Block((0, 0, 0), (int(frame.width), int(frame.depth), 1))
    boxes = pieces.members
    over = boxes[:, 1, 2] > _lowest(frame, boxes) + ROUNDING
    for member, block, above in zip(frame.members, pieces.blocks, over, strict=True):
        if _leaves(block, limits) or block.low[2] < 0 or above:
            yield Fault(name_of(member), "reaches outside the wall")
    for board, block in zip(frame.boards, pieces.flats, strict=True):
        if _leaves(block, limits):
            yield Fault(f"board {board.mark} of {board.face}", "reaches outside the wall")
    solids = corners(solid.box for solid in frame.solids)
    for i, j in np.argwhere(meeting(solids, pieces.members)):
        yield Fault(name_of(frame.members[j]), f"stands in {frame.solids[i].name}")
    for i, j in np.argwhere(meeting(solids, pieces.boards)):
        board = frame.boards[j]
        yield Fault(f"board {board.mark} of {board.face}", f"stands in {frame.solids[i].name}")


def _leaves(block: Block, limits: Block) -> bool:
    return any(block.low[i] < 0 or block.high[i] > limits.high[i] for i in range(2))


def _lowest(frame: Frame, boxes: Corners) -> NDArray[np.float64]:
    """Return the lowest ceiling over each box; without a survey, none."""
    if not frame.levels:
        return np.full(len(boxes), np.inf)
    xs = [float(level.x) for level in frame.levels]
    tops = [float(level.ceiling) for level in frame.levels]
    left, right = np.interp(boxes[:, 0, 0], xs, tops), np.interp(boxes[:, 1, 0], xs, tops)
    lowest = np.minimum(left, right)
    for x, top in zip(xs, tops, strict=True):
        inside = (boxes[:, 0, 0] < x) & (x < boxes[:, 1, 0])
        lowest = np.where(inside, np.minimum(lowest, top), lowest)
    return lowest


def loose_ends(pieces: Pieces, *, fit: int) -> Iterator[Fault]:
    """Yield each end of a timber, plates apart, that bears on no other; `fit`: what uprights are
    cut short under the plate over them."""
    members = pieces.frame.members
    grown = _grown(pieces)
    axes = np.array([_axis(member) for member in members])
    asked = np.array([not member.kind.endswith("plate") for member in members], dtype=np.bool_)
    for member in members:
        if int(member.length) not in (member.box.dx, member.box.dy, member.box.dz):
            yield Fault(name_of(member), f"is {member.length / 10:g} long, but not in its place")
    for axis in range(3):
        for way in (0, 1):
            ends = np.flatnonzero(asked & (axes == axis))
            held = _held(pieces, grown, ends, (axis, way), fit)
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
    pieces: Pieces, grown: Corners, ends: NDArray[np.int64], end: tuple[int, int], fit: int
) -> NDArray[np.bool_]:
    """Return which of the timbers `ends` bear on others at one end, along one axis."""
    axis, way = end
    boxes = pieces.members
    own = boxes[ends]
    at = own[:, way, axis]
    slack = fit if (axis, way) == (2, 1) else 0
    toward = _faces_toward(pieces, own, end, fit)
    touching = toward == at[:, None] if not slack else np.abs(toward - at[:, None]) <= slack
    touching[np.arange(len(ends)), ends] = False
    row, beside = np.nonzero(touching)
    shared = np.ones(len(row), dtype=np.int64)
    face = np.ones(len(ends), dtype=np.int64)
    for side in range(3):
        if side != axis:
            low = np.maximum(own[row, 0, side], grown[beside, 0, side])
            high = np.minimum(own[row, 1, side], grown[beside, 1, side])
            shared *= np.maximum(high - low, 0)
            face *= own[:, 1, side] - own[:, 0, side]
    area = np.bincount(row, shared, minlength=len(ends))
    held = area * _LEAST_REST >= face
    for i in np.flatnonzero(~held) if axis == 0 else ():
        # A sill or head may lie on or under a short upright instead of ending against one.
        flush = (boxes[:, 1, 2] == own[i, 0, 2]) | (boxes[:, 0, 2] == own[i, 1, 2])
        inside = (boxes[:, 0, 0] <= at[i]) & (at[i] <= boxes[:, 1, 0])
        in_line = (boxes[:, :, 1] == own[i, :, 1]).all(axis=1)
        held[i] = (flush & inside & in_line).any()
    return np.asarray(held)


def _grown(pieces: Pieces) -> Corners:
    """Return the boxes, those that follow the ceiling with all the heights they come to."""
    boxes = pieces.members
    grown = boxes.copy()
    for i in pieces.bent:
        start, end = int(boxes[i, 0, 0]), int(boxes[i, 1, 0])
        grown[i, 1, 2] = lying(pieces.frame, pieces.frame.members[i], start, end).high[2]
    return grown


def _faces_toward(
    pieces: Pieces, own: Corners, end: tuple[int, int], fit: int
) -> NDArray[np.float64] | Corners:
    """Return where each box's face lies that looks at an end: one that follows the ceiling has
    its underside at another height for each."""
    axis, way = end
    frame, boxes = pieces.frame, pieces.members
    row = boxes[None, :, 1 - way, axis]
    if axis != 2 or way != 1 or not frame.levels:
        return row
    found = np.broadcast_to(row, (len(own), len(boxes))).astype(float)
    lowest = _lowest(frame, own)
    for i in pieces.bent:
        under = lowest - frame.members[i].box.dz
        # Within its fit and the rounding of the levels an upright ends at the plate.
        near = np.abs(under - own[:, 1, 2]) <= fit + 2 * ROUNDING
        found[:, i] = np.where(near, own[:, 1, 2], under)
    return found
