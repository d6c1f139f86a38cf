"""The linear master over patterns: column generation, exact pricing, smoothed prices.

Rows: each type's demand at least, each scarce kind's availability at most. An artificial column a
type keeps it feasible when stock is scarce. The floats here guide the search; they prove nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

import numpy as np
from ortools.linear_solver import pywraplp

from optimiser.solvers.lengths.plans import Layout
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.lengths.pricing import Find, Pricer
from optimiser.solvers.protocol import Budget

Array = Any  # numpy arrays

SMOOTHING = 0.5  # Wentges; measured: 0.8 is worse
EPSILON = 1e-7
ARTIFICIAL = 8  # times the dearest stock a part costs that no stock holds
ARTIFICIAL_ROUNDS = 3  # each makes them 64 times dearer


@dataclass(frozen=True, slots=True)
class Relaxed:
    """An optimal point of the restricted linear program."""

    value: float
    duals: Array
    short: float  # parts on artificial columns


class Master:
    """Columns found so far and the linear program over them."""

    def __init__(self, ready: Ready, pricer: Pricer) -> None:
        self.ready = ready
        self.pricer = pricer
        self.columns: list[Layout] = []
        self.costs: list[int] = []
        self._index: dict[Layout, int] = {}
        self._solver = pywraplp.Solver.CreateSolver("GLOP")
        self._parameters = pywraplp.MPSolverParameters()
        # Presolve would throw the basis of the last round away.
        self._parameters.SetIntegerParam(
            pywraplp.MPSolverParameters.PRESOLVE, pywraplp.MPSolverParameters.PRESOLVE_OFF
        )
        infinity = self._solver.infinity()
        self._infinity = infinity
        self._demand = [self._solver.Constraint(float(d), infinity) for d in ready.demands]
        self._scarce = {
            k: self._solver.Constraint(-infinity, float(ready.most(k)))
            for k, kind in enumerate(ready.kinds)
            if kind.available is not None
        }
        self._objective = self._solver.Objective()
        self._objective.SetMinimization()
        self._penalty = float(ARTIFICIAL * max([1, *(kind.cost for kind in ready.kinds)]))
        self._artificial = []
        self._variables: list[Any] = []
        for row in self._demand:
            variable = self._solver.NumVar(0.0, infinity, "")
            row.SetCoefficient(variable, 1.0)
            self._objective.SetCoefficient(variable, self._penalty)
            self._artificial.append(variable)

    def add(self, layouts: Iterable[Layout]) -> int:
        """Add new layouts as columns; return how many were new."""
        before = len(self.columns)
        for layout in layouts:
            if layout in self._index:
                continue
            kind, items = layout
            self._index[layout] = len(self.columns)
            cost = self.ready.net(kind, self.ready.fill(items))
            variable = self._solver.NumVar(0.0, self._infinity, "")
            self._objective.SetCoefficient(variable, float(cost))
            for t, n in items:
                self._demand[t].SetCoefficient(variable, float(n))
            if kind in self._scarce:
                self._scarce[kind].SetCoefficient(variable, 1.0)
            self.columns.append(layout)
            self.costs.append(cost)
            self._variables.append(variable)
        return len(self.columns) - before

    def solve(self) -> Relaxed | None:
        """Solve the restricted program; None when the engine gives up."""
        if self._solver.Solve(self._parameters) != pywraplp.Solver.OPTIMAL:
            return None
        duals = np.array([row.dual_value() for row in self._demand])
        short = sum(variable.solution_value() for variable in self._artificial)
        value = float(self._objective.Value())
        return Relaxed(value, np.maximum(duals, 0.0), short)

    def primal(self) -> list[tuple[int, float]]:
        """Return (column, value) where the value of the program just solved is above 0."""
        values = [variable.solution_value() for variable in self._variables]
        return [(c, value) for c, value in enumerate(values) if value > EPSILON]

    def harden(self) -> None:
        """Make the artificial columns dearer."""
        self._penalty *= 64
        for variable in self._artificial:
            self._objective.SetCoefficient(variable, self._penalty)

    def restrict(self, demands: Sequence[int], left: Sequence[int]) -> None:
        """Ask for the rest of a plan only: what is still demanded, from the stock still there.

        Columns that hold more of a type than is demanded are closed.
        """
        for row, demand in zip(self._demand, demands, strict=True):
            row.SetBounds(float(demand), self._infinity)
        for k, row in self._scarce.items():
            row.SetBounds(-self._infinity, float(left[k]))
        for (_, items), variable in zip(self.columns, self._variables, strict=True):
            fits = all(n <= demands[t] for t, n in items)
            variable.SetUb(self._infinity if fits else 0.0)

    def price(self, duals: Array, limits: Array, left: Sequence[int]) -> tuple[list[Find], float]:
        """Return patterns cheaper than their parts' prices, and the Lagrangian bound there.

        The bound takes `left` as the most of each kind that a plan uses.
        """
        ready = self.ready
        scale = self.pricer.scale_for(float(duals.max(initial=0.0))) >> 1 or 1
        whole = np.floor(duals * scale).astype(np.int64)
        kinds = [k for k in range(len(ready.kinds)) if left[k] > 0]
        costs = [scale * ready.kinds[k].cost for k in kinds]
        answer = self.pricer.search(whole, limits, scale, costs, kinds)
        bound = sum(int(v) * int(d) for v, d in zip(whole, limits, strict=True))
        bound -= excess(ready, answer.best, costs, kinds, left)
        return answer.finds, bound / scale


def excess(
    ready: Ready,
    best: Sequence[int],
    costs: Sequence[int],
    kinds: Sequence[int],
    left: Sequence[int],
) -> int:
    """Return what plans may save at most against the prices: the Lagrangian bound's correction.

    `left[k]` is the most of kind k; unlimited kinds share the greatest of theirs, since no plan of
    interest uses more stocks than that in all.
    """
    shared, total = 0, 0
    for k, value, cost in zip(kinds, best, costs, strict=True):
        if ready.kinds[k].available is None:
            shared = max(shared, left[k] * (value - cost))
        else:
            total += left[k] * (value - cost)
    return total + shared


@dataclass(frozen=True, slots=True)
class Root:
    """Where column generation ended: the last program, and the prices with the best bound."""

    relaxed: Relaxed
    prices: Array
    bound: float
    converged: bool


def generate(master: Master, bars: Sequence[int], budget: Budget, gap: float = 0.0) -> Root | None:
    """Generate columns until none is cheaper, the bound rounds to the program's value, or time.

    `bars[k]`: the most of each kind that a plan of interest uses. `gap` is a relative gap between
    program and bound at which to stop early. None when the engine fails.
    """
    ready = master.ready
    limits = np.array(ready.demands, np.int64)
    centre: Array | None = None
    best = -np.inf
    prices = np.zeros(len(ready.demands))
    hardened = 0
    while True:
        relaxed = master.solve()
        if relaxed is None:
            return None
        target = relaxed.duals
        here = target if centre is None else SMOOTHING * centre + (1 - SMOOTHING) * target
        new = 0
        for point in (here, target) if centre is not None else (target,):
            finds, bound = master.price(point, limits, bars)
            if bound > best:
                best, prices = bound, point
                centre = point
            new = master.add((find.kind, find.items) for find in finds)
            if new and _is_cheaper(master, target, new):
                break
        if _is_settled(ready, relaxed, best, gap) or not new:
            if relaxed.short > 1e-6 and hardened < ARTIFICIAL_ROUNDS:
                hardened += 1
                master.harden()
                centre, best = None, -np.inf
                continue
            return Root(relaxed, prices, best, converged=True)
        if budget.is_spent:
            return Root(relaxed, prices, best, converged=False)


def _is_cheaper(master: Master, duals: Array, new: int) -> bool:
    """Return whether one of the last `new` columns costs less than its parts at these prices."""
    for (_, items), cost in zip(master.columns[-new:], master.costs[-new:], strict=True):
        if sum(duals[t] * n for t, n in items) > cost + EPSILON:
            return True
    return False


def _is_settled(ready: Ready, relaxed: Relaxed, bound: float, gap: float) -> bool:
    if relaxed.value - bound <= gap * relaxed.value:
        return True
    step = ready.step
    return ceil(bound / step - 1e-6) >= ceil(relaxed.value / step - 1e-6)
