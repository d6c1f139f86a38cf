"""Faces and their boards: covered once, held at every joint, spanning no further than they may.

Each face is looked at flat, along the axes its boards run: timber that touches the plane of the
boards' backs holds them, whatever it is there for.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Board, Edge, Face, Frame
from optimiser.inspection.closing import faults_of_closing
from optimiser.inspection.grid import Flat, beside_hole, carried, grid, marked, within
from optimiser.inspection.space import (
    ROUNDING,
    Block,
    Corners,
    Pieces,
    Turn,
    block_of,
    ceilings,
    hole_of,
    meeting,
    straight,
    turn_of,
)
from optimiser.units import counted

# From a board's edge to its screws, and from these to the timber's: 10 for a bound, 13 for a cut
# edge (published UK project specification 2014, clauses 590-640) and 6 (calculated in the trade
# notes: 32 of timber hold two bound edges, 38 two cut ones).
BEARING = {Edge.FACTORY: 160, Edge.CUT: 190}
# A joint may pass this far from one timber to the next unheld: common practice, no source.
_UNHELD = 1_000
# A board may stand out this far past the timber that holds it (rule of the fire's facing board).
_OVERHANG = 500
# A recess too low for two struts has its back held by one: common practice, no source.
_BACK_OVERHANG = 630
# A box for a double socket asks for a hole so large, and screws into the board round it: common
# practice, no source.
_SOCKET = 1_600
# A gap this wide between two timbers, as the fit of an upright leaves, is none to a board.
_FIT = 20
# A joint this near the ceiling is held by the head plate: its timber and the trim of the board.
_NEAR_CEILING = 400


@dataclass(frozen=True, slots=True)
class _Plane:
    """A face laid flat: its whole rectangle, its holes, and the timber that touches its boards."""

    face: Face
    turn: Turn
    whole: Flat
    holes: tuple[Flat, ...]
    timbers: tuple[Flat, ...]
    visible: int
    tops: tuple[tuple[int, float], ...]


class Faces:
    """The faces of the ways to board one wall: a face boarded and held alike is looked at once."""

    def __init__(self) -> None:
        """Begin with nothing seen."""
        self._seen: dict[str, list[tuple[object, tuple[Fault, ...]]]] = {}

    def faults(self, pieces: Pieces) -> Iterator[Fault]:
        """Yield what is wrong with the boards of each face of one way, and boards of no face."""
        frame = pieces.frame
        by_face: dict[str, list[int]] = {face.name: [] for face in frame.faces}
        for number, board in enumerate(frame.boards):
            if board.face in by_face:
                by_face[board.face].append(number)
            elif ".shelf" not in board.face:
                yield Fault(f"board {board.mark}", f"lies on {board.face!r}, which is no face")
            yield from _cut_badly(pieces, number)
        parts = straight(pieces)
        for face in frame.faces:
            numbers = by_face[face.name]
            plane = _plane(frame, face, parts)
            boards = [frame.boards[number] for number in numbers]
            beside = _beside(pieces, plane, [n for n in numbers if frame.boards[n].layer == 1])
            looked_at = plane, boards, beside
            seen = self._seen.setdefault(face.name, [])
            found = next((faults for key, faults in seen if key == looked_at), None)
            if found is None:
                found = tuple(_faults(frame, plane, boards, beside))
                seen.append((looked_at, found))
            yield from found


def _faults(
    frame: Frame, plane: _Plane, boards: Sequence[Board], beside: Sequence[Flat]
) -> Iterator[Fault]:
    face = plane.face
    yield from faults_of_closing(frame, face)
    for layer in range(1, face.layers + 1):
        of_layer = [board for board in boards if board.layer == layer]
        yield from _out_of_plane(plane, of_layer, layer)
        yield from _cover(frame, plane, of_layer, layer)
        yield from _joints(frame, plane, of_layer)
    first = [board for board in boards if board.layer == 1]
    yield from _spans(frame, plane, first, (*plane.timbers, *beside))
    yield from (
        Fault(f"board {board.mark} of {face.name}", f"lies in a layer {board.layer} too many")
        for board in boards
        if not 1 <= board.layer <= face.layers
    )


def _cut_badly(pieces: Pieces, number: int) -> Iterator[Fault]:
    board, whole, turn = pieces.frame.boards[number], pieces.flats[number], pieces.turns[number]
    where = f"board {board.mark} of {board.face}"
    size = [high - low for low, high in zip(whole.low, whole.high, strict=True)]
    if (size[turn.across], size[turn.up]) != (board.width, board.height):
        yield Fault(where, "has another size in its place than as a part")
    for hole in pieces.holes[number]:
        if any(h < w for h, w in zip(hole.low, whole.low, strict=True)) or any(
            h > w for h, w in zip(hole.high, whole.high, strict=True)
        ):
            yield Fault(where, "has a cut-out that leaves it")


def _flat(block: Block, turn: Turn) -> Flat:
    a, u = turn.across, turn.up
    return block.low[a], block.low[u], block.high[a], block.high[u]


def _plane(frame: Frame, face: Face, parts: Corners) -> _Plane:
    turn = turn_of(face.across, face.up, face.faces)
    block = block_of(face.box)
    visible = block.low[turn.through]
    back = visible - turn.out * face.layers * face.thickness
    whole = _flat(block, turn)
    touching = parts[parts[:, 1 if turn.out > 0 else 0, turn.through] == back]
    a, u = turn.across, turn.up
    touching = touching[
        (touching[:, 0, a] <= whole[2])
        & (whole[0] <= touching[:, 1, a])
        & (touching[:, 0, u] <= whole[3])
        & (whole[1] <= touching[:, 1, u])
    ]
    flats = touching[:, :, [a, u]].reshape(-1, 4).tolist()
    tops = tuple((int(level.x), float(level.ceiling)) for level in frame.levels)
    return _Plane(
        face=face,
        turn=turn,
        whole=whole,
        holes=tuple(_flat(hole_of(cut, block, turn), turn) for cut in face.holes),
        timbers=tuple((x0, u0, x1, u1) for x0, u0, x1, u1 in flats),
        visible=visible,
        tops=tops,
    )


def _out_of_plane(plane: _Plane, boards: Sequence[Board], layer: int) -> Iterator[Fault]:
    turn, face = plane.turn, plane.face
    at = plane.visible - turn.out * (face.layers - layer) * face.thickness
    for board in boards:
        block = block_of(board.box)
        side = (block.high if turn.out > 0 else block.low)[turn.through]
        thick = block.high[turn.through] - block.low[turn.through]
        where = f"board {board.mark} of {face.name}"
        if turn_of(board.across, board.up, board.faces) != turn:
            yield Fault(where, "is turned another way than its face")
        elif side != at or thick != face.thickness:
            yield Fault(where, f"does not lie in layer {layer}: {abs(side - at) / 10:g} off")


def _pieces(boards: Sequence[Board], turn: Turn) -> tuple[list[Flat], list[Flat]]:
    whole = [_flat(block_of(board.box), turn) for board in boards]
    cuts = [flat for board in boards for flat in _cuts(board, turn)]
    return whole, cuts


def _cuts(board: Board, turn: Turn) -> list[Flat]:
    block = block_of(board.box)
    own = turn_of(board.across, board.up, board.faces)
    return [_flat(hole_of(cut, block, own), turn) for cut in board.cut_outs]


def _roof(frame: Frame, face: Face, turn: Turn, xs: NDArray[np.int64]) -> list[float]:
    """Return, for each stretch of the grid, up to where its face must be covered."""
    if not face.follows_ceiling:
        return [float("inf")] * (len(xs) - 1)
    if turn.across == 0:
        # The ceiling bends on lines of the grid only, so it is lowest at one of a stretch's ends.
        tops = [ceilings(frame.levels, x, x)[0] - ROUNDING for x in xs.tolist()]
        return [min(pair) for pair in pairwise(tops)]
    return [ceilings(frame.levels, int(face.box.x), int(face.box.x))[0] - ROUNDING] * (len(xs) - 1)


def _cover(frame: Frame, plane: _Plane, boards: Sequence[Board], layer: int) -> Iterator[Fault]:
    """Yield where a layer is not covered exactly once outside its holes, and not at all inside."""
    whole, cuts = _pieces(boards, plane.turn)
    flats = [plane.whole, *plane.holes, *whole, *cuts]
    bends = [x for x, _ in plane.tops if plane.turn.across == 0]
    bends.append(plane.whole[2] - plane.face.eased)
    xs = grid([side for flat in flats for side in (flat[0], flat[2])] + bends)
    roofs = _roof(frame, plane.face, plane.turn, xs)
    tops = [round(roof) for roof in roofs if roof != float("inf")]
    us = grid([side for flat in flats for side in (flat[1], flat[3])] + tops)
    counts = marked(whole, xs, us) - marked(cuts, xs, us)
    wanted = marked([plane.whole], xs, us) - np.clip(marked(plane.holes, xs, us), 0, 1)
    wanted[xs[:-1] >= plane.whole[2] - plane.face.eased] = 0
    inside = marked([plane.whole], xs, us) > 0
    mids = (us[:-1] + us[1:]) / 2
    under = mids[None, :] < np.array(roofs)[:, None]
    # A board may reach past its face's foot, to be trimmed to a floor out of level.
    beside = (xs[:-1] >= plane.whole[2]) | (xs[1:] <= plane.whole[0])
    wrong = (inside & under & (counts != wanted)) | (beside[:, None] & (counts > 0))
    for i, j in np.argwhere(wrong)[:3]:
        yield Fault(
            f"face {plane.face.name}, layer {layer}",
            f"{counted(int(counts[i, j]), 'board')} instead of {max(wanted[i, j], 0)} from"
            f" {xs[i] / 10:g}, {us[j] / 10:g} to {xs[i + 1] / 10:g}, {us[j + 1] / 10:g}",
        )


def _joints(frame: Frame, plane: _Plane, boards: Sequence[Board]) -> Iterator[Fault]:
    """Yield each joint of a layer that runs unheld further than it may."""
    flats = [_flat(block_of(board.box), plane.turn) for board in boards]
    cuts = [_cuts(board, plane.turn) for board in boards]
    for i, one in enumerate(flats):
        for j, other in enumerate(flats):
            for axis in (0, 1):
                along = 1 - axis
                if one[axis + 2] != other[axis]:
                    continue
                span = max(one[along], other[along]), min(one[along + 2], other[along + 2])
                if span[0] >= span[1]:
                    continue
                at = one[axis + 2]
                needs = (
                    BEARING[_edge(boards[i], plane.turn, axis, last=True)],
                    BEARING[_edge(boards[j], plane.turn, axis, last=False)],
                )
                gaps = _gaps_at(cuts[i], cuts[j], axis, at)
                unheld = _unheld(plane.timbers, gaps, (axis, at), span, needs)
                for a, b in unheld:
                    if b - a > _UNHELD and not _at_ceiling(frame, plane, axis, at, (a, b)):
                        yield Fault(
                            f"face {plane.face.name}",
                            f"joint of {boards[i].mark} and {boards[j].mark} at {at / 10:g} has"
                            f" too little timber from {a / 10:g} to {b / 10:g}",
                        )


def _edge(board: Board, turn: Turn, axis: int, *, last: bool) -> Edge:
    """Return the kind of a board's edge at the high (`last`) or low end of an axis of its face."""
    plus = turn.across_plus if axis == 0 else turn.up_plus
    edges = board.edges
    if axis == 0:
        return edges.right if last == plus else edges.left
    return edges.top if last == plus else edges.bottom


