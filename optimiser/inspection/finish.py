"""Joints that show: two boards edge to edge in one plane, whatever part of the wall each is of,
are taped. Knows boards and tape only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Tape
from optimiser.inspection.space import Pieces, ceilings

# Less than this of a joint may be left: levels are rounded, boards trimmed to floor and ceiling.
_LEFT = 300
# What nobody skims: backs of recesses, shelves, a fire's lining.
_BARE = (".back", ".shelf")


def untaped(pieces: Pieces) -> Iterator[Fault]:
    """Yield each joint between two visible boards in one plane that no tape covers."""
    frame = pieces.frame
    last: dict[str, int] = {}
    for board in frame.boards:
        last[board.face] = max(last.get(board.face, 0), board.layer)
    planes: dict[tuple[int, int, int], list[int]] = {}
    for number, board in enumerate(frame.boards):
        bare = any(part in board.face for part in _BARE) or board.face.startswith("fire.")
        if board.layer == last[board.face] and not bare:
            turn, flat = pieces.turns[number], pieces.flats[number]
            at = (flat.high if turn.out > 0 else flat.low)[turn.through]
            planes.setdefault((turn.through, turn.out, at), []).append(number)
    runs = [_run(tape) for tape in frame.tapes if tape.kind == "joint-tape"]
    for (through, _, at), numbers in planes.items():
        for one, other in combinations(numbers, 2):
            for axis in (0, 1, 2):
                along = 3 - axis - through
                if axis == through:
                    continue
                for first, second in ((one, other), (other, one)):
                    line = pieces.flats[first].high[axis]
                    if line != pieces.flats[second].low[axis]:
                        continue
                    place = {axis: line, through: at}
                    bare_at = _bare(pieces, (first, second), place, along, runs)
                    if bare_at > _LEFT:
                        marks = f"{frame.boards[first].mark} and {frame.boards[second].mark}"
                        yield Fault(
                            f"joint of {marks} at {'xyz'[axis]} {line / 10:g}",
                            f"is not taped over {bare_at / 10:g}",
                        )


def _run(tape: Tape) -> tuple[tuple[int, int, int], tuple[int, int, int]]:
    a, b = tape.start, tape.end
    low = min(a.x, b.x), min(a.y, b.y), min(a.z, b.z)
    return low, (max(a.x, b.x), max(a.y, b.y), max(a.z, b.z))


def _bare(
    pieces: Pieces,
    pair: tuple[int, int],
    place: dict[int, int],
    along: int,
    runs: Sequence[tuple[tuple[int, int, int], tuple[int, int, int]]],
) -> int:
    """Return how much of a joint neither tape nor a cut-out of either board covers."""
    flats = [pieces.flats[number] for number in pair]
    start, end = max(f.low[along] for f in flats), min(f.high[along] for f in flats)
    if along == 2 and pieces.frame.levels and 0 in place:
        end = min(end, int(ceilings(pieces.frame.levels, place[0], place[0])[0]))
    covered = [
        (low[along], high[along])
        for low, high in runs
        if all(low[axis] <= value <= high[axis] for axis, value in place.items())
    ]
    covered += [
        (hole.low[along], hole.high[along])
        for number in pair
        for hole in pieces.holes[number]
        if all(hole.low[axis] <= at <= hole.high[axis] for axis, at in place.items())
    ]
    left, reached = 0, start
    for low, high in sorted(covered):
        if low >= end:
            break
        left += max(low - reached, 0)
        reached = max(reached, high)
    return left + max(end - reached, 0)
