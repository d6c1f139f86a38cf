"""Outside corners are beaded, inside angles taped: found where two faces that show meet.

Knows faces, beads and tape only: whatever parts of the wall the faces are of, two that meet make a
corner or an angle by the way they look. What nobody skims, the board behind a TV and what lines a
fire, makes neither.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Face, Frame, Point
from optimiser.domain.wall import Wall
from optimiser.inspection.space import Block, block_of, ceilings, hole_of, turn_of

# Less than this of a corner may be left, as boards are trimmed to floor and ceiling: common
# practice, no source.
_LEFT = 300
# Tape lies in the skim, 2 to 3 thick, and a place may be rounded: UK glossary on skim coats.
_AT = 40
# Boards that meet in an angle lie in it exactly, but for rounding.
_EXACT = 20

Run = tuple[Block, str]


@dataclass(frozen=True, slots=True)
class _Side:
    """A face that shows: the axis it looks along and which way, where it lies, its holes."""

    name: str
    axis: int
    out: int
    whole: Block
    holes: tuple[Block, ...]
    skin: int

    @property
    def at(self) -> int:
        return self.whole.low[self.axis]


def unfinished(frame: Frame, wall: Wall) -> Iterator[Fault]:
    """Yield each outside corner that no bead covers and, under skim, each inside angle without
    tape, the line of the ceiling among them."""
    sides = [_side(face) for face in frame.faces if _shows(frame, face)]
    beads = [_run(one.start, one.end) for one in frame.beads if one.kind == "corner bead"]
    tapes = [_run(one.start, one.end) for one in frame.tapes if one.kind == "angle-tape"]
    skimmed = wall.materials.skim is not False
    for one, other in permutations(sides, 2):
        if one.axis >= other.axis:
            continue
        names = f"{one.name} and {other.name}"
        for whole, outside in _lines(one, other):
            line = _seen(whole, sides)
            left = _uncovered(frame, line, beads if outside else tapes)
            if left > _LEFT and outside:
                yield Fault(f"corner of {names}", f"has no bead over {left / 10:g}")
            elif left > _LEFT and skimmed:
                yield Fault(f"inside angle of {names}", f"is not taped over {left / 10:g}")
    for face in frame.faces if skimmed else ():
        if face.follows_ceiling:
            yield from _at_ceiling(face, tapes)


def _shows(frame: Frame, face: Face) -> bool:
    opening, _, part = face.name.rpartition(".")
    kinds = {one.name: one.kind for one in frame.openings}
    return kinds.get(opening) != "fire" and not (kinds.get(opening) == "tv" and part == "back")


def _side(face: Face) -> _Side:
    turn, whole = turn_of(face.across, face.up, face.faces), block_of(face.box)
    return _Side(
        name=face.name,
        axis=turn.through,
        out=turn.out,
        whole=whole,
        holes=tuple(hole_of(cut, whole, turn) for cut in face.holes),
        skin=int(face.layers * face.thickness),
    )


def _run(start: Point, end: Point) -> Block:
    a, b = (start.x, start.y, start.z), (end.x, end.y, end.z)
    low, high = tuple(map(min, a, b)), tuple(map(max, a, b))
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _lines(one: _Side, other: _Side) -> Iterator[tuple[Block, bool]]:
    """Yield the lines along which two faces meet, and whether in an outside corner.

    There the boards of one lap the other's edge, which ends short of the line by so much; in an
    inside angle boards run on behind the other's.
    """
    along = 3 - one.axis - other.axis
    near = max(one.skin, other.skin)
    for edge, way, short in _edges(one, other, near):
        for meeting, back, shorter in _edges(other, one, near):
            outside = other.out == way and one.out == back and min(short, shorter) >= -_EXACT
            inside = other.out == -way and one.out == -back and max(short, shorter) <= _EXACT
            low = max(edge.low[along], meeting.low[along])
            high = min(edge.high[along], meeting.high[along])
            if not (outside or inside) or low >= high:
                continue
            for a, b in _without((low, high), _taken(one, other, along, near)):
                yield _line(one, other, a, b), outside


def _line(one: _Side, other: _Side, start: int, end: int) -> Block:
    ends = []
    for at in (start, end):
        corner = [at, at, at]
        corner[one.axis], corner[other.axis] = one.at, other.at
        ends.append((corner[0], corner[1], corner[2]))
    return Block(ends[0], ends[1])


def _along(line: Block) -> int:
    """Return the axis that a line lies along."""
    return max(range(3), key=lambda axis: line.high[axis] - line.low[axis])


def _edges(one: _Side, other: _Side, near: int) -> Iterator[tuple[Block, int, int]]:
    """Yield where a face ends at the plane of another, at its own edges and at those of its holes:
    which way along that one's axis it ends, and by how much it ends short of the plane."""
    axis = other.axis
    for block, hole in ((one.whole, False), *((hole, True) for hole in one.holes)):
        for end, high in ((block.high[axis], True), (block.low[axis], False)):
            way = 1 if high is not hole else -1
            short = way * (other.at - end)
            if abs(short) <= near:
                yield block, way, short