def _gaps_at(
    first: Sequence[Flat], second: Sequence[Flat], axis: int, at: int
) -> list[tuple[int, int]]:
    """Return where either board is cut away at the joint: there is no joint there."""
    along = 1 - axis
    gaps = [(cut[along], cut[along + 2]) for cut in first if cut[axis + 2] == at]
    return gaps + [(cut[along], cut[along + 2]) for cut in second if cut[axis] == at]


def _unheld(
    timbers: Sequence[Flat],
    gaps: Sequence[tuple[int, int]],
    line: tuple[int, int],
    span: tuple[int, int],
    needs: tuple[int, int],
) -> list[tuple[int, int]]:
    """Return the stretches of a joint that lack bearing on either side."""
    axis, at = line
    along = 1 - axis
    near = [t for t in timbers if t[axis] <= at + needs[1] and at - needs[0] <= t[axis + 2]]
    first = [
        (t[along], t[along + 2]) for t in near if t[axis] <= at - needs[0] and at <= t[axis + 2]
    ]
    second = [
        (t[along], t[along + 2]) for t in near if t[axis] <= at and at + needs[1] <= t[axis + 2]
    ]
    lines = grid(
        [*span] + [s for pair in (*first, *second, *gaps) for s in pair if span[0] < s < span[1]]
    )
    found: list[tuple[int, int]] = []
    for a, b in pairwise(lines):
        held = all(any(s <= a and b <= e for s, e in side) for side in (first, second))
        if held or any(s <= a and b <= e for s, e in gaps):
            continue
        if found and found[-1][1] == a:
            found[-1] = (found[-1][0], int(b))
        else:
            found.append((int(a), int(b)))
    return found


