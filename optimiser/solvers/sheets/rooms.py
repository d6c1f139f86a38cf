"""What given weights of parts come to in rooms of any size, never too much."""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

import numpy as np

from optimiser.solvers.compiled import Whole
from optimiser.solvers.sheets.columns import Filler
from optimiser.solvers.sheets.grid import grid_on, sums_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind, kinds_of

# Points on each side beside those that just hold a part or end a room.
MOST_POINTS = 150
# Sums of values in the table stay below 2³¹.
_MOST = 1 << 30


def weights_of_rooms(
    problem: SheetsProblem, weights: Sequence[int], rooms: Sequence[tuple[int, int]]
) -> list[int]:
    """Return for each room a weight that edge-to-edge cuts get out of it, copies unlimited.

    `weights` has one number of 0 or more a part; only parts with a demand count. Rooms are sizes
    with one kerf added. The table stands on the points of the sheets: a room may hold more.
    """
    kinds = tuple(kind for kind in kinds_of(problem) if any(weights[place] for place in kind.parts))
    if not kinds:
        return [0] * len(rooms)
    values = [max(weights[place] for place in kind.parts) for kind in kinds]
    step = 1 + _heaviest(problem, kinds, values) // _MOST
    across = [width for kind in kinds for width in _sides(kind)]
    along = [
        size
        for kind in kinds
        for size in ((kind.width, kind.height) if kind.turns else (kind.height,))
    ]
    xs = _points(across, [room[0] for room in rooms])
    ys = _points(along, [room[1] for room in rooms])
    table = Filler.on(grid_on(problem, kinds, xs, ys))
    table.fill(np.array([value // step for value in values], np.int64))
    columns = np.searchsorted(xs, [room[0] for room in rooms], "right") - 1
    rows = np.searchsorted(ys, [room[1] for room in rooms], "right") - 1
    return [int(value) * step for value in table.table[columns, rows]]


def _sides(kind: Kind) -> tuple[int, ...]:
    return (kind.width, kind.height) if kind.turns else (kind.width,)


def _points(sizes: Sequence[int], rooms: Sequence[int]) -> Whole:
    """Return sums of sizes: those that just hold a part, the last of each room, some between."""
    unit = gcd(*sizes)
    sums = sums_of([size // unit for size in sizes], max(rooms) // unit) * unit
    ends = sums[np.searchsorted(sums, np.unique(rooms), "right") - 1]
    between = sums[np.linspace(0, len(sums) - 1, MOST_POINTS).astype(np.int64)]
    return np.unique(np.concatenate([sums[:1], np.intersect1d(sizes, sums), ends, between]))


def _heaviest(problem: SheetsProblem, kinds: tuple[Kind, ...], values: Sequence[int]) -> int:
    """Return a weight that no sheet holds."""
    largest = max(
        (sheet.width + problem.kerf) * (sheet.height + problem.kerf) for sheet in problem.sheets
    )
    return max(
        value * largest // (kind.width * kind.height)
        for kind, value in zip(kinds, values, strict=True)
    )
