"""Column generation: layouts worth having, and prices of parts that prove how good they are.

Coarse grids find most layouts; the exact grid ends it and makes the proof. Prices become whole
numbers before they are used, so whatever the linear programme's floats are worth, the weights
handed on are exact and their yields counted exactly.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil

import numpy as np

from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.bounds import Proof, carriers_of, constant_of
from optimiser.solvers.sheets.columns import Filler
from optimiser.solvers.sheets.compiled import Real, Whole
from optimiser.solvers.sheets.cover import Carrier, Cover, Load, least_cost
from optimiser.solvers.sheets.grid import Grid, bounding_grid, coarse_grid, exact_grid
from optimiser.solvers.sheets.master import Master, Relaxed
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind

# Measured, see benchmarks: points an axis of the grids tried one after another.
LEVELS = (120, 250, 500)
# Layouts taken from one table.
_FINDS = 4
# Wentges: the share of the best prices so far in the prices tried next.
_SMOOTHING = 0.5
# A coarse grid is left when so many rounds lower the programme by less than this share.
_PATIENCE = 12
_SLOW = 2e-4
# Prices become whole numbers such that a sheet is worth about 2²⁴ and nothing overflows 2³⁰.
_SCALE = float(1 << 24)
_CEILING = float(1 << 30)
# Rounds of looking for counts of sheets, and rows kept for the checker.
_COUNT_ROUNDS = 12
MOST_WEIGHTS = 6


@dataclass(slots=True)
class Generator:
    """One column generation over one problem; `proof` is the best so far."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    proof: Proof
    budget: Budget
    master: Master = field(init=False)
    relaxed: Relaxed | None = None
    converged: bool = False
    costs: tuple[float, ...] = field(init=False)
    grids: list[Grid] = field(init=False)
    carriers: tuple[Carrier, ...] = field(init=False)
    constant: Fraction = field(init=False)
    known: dict[tuple[int, ...], Load] = field(default_factory=dict)
    _fillers: dict[int, Filler] = field(default_factory=dict)
    _areas: Real = field(init=False)
    _demands: Whole = field(init=False)

    def __post_init__(self) -> None:
        problem, kinds = self.problem, self.kinds
        self.carriers, self.constant = carriers_of(problem), constant_of(problem)
        self.costs = tuple(max(0.0, float(carrier.cost)) for carrier in self.carriers)
        self.master = Master(
            [kind.demand for kind in kinds],
            self.costs,
            [sheet.available for sheet in problem.sheets],
        )
        exact = exact_grid(problem, kinds)
        bounding = bounding_grid(problem, kinds, exact)
        grids = [coarse_grid(problem, kinds, exact, most) for most in LEVELS]
        self.grids = [grid for grid in grids if grid is not exact]
        self.grids.append(bounding)
        self._areas = np.array([float(kind.width * kind.height) for kind in kinds])
        self._demands = np.array([kind.demand for kind in kinds], dtype=np.int64)

    def seed(self) -> None:
        """Start with layouts of one kind each, so that no price starts out of proportion."""
        filler = self._filler(0)
        for place in range(len(self.kinds)):
            values = np.zeros(len(self.kinds), dtype=np.int64)
            values[place] = 1
            filler.fill(values)
            for sheet in range(len(self.problem.sheets)):
                self.master.add(filler.layouts(sheet, 0, 1))

    def run(self, is_enough: Callable[[], bool]) -> None:
        """Generate columns grid by grid until the exact one has no more, or it is enough."""
        for level in range(len(self.grids)):
            self._converge(level, is_enough)
            if is_enough() or self.budget.is_spent:
                return
        if len(self.problem.sheets) > 1:
            self._count(is_enough)

    def price_rest(self, left: list[int], limits: list[int | None], rounds: int) -> None:
        """Add layouts for what is left of a plan, on the coarsest grid."""
        filler = self._filler(0)
        demands = np.array(left, dtype=np.int64)
        for _ in range(rounds):
            self.master.restrict(left, limits)
            relaxed = self.master.solve()
            if relaxed is None:
                return
            # A part no longer asked for is worth nothing.
            prices = np.where(demands > 0, relaxed.duals, 0.0)
            if not self._price(filler, prices, relaxed.rents, real=filler.grid.real):
                return

    def _filler(self, level: int) -> Filler:
        if level not in self._fillers:
            self._fillers[level] = Filler.on(self.grids[level])
        return self._fillers[level]

    def _converge(self, level: int, is_enough: Callable[[], bool]) -> None:
        filler = self._filler(level)
        last = level == len(self.grids) - 1
        history: list[float] = []
        centre: Real | None = None
        hardened = 0
        while not self.budget.is_spent:
            relaxed = self.master.solve()
            if relaxed is None:
                return
            self.relaxed = relaxed
            history.append(relaxed.value)
            new = 0
            for prices in self._trials(relaxed, centre):
                new = self._price(filler, prices, relaxed.rents, real=filler.grid.real)
                if new:
                    centre = prices
                    break
            if last and (is_enough() or self._is_met(relaxed)):
                self.converged = True
                return
            if not new:
                if last and relaxed.short > 1e-6 and hardened < 3:
                    self.master.harden()
                    hardened += 1
                    continue
                self.converged = last and filler.grid.real
                return
            if not last and len(history) > _PATIENCE and (
                history[-1 - _PATIENCE] - history[-1] < _SLOW * history[-1]
            ):
                return

    def _trials(self, relaxed: Relaxed, centre: Real | None) -> list[Real]:
        if centre is None:
            return [relaxed.duals]
        return [_SMOOTHING * centre + (1 - _SMOOTHING) * relaxed.duals, relaxed.duals]

    def _is_met(self, relaxed: Relaxed) -> bool:
        """Return whether the proof has reached the programme's own value, rounded up."""
        if relaxed.short > 1e-6:
            return self.proof.short
        value = relaxed.value + float(self.constant)
        return self.proof.bound >= ceil(value - 1e-6 * max(1.0, abs(value)))

    def _price(self, filler: Filler, prices: Real, rents: Real, *, real: bool) -> int:
        """Fill a table for prices, take what pays for its sheet, and use the proof if exact."""
        whole, scale = self._whole(prices)
        yields = filler.fill(whole)
        if filler.grid.exact:
            self._prove(whole, yields)
        if not real:
            return 0
        new = 0
        for sheet, value in enumerate(yields):
            above = int((self.costs[sheet] + rents[sheet]) * scale * (1 + 1e-9)) + 1
            if value > above and self.problem.sheets[sheet].available != 0:
                new += self.master.add(filler.layouts(sheet, above, _FINDS))
        return new

    def _whole(self, prices: Real) -> tuple[Whole, float]:
        """Return prices as whole numbers, rounded down, and their scale."""
        largest = max((sheet.width + self.problem.kerf) for sheet in self.problem.sheets) * max(
            (sheet.height + self.problem.kerf) for sheet in self.problem.sheets
        )
        densest = float((prices / self._areas).max(initial=0.0)) * largest
        scale = min(_SCALE / max(1e-9, *self.costs), _CEILING / max(1e-9, densest))
        return np.floor(prices * scale).astype(np.int64), scale

    def _prove(self, whole: Whole, yields: list[int]) -> None:
        """Take a row of weights if it proves more than what is known."""
        load = Load(carries=tuple(yields), demand=int((whole * self._demands).sum()))
        cover = least_cost(self.carriers, [load], self.constant)
        if cover is not None and cover.bound <= self.proof.bound:
            return
        key = tuple(whole.tolist())
        self.known[key] = load
        self._take(cover, [key])

    def _take(self, cover: Cover | None, keys: list[tuple[int, ...]]) -> None:
        if cover is None:
            self.proof = Proof(
                bound=0,
                rows=self.proof.rows,
                short=True,
                weights=tuple(self._by_part(key) for key in keys),
                loads=tuple(self.known[key] for key in keys),
            )
        elif cover.bound > self.proof.bound:
            self.proof = Proof(
                bound=cover.bound,
                rows=self.proof.rows,
                short=False,
                weights=tuple(self._by_part(key) for key in keys),
                loads=self.proof.loads,
            )

    def _by_part(self, key: tuple[int, ...]) -> tuple[int, ...]:
        weights = [0] * len(self.problem.demands)
        for kind, weight in zip(self.kinds, key, strict=True):
            for part in kind.parts:
                weights[part] = weight
        return tuple(weights)

    def _count(self, is_enough: Callable[[], bool]) -> None:
        """Ask which counts of sheets could be enough, and prove the cheapest ones are not."""
        keys = list(self.known)[-1:]
        limits = [sheet.available for sheet in self.problem.sheets]
        demands = [kind.demand for kind in self.kinds]
        for _ in range(_COUNT_ROUNDS):
            loads = [self.known[key] for key in keys]
            cover = least_cost(self.carriers, loads, self.constant)
            self._take(cover, keys)
            if cover is None or cover.counts is None or is_enough() or len(keys) == MOST_WEIGHTS:
                break
            found = self._refuted(cover.counts)
            if found is None:
                break
            keys.append(found)
        self.master.price(self.costs, 4.0 * max(1.0, *self.costs))
        self.master.restrict(demands, limits)

    def _refuted(self, counts: tuple[int, ...]) -> tuple[int, ...] | None:
        """Return weights that so many sheets of each size cannot carry; None if none are found."""
        self.master.price([0.0] * len(counts), 1.0)
        self.master.restrict([kind.demand for kind in self.kinds], counts)
        filler = self._filler(len(self.grids) - 1)
        while not self.budget.is_spent:
            relaxed = self.master.solve()
            if relaxed is None or relaxed.short < 1e-6:
                return None
            whole, scale = self._whole(relaxed.duals)
            yields = filler.fill(whole)
            load = Load(carries=tuple(yields), demand=int((whole * self._demands).sum()))
            if sum(n * v for n, v in zip(counts, yields, strict=True)) < load.demand:
                key = tuple(whole.tolist())
                self.known[key] = load
                return key
            new = 0
            for sheet, value in enumerate(yields):
                above = int(relaxed.rents[sheet] * scale * (1 + 1e-9)) + 1
                if counts[sheet] and value > above and filler.grid.real:
                    new += self.master.add(filler.layouts(sheet, above, _FINDS))
            if not new:
                return None
        return None
