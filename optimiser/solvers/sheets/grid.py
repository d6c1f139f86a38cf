"""Which sizes of pieces the dynamic programmes over cuts look at: few are enough, or nearly so.

Sizes here are real sizes plus one kerf, so that cuts add up without it. On the exact grid no
layout is lost: a piece is never wider than sums of part sizes require. A coarse grid holds some of
the exact one's points: what it finds can be cut, but more may be possible. A rough grid rounds
parts and sheets down to a step: what it finds may be too much, and never too little.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import gcd

import numpy as np

from optimiser.solvers.compiled import Whole
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind

# Sums of two entries in one table that proves: at most about a second, or a fifth of one.
MOST_SUMS = 6_000_000_000
QUICK_SUMS = 1_200_000_000


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
    exact: bool  # no layout is worth more than the table says
    real: bool  # every layout on the grid can be cut

    @property
    def sums(self) -> int:
        """Return about how many sums of two entries one table takes."""
        across, along = len(self.xs), len(self.ys)
        return across * along * (across + along) // 4


@dataclass(frozen=True, slots=True)
class _Way:
    kind: int
    turned: int
    across: int
    along: int


def exact_grid(problem: SheetsProblem, kinds: tuple[Kind, ...]) -> Grid:
    """Return the grid on which nothing is lost."""
    ways = _ways(kinds)
    xs = _points([way.across for way in ways], _across(problem))
    ys = _points([way.along for way in ways], _along(problem))
    return _grid(problem, ways, xs, ys, exact=True, real=True)


def coarse_grid(problem: SheetsProblem, kinds: tuple[Kind, ...], exact: Grid, most: int) -> Grid:
    """Return a grid with about `most` of the exact grid's points on each axis, itself if fewer."""
    if max(len(exact.xs), len(exact.ys)) <= most:
        return exact
    ways = _ways(kinds)
    xs = thinned(exact.xs, [way.across for way in ways], most)
    ys = thinned(exact.ys, [way.along for way in ways], most)
    return _grid(problem, ways, xs, ys, exact=False, real=True)


def bounding_grid(
    problem: SheetsProblem, kinds: tuple[Kind, ...], exact: Grid, most: int = MOST_SUMS
) -> Grid:
    """Return the exact grid, or a rough one if a table on that takes more than `most` sums."""
    smallest = min(min(kind.width, kind.height) for kind in kinds)
    grid, steps = exact, [1, 1]
    while grid.sums > most:
        axis = 0 if len(grid.xs) > len(grid.ys) else 1
        steps[axis] += max(1, steps[axis] // 4)
        if steps[axis] > smallest:
            # A part of no size would be worth any number: nothing can be proven.
            return replace(grid, exact=False, real=False)
        grid = _rough_grid(problem, kinds, steps[0], steps[1])
    return grid


def grid_on(problem: SheetsProblem, kinds: tuple[Kind, ...], xs: Whole, ys: Whole) -> Grid:
    """Return a grid on points that are sums of sizes, 0 first; more may be possible on others."""
    return _grid(problem, _ways(kinds), xs, ys, exact=False, real=True)


def _rough_grid(problem: SheetsProblem, kinds: tuple[Kind, ...], across: int, along: int) -> Grid:
    ways = [
        _Way(way.kind, way.turned, way.across // across, way.along // along) for way in _ways(kinds)
    ]
    widths = [size // across for size in _across(problem)]
    heights = [size // along for size in _along(problem)]
    xs = _points([way.across for way in ways], widths)
    ys = _points([way.along for way in ways], heights)
    return _laid(ways, xs, ys, widths, heights, exact=True, real=False)


def _across(problem: SheetsProblem) -> list[int]:
    return [sheet.width + problem.kerf for sheet in problem.sheets]


def _along(problem: SheetsProblem) -> list[int]:
    return [sheet.height + problem.kerf for sheet in problem.sheets]


def _ways(kinds: tuple[Kind, ...]) -> list[_Way]:
    ways = [_Way(place, 0, kind.width, kind.height) for place, kind in enumerate(kinds)]
    ways += [
        _Way(place, 1, kind.height, kind.width) for place, kind in enumerate(kinds) if kind.turns
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


def thinned(points: Whole, sizes: list[int], most: int) -> Whole:
    """Keep about half of `most` points at even steps, and as many that just hold parts."""
    kept = np.linspace(0, len(points) - 1, most // 2).astype(np.int64)
    firsts = np.unique(np.searchsorted(points, sizes))
    firsts = firsts[firsts < len(points)]
    # Where there are too many, the larger of neighbours holds the other too.
    chosen = firsts[np.linspace(len(firsts) - 1, 0, min(len(firsts), most // 2)).astype(np.int64)]
    return points[np.union1d(kept, chosen)]


def _points(sizes: list[int], sheets: list[int]) -> Whole:
    """Return raster points: sums of sizes, the largest that leave room for another sum beside them.

    A piece may be widened until what lies beside it on some sheet has just the sum of sizes that it
    needs (Terno, Lindemann and Scheithauer 1987). A size may count in a sum without limit: the
    table needs sums of points to be points, or it would miss layouts, and the bound be false.
    """
    unit = gcd(*sizes)
    longest = [sheet // unit for sheet in sheets]
    sums = sums_of([size // unit for size in sizes], max(longest))
    left = [sheet - sums[sums <= sheet] for sheet in longest]
    raster = [sums[np.searchsorted(sums, rest, "right") - 1] for rest in left]
    return np.unique(np.concatenate(raster)) * unit


def sums_of(sizes: list[int], longest: int) -> Whole:
    """Return all sums of any number of the sizes up to `longest`, 0 first."""
    reached = 1
    full = (1 << (longest + 1)) - 1
    for size in sorted(set(sizes)):
        lot = size
        while lot <= longest:
            reached |= (reached << lot) & full
            lot *= 2
    bits = np.frombuffer(bin(reached)[:1:-1].encode(), dtype=np.uint8)
    return np.flatnonzero(bits == ord("1")).astype(np.int64)
