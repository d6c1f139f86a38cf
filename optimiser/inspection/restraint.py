"""How long an upright may stand alone: noggins, returns and rails hold it as often as the trade
asks. Knows only what touches what."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Board, Member, Toward
from optimiser.inspection.space import Block, Pieces, block_of, meeting
from optimiser.inspection.standing import name_of

# Bays of 1 350 at most between noggins: UK trade wiki, stud walls.
_FREE = 13_500
# Uprights flat against each other are joined at 600 at most, 50 from their ends: common practice.
_JOINED, _AT_END = 6_000, 500
# A bay this narrow has no room for a noggin, and its board needs none: common practice.
_NARROW = 1_000
# A return this near an upright's end is at its end: a rail, a plate and a return's own width.
_END = 1_400
# Where a strut stands nearer before an upright there is no room for a prop: common practice.
_LEAST_PROP = 600
# A shelf's end is fixed through board and skim of the cheek: two boards of 15 and skim.
_LINING = 400


def unrestrained(pieces: Pieces) -> Iterator[Fault]:
    """Yield each upright that nothing holds over more of its height than it may stand alone."""
    frame, boxes = pieces.frame, pieces.members
    ups = np.array(["upright" in m.kind for m in frame.members], dtype=np.bool_)
    own = boxes[ups]
    # Another upright beside it holds nothing that is not held itself.
    rest = boxes[~ups]
    low, high = (
        [choose(own[:, None, side, axis], rest[None, :, side, axis]) for axis in range(3)]
        for side, choose in ((0, np.maximum), (1, np.minimum))
    )
    across, through, up = (end - start for start, end in zip(low, high, strict=True))
    touching = (up > 0) & (np.minimum(across, through) == 0) & (np.maximum(across, through) > 0)
    for row, number in enumerate(np.flatnonzero(ups)):
        beside = np.flatnonzero(touching[row])
        bottom, top = own[row, :, 2].tolist()
        held = [(bottom, bottom), (top, top)]
        held += zip(low[2][row, beside].tolist(), high[2][row, beside].tolist(), strict=True)
        reached = bottom
        for start, end in sorted(held):
            if start - reached > _FREE:
                yield Fault(
                    name_of(frame.members[number]),
                    f"stands free from {reached / 10:g} to {start / 10:g}: more than"
                    f" {_FREE / 10:g}",
                )
            reached = max(reached, end)
    yield from _open_bays(pieces)
    yield from _open_ends(pieces)


def parted(pieces: Pieces) -> Iterator[Fault]:
    """Yield uprights that stand flat against others at their right, with too few screws into them.

    Those of one row and one width count: whoever doubles an upright screws both together.
    """
    members = pieces.frame.members
    ups = [(m, b) for m, b in zip(members, pieces.blocks, strict=True) if "upright" in m.kind]
    by_left: dict[tuple[int, int, int], list[Block]] = {}
    for _, block in ups:
        by_left.setdefault((block.low[0], block.low[1], block.high[1]), []).append(block)
    for member, one in ups:
        wanted = 0
        for other in by_left.get((one.high[0], one.low[1], one.high[1]), ()):
            common = min(one.high[2], other.high[2]) - max(one.low[2], other.low[2])
            if common > 0:
                wanted += 1 if common <= 2 * _AT_END else -(-common // _JOINED) + 1
        held = [f for f in member.fixings if f.end == "along"]
        if sum(f.count for f in held) < wanted:
            yield Fault(name_of(member), "is not screwed to the upright it stands against")
        if any(f.length > 2 * (one.high[0] - one.low[0]) for f in held):
            yield Fault(name_of(member), "has screws that come out of the upright beside it")


def _open_bays(pieces: Pieces) -> Iterator[Fault]:
    """Yield bays between two uprights of one front that no rail divides often enough."""
    frame = pieces.frame
    for face in frame.faces:
        if not face.name.endswith("front"):
            continue
        whole = block_of(face.box)
        back = whole.low[1] - face.layers * face.thickness
        behind = [
            (member, block)
            for member, block in zip(frame.members, pieces.blocks, strict=True)
            if block.high[1] == back
            and whole.low[0] <= block.low[0]
            and block.high[0] <= whole.high[0]
        ]
        yield from _bays_of([pair for pair in behind if "upright" in pair[0].kind], behind)


def _bays_of(
    ups: list[tuple[Member, Block]], behind: list[tuple[Member, Block]]
) -> Iterator[Fault]:
    rails = [block for member, block in behind if "upright" not in member.kind]
    ups = sorted(ups, key=lambda pair: pair[1].low[0])
    for number, (member, one) in enumerate(ups):
        # From left to right: each hides the next ones over its own height.
        nearer: list[Block] = []
        for _, other in ups[number + 1 :]:
            if other.low[0] < one.high[0]:
                continue
            start, end = max(one.low[2], other.low[2]), min(one.high[2], other.high[2])
            hidden = any(
                mid.low[0] < other.low[0] and mid.low[2] < end and start < mid.high[2]
                for mid in nearer
            )
            nearer.append(other)
            if hidden or end - start <= _FREE or other.low[0] - one.high[0] < _NARROW:
                continue
            across = sorted(
                (rail.low[2], rail.high[2])
                for rail in rails
                if rail.low[0] <= one.high[0] and other.low[0] <= rail.high[0]
            )
            if _widest(across, start, end) > _FREE:
                yield Fault(name_of(member), "has no noggin in the bay at its right")


def _widest(held: list[tuple[int, int]], start: int, end: int) -> int:
    """Return the longest stretch from `start` to `end` that nothing holds."""
    reached, most = start, 0
    for low, high in [*held, (end, end)]:
        most = max(most, min(low, end) - reached)
        reached = max(reached, high)
    return most


def _open_ends(pieces: Pieces) -> Iterator[Fault]:
    """Yield front uprights that no return joins to the back at one of their ends."""
    frame = pieces.frame
    pairs = list(zip(frame.members, pieces.blocks, strict=True))
    returns = [block for member, block in pairs if member.kind == "return"]
    # Before a recess's back, in another part of the wall, an upright may end in the same plane.
    fronts: dict[int, list[Block]] = {}
    for board, flat in zip(frame.boards, pieces.flats, strict=True):
        if board.faces is Toward.FRONT and board.face.endswith("front"):
            fronts.setdefault(flat.low[1], []).append(flat)
    for member, one in pairs:
        if "upright" not in member.kind or not any(
            flat.low[0] < one.high[0]
            and one.low[0] < flat.high[0]
            and flat.low[2] < one.high[2]
            and one.low[2] < flat.high[2]
            for flat in fronts.get(one.high[1], ())
        ):
            continue
        near = [
            block
            for block in returns
            if block.high[1] == one.low[1]
            and block.low[0] < one.high[0]
            and one.low[0] < block.high[0]
        ]
        if not any(
            block.low[2] <= one.low[2] + _END and one.low[2] - _END <= block.high[2]
            for block in near
        ):
            yield Fault(name_of(member), "is not joined to the back at its foot")
        if not any(
            block.high[2] >= one.high[2] - _END and block.low[2] <= one.high[2] + _END
            for block in near
        ):
            yield Fault(name_of(member), "is not joined to the back at its head")


def missing_rests(pieces: Pieces) -> Iterator[Fault]:
    """Yield struts with no prop from an upright behind, and shelves with no timber at an end."""
    frame, boxes = pieces.frame, pieces.members
    ups = np.flatnonzero(np.array(["upright" in m.kind for m in frame.members], dtype=np.bool_))
    for number, member in enumerate(frame.members):
        if member.kind != "strut":
            continue
        low, high = boxes[number]
        behind = boxes[ups]
        gap = low[1] - behind[:, 1, 1]
        passes = (behind[:, 0, 2] <= low[2]) & (high[2] <= behind[:, 1, 2])
        inside = (low[0] <= behind[:, 0, 0]) & (behind[:, 1, 0] <= high[0])
        asked = ups[(gap >= _LEAST_PROP) & passes & inside]
        between = np.empty((len(asked), 2, 3), dtype=np.int64)
        between[:, 0], between[:, 1] = low, high
        between[:, :, 0] = boxes[asked, :, 0]
        between[:, 0, 1], between[:, 1, 1] = boxes[asked, 1, 1], low[1]
        for other in asked[~meeting(between, boxes).any(axis=1)]:
            yield Fault(name_of(member), f"is not propped from {name_of(frame.members[other])}")
    blocks = zip(frame.members, pieces.blocks, strict=True)
    bearers = [block for m, block in blocks if m.kind == "return"]
    for board in frame.boards:
        if ".shelf" in board.face:
            yield from _loose_shelf(board, bearers)


def _loose_shelf(board: Board, bearers: list[Block]) -> Iterator[Fault]:
    shelf = block_of(board.box)
    middle = (shelf.low[2] + shelf.high[2]) // 2
    for side, x in (("left", shelf.low[0]), ("right", shelf.high[0])):
        if not any(
            (x - _LINING <= b.high[0] <= x if side == "left" else x <= b.low[0] <= x + _LINING)
            and b.low[2] <= middle <= b.high[2]
            for b in bearers
        ):
            yield Fault(f"board {board.mark} of {board.face}", f"has no timber at its {side} end")
