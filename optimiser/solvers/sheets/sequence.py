"""Sheet after sheet by value: the best layout for what is left, parts priced by what they cost.

The first prices are the linear programme's. A pass cuts one layout after another, each worth most
for its sheet's cost. Parts that ended in poor layouts grow dearer, so that the next pass serves
them sooner (sequential value correction: Mukhacheva et al. 2000; Belov and Scheithauer 2007).
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from optimiser.solvers.compiled import Real, Whole
from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.columns import Column, LayoutTable, block_of, value_of
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.pool import Plan
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.remaining import Places
from optimiser.solvers.sheets.table import Kind

# Measured, see benchmarks: the share of the corrected price in the next one.
_CORRECTION = 0.2
# No part costs less than so much of its share of the cheapest sheet by area.
_LEAST_PRICE = 0.4
# Layouts by different first cuts looked at on each size of sheet.
_FINDS = 3


@dataclass(slots=True)
class Sequencer:
    """Makes one plan a pass; each pass learns from the ones before."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    generator: Generator
    budget: Budget
    _prices: Real = field(init=False)
    _least: Real = field(init=False)
    _costs: tuple[float, ...] = field(init=False)
    _filler: LayoutTable = field(init=False)
    _places: Places = field(init=False)

    def __post_init__(self) -> None:
        areas = np.array([float(kind.width * kind.height) for kind in self.kinds])
        dearest = max(self.generator.costs, default=0.0)
        # A sheet that costs nothing is the best of all, but not beyond all measure.
        self._costs = tuple(max(cost, dearest / 1000, 1e-3) for cost in self.generator.costs)
        rates = [
            cost / (sheet.width * sheet.height)
            for cost, sheet in zip(self._costs, self.problem.sheets, strict=True)
            if sheet.width > 0 and sheet.height > 0 and sheet.available != 0
        ]
        self._least = _LEAST_PRICE * areas * min(rates, default=0.0)
        relaxed = self.generator.relaxed
        prices = self._least if relaxed is None else relaxed.duals
        self._prices = np.maximum(prices, self._least)
        self._filler = self.generator.filler(0)
        self._places = Places(self.kinds, staged=self.problem.max_stages is not None)

    def plan(self) -> Plan | None:
        """Return the plan of the next pass; None if time or stock ran out before its end."""
        left = np.array([kind.demand for kind in self.kinds], dtype=np.int64)
        limits = [sheet.available for sheet in self.problem.sheets]
        corrected = self._prices.copy()
        columns: list[Column] = []
        while left.any():
            best = None if self.budget.is_spent else self._best(left, limits)
            if best is None:
                return None
            worth, column = best
            limit = limits[column.sheet]
            times = min(int(left[kind]) // made for kind, made in column.counts)
            if limit is not None:
                times = min(times, limit)
                limits[column.sheet] = limit - times
            columns += [column] * times
            for kind, made in column.counts:
                left[kind] -= made * times
                price = self._prices[kind]
                corrected[kind] = (1 - _CORRECTION) * price + _CORRECTION * price / worth
        self._prices = np.maximum(corrected, self._least)
        blocks = {
            column: block_of(self.problem, self.kinds, column) for column in dict.fromkeys(columns)
        }
        return tuple((column.sheet, blocks[column]) for column in columns)

    def _best(self, left: Whole, limits: list[int | None]) -> tuple[float, Column] | None:
        """Return the layout worth most for its cost, and its worth in costs; None if none is."""
        whole, scale = self.generator.whole(np.where(left > 0, self._prices, 0.0))
        best: tuple[float, Column] | None = None
        for sheet, most in enumerate(self._filler.fill(whole)):
            cost = self._costs[sheet] * scale
            if limits[sheet] == 0 or (best is not None and most <= best[0] * cost):
                continue
            for layout in self._filler.layouts(sheet, 0, _FINDS):
                column = self._places.within(layout, left, whole)
                if column is None:
                    continue
                worth = value_of(column, whole) / cost
                if worth > 0 and (best is None or worth > best[0]):
                    best = worth, column
        return best