def _seen(line: Block, sides: Sequence[_Side]) -> Block:
    """Return a line without what of its ends lies behind the boards of a third face."""
    along = _along(line)
    across = [axis for axis in range(3) if axis != along]
    low, high = list(line.low), list(line.high)
    for side in sides:
        if side.axis != along or not all(
            side.whole.low[axis] - _AT <= low[axis] <= side.whole.high[axis] + _AT
            for axis in across
        ):
            continue
        behind = side.skin + _AT
        if side.out > 0 and line.low[along] < side.at <= line.low[along] + behind:
            low[along] = max(low[along], side.at)
        if side.out < 0 and line.high[along] - behind <= side.at < line.high[along]:
            high[along] = min(high[along], side.at)
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _taken(one: _Side, other: _Side, along: int, near: int) -> list[tuple[int, int]]:
    """Return where a hole of either face lies at the line on both sides of it."""
    found: list[tuple[int, int]] = []
    for side, axis, at in ((one, other.axis, other.at), (other, one.axis, one.at)):
        whole = side.whole
        for hole in side.holes:
            if any(
                abs(end - at) <= near and abs(edge - at) <= near
                for end, edge in (
                    (hole.low[axis], whole.low[axis]),
                    (hole.high[axis], whole.high[axis]),
                )
            ):
                found.append((hole.low[along], hole.high[along]))
    return found


def _without(span: tuple[int, int], taken: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    reached = span[0]
    for low, high in sorted(taken):
        if reached < min(low, span[1]):
            yield reached, min(low, span[1])
        reached = max(reached, high)
    if reached < span[1]:
        yield reached, span[1]


def _uncovered(frame: Frame, line: Block, runs: Sequence[Block]) -> int:
    """Return how much of a line no run lies on; above the ceiling nothing is asked."""
    along = _along(line)
    end = line.high[along]
    if along == 2 and frame.levels:
        end = min(end, int(ceilings(frame.levels, line.low[0], line.low[0])[0]))
    covered = [
        (run.low[along], run.high[along])
        for run in runs
        if all(
            run.low[axis] - _AT <= line.low[axis] <= run.high[axis] + _AT
            for axis in range(3)
            if axis != along
        )
    ]
    return sum(b - a for a, b in _without((line.low[along], end), covered) if a < end)


def _at_ceiling(face: Face, tapes: Sequence[Block]) -> Iterator[Fault]:
    """Yield a face under the ceiling whose upper edge no tape covers, as high as it may lie."""
    whole = block_of(face.box)
    axis = "xyz".index(face.across.value[1])
    off = 1 - axis
    covered = [
        (tape.low[axis], tape.high[axis])
        for tape in tapes
        if tape.low[2] >= whole.high[2] - _LEFT
        and tape.low[off] - _AT <= whole.low[off] <= tape.high[off] + _AT
    ]
    left = sum(b - a for a, b in _without((whole.low[axis], whole.high[axis]), covered))
    if left > _LEFT:
        yield Fault(f"face {face.name}", f"is not taped at the ceiling over {left / 10:g}")