def _at_ceiling(frame: Frame, plane: _Plane, axis: int, at: int, stretch: tuple[int, int]) -> bool:
    if not plane.face.follows_ceiling or axis == 1:
        return False
    x = at if plane.turn.across == 0 else int(plane.face.box.x)
    return stretch[0] >= ceilings(frame.levels, x, x)[0] - _NEAR_CEILING - _UNHELD


def _spans(
    frame: Frame, plane: _Plane, boards: Sequence[Board], carriers: Sequence[Flat]
) -> Iterator[Fault]:
    """Yield where a board spans further than its limit both along and across."""
    whole, cuts = _pieces(boards, plane.turn)
    holes: Sequence[Flat] = plane.holes
    if plane.face.name.endswith(".back"):
        # Round a socket the board carries itself.
        cuts, holes = ([one for one in cut if not _is_socket(one)] for cut in (cuts, holes))
    flats = [plane.whole, *whole, *cuts]
    bends = [x for x, _ in plane.tops if plane.turn.across == 0]
    limit = int(plane.face.limit)
    clipped = [within(timber, plane.whole, _FIT) for timber in carriers]
    reach = _BACK_OVERHANG if plane.face.name.endswith(".back") else _OVERHANG
    past = [within(timber, plane.whole, reach) for timber in carriers]
    sides = (*flats, *clipped, *past)
    xs = grid([side for flat in sides for side in (flat[0], flat[2])] + bends)
    us = grid([side for flat in sides for side in (flat[1], flat[3])])
    covered = (marked(whole, xs, us) - marked(cuts, xs, us)) > 0
    held = marked(clipped, xs, us) > 0
    bare = covered & ~held & (marked(past, xs, us) == 0)
    if not bare.any():
        return
    roofs = np.array(_roof(frame, plane.face, plane.turn, xs))
    mids = (us[:-1] + us[1:]) / 2
    bare &= mids[None, :] < roofs[:, None]
    across = carried(bare, covered, held, xs, limit)
    upward = carried(bare.T, covered.T, held.T, us, limit).T
    inside = marked([plane.whole], xs, us) > 0
    for i, j in np.argwhere(bare & inside & ~across & ~upward)[:3]:
        yield Fault(
            f"face {plane.face.name}",
            f"its board spans more than {limit / 10:g} at {xs[i] / 10:g}, {us[j] / 10:g}",
        )
    open_edge = bare & inside & beside_hole(marked(holes, xs, us) > 0)
    for i, j in np.argwhere(open_edge)[:1]:
        yield Fault(
            f"face {plane.face.name}",
            f"the edge of its hole at {xs[i] / 10:g}, {us[j] / 10:g} has no timber behind",
        )


def _is_socket(hole: Flat) -> bool:
    return max(hole[2] - hole[0], hole[3] - hole[1]) <= _SOCKET


def _beside(pieces: Pieces, plane: _Plane, numbers: Sequence[int]) -> list[Flat]:
    """Return the boards of other faces that meet these in an angle: inside an opening each lining
    holds the next one's edge."""
    frame, name = pieces.frame, plane.face.name
    opening, _, part = name.rpartition(".")
    if opening not in {one.name for one in frame.openings} or part == "back" or not numbers:
        return []
    every = pieces.boards.copy()
    every[:, 0] -= 1
    every[:, 1] += 1
    near = np.flatnonzero(meeting(pieces.boards[list(numbers)], every).any(axis=0))
    return [
        _flat(pieces.flats[j], plane.turn)
        for j in near
        if frame.boards[j].face != name and pieces.turns[j].through != plane.turn.through
    ]
