"""Layouts in few stages of cuts for given values of the parts, the best that a grid of sizes holds.

Beside the table of all edge-to-edge cuts (`columns.Filler`) this is the table for a saw that limits
the stages: rows of parts, stacks of rows, rows of stacks. What is left over takes a cut of the
stage it lies beside, so that no layout needs more stages than it says.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from math import gcd
from typing import TypeAlias

import numpy as np

from optimiser.solvers.compiled import Whole
from optimiser.solvers.sheets import fill, rows
from optimiser.solvers.sheets.columns import Column, Counts, Step
from optimiser.solvers.sheets.grid import sums_of, thinned
from optimiser.solvers.sheets.problem import SheetsProblem, Way
from optimiser.solvers.sheets.table import Kind

# The most points on each axis.
_POINTS = 500
# Layouts by different first pieces looked at on each sheet.
_TRIED = 40
# Layouts of more stages than this are made of no more.
_MOST_STAGES = 3
# In place of a frame: the first piece is a part, and the only one.
_UNCUT = -1

# A piece of a row or stack: its size along the row, and the steps that cut it.
_Piece: TypeAlias = tuple[int, list[Step]]


@dataclass(frozen=True, slots=True)
class _Lying:
    """A way that a part lies: its kind, whether it is turned, its sizes in the frame."""

    kind: int
    turned: int
    across: int
    along: int


@dataclass(slots=True)
class _Frame:
    """The tables for rows that run across; `quarter` frames stand turned, their rows along."""

    quarter: bool
    xs: Whole
    ys: Whole
    ways: list[_Lying]
    heights: Whole
    sheets: list[tuple[int, int]]  # sizes of each sheet in the frame
    # Python's own search is the quicker one in lists of so few.
    _across: list[int] = field(init=False)
    _along: list[int] = field(init=False)
    _kinds: Whole = field(init=False)
    _groups: Whole = field(init=False)
    _members: list[Whole] = field(init=False)
    _beside: rows.Places = field(init=False)
    _above: rows.Places = field(init=False)
    _rest: rows.Places = field(init=False)
    _values: Whole = field(init=False)
    _rows: rows.Places = field(init=False)
    _stacks: rows.Places = field(init=False)
    _lines: dict[int, rows.Places] = field(init=False)

    def __post_init__(self) -> None:
        self._kinds = np.array([way.kind for way in self.ways], dtype=np.int64)
        self._across, self._along = self.xs.tolist(), self.ys.tolist()
        self._groups = np.searchsorted(self.heights, [way.along for way in self.ways])
        self._members = [np.flatnonzero(self._groups == g) for g in range(len(self.heights))]
        acrosses = np.array([way.across for way in self.ways], dtype=np.int64)
        self._beside = rows.lesser(self.xs, acrosses)
        self._above = rows.lesser(self.ys, self.heights)
        self._rest = rows.lesser(self.xs, self.xs)
        self._rows = np.zeros((len(self.heights), len(self.xs)), dtype=np.int32)
        self._stacks = np.zeros((len(self.ys), len(self.xs)), dtype=np.int32)
        self._values = np.zeros(len(self.ways), dtype=np.int64)
        self._lines = {}
        for _, height in self.sheets:
            self._lines[self._row(height)] = np.zeros(len(self.xs), dtype=np.int32)

    def fill(self, values: Whole, stages: int) -> None:
        """Fill the tables as far as so many stages ask for."""
        self._values = values[self._kinds]
        rows.fill_rows(self._rows, self._groups, self._beside, self._values)
        if stages > 1:
            rows.fill_stacks(self._stacks, self._rows, self._above)
        if stages > 2:
            for j, line in self._lines.items():
                rows.fill_line(line, self._stacks[j], self._rest)

    def firsts(self, sheet: int, stages: int, *, cut: bool) -> list[tuple[int, int]]:
        """Return (worth of a layout, its first piece) for first pieces worth most, best first.

        With `cut` the first piece leaves something to cut off, so that the first cut goes the way
        of this frame's rows of so many stages.
        """
        width, height = self.sheets[sheet]
        i, j = self._column(width), self._row(height)
        if stages == 1:
            # One row as high as the sheet.
            worth = np.array([
                self._rows[g, i] if size == height else 0 for g, size in enumerate(self.heights)
            ])  # fmt: skip
            places = np.arange(len(self.heights))
        elif stages == 2:
            rest = self._above[:, j]
            row = self._rows[:, i]
            worth = np.where((rest >= 0) & (row > 0), row + self._stacks[rest, i], 0)
            places = np.arange(len(self.heights))
            if cut:
                worth = np.where(self.heights < height, worth, 0)
        else:
            places = np.arange(1, i + 1)
            piece = self._stacks[j, places]
            worth = np.where(piece > 0, piece + self._lines[j][self._rest[places, i]], 0)
            if cut:
                worth = np.where(self.xs[places] < width, worth, 0)
        best = np.argsort(-worth.astype(np.int64), kind="stable")[:_TRIED]
        return [(int(worth[place]), int(places[place])) for place in best if worth[place] > 0]

    def uncut(self, sheet: int) -> list[tuple[int, int]]:
        """Return (worth, way) for the parts that are as large as the sheet."""
        size = self.sheets[sheet]
        return [
            (int(self._values[n]), n)
            for n, way in enumerate(self.ways)
            if (way.across, way.along) == size and self._values[n] > 0
        ]

    def steps(self, sheet: int, stages: int, first: int) -> list[Step]:
        """Return how the sheet is cut whose first piece is `first`."""
        width, height = self.sheets[sheet]
        if stages == 1:
            found = self._row_steps(first, width)
        elif stages == 2:
            found = self._stack_steps(width, height, first)
        else:
            found = self._line_steps(width, height, first)
        return [_quartered(step) for step in found] if self.quarter else found

    def _line_steps(self, width: int, height: int, first: int) -> list[Step]:
        j = self._row(height)
        line, pieces = self._lines[j], self._stacks[j]
        made: list[_Piece] = []
        left, near = width, first
        while near:
            size = int(self.xs[near])
            made.append((size, self._stack_steps(size, height)))
            left -= size
            near = 0
            i = self._column(left)
            if line[i] > 0:
                piece = pieces[1 : i + 1]
                both = piece + line[self._rest[1 : i + 1, i]]
                near = int(((both == line[i]) & (piece > 0)).argmax()) + 1
        return _joined(made, fill.RIP, left)

    def _stack_steps(self, width: int, height: int, first: int | None = None) -> list[Step]:
        i = self._column(width)
        made: list[_Piece] = []
        left, group = height, first
        while True:
            if group is None:
                j = self._row(left)
                value = self._stacks[j, i]
                if value == 0:
                    break
                rest = self._above[:, j]
                both = np.where(rest >= 0, self._rows[:, i] + self._stacks[rest, i], -1)
                # Of rows that are worth nothing none is cut.
                group = int(((both == value) & (self._rows[:, i] > 0)).argmax())
            size = int(self.heights[group])
            made.append((size, self._row_steps(group, width)))
            left -= size
            group = None
        return _joined(made, fill.CROSS, left)

    def _row_steps(self, group: int, width: int) -> list[Step]:
        line = self._rows[group]
        ways = self._members[group]
        made: list[_Piece] = []
        left = width
        while line[i := self._column(left)] > 0:
            while line[i - 1] == line[i]:
                i -= 1
            rest = self._beside[ways, i]
            both = np.where(rest >= 0, self._values[ways] + line[rest], -1)
            way = self.ways[int(ways[(both == line[i]).argmax()])]
            made.append((way.across, [(fill.PART, way.kind, way.turned)]))
            left -= way.across
        return _joined(made, fill.RIP, left)

    def _column(self, width: int) -> int:
        return bisect_right(self._across, width) - 1

    def _row(self, height: int) -> int:
        return bisect_right(self._along, height) - 1


def _joined(made: list[_Piece], what: int, left: int) -> list[Step]:
    """Write pieces one after another, what is `left` of the last one cut off too."""
    if not made:
        return [(fill.LEFT, 0, 0)]
    steps: list[Step] = []
    for size, inside in made[:-1]:
        steps += [(what, size, 0), *inside]
    size, inside = made[-1]
    return [*steps, (what, size, 0), *inside, (fill.LEFT, 0, 0)] if left else [*steps, *inside]


def _quartered(step: Step) -> Step:
    what, size, turned = step
    return ({fill.RIP: fill.CROSS, fill.CROSS: fill.RIP}.get(what, what), size, turned)


@dataclass(slots=True)
class StagedFiller:
    """The tables of a problem that limits its stages: the best layouts for given values."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    stages: int = field(init=False)
    _frames: tuple[_Frame, _Frame] = field(init=False)

    # What it finds can be cut, and more may be possible on sizes between its points.
    real = True
    exact = False

    def __post_init__(self) -> None:
        most = self.problem.max_stages
        self.stages = _MOST_STAGES if most is None else min(most, _MOST_STAGES)
        self._frames = self._frame(quarter=False), self._frame(quarter=True)

    def _frame(self, *, quarter: bool) -> _Frame:
        kerf = self.problem.kerf
        sheets = [(sheet.width + kerf, sheet.height + kerf) for sheet in self.problem.sheets]
        ways = [
            _Lying(
                place, turned, *((kind.height, kind.width) if turned else (kind.width, kind.height))
            )
            for place, kind in enumerate(self.kinds)
            for turned in (0, 1)[: 2 if kind.turns else 1]
        ]
        if quarter:
            sheets = [(height, width) for width, height in sheets]
            ways = [replace(way, across=way.along, along=way.across) for way in ways]
        widest, highest = (max(sizes) for sizes in zip(*sheets, strict=True))
        ways = [way for way in ways if way.across <= widest and way.along <= highest]
        xs = _points([way.across for way in ways], [width for width, _ in sheets])
        heights = np.unique(np.array([way.along for way in ways], dtype=np.int64))
        ys = _points(heights.tolist(), [height for _, height in sheets])
        return _Frame(quarter, xs, ys, ways, heights, sheets)

    def fill(self, values: Whole) -> list[int]:
        """Return the most value of a layout on each sheet, for one value a kind."""
        for frame in self._frames:
            frame.fill(values, self.stages)
        return [
            max((worth for worth, _, _ in self._firsts(sheet)), default=0)
            for sheet in range(len(self.problem.sheets))
        ]

    def layouts(self, sheet: int, above: int, most: int) -> Iterator[Column]:
        """Yield the layouts worth most on a sheet, by different first cuts, each over `above`."""
        seen: set[Counts] = set()
        for worth, frame, first in self._firsts(sheet):
            if worth <= above or len(seen) == most:
                return
            steps = self._steps(sheet, frame, first)
            counts = Counter(kind for what, kind, _ in steps if what == fill.PART)
            column = Column(sheet, tuple(sorted(counts.items())), tuple(steps))
            if column.counts not in seen:
                seen.add(column.counts)
                yield column

    def _firsts(self, sheet: int) -> list[tuple[int, int, int]]:
        """Return (worth, frame, first piece), best first; a part that takes no cut has no frame."""
        asked = self.problem.first_cut
        # The first cuts of two stages part rows, those of one or three stand across them.
        across = (Way.RIP, Way.CROSS) if self.stages != 2 else (Way.CROSS, Way.RIP)
        found = [
            (worth, number, first)
            for number, frame in enumerate(self._frames)
            if asked in (None, across[number])
            for worth, first in frame.firsts(sheet, self.stages, cut=asked is not None)
        ]
        if asked is not None:
            found += [(worth, _UNCUT, way) for worth, way in self._frames[0].uncut(sheet)]
        return sorted(found, key=lambda one: -one[0])

    def _steps(self, sheet: int, frame: int, first: int) -> list[Step]:
        if frame == _UNCUT:
            way = self._frames[0].ways[first]
            return [(fill.PART, way.kind, way.turned)]
        return self._frames[frame].steps(sheet, self.stages, first)


def _points(sizes: list[int], sheets: list[int]) -> Whole:
    """Return sums of sizes up to the largest sheet, some of them where there are too many."""
    unit = gcd(*sizes) if sizes else 1
    sums = sums_of([size // unit for size in sizes], max(sheets) // unit) * unit
    return sums if len(sums) <= _POINTS else thinned(sums, sizes, _POINTS)
