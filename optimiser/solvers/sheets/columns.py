"""Layouts as the linear programme sees them, and how they become blocks when one is wanted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from optimiser.solvers.compiled import Whole
from optimiser.solvers.sheets import fill
from optimiser.solvers.sheets.grid import Grid
from optimiser.solvers.sheets.problem import SheetsProblem, Way
from optimiser.solvers.sheets.table import Kind
from optimiser.solvers.sheets.tree import Block, divided, left_over

Counts = tuple[tuple[int, int], ...]
Step = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Column:
    """A layout on a sheet: how many parts of each kind, and the steps that cut them.

    A step is (RIP or CROSS, size of the near piece, 0), (PART, kind, turned) or (LEFT, 0, 0).
    """

    sheet: int
    counts: Counts
    steps: tuple[Step, ...]


class LayoutTable(Protocol):
    """Finds the best layouts for given values of the kinds."""

    @property
    def exact(self) -> bool:
        """Return whether no layout is worth more than the table says."""

    @property
    def real(self) -> bool:
        """Return whether every layout it finds can be cut."""

    def fill(self, values: Whole) -> list[int]:
        """Return the most value of a layout on each sheet, for one value a kind."""

    def layouts(self, sheet: int, above: int, most: int) -> Iterator[Column]:
        """Yield the layouts worth most on a sheet, by different first cuts, each over `above`."""


@dataclass(slots=True)
class Filler:
    """One grid with its table: the best layouts of any edge-to-edge cuts."""

    grid: Grid
    table: np.ndarray[tuple[int, ...], np.dtype[np.int32]]
    values: Whole
    _steps: Whole
    _left: np.ndarray[tuple[int, ...], np.dtype[np.int32]]
    first_cut: Way | None

    @classmethod
    def on(cls, grid: Grid, first_cut: Way | None = None) -> Filler:
        """Make room for the tables of a grid; layouts begin with a cut that way, if one is said."""
        return cls(
            grid,
            np.zeros((len(grid.xs), len(grid.ys)), dtype=np.int32),
            np.zeros(len(grid.kinds), dtype=np.int64),
            np.zeros((fill.MOST_STEPS, 2), dtype=np.int64),
            fill.remainders(grid.ys),
            first_cut,
        )

    @property
    def exact(self) -> bool:
        """Return whether no layout is worth more than the table says."""
        return self.grid.exact

    @property
    def real(self) -> bool:
        """Return whether every layout it finds can be cut."""
        return self.grid.real

    def fill(self, values: Whole) -> list[int]:
        """Return the most value of a layout on each sheet, for one value a kind."""
        grid = self.grid
        self.values = values[grid.kinds]
        fill.fill(self.table, grid.xs, grid.ys, grid.columns, grid.rows, self.values, self._left)
        return [int(self.table[place]) for place in grid.sheets]

    def layouts(self, sheet: int, above: int, most: int) -> Iterator[Column]:
        """Yield the layouts worth most on a sheet, by different first cuts, each over `above`."""
        seen = set()
        for first in self._first_cuts(sheet, above):
            column = self._traced(sheet, first)
            if column is not None and column.counts and column.counts not in seen:
                seen.add(column.counts)
                yield column
            if len(seen) == most:
                return

    def _first_cuts(self, sheet: int, above: int) -> Iterator[int]:
        if self.first_cut is None:
            yield 0
        grid, table = self.grid, self.table
        i, j = grid.sheets[sheet]
        near = np.arange(1, np.searchsorted(grid.xs, grid.xs[i] // 2, "right"))
        far = np.searchsorted(grid.xs, grid.xs[i] - grid.xs[near], "right") - 1
        rips = table[near, j].astype(np.int64) + table[far, j]
        low = np.arange(1, np.searchsorted(grid.ys, grid.ys[j] // 2, "right"))
        high = np.searchsorted(grid.ys, grid.ys[j] - grid.ys[low], "right") - 1
        crosses = table[i, low].astype(np.int64) + table[i, high]
        if self.first_cut is not None:
            (crosses if self.first_cut is Way.RIP else rips)[:] = 0
        worth = np.concatenate([rips, crosses])
        cuts = np.concatenate([near, -low])
        for place in np.argsort(-worth, kind="stable")[:40]:
            if worth[place] <= above:
                return
            yield int(cuts[place])

    def _traced(self, sheet: int, first: int) -> Column | None:
        grid = self.grid
        start = np.array([*grid.sheets[sheet], first], dtype=np.int64)
        count = fill.trace(
            self.table, grid.xs, grid.ys, grid.columns, grid.rows, self.values, start, self._steps
        )
        steps: list[Step] = []
        parts: Counter[int] = Counter()
        for what, size in self._steps[:count].tolist():
            if what == fill.PART:
                kind = int(grid.kinds[size])
                parts[kind] += 1
                steps.append((what, kind, int(grid.turned[size])))
            else:
                steps.append((what, size, 0))
        return Column(sheet, tuple(sorted(parts.items())), tuple(steps)) if count else None


def value_of(column: Column, values: Whole) -> int:
    """Return what the parts of a layout are worth."""
    return sum(int(values[kind]) * count for kind, count in column.counts)


def alike(problem: SheetsProblem, place: int, kind: Kind, sheet: int) -> list[Column]:
    """Return the layout of rows and columns of one kind that holds most; none if none fits."""
    width = problem.sheets[sheet].width + problem.kerf
    height = problem.sheets[sheet].height + problem.kerf
    best: tuple[int, Column] | None = None
    for turned in (0, 1)[: 2 if kind.turns else 1]:
        across, along = (kind.height, kind.width) if turned else (kind.width, kind.height)
        up = min(height // along, kind.demand)
        beside = min(width // across, -(-kind.demand // up)) if up else 0
        if not up * beside or (best is not None and up * beside <= best[0]):
            continue
        part = (fill.PART, place, turned)
        strip = [(fill.CROSS, along, 0), part] * (up - 1) + [part]
        steps = [(fill.RIP, across, 0), *strip] * (beside - 1) + strip
        best = (up * beside, Column(sheet, ((place, up * beside),), tuple(steps)))
    return [] if best is None else [best[1]]


def last_cuts(steps: Sequence[Step]) -> list[int]:
    """Return for each step the way of the cuts that part its piece from those beside it."""
    ways = [fill.PART] * len(steps)

    def walk(place: int, way: int) -> int:
        ways[place] = way
        what = steps[place][0]
        if what in (fill.PART, fill.LEFT):
            return place + 1
        while steps[place][0] == what:
            ways[place] = way
            place = walk(place + 1, what)
        return walk(place, what)

    walk(0, fill.PART)
    return ways


def block_of(problem: SheetsProblem, kinds: tuple[Kind, ...], column: Column) -> Block:
    """Build the layout of a column."""
    sheet = problem.sheets[column.sheet]
    steps = iter(column.steps)
    width, height = sheet.width + problem.kerf, sheet.height + problem.kerf
    return _built(kinds, next(steps), steps, width, height)


def _built(
    kinds: tuple[Kind, ...], step: Step, steps: Iterator[Step], width: int, height: int
) -> Block:
    """Build a piece that begins with `step`; a row of cuts one way is put together at once."""
    what, size, turned = step
    if what == fill.LEFT:
        return left_over(width, height)
    if what == fill.PART:
        return trimmed(kinds[size], size, width, height, turned=bool(turned))
    rip = what == fill.RIP
    pieces: list[Block] = []
    across, along = width, height
    while step[0] == what:
        size = step[1]
        if rip:
            pieces.append(_built(kinds, next(steps), steps, size, along))
            across -= size
        else:
            pieces.append(_built(kinds, next(steps), steps, across, size))
            along -= size
        step = next(steps)
    pieces.append(_built(kinds, step, steps, across, along))
    return divided(pieces, width, height, rip=rip)


def trimmed(kind: Kind, place: int, width: int, height: int, *, turned: bool) -> Block:
    """Cut one part out of a piece it fits; the longer remainder stays whole."""
    across, along = (kind.height, kind.width) if turned else (kind.width, kind.height)
    part = Block(rip=False, width=across, height=along, part=place, turned=turned, pieces=())
    beside, above = width - across, height - along
    if beside * height >= above * width:
        column = [part, left_over(across, above)] if above else [part]
        strip = divided(column, across, height, rip=False)
        return (
            divided([strip, left_over(beside, height)], width, height, rip=True)
            if beside
            else strip
        )
    row = [part, left_over(beside, along)] if beside else [part]
    strip = divided(row, width, along, rip=True)
    return divided([strip, left_over(width, above)], width, height, rip=False) if above else strip
