"""The most weight that cuts from edge to edge can take out of a sheet: the checker's own table.

Nothing here comes from a solver. Copies are unlimited, so the answer is never too low for parts
with a demand; where an exact table would take too long, sizes are rounded to a coarser step in the
safe direction, and the answer may only be too high.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import gcd
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

# Sums of two entries looked at before the step is made coarser: about half a second.
MOST_WORK = 1_200_000_000
# Rows of the table filled at a time.
_BLOCK = 192
# Entries are 32 bits where that is safe, and never more than this. At a coarse step sums may pass
# what an entry holds: they wrap below 0 and are passed over for their larger half, which is by
# itself more than any layout weighs.
_NARROW = 2**30
_MOST = 2**62


class TooHeavy(ValueError):
    """Weights are too large to be added up safely."""


@dataclass(frozen=True, slots=True, order=True)
class Rectangle:
    """A part as it may lie: sizes with one kerf added, and its weight."""

    across: int
    along: int
    weight: int


def most_weights(
    parts: Sequence[Rectangle], sheets: Sequence[tuple[int, int]], work: int = MOST_WORK
) -> list[int]:
    """Return for each sheet a weight that no edge-to-edge layout of the parts exceeds.

    Sizes of sheets have one kerf added, like those of parts, so that cuts add up without it. A part
    listed once is laid one way only. Raises TooHeavy when a weight could overflow 64 bits.
    """
    return list(_most_weights(tuple(parts), tuple(sheets), work))


# A plan is counted when it is made and again when it is checked: the same question twice.
@lru_cache(maxsize=64)
def _most_weights(
    parts: tuple[Rectangle, ...], sheets: tuple[tuple[int, int], ...], work: int
) -> tuple[int, ...]:
    useful = _undominated(parts, sheets)
    if not useful:
        return (0,) * len(sheets)
    largest = max(across for across, _ in sheets) * max(along for _, along in sheets)
    heaviest = max(part.weight * largest // (part.across * part.along) for part in useful) + 1
    if heaviest >= _MOST:
        raise TooHeavy("a weight is too large to add up safely")
    across = _Axis([part.across for part in useful], [sheet[0] for sheet in sheets])
    along = _Axis([part.along for part in useful], [sheet[1] for sheet in sheets])
    while _sums(across, along) > work:
        if not (across.coarsen() if len(across.points) > len(along.points) else along.coarsen()):
            return tuple(_by_area(useful, sheet) for sheet in sheets)
    coarse = [
        Rectangle(width, height, part.weight)
        for width, height, part in zip(across.sizes, along.sizes, useful, strict=True)
    ]
    entry = np.int32 if heaviest < _NARROW else np.int64
    table = _filled(coarse, across.points, along.points, entry)
    places = zip(across.last_points(), along.last_points(), strict=True)
    return tuple(int(table[i, j]) for i, j in places)


def _sums(across: _Axis, along: _Axis) -> int:
    """Return about how many sums of two entries the table takes."""
    rows, columns = len(across.points), len(along.points)
    return rows * columns * (rows + columns) // 4


class _Axis:
    """Sizes along one side of the sheets, in steps as fine as they may be."""

    def __init__(self, sizes: Sequence[int], sheets: Sequence[int]) -> None:
        unit = gcd(*sizes)
        self._sizes = [size // unit for size in sizes]
        self._sheets = [sheet // unit for sheet in sheets]
        self._set(1)

    def _set(self, step: int) -> None:
        self._step = step
        # Rounded down, parts and sheets alike: what fitted side by side still does.
        self.sizes = [size // step for size in self._sizes]
        self.sheets = [sheet // step for sheet in self._sheets]
        self.points = _points(self.sizes, self.sheets)

    def coarsen(self) -> bool:
        """Take a coarser step; False if the smallest part would vanish."""
        step = self._step + max(1, self._step // 4)
        if step > min(self._sizes):
            return False
        self._set(step)
        return True

    def last_points(self) -> list[int]:
        """Return the place of the last point that each sheet reaches."""
        return [int(n) - 1 for n in np.searchsorted(self.points, self.sheets, "right")]


def _undominated(parts: Sequence[Rectangle], sheets: Sequence[tuple[int, int]]) -> list[Rectangle]:
    """Keep what fits a sheet and weighs something, less what a smaller part outweighs."""
    fitting = [
        part
        for part in set(parts)
        if part.weight > 0
        and any(part.across <= across and part.along <= along for across, along in sheets)
    ]
    kept: list[Rectangle] = []
    for part in sorted(fitting, key=lambda part: (part.across, part.along, -part.weight)):
        if not any(part.along >= other.along and part.weight <= other.weight for other in kept):
            kept.append(part)
    return kept


def _by_area(parts: Sequence[Rectangle], sheet: tuple[int, int]) -> int:
    """Return what the sheet would hold if its area could be filled with the heaviest part."""
    return max(part.weight * sheet[0] * sheet[1] // (part.across * part.along) for part in parts)


_Points: TypeAlias = "NDArray[np.int64]"


def _points(sizes: Sequence[int], sheets: Sequence[int]) -> _Points:
    """List the sizes of pieces that need be looked at, 0 first: raster points of every sheet.

    A piece may be widened until what lies beside it on its sheet has just the sum of sizes it
    needs, so pieces as wide as what such a sum leaves, rounded down to a sum, are enough (raster
    points: Terno, Lindemann and Scheithauer 1987; sums of sizes are closed under addition).
    """
    longest = max(sheets)
    sums = 1
    full = (1 << (longest + 1)) - 1
    for size in sorted(set(sizes)):
        shift = size
        while shift <= longest:
            sums |= (sums << shift) & full
            shift *= 2
    reached = np.flatnonzero(np.frombuffer(bin(sums)[:1:-1].encode(), dtype=np.uint8) == ord("1"))
    points = {0}
    for sheet in sheets:
        left = sheet - reached[reached <= sheet]
        points.update(reached[np.searchsorted(reached, left, "right") - 1].tolist())
    return np.array(sorted(points), dtype=np.int64)


def _filled(
    parts: Sequence[Rectangle], across: _Points, along: _Points, entry: type[np.signedinteger]
) -> NDArray[np.signedinteger]:
    """Return the most weight for each pair of points."""
    table = np.zeros((len(across), len(along)), dtype=entry)
    for part in parts:
        i = np.searchsorted(across, part.across)
        j = np.searchsorted(along, part.along)
        table[i, j] = max(int(table[i, j]), part.weight)
    return filled(table, across, along)


def filled(
    table: NDArray[np.signedinteger], across: _Points, along: _Points
) -> NDArray[np.signedinteger]:
    """Return the most weight of each piece, given what it is worth uncut: `table`, which is lost.

    A row and a column for each point; something is worth more than nothing.
    """
    if len(across) > len(along):
        return filled(np.ascontiguousarray(table.T), along, across).T
    narrowest = int(across[int(np.flatnonzero(table.any(axis=1))[0])])
    # Rows worth more than rows beside each other: only they need be tried as the first piece.
    firsts: list[int] = []
    start = int(np.searchsorted(across, narrowest))
    while start < len(across):
        # What is left beside the narrowest part lies below the block: its rows wait for no other.
        stop = int(np.searchsorted(across, across[start] + narrowest))
        stop = min(stop, start + _BLOCK)
        beside = np.repeat(table[start - 1][None, :], stop - start, axis=0)
        for first in firsts:
            begin = max(start, int(np.searchsorted(across, 2 * across[first])))
            if begin >= stop:
                break
            left = across[begin:stop] - across[first]
            sums = table[np.searchsorted(across, left, "right") - 1]
            sums += table[first]
            np.maximum(beside[begin - start :], sums, out=beside[begin - start :])
        np.maximum.accumulate(beside, axis=0, out=beside)
        rows = np.maximum(beside, np.maximum.accumulate(table[start:stop], axis=0))
        table[start:stop] = _stacked(rows, along)
        better = (table[start:stop] > beside).any(axis=1)
        firsts += (start + np.flatnonzero(better)).tolist()
        start = stop
    return table


def _stacked(rows: NDArray[np.signedinteger], points: _Points) -> NDArray[np.signedinteger]:
    """Close every row under stacking: no entry is less than two others whose sizes add up to it."""
    most = np.ascontiguousarray(rows.T)
    firsts = np.zeros(len(points), dtype=np.int64)
    count = 0
    for place in range(1, len(points)):
        near = firsts[: np.searchsorted(points[firsts[:count]], points[place] // 2, "right")]
        closed = most[place - 1]
        if near.size:
            far = np.searchsorted(points, points[place] - points[near], "right") - 1
            sums = most[near]
            sums += most[far]
            closed = np.maximum(closed, sums.max(axis=0))
        if (most[place] > closed).any():
            firsts[count] = place
            count += 1
        np.maximum(most[place], closed, out=most[place])
    return most.T
