"""Which sizes of pieces the dynamic programmes over cuts look at: few are enough, or nearly so.

Sizes here are real sizes plus one kerf, so that cuts add up without it. On the exact grid no
layout is lost: a piece is never wider than sums of part sizes require. A coarse grid holds some of
the exact one's points: what it finds can be cut, but more may be possible. A rough grid rounds
parts and sheets down to a step: what it finds may be too much, and never too little.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import gcd

import numpy as np

from optimiser.solvers.sheets.compiled import Whole
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind

# Sums of two entries in one exact table: about a second.
MOST_SUMS = 6_000_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Points across (`xs`) and along (`ys`), 0 first; each way a kind may lie is one entry."""

    xs: Whole
    ys: Whole
    kinds: Whole  # the kind of each way of lying
    turned: Whole
    columns: Whole  # the first point across that holds it
    rows: Whole
    sheets: tuple[tuple[int, int], ...]  # the last points that each sheet reaches
    exact: bool  # every layout is on the grid
    real: bool  # every layout on the grid can be cut

    @property
    def sums(self) -> int:
        """Return about how many sums of two entries one table takes."""
        across, along = len(self.xs), len(self.ys)
        return across * along * (across + along) // 4


@dataclass(frozen=True, slots=True)
class _Way:
    kind: int
    turned: bool
    across: int
    along: int


def exact_grid(problem: SheetsProblem, kinds: tuple[Kind, ...]) -> Grid:
    """Return the grid on which nothing is lost."""
    ways = _ways(kinds)
    xs = _points([(way.across, kinds[way.kind].demand) for way in ways], _across(problem))
    ys = _points([(way.along, kinds[way.kind].demand) for way in ways], _along(problem))
    return _grid(problem, ways, xs, ys, exact=True, real=True)


def coarse_grid(problem: SheetsProblem, kinds: tuple[Kind, ...], exact: Grid, most: int) -> Grid:
    """Return a grid with about `most` of the exact grid's points on each axis, itself if fewer."""
    if max(len(exact.xs), len(exact.ys)) <= most:
        return exact
    ways = _ways(kinds)
    xs = _thinned(exact.xs, [way.across for way in ways], most)
    ys = _thinned(exact.ys, [way.along for way in ways], most)
    return _grid(problem, ways, xs, ys, exact=False, real=True)


def bounding_grid(problem: SheetsProblem, kinds: tuple[Kind, ...], exact: Grid) -> Grid:
    """Return the exact grid, or a rough one if tables on that would take too long."""
    grid, steps = exact, [1, 1]
    while grid.sums > MOST_SUMS:
        axis = 0 if len(grid.xs) > len(grid.ys) else 1
        steps[axis] += max(1, steps[axis] // 4)
        grid = _rough_grid(problem, kinds, steps[0], steps[1])
    return grid


def _rough_grid(
    problem: SheetsProblem, kinds: tuple[Kind, ...], across: int, along: int
) -> Grid:
    ways = [
        _Way(way.kind, way.turned, way.across // across, way.along // along)
        for way in _ways(kinds)
    ]
    widths = [size // across for size in _across(problem)]
    heights = [size // along for size in _along(problem)]
    xs = _points([(max(1, way.across), kinds[way.kind].demand) for way in ways], widths)
    ys = _points([(max(1, way.along), kinds[way.kind].demand) for way in ways], heights)
    return _laid(ways, xs, ys, widths, heights, exact=True, real=False)


def _across(problem: SheetsProblem) -> list[int]:
    return [sheet.width + problem.kerf for sheet in problem.sheets]


def _along(problem: SheetsProblem) -> list[int]:
    return [sheet.height + problem.kerf for sheet in problem.sheets]


def _ways(kinds: tuple[Kind, ...]) -> list[_Way]:
    ways = [_Way(place, False, kind.width, kind.height) for place, kind in enumerate(kinds)]
    ways += [
        _Way(place, True, kind.height, kind.width)
        for place, kind in enumerate(kinds)
        if kind.turns
    ]
    return ways


def _grid(
    problem: SheetsProblem, ways: list[_Way], xs: Whole, ys: Whole, *, exact: bool, real: bool
) -> Grid:
    return _laid(ways, xs, ys, _across(problem), _along(problem), exact=exact, real=real)


def _laid(
    ways: list[_Way],
    xs: Whole,
    ys: Whole,
    widths: list[int],
    heights: list[int],
    *,
    exact: bool,
    real: bool,
) -> Grid:
    columns = np.searchsorted(xs, [way.across for way in ways])
    rows = np.searchsorted(ys, [way.along for way in ways])
    held = [
        place
        for place, (i, j) in enumerate(zip(columns, rows, strict=True))
        if i < len(xs) and j < len(ys)
    ]
    return Grid(
        xs=xs,
        ys=ys,
        kinds=np.array([ways[place].kind for place in held], dtype=np.int64),
        turned=np.array([ways[place].turned for place in held], dtype=np.int64),
        columns=columns[held].astype(np.int64),
        rows=rows[held].astype(np.int64),
        sheets=tuple(
            (
                int(np.searchsorted(xs, width, "right")) - 1,
                int(np.searchsorted(ys, height, "right")) - 1,
            )
            for width, height in zip(widths, heights, strict=True)
        ),
        exact=exact,
        real=real,
    )


def _thinned(points: Whole, sizes: list[int], most: int) -> Whole:
    """Keep about half of `most` at even steps of their places, and as many that just hold parts."""
    kept = np.linspace(0, len(points) - 1, most // 2).astype(np.int64)
    firsts = np.unique(np.searchsorted(points, sizes))
    firsts = firsts[firsts < len(points)]
    # Where there are too many, the larger of neighbours holds the other too.
    chosen = firsts[np.linspace(len(firsts) - 1, 0, min(len(firsts), most // 2)).astype(np.int64)]
    return points[np.union1d(kept, chosen)]


def _points(sizes: list[tuple[int, int]], sheets: list[int]) -> Whole:
    """Return the shorter of two lists that suffice: sums with demands kept, or raster points.

    Sums of part sizes suffice, no part counted more often than it is demanded (normal points: Herz
    1972). So do, for sums without that limit, the largest sums that leave room for another sum
    beside them on some sheet (raster points: Terno, Lindemann and Scheithauer 1987).
    """
    unit = gcd(*(size for size, _ in sizes))
    scaled = [(size // unit, demand) for size, demand in sizes]
    longest = [sheet // unit for sheet in sheets]
    normal = _sums(scaled, max(longest))
    closed = _sums([(size, max(longest) // size) for size, _ in scaled], max(longest))
    raster = np.unique(
        np.concatenate(
            [
                closed[np.searchsorted(closed, sheet - closed[closed <= sheet], "right") - 1]
                for sheet in longest
            ]
        )
    )
    return (normal if len(normal) <= len(raster) else raster) * unit


def _sums(sizes: list[tuple[int, int]], longest: int) -> Whole:
    reached = 1
    full = (1 << (longest + 1)) - 1
    for size, demand in sizes:
        copies = min(demand, longest // size)
        lot = 1
        while copies > 0:
            lot = min(lot, copies)
            reached |= (reached << (size * lot)) & full
            copies -= lot
            lot *= 2
    bits = np.frombuffer(bin(reached)[:1:-1].encode(), dtype=np.uint8)
    return np.flatnonzero(bits == ord("1")).astype(np.int64)
