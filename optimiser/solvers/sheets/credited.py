"""Prices of parts that prove what a plan costs where offcuts are credited.

The prices of plain column generation take all that is no part as credited. Here a layout costs its
sheet less the credit of what is kept of it, a plan takes so many sheets at least, and what a piece
left over earns is one of the values that the table over cuts adds up. The prices only make the
checker's bound better or worse: it counts anew what a sheet yields by them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from optimiser.solvers.compiled import Real, Whole
from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.columns import Filler, alike
from optimiser.solvers.sheets.grid import Grid
from optimiser.solvers.sheets.problem import Leaf, Node, SheetPattern, SheetsProblem
from optimiser.solvers.sheets.table import Kind, kinds_of

# Places along the longer side of the grids used one after another.
LEVELS = (120, 240)
# Layouts taken of each sheet from one table.
_FINDS = 6
# Wentges: the share of the best prices so far in the prices tried next.
_SMOOTHING = 0.5
# Values in a table stay below 2³¹ with room to spare; a sheet is worth 2²⁰ where that allows it.
_SCALE = float(1 << 20)
_CEILING = float(1 << 29)
# Prices are handed on in so many to the penny.
HANDED = 10_000


def prices_for(
    problem: SheetsProblem, patterns: Sequence[SheetPattern], least: int, budget: Budget
) -> tuple[tuple[int, ...], int] | None:
    """Return a price for each part and how many are a penny; None if there are none.

    They prove much of a plan of `least` sheets or more. `patterns` are the layouts of a plan, to
    begin with.
    """
    kinds = kinds_of(problem)
    if not kinds or not patterns or problem.credit == 0:
        return None
    return _Pricer(problem, kinds, patterns, least, budget).best()


class _Master:
    """The linear programme over layouts met: every part cut, so many sheets at least."""

    def __init__(self, kinds: Sequence[Kind], costs: Sequence[int], least: int) -> None:
        # Loaded late, as in master.py.
        from ortools.linear_solver import pywraplp

        self._solver: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._optimal = pywraplp.Solver.OPTIMAL
        infinity = self._infinity = self._solver.infinity()
        self._rows = [self._solver.Constraint(float(kind.demand), infinity) for kind in kinds]
        self._count = self._solver.Constraint(float(least), infinity)
        self._known: set[tuple[int, tuple[tuple[int, int], ...], int]] = set()
        # So that there is always an answer: a part alone, a sheet of nothing.
        for place in range(len(kinds)):
            self.add(-1, ((place, 1),), 0, max(costs))
        self.add(-1, (), 0, max(costs))

    def add(self, sheet: int, counts: tuple[tuple[int, int], ...], credit: int, cost: int) -> bool:
        """Take in a layout; False if it is known."""
        key = (sheet, counts, credit)
        if key in self._known:
            return False
        self._known.add(key)
        variable = self._solver.NumVar(0.0, self._infinity, "")
        self._solver.Objective().SetCoefficient(variable, float(cost - credit))
        for kind, count in counts:
            self._rows[kind].SetCoefficient(variable, float(count))
        self._count.SetCoefficient(variable, 1.0)
        return True

    def solve(self) -> tuple[float, Real, float] | None:
        """Return value, price of each kind and of a sheet."""
        self._solver.Objective().SetMinimization()
        if self._solver.Solve() != self._optimal:
            return None
        duals = np.maximum(0.0, [row.dual_value() for row in self._rows])
        return float(self._solver.Objective().Value()), duals, max(0.0, self._count.dual_value())


@dataclass(slots=True)
class _Even:
    """An even grid: parts and what is left over, each an entry of its own."""

    filler: Filler
    credits: Whole  # of the entries left over, pence, after those of the kinds
    kinds: int

    @classmethod
    def of(cls, problem: SheetsProblem, kinds: Sequence[Kind], places: int) -> _Even | None:
        """Lay parts and pieces out; None where a part or a kept piece would have no size."""
        kerf = problem.kerf
        widths = [sheet.width + kerf for sheet in problem.sheets]
        heights = [sheet.height + kerf for sheet in problem.sheets]
        step = max(1, max(*widths, *heights) // places)
        smallest = min(min(kind.width, kind.height) for kind in kinds)
        if step > min(smallest, min(problem.keep) + kerf):
            return None
        xs = np.arange(max(widths) // step + 1, dtype=np.int64)
        ys = np.arange(max(heights) // step + 1, dtype=np.int64)
        ways = [(place, kind.width, kind.height) for place, kind in enumerate(kinds)]
        ways += [(place, k.height, k.width) for place, k in enumerate(kinds) if k.turns]
        ways = [(p, a // step, b // step) for p, a, b in ways]
        ways = [(p, a, b) for p, a, b in ways if a < len(xs) and b < len(ys)]
        across = ((xs + 1) * step - 1 - kerf)[:, None]
        along = ((ys + 1) * step - 1 - kerf)[None, :]
        more, less = max(problem.keep), min(problem.keep)
        kept = (np.maximum(across, along) >= more) & (np.minimum(across, along) >= less)
        columns, rows = np.nonzero(kept)
        pence = (across * along)[kept].astype(np.float64) * float(problem.credit)
        entries = np.arange(len(kinds), len(kinds) + len(columns))
        grid = Grid(
            xs=xs,
            ys=ys,
            kinds=np.concatenate([np.array([p for p, _, _ in ways], dtype=np.int64), entries]),
            turned=np.zeros(len(ways) + len(entries), dtype=np.int64),
            columns=np.concatenate([np.array([a for _, a, _ in ways], dtype=np.int64), columns]),
            rows=np.concatenate([np.array([b for _, _, b in ways], dtype=np.int64), rows]),
            sheets=tuple((w // step, h // step) for w, h in zip(widths, heights, strict=True)),
            exact=True,
            real=False,
        )
        return cls(Filler.on(grid), pence.astype(np.int64), len(kinds))

    def fill(self, prices: Real, scale: float) -> list[int]:
        """Return what each sheet yields at most, prices and credit, times the scale."""
        values = np.concatenate([prices * scale, self.credits * scale])
        return self.filler.fill(np.floor(values).astype(np.int64))

    def layouts(self, sheet: int, above: int) -> Iterator[tuple[tuple[tuple[int, int], ...], int]]:
        """Yield parts and credit of the layouts worth most on a sheet."""
        for column in self.filler.layouts(sheet, above, _FINDS):
            parts = tuple((kind, n) for kind, n in column.counts if kind < self.kinds)
            credit = sum(
                n * int(self.credits[kind - self.kinds])
                for kind, n in column.counts
                if kind >= self.kinds
            )
            # A sheet of which all is kept is no layout, but the checker's table holds it too.
            yield parts, credit


@dataclass(slots=True)
class _Pricer:
    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    patterns: Sequence[SheetPattern]
    least: int
    budget: Budget
    _best: tuple[float, Real] | None = None
    _costs: list[int] = field(init=False)
    _demands: Real = field(init=False)

    def best(self) -> tuple[tuple[int, ...], int] | None:
        """Generate layouts while there is time, and hand on the prices that prove most."""
        self._costs = [sheet.cost for sheet in self.problem.sheets]
        self._demands = np.array([float(kind.demand) for kind in self.kinds])
        master = _Master(self.kinds, self._costs, self.least)
        self._begin(master)
        for places in LEVELS:
            even = _Even.of(self.problem, self.kinds, places)
            if even is not None and not self.budget.is_spent:
                # Coarser grids let sheets hold more: only of the last is known what it proves.
                self._best = None
                self._generate(master, even)
        if self._best is None:
            return None
        _, prices = self._best
        weights = [0] * len(self.problem.demands)
        for kind, price in zip(self.kinds, prices.tolist(), strict=True):
            for part in kind.parts:
                weights[part] = int(price * HANDED)
        return tuple(weights), HANDED

    def _begin(self, master: _Master) -> None:
        """Take in the layouts of the plan, and those of one kind each."""
        kind_of = {part: place for place, kind in enumerate(self.kinds) for part in kind.parts}
        for pattern in self.patterns:
            sheet = self.problem.sheets[pattern.sheet]
            counts: Counter[int] = Counter()
            credit = _read(self.problem, pattern.root, sheet.width, sheet.height, counts, kind_of)
            master.add(pattern.sheet, tuple(sorted(counts.items())), credit, sheet.cost)
        for place, kind in enumerate(self.kinds):
            for number, sheet in enumerate(self.problem.sheets):
                for column in alike(self.problem, place, kind, number):
                    master.add(number, column.counts, 0, sheet.cost)

    def _generate(self, master: _Master, even: _Even) -> None:
        centre: Real | None = None
        while not self.budget.is_spent:
            solved = master.solve()
            if solved is None:
                return
            value, duals, rent = solved
            if self._best is not None and value <= self._best[0] + 0.5:
                return
            trials = [duals]
            if centre is not None:
                trials.insert(0, _SMOOTHING * centre + (1 - _SMOOTHING) * duals)
            for prices in trials:
                new, better = self._price(master, even, prices, rent)
                if better or centre is None:
                    centre = prices
                if new:
                    break
            else:
                return

    def _price(self, master: _Master, even: _Even, prices: Real, rent: float) -> tuple[int, bool]:
        """Fill a table for prices, take what pays for its sheet; say if the prices prove more."""
        scale = self._scale(prices)
        yields = even.fill(prices, scale)
        over = [cost - most / scale for cost, most in zip(self._costs, yields, strict=True)]
        least = min(over)
        # Of what costs less than it yields no more is taken than now; the checker counts better.
        sheets = self.least if least > 0 else sum(pattern.times for pattern in self.patterns)
        bound = float(prices @ self._demands) + least * sheets
        better = self._best is None or bound > self._best[0]
        if better:
            self._best = bound, prices
        new = 0
        for sheet, most in enumerate(yields):
            paid = int((self._costs[sheet] - rent) * scale) + 1 + int(scale * 1e-6)
            if most > paid and self.problem.sheets[sheet].available != 0:
                for counts, credit in even.layouts(sheet, paid):
                    new += master.add(sheet, counts, credit, self._costs[sheet])
        return new, better

    def _scale(self, prices: Real) -> float:
        largest = max((sheet.width + 1) * (sheet.height + 1) for sheet in self.problem.sheets)
        densest: float = max(
            price / (kind.width * kind.height)
            for price, kind in zip(prices.tolist(), self.kinds, strict=True)
        )
        densest = max(densest, float(self.problem.credit)) * largest
        return float(min(_SCALE / max(1, *self._costs), _CEILING / max(1e-9, densest)))


def _read(
    problem: SheetsProblem,
    node: Node,
    width: int,
    height: int,
    counts: Counter[int],
    kind_of: dict[int, int],
) -> int:
    """Count the parts of a layout by kind; return what is left of it earns."""
    if isinstance(node, Leaf):
        if node.part is None:
            return problem.credit_for(width, height)
        counts[kind_of[node.part]] += 1
        return 0
    rest = node.at + problem.kerf
    near = (node.at, height) if node.rip else (width, node.at)
    far = (width - rest, height) if node.rip else (width, height - rest)
    earned = _read(problem, node.near, *near, counts, kind_of)
    if node.far is not None:
        earned += _read(problem, node.far, *far, counts, kind_of)
    return earned
