"""Boxes as corners, and what ceiling hangs over them: what every check of a frame needs.

Knows no rule of the trade. Corners are whole tenths, low and high along x, y and z; only a level
between two surveyed places is a fraction.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import chain, pairwise, product
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from optimiser.domain.frame import Box, Frame, LevelPoint, Member, Toward
from optimiser.domain.parts import CutOut

Corners: TypeAlias = NDArray[np.int64]
# Levels are written in whole tenths, so two of them may differ by this much in a computed height.
ROUNDING = 2
# Higher than any room, in tenths.
_SKY = 10_000_000


@dataclass(frozen=True, slots=True)
class Block:
    """A box from its lowest to its highest corner."""

    low: tuple[int, int, int]
    high: tuple[int, int, int]

    def shared(self, other: Block) -> Block | None:
        """Return the space that both hold, None where they touch at most."""
        low = tuple(map(max, self.low, other.low))
        high = tuple(map(min, self.high, other.high))
        if any(a >= b for a, b in zip(low, high, strict=True)):
            return None
        return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


@dataclass(frozen=True, slots=True)
class Turn:
    """Which axes a flat piece runs across, up and through, and whether each runs upwards."""

    across: int
    up: int
    through: int
    across_plus: bool
    up_plus: bool
    out: int


def block_of(box: Box) -> Block:
    """Return a box's corners."""
    low = int(box.x), int(box.y), int(box.z)
    return Block(low, (low[0] + box.dx, low[1] + box.dy, low[2] + box.dz))


def corners(boxes: Iterable[Box]) -> Corners:
    """Return boxes as an array of shape (n, 2, 3): lowest and highest corners."""
    found = [((b.x, b.y, b.z), (b.x + b.dx, b.y + b.dy, b.z + b.dz)) for b in boxes]
    return np.array(found, dtype=np.int64).reshape(-1, 2, 3)


def meeting(one: Corners, other: Corners) -> NDArray[np.bool_]:
    """Return, for each pair of two lists of boxes, whether they share space."""
    found = np.ones((len(one), len(other)), dtype=np.bool_)
    # Axis by axis: a reduction over three of them takes several times as long.
    for axis in range(3):
        found &= one[:, None, 0, axis] < other[None, :, 1, axis]
        found &= other[None, :, 0, axis] < one[:, None, 1, axis]
    return found


class Pieces:
    """A frame with its timbers and boards as corners, worked out once for all checks of it.

    `members` and `boards` are arrays of shape (n, 2, 3), `blocks` and `flats` the same as blocks,
    `holes` each board's cut-outs in space, `bent` the numbers of the members that follow the
    ceiling.
    """

    def __init__(self, frame: Frame) -> None:
        """Lay a frame out."""
        self.frame = frame
        self.blocks = [block_of(one.box) for one in frame.members]
        self.flats = [block_of(one.box) for one in frame.boards]
        self.members = corners_of(self.blocks)
        self.bent = [i for i, one in enumerate(frame.members) if one.follows_ceiling]
        self.boards = corners_of(self.flats)
        self.turns = [turn_of(one.across, one.up, one.faces) for one in frame.boards]
        self.holes = [
            [hole_of(cut, flat, turn) for cut in board.cut_outs]
            for board, flat, turn in zip(frame.boards, self.flats, self.turns, strict=True)
        ]


def corners_of(blocks: Iterable[Block]) -> Corners:
    """Return blocks as an array of shape (n, 2, 3): lowest and highest corners."""
    sides = chain.from_iterable((*block.low, *block.high) for block in blocks)
    return np.fromiter(sides, dtype=np.int64).reshape(-1, 2, 3)


@cache
def turn_of(across: Toward, up: Toward, faces: Toward) -> Turn:
    """Return the axes of a flat piece."""
    return Turn(
        across="xyz".index(across.value[1]),
        up="xyz".index(up.value[1]),
        through="xyz".index(faces.value[1]),
        across_plus=across.value[0] == "+",
        up_plus=up.value[0] == "+",
        out=1 if faces.value[0] == "+" else -1,
    )


def hole_of(cut: CutOut, piece: Block, turn: Turn) -> Block:
    """Return a cut-out of a flat piece as the space it takes from it."""
    low, high = list(piece.low), list(piece.high)
    for axis, plus, at, size in (
        (turn.across, turn.across_plus, cut.x, cut.width),
        (turn.up, turn.up_plus, cut.y, cut.height),
    ):
        start = piece.low[axis] + at if plus else piece.high[axis] - at - size
        low[axis], high[axis] = start, start + size
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def is_filled(space: Block, holes: Sequence[Block]) -> bool:
    """Return whether any of a space is left outside all holes."""
    if not holes:
        return True
    edges = [
        sorted(
            {space.low[axis], space.high[axis]}
            | {
                side
                for hole in holes
                for side in (hole.low[axis], hole.high[axis])
                if space.low[axis] < side < space.high[axis]
            }
        )
        for axis in range(3)
    ]
    return any(
        not any(
            all(h.low[i] <= cell[i][0] and cell[i][1] <= h.high[i] for i in range(3)) for h in holes
        )
        for cell in product(*(tuple(pairwise(side)) for side in edges))
    )


def ceilings(levels: Sequence[LevelPoint], start: int, end: int) -> tuple[float, float]:
    """Return the lowest and the highest point of the ceiling from one x to another."""
    inside = [float(level.ceiling) for level in levels if start < level.x < end]
    found = [_ceiling(levels, start), *inside, _ceiling(levels, end)]
    return min(found), max(found)


def _ceiling(levels: Sequence[LevelPoint], x: int) -> float:
    if not levels:
        return _SKY
    if x <= levels[0].x:
        return float(levels[0].ceiling)
    for one, other in pairwise(levels):
        if one.x <= x <= other.x:
            share = (x - one.x) / (other.x - one.x) if other.x > one.x else 0.0
            return one.ceiling + (other.ceiling - one.ceiling) * share
    return float(levels[-1].ceiling)


def lying(frame: Frame, member: Member, start: int, end: int) -> Block:
    """Return the part of a member from one x to another, as it lies under the ceiling there.

    A member that follows the ceiling reaches from its lowest to its highest place of that part.
    """
    block = block_of(member.box)
    if not member.follows_ceiling:
        return block
    low, high = ceilings(frame.levels, max(start, block.low[0]), min(end, block.high[0]))
    bottom = int(low) - int(member.box.dz)
    return Block((block.low[0], block.low[1], bottom), (block.high[0], block.high[1], int(high)))


def straight(pieces: Pieces) -> Corners:
    """Return all members in parts that are straight: several of what follows a bent ceiling."""
    parts = (part for i in pieces.bent for part in _straight(pieces.frame, pieces.frame.members[i]))
    return np.concatenate([np.delete(pieces.members, pieces.bent, axis=0), corners_of(parts)])


def _straight(frame: Frame, member: Member) -> Iterator[Block]:
    block = block_of(member.box)
    bends = [int(lv.x) for lv in frame.levels if block.low[0] < lv.x < block.high[0]]
    for start, end in pairwise([block.low[0], *bends, block.high[0]]):
        part = lying(frame, member, start, end)
        yield Block((start, *part.low[1:]), (end, *part.high[1:]))
