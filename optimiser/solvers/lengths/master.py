"""The linear master over patterns: column generation, exact pricing, smoothed prices.

Rows: each type's demand at least, each scarce kind's availability at most. An artificial column a
type keeps it feasible when stock is scarce. The floats here guide the search; they prove nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, inf
from typing import Any

import numpy as np
from ortools.linear_solver import linear_solver_pb2, pywraplp

from optimiser.solvers.lengths.plans import Layout
from optimiser.solvers.lengths.prepare import Items, Ready
from optimiser.solvers.lengths.pricing import Find, Pricer
from optimiser.solvers.protocol import Budget

Array = Any  # numpy arrays

SMOOTHING = 0.5  # Wentges; measured: 0.8 is worse
EPSILON = 1e-7
QUICK_NODES = 100_000  # a kind and round, while that still finds columns
SETTLED = 1e-6
# A point that is a trifle off still guides the search; the proof does not rest on it.
TOLERANT = "change_status_to_imprecise:false"
ARTIFICIAL = 8  # times the dearest stock a part costs that no stock holds
ARTIFICIAL_ROUNDS = 3  # each makes them 64 times dearer


@dataclass(frozen=True, slots=True)
class Relaxed:
    """An optimal point of the restricted linear program."""

    value: float
    duals: Array
    stock: Array  # what one piece more of each kind would change
    short: float  # parts on artificial columns


class Master:
    """Columns found so far and the linear program over them."""

    def __init__(self, ready: Ready, pricer: Pricer, groups: Sequence[int] | None = None) -> None:
        """Start empty; `groups[t]` is the row of type t, by default one row a type.

        With shared rows the program is a relaxation: a row asks for its types' parts in all, and
        one row more asks for all length. A type's price is then its row's and its length's.
        """
        self.ready = ready
        self._row_of = list(range(len(ready.weights)) if groups is None else groups)
        self._is_shared = groups is not None
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
        self._solver.SetSolverSpecificParametersAsString(TOLERANT)
        infinity = self._solver.infinity()
        self._infinity = infinity
        self._unit = float(ready.weights[0]) if self._is_shared else 1.0
        self._demand = [self._solver.Constraint(d, infinity) for d in self._asked(ready.demands)]
        self._stock = [
            self._solver.Constraint(0.0, float(ready.most(k))) for k in range(len(ready.kinds))
        ]
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
            for row, n in self._coefficients(items):
                self._demand[row].SetCoefficient(variable, n)
            self._stock[kind].SetCoefficient(variable, 1.0)
            self.columns.append(layout)
            self.costs.append(cost)
            self._variables.append(variable)
        return len(self.columns) - before

    def _asked(self, demands: Sequence[int]) -> list[float]:
        """Return what each row asks for."""
        asked = [0.0] * (max(self._row_of, default=-1) + 1)
        for row, demand in zip(self._row_of, demands, strict=True):
            asked[row] += demand
        if self._is_shared:
            length = sum(w * d for w, d in zip(self.ready.weights, demands, strict=True))
            asked.append(length / self._unit)
        return asked

    def _coefficients(self, items: Items) -> list[tuple[int, float]]:
        if not self._is_shared:
            return [(t, float(n)) for t, n in items]
        sums: dict[int, float] = {}
        for t, n in items:
            sums[self._row_of[t]] = sums.get(self._row_of[t], 0.0) + n
        return [*sums.items(), (len(self._demand) - 1, self.ready.fill(items) / self._unit)]

    def solve(self) -> Relaxed | None:
        """Solve the restricted program; None when the engine gives up."""
        if self._solver.Solve(self._parameters) != pywraplp.Solver.OPTIMAL:
            # The engine has lost its way among the changes of many rounds.
            self._start_afresh()
            if self._solver.Solve(self._parameters) != pywraplp.Solver.OPTIMAL:
                return None
        rows = np.array([row.dual_value() for row in self._demand])
        duals = rows[self._row_of]
        if self._is_shared:
            duals = duals + rows[-1] / self._unit * np.array(self.ready.weights)
        short = sum(variable.solution_value() for variable in self._artificial)
        value = float(self._objective.Value())
        stock = np.array([row.dual_value() for row in self._stock])
        return Relaxed(value, np.maximum(duals, 0.0), stock, short)

    def _start_afresh(self) -> None:
        """Give the same program to a new engine."""
        model = linear_solver_pb2.MPModelProto()
        self._solver.ExportModelToProto(model)
        self._solver = pywraplp.Solver.CreateSolver("GLOP")
        self._solver.LoadModelFromProto(model)
        self._solver.SetSolverSpecificParametersAsString(TOLERANT)
        self._objective = self._solver.Objective()
        rows, variables = self._solver.constraints(), self._solver.variables()
        self._demand, self._stock = rows[: len(self._demand)], rows[len(self._demand) :]
        self._artificial = variables[: len(self._demand)]
        self._variables = variables[len(self._demand) :]

    def usage(self) -> list[float] | None:
        """Return how much of each kind the program uses; None when the engine gives up."""
        if self.solve() is None:
            return None
        used = [0.0] * len(self.ready.kinds)
        for column, value in self.primal():
            used[self.columns[column][0]] += value
        return used

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
        for row, asked in zip(self._demand, self._asked(demands), strict=True):
            row.SetBounds(asked, self._infinity)
        for row, most in zip(self._stock, left, strict=True):
            row.SetBounds(0.0, float(most))
        for (_, items), variable in zip(self.columns, self._variables, strict=True):
            fits = all(n <= demands[t] for t, n in items)
            variable.SetUb(self._infinity if fits else 0.0)

    def fix(self, counts: Sequence[int]) -> None:
        """Ask for exactly these counts of each kind."""
        for row, count in zip(self._stock, counts, strict=True):
            row.SetBounds(float(count), float(count))

    def release(self) -> None:
        """Allow any stock there is."""
        for k, row in enumerate(self._stock):
            row.SetBounds(0.0, float(self.ready.most(k)))

    def price_fixed(
        self, relaxed: Relaxed, counts: Sequence[int], nodes: int | None
    ) -> tuple[list[Find], float]:
        """Return patterns that pay at these prices of parts and stock, and the bound there.

        The bound holds for plans with exactly these counts. `nodes` as in `price`.
        """
        ready = self.ready
        scale = self.pricer.scale_for(float(relaxed.duals.max(initial=0.0))) >> 1 or 1
        whole = np.floor(relaxed.duals * scale).astype(np.int64)
        kinds = [k for k, n in enumerate(counts) if n > 0]
        costs = [int(scale * (ready.kinds[k].cost - relaxed.stock[k])) for k in kinds]
        limits = np.array(ready.demands, np.int64)
        answer = self.pricer.search(whole, limits, scale, [max(0, c) for c in costs], kinds, nodes)
        if not answer.exact:
            return answer.finds, -inf
        bound = sum(int(v) * int(d) for v, d in zip(whole, limits, strict=True))
        for k, best in zip(kinds, answer.best, strict=True):
            bound += counts[k] * (scale * ready.kinds[k].cost - best)
        return answer.finds, bound / scale

    def price(
        self, duals: Array, limits: Array, left: Sequence[int], nodes: int | None = None
    ) -> tuple[list[Find], float]:
        """Return patterns cheaper than their parts' prices, and the Lagrangian bound there.

        The bound takes `left` as the most of each kind that a plan uses; there is none (-inf) when
        a search took more than `nodes`.
        """
        ready = self.ready
        scale = self.pricer.scale_for(float(duals.max(initial=0.0))) >> 1 or 1
        whole = np.floor(duals * scale).astype(np.int64)
        kinds = [k for k in range(len(ready.kinds)) if left[k] > 0]
        costs = [scale * ready.kinds[k].cost for k in kinds]
        answer = self.pricer.search(whole, limits, scale, costs, kinds, nodes)
        if not answer.exact:
            return answer.finds, -inf
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


def prices_at(
    master: Master, counts: Sequence[int], budget: Budget, rounds: int
) -> tuple[Array, float] | None:
    """Return the prices of parts that prove most for plans with these counts, and how much.

    None when the engine fails. Afterwards the master allows any stock there is again.
    """
    best = -inf
    prices = None
    master.fix(counts)
    for _ in range(rounds):
        relaxed = master.solve()
        if relaxed is None or budget.is_spent:
            break
        new = 0
        for nodes in (QUICK_NODES, None):
            finds, bound = master.price_fixed(relaxed, counts, nodes)
            if bound > best:
                best, prices = bound, relaxed.duals
            new = master.add((find.kind, find.items) for find in finds)
            if new or bound > -inf:
                break
        if not new or relaxed.value - bound <= SETTLED * abs(relaxed.value):
            break
    master.release()
    return None if prices is None else (prices, best)


def generate(
    master: Master,
    bars: Sequence[int],
    budget: Budget,
    gap: float = 0.0,
    *,
    to_the_end: bool = False,
) -> Root | None:
    """Generate columns until none is cheaper, the bound rounds to the program's value, or time.

    `bars[k]`: the most of each kind that a plan of interest uses. `gap` is a relative gap between
    program and bound at which to stop early; `to_the_end`: not before no pattern pays at all.
    None when the engine fails.
    """
    ready = master.ready
    limits = np.array(ready.demands, np.int64)
    centre: Array | None = None
    best = -inf
    prices = np.zeros(len(ready.demands))
    hardened = 0
    while True:
        relaxed = master.solve()
        if relaxed is None:
            return None
        target = relaxed.duals
        here = target if centre is None else SMOOTHING * centre + (1 - SMOOTHING) * target
        new = 0
        for point, nodes in _attempts(here, target, centre):
            finds, bound = master.price(point, limits, bars, nodes)
            if bound > best:
                best, prices = bound, point
                centre = point
            new = master.add((find.kind, find.items) for find in finds)
            if new and _is_cheaper(master, target, new):
                break
        is_settled = not to_the_end and _is_settled(ready, relaxed, best, gap)
        if is_settled or not new:
            if relaxed.short > 1e-6 and hardened < ARTIFICIAL_ROUNDS:
                hardened += 1
                master.harden()
                centre, best = None, -inf
                continue
            return Root(relaxed, prices, best, converged=True)
        if budget.is_spent:
            return Root(relaxed, prices, best, converged=False)


def _attempts(
    here: Array, target: Array, centre: Array | None
) -> Iterator[tuple[Array, int | None]]:
    """Yield the prices to try in turn and how long to search: in haste first, then exactly."""
    for nodes in (QUICK_NODES, None):
        if centre is not None:
            yield here, nodes
        yield target, nodes


def _is_cheaper(master: Master, duals: Array, new: int) -> bool:
    """Return whether one of the last `new` columns costs less than its parts at these prices."""
    for (_, items), cost in zip(master.columns[-new:], master.costs[-new:], strict=True):
        if sum(duals[t] * n for t, n in items) > cost + EPSILON:
            return True
    return False


def _is_settled(ready: Ready, relaxed: Relaxed, bound: float, gap: float) -> bool:
    if relaxed.value - bound <= gap * relaxed.value:
        return True
    if bound == -inf:
        return False
    step = ready.step
    return ceil(bound / step - 1e-6) >= ceil(relaxed.value / step - 1e-6)
