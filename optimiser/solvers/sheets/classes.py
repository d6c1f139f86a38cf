"""Parts of like size under one price, so that a linear programme can hold thousands of sizes.

The price of a part is what its class asks for its smallest size, and so much more for each step
wider and each step higher. That takes three rows a class in place of one a size. The prices are
ones that the full programme could have had, so what they prove is true of it; it is a little less
than the best that could be proven.
"""

from __future__ import annotations

from bisect import bisect_left
from heapq import heapify, heappop, heappush
from itertools import count

import numpy as np

from optimiser.solvers.compiled import Real
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind

# Up to so many kinds have a row each, and with more time more: so many times its power.
MOST_ROWS = 150
_ROWS_A_SECOND = 130
_ROWS_POWER = 0.37
# Classes of more: three rows each.
_CLASSES = 40
# Sizes of which up to so many fit a side of a sheet are told apart by that number.
_BESIDE = 4


def most_rows(seconds: float) -> int:
    """Return up to how many kinds have a row each in a search of so many seconds.

    The programme's time grows with a power of 2.7 of its rows: 300 take 6 s, 600 take 42 s.
    """
    return max(MOST_ROWS, int(_ROWS_A_SECOND * max(0.0, seconds) ** _ROWS_POWER))


def shares_of(problem: SheetsProblem, kinds: tuple[Kind, ...], most: int = MOST_ROWS) -> Real:
    """Return what one part of each kind (columns) counts in each row of the programme.

    Up to `most` kinds have a row each; more are put into classes.
    """
    if len(kinds) <= most:
        return np.eye(len(kinds))
    rows: list[Real] = []
    for members in _classes(kinds, _bounds_of(problem)):
        rows.append(_row(len(kinds), members, np.ones(len(members))))
        for side in (_widths, _heights):
            sizes = side(kinds, members)
            span = sizes.max() - sizes.min()
            if span > 0:
                rows.append(_row(len(kinds), members, (sizes - sizes.min()) / span))
    return np.array(rows)


def _row(kinds: int, members: list[int], shares: Real) -> Real:
    row = np.zeros(kinds)
    row[members] = shares
    return row


def _bounds_of(problem: SheetsProblem) -> list[int]:
    """Return the sizes of which a sheet holds just one, two, … side by side: prices jump there."""
    kerf = problem.kerf
    sides = {side + kerf for sheet in problem.sheets for side in (sheet.width, sheet.height)}
    return sorted({side // number for side in sides for number in range(1, _BESIDE + 1)})


def _classes(kinds: tuple[Kind, ...], bounds: list[int]) -> list[list[int]]:
    """Halve the class that spreads most, by its longer spread, until there are enough."""
    cells: dict[tuple[bool, int, int], list[int]] = {}
    for place, kind in enumerate(kinds):
        cell = bisect_left(bounds, kind.width), bisect_left(bounds, kind.height)
        cells.setdefault((kind.turns, *cell), []).append(place)
    number = count()
    waiting = [(-_spread(kinds, members), next(number), members) for members in cells.values()]
    heapify(waiting)
    while len(waiting) < _CLASSES and waiting[0][0] < 0:
        _, _, members = heappop(waiting)
        for half in _halves(kinds, members):
            heappush(waiting, (-_spread(kinds, half), next(number), half))
    return [members for _, _, members in waiting]


def _spread(kinds: tuple[Kind, ...], members: list[int]) -> float:
    """Return how much the sizes differ, weighed by the area at stake; 0 if they are all one."""
    area = sum(kinds[k].width * kinds[k].height * kinds[k].demand for k in members)
    return area * max(_relative(_widths(kinds, members)), _relative(_heights(kinds, members)))


def _relative(sizes: Real) -> float:
    return float((sizes.max() - sizes.min()) / sizes.mean())


def _halves(kinds: tuple[Kind, ...], members: list[int]) -> tuple[list[int], list[int]]:
    """Part a class at the middle of the side that spreads more, at a step between two sizes."""
    widths, heights = _widths(kinds, members), _heights(kinds, members)
    sizes = widths if _relative(widths) >= _relative(heights) else heights
    order = np.argsort(sizes, kind="stable")
    steps = np.flatnonzero(np.diff(sizes[order])) + 1
    cut = int(steps[np.argmin(np.abs(steps - len(members) / 2))])
    ranked = [members[place] for place in order]
    return ranked[:cut], ranked[cut:]


def _widths(kinds: tuple[Kind, ...], members: list[int]) -> Real:
    return np.array([float(kinds[k].width) for k in members])


def _heights(kinds: tuple[Kind, ...], members: list[int]) -> Real:
    return np.array([float(kinds[k].height) for k in members])
