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

from optimiser.solvers.compiled import Real, Whole
from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.bounds import Proof, carriers_of, constant_of
from optimiser.solvers.sheets.classes import MOST_ROWS, shares_of
from optimiser.solvers.sheets.columns import Column, Filler, LayoutTable, alike, value_of
from optimiser.solvers.sheets.cover import Carrier, Cover, Load, least_cost
from optimiser.solvers.sheets.grid import QUICK_SUMS, Grid, bounding_grid, coarse_grid, exact_grid
from optimiser.solvers.sheets.master import EPSILON, Master, Relaxed
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.staged import StagedFiller
from optimiser.solvers.sheets.table import Kind, by_part, sizes_repeat

# Measured, see benchmarks: points an axis of the grids tried one after another.
LEVELS = (120, 250, 500)
# Layouts taken from one table.
_FINDS = 4
# With many rows the same prices are used so many times more: one for so many rows.
_MOST_AGAIN = 12
_ROWS_AGAIN = 25
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
# Beyond so many sheets of the dearest size counts are not tried: 1.7 s for nothing at 90.
_MOST_SHEETS = 60
MOST_WEIGHTS = 6
# The grid on which counts are tried before the exact one has the last word.
_COUNT_LEVEL = 1


@dataclass(slots=True)
class Generator:
    """One column generation over one problem; `proof` is the best so far."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    proof: Proof
    budget: Budget
    most_rows: int = MOST_ROWS
    master: Master = field(init=False)
    shares: Real = field(init=False)
    relaxed: Relaxed | None = None
    converged: bool = False
    costs: tuple[float, ...] = field(init=False)
    levels: int = field(init=False)
    carriers: tuple[Carrier, ...] = field(init=False)
    constant: Fraction = field(init=False)
    known: dict[tuple[int, ...], Load] = field(default_factory=dict)
    _grids: list[Grid] = field(init=False)
    _exact: Grid = field(init=False)
    _quick: Filler | None = None
    _fillers: dict[int, LayoutTable] = field(default_factory=dict)
    _areas: Real = field(init=False)
    _centre: Real = field(init=False)
    _demands: Whole = field(init=False)
    _varied: bool = field(init=False)
    _thorough: bool = False

    def __post_init__(self) -> None:
        problem, kinds = self.problem, self.kinds
        self.carriers, self.constant = carriers_of(problem), constant_of(problem)
        self.costs = tuple(max(0.0, float(carrier.cost)) for carrier in self.carriers)
        self.shares = shares_of(problem, kinds, self.most_rows)
        self.master = Master(
            self.shares,
            [kind.demand for kind in kinds],
            self.costs,
            [sheet.available for sheet in problem.sheets],
        )
        exact = self._exact = exact_grid(problem, kinds)
        grids = [coarse_grid(problem, kinds, exact, most) for most in LEVELS]
        self._grids = [grid for grid in grids if grid is not exact]
        self._grids.append(bounding_grid(problem, kinds, exact))
        # With stages limited there is one table, and it proves nothing.
        self.levels = len(self._grids) if problem.max_stages is None else 1
        self._areas = np.array([float(kind.width * kind.height) for kind in kinds])
        # At first a part costs its share of the cheapest sheet by area.
        self._centre = self._areas * min(
            (
                cost / ((sheet.width + problem.kerf) * (sheet.height + problem.kerf))
                for cost, sheet in zip(self.costs, problem.sheets, strict=True)
                if cost > 0 and sheet.width > 0 and sheet.height > 0
            ),
            default=0.0,
        )
        self._demands = np.array([kind.demand for kind in kinds], dtype=np.int64)
        self._varied = not sizes_repeat(kinds)

    def start(self, is_enough: Callable[[], bool] = lambda: False) -> None:
        """Generate columns on the coarsest grid; its prices are near enough to make plans by.

        Starts with layouts of one kind each, so that no price is out of proportion.
        """
        # Of a class the kind that counts most in its rows is enough.
        for place in sorted(set(np.argmax(self.shares, axis=1).tolist())):
            self.master.add(self._alone(place))
        self._converge(0, is_enough)

    def _alone(self, place: int) -> list[Column]:
        """Return layouts of one kind, one for each sheet that holds it."""
        problem = self.problem
        sheets = range(len(problem.sheets))
        if problem.max_stages is None and problem.first_cut is None:
            kind = self.kinds[place]
            return [column for n in sheets for column in alike(problem, place, kind, n)]
        filler = self.filler(0)
        filler.fill(np.eye(len(self.kinds), dtype=np.int64)[place])
        return [column for n in sheets for column in filler.layouts(n, 0, 1)]

    def run(self, is_enough: Callable[[], bool]) -> None:
        """Go on grid by grid until the exact one has no more, or it is enough."""
        self._prove_now()
        for level in range(1, self.levels):
            if self.is_met or is_enough() or self.budget.is_spent:
                return
            self._converge(level, is_enough)
            self._prove_now()
        if self._is_counted() and not is_enough() and not self.budget.is_spent:
            self._count(is_enough)

    def priced(self) -> tuple[Whole, list[int]] | None:
        """Return the best prices there are and what each sheet yields by them; None if not exact.

        Goes on where the proof ended: better prices prove no more by themselves.
        """
        last = self.levels - 1
        filler = self.filler(last)
        if len(self.shares) < len(self.kinds) or not filler.exact:
            return None
        self._thorough = True
        self._converge(last, lambda: False)
        self._thorough = False
        if self.relaxed is None:
            return None
        whole, _ = self.whole(self.relaxed.duals)
        return whole, filler.fill(whole)

    def _is_counted(self) -> bool:
        """Return whether trying counts of sheets one by one may raise the bound by much.

        Of many sheets of several prices almost any sum can be had, each with counts of its own.
        """
        dearest = max(carrier.cost for carrier in self.carriers)
        if self.problem.max_stages is not None:
            return False
        return len(self.carriers) > 1 and self.proof.bound < _MOST_SHEETS * dearest

    def filler(self, level: int) -> LayoutTable:
        """Return the table of a level, made when first asked for."""
        if level not in self._fillers:
            self._fillers[level] = (
                Filler.on(self._grids[level], self.problem.first_cut)
                if self.problem.max_stages is None
                else StagedFiller(self.problem, self.kinds)
            )
        return self._fillers[level]

    def _converge(self, level: int, is_enough: Callable[[], bool]) -> None:
        filler = self.filler(level)
        last = level == self.levels - 1
        history: list[float] = []
        hardened = 0
        while not self.budget.is_spent:
            relaxed = self.master.solve()
            if relaxed is None:
                return
            self.relaxed = relaxed
            history.append(relaxed.value)
            new = 0
            for prices in self._trials(relaxed):
                new = self._price(filler, prices, relaxed.rents, real=filler.real)
                if new:
                    self._centre = prices
                    break
            if last and (is_enough() or self._is_met(relaxed)):
                self.converged = filler.exact
                return
            if self.is_met:
                return
            if not new:
                if last and relaxed.short > 1e-6 and hardened < 3:
                    self.master.harden()
                    hardened += 1
                    continue
                self.converged = last and filler.exact and filler.real
                return
            if (
                not last
                and len(history) > _PATIENCE
                and (history[-1 - _PATIENCE] - history[-1] < _SLOW * history[-1])
            ):
                return

    def _prove_now(self) -> None:
        """Prove what the prices there are can prove, whatever grid they come from."""
        if self.relaxed is None or self.converged:
            return
        if self._quick is None:
            self._quick = Filler.on(
                bounding_grid(self.problem, self.kinds, self._exact, QUICK_SUMS)
            )
        if self._quick.grid.exact:
            whole, _ = self.whole(self.relaxed.duals)
            self._prove(whole, self._quick.fill(whole))

    def _trials(self, relaxed: Relaxed) -> list[Real]:
        mixed = _SMOOTHING * self._centre + (1 - _SMOOTHING) * relaxed.duals
        return [mixed, relaxed.duals]

    @property
    def is_met(self) -> bool:
        """Return whether going on is no use: sizes differ, and no finer grid can prove more.

        Where sizes differ plans come from elsewhere.
        """
        return self._varied and self.relaxed is not None and self._is_met(self.relaxed)

    def _is_met(self, relaxed: Relaxed) -> bool:
        """Return whether the proof has reached the programme's own value, rounded up."""
        if self._thorough:
            return False
        if relaxed.short > 1e-6:
            return self.proof.short
        value = relaxed.value + float(self.constant)
        return self.proof.bound >= ceil(value - 1e-6 * max(1.0, abs(value)))

    def _price(self, filler: LayoutTable, prices: Real, rents: Real, *, real: bool) -> int:
        """Fill a table for prices, take what pays for its sheet, and use the proof if exact."""
        whole, scale = self.whole(prices)
        yields = filler.fill(whole)
        if filler.exact:
            self._prove(whole, yields)
        if not real:
            return 0
        paid = self.paid(rents, scale)
        found = self._found(filler, yields, paid, _FINDS)
        new = self.master.add(found)
        # Many rows need many layouts: look again for others, with what was used worth less.
        again = min(_MOST_AGAIN, len(self.shares) // _ROWS_AGAIN)
        if not found or filler.exact:
            again = 0
        lessened = whole.copy()
        for _ in range(again):
            for column in found:
                for kind, _ in column.counts:
                    lessened[kind] = lessened[kind] * 3 // 4
            found = self._found(filler, filler.fill(lessened), [0] * len(paid), 1)
            found = [column for column in found if value_of(column, whole) > paid[column.sheet]]
            new += self.master.add(found)
            if not found:
                break
        return new

    def _found(
        self, filler: LayoutTable, yields: list[int], paid: list[int], most: int
    ) -> list[Column]:
        """Return the best layouts of the table just filled that are worth more than is paid."""
        found: list[Column] = []
        for sheet, value in enumerate(yields):
            if value > paid[sheet] and self.problem.sheets[sheet].available != 0:
                found.extend(filler.layouts(sheet, paid[sheet], most))
        return found

    def paid(self, rents: Real, scale: float) -> list[int]:
        """Return what a layout on each sheet must be worth to pay for it, in whole prices."""
        return [
            int((cost + rent) * scale * (1 + 1e-9)) + 1
            for cost, rent in zip(self.costs, rents, strict=True)
        ]

    def whole(self, prices: Real) -> tuple[Whole, float]:
        """Return prices as whole numbers, rounded down, and their scale."""
        largest = max((sheet.width + self.problem.kerf) for sheet in self.problem.sheets) * max(
            (sheet.height + self.problem.kerf) for sheet in self.problem.sheets
        )
        densest = float((prices / self._areas).max(initial=0.0)) * largest
        scale = min(_SCALE / max(1e-9, *self.costs), _CEILING / max(1e-9, densest))
        return np.floor(prices * scale).astype(np.int64), scale

    def _prove(self, whole: Whole, yields: list[int]) -> None:
        """Take a row of weights if it proves more than what is known."""
        load = self._load(whole, yields)
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
                weights=tuple(by_part(self.problem, self.kinds, key) for key in keys),
                once=self.proof.once,
                loads=tuple(self.known[key] for key in keys),
            )
        elif cover.bound > self.proof.bound:
            self.proof = Proof(
                bound=cover.bound,
                rows=self.proof.rows,
                short=False,
                weights=tuple(by_part(self.problem, self.kinds, key) for key in keys),
                once=self.proof.once,
                loads=self.proof.loads,
            )

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
        last = self.levels - 1
        level = min(_COUNT_LEVEL, last)
        while not self.budget.is_spent:
            relaxed = self.master.solve()
            if relaxed is None or relaxed.short < EPSILON:
                return None
            filler = self.filler(level)
            whole, scale = self.whole(relaxed.duals)
            yields = filler.fill(whole)
            load = self._load(whole, yields)
            refuted = sum(n * v for n, v in zip(counts, yields, strict=True)) < load.demand
            if refuted and level == last:
                key = tuple(whole.tolist())
                self.known[key] = load
                return key
            paid = [int(rent * scale * (1 + 1e-9)) + 1 for rent in relaxed.rents]
            new = 0
            if filler.real and not refuted:
                open_ = [v if n else 0 for n, v in zip(counts, yields, strict=True)]
                new = self.master.add(self._found(filler, open_, paid, _FINDS))
            if not new and level == last:
                return None
            level = level if new else last
        return None

    def _load(self, whole: Whole, yields: list[int]) -> Load:
        return Load(carries=tuple(yields), demand=int((whole * self._demands).sum()))
