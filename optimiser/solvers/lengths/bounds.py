"""Proves how little a plan can cost, from rows of whole weights; no float decides anything here.

Each row says two things of how many pieces of each stock a plan uses: all weight must be held, and
the cost is at least so much, so much a piece. Both are stated in problem.py. The bound is the least
cost at which some whole counts agree with every row; anyone can work it out again from the weights.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

import numpy as np
from ortools.sat.python import cp_model

from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.lengths.pricing import Pricer

# Coefficients are rounded, always to the weaker side, so that sums stay inside 64 bits.
SUM_BITS = 60
# Of CP-SAT's own time, which does not depend on the machine; nearly always it needs a hundredth.
COUNT_WORK = 0.5
SLACK_WORK = 0.05


@dataclass(frozen=True, slots=True)
class Row:
    """Weights by type with their scale; what is to be held, and what one piece of each kind does.

    `holds[k]` is the most weight on kind k, `yields[k]` the most of weight and scaled credit.
    """

    weights: tuple[int, ...]
    scale: int
    need: int
    holds: tuple[int, ...]
    yields: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Counts:
    """The least cost that all rows allow, and counts of each kind that have it.

    `bound` None: no counts agree with all rows, so there is no plan.
    """

    bound: int | None
    counts: tuple[int, ...]


def material_weights(ready: Ready) -> tuple[tuple[int, ...], int]:
    """Return the row of lengths: what fits by length alone, at a price a length."""
    ratios = [
        kind.capacity / kind.cost
        for kind in ready.kinds
        if kind.available is None and kind.cost > 0
    ]
    shift = max(0, min(16, 58 - 2 * max(ready.weights, default=1).bit_length()))
    scale = max([1, *(int(ratio * (1 << shift)) for ratio in ratios)])
    return tuple(weight << shift for weight in ready.weights), scale


def dual_weights(pricer: Pricer, duals: Sequence[float]) -> tuple[tuple[int, ...], int]:
    """Return LP prices as whole weights, rounded down."""
    scale = pricer.scale_for(max(duals, default=0.0))
    scale = max(1, min(scale >> 1, 1 << 32))
    return tuple(max(0, int(dual * scale)) for dual in duals), scale


def weigh(ready: Ready, pricer: Pricer, weights: tuple[int, ...], scale: int) -> Row:
    """Work out what a row says of each kind of stock."""
    values = np.array(weights, np.int64)
    limits = np.array(ready.demands, np.int64)
    kinds = range(len(ready.kinds))
    need = sum(w * d for w, d in zip(weights, ready.demands, strict=True))
    holds = pricer.search(values, limits, 0, [0] * len(kinds)).best
    yields = holds
    if ready.credit:
        # A piece holds one part at least, be it one that weighs nothing.
        least = [scale * ready.earned(k, ready.weights[-1]) for k in kinds]
        yields = pricer.search(values, limits, scale, least).best
    return Row(weights, scale, need, tuple(holds), tuple(yields))


def least_counts(ready: Ready, rows: Sequence[Row], ceiling: int | None) -> Counts:
    """Return the least cost that all rows allow, `ceiling` (the cost of a plan in hand) at most.

    Every remainder is taken to earn credit, which is more than any plan earns.
    """
    program = _Program(ready, rows, ceiling)
    solver = program.minimise(program.cost, COUNT_WORK)
    if solver is None:
        return Counts(None, ())
    bound = ceil(solver.best_objective_bound - 1e-6)
    return Counts(ready.step * -(-bound // ready.step), program.found(solver))


def slack(ready: Ready, rows: Sequence[Row], row: Row, target: int) -> int | None:
    """Return how far below the best of its kind a pattern of a plan of cost `target` can lie.

    In units of 1/scale of the row: the plan's cost times the scale is the weight demanded, plus for
    each piece its cost beyond the most it yields, plus what each pattern falls short of that most.
    None when no counts allow the target.
    """
    program = _Program(ready, rows, target)
    each = [row.scale * k.cost - y for k, y in zip(ready.kinds, row.yields, strict=True)]
    shift, terms = program.scaled(each, 0)
    solver = program.minimise(terms, SLACK_WORK)
    if solver is None:
        return None
    least: int = ceil(solver.best_objective_bound - 1e-6) << shift
    return int(row.scale * target - row.need - least)


class _Program:
    """Counts of each kind and the cost, as CP-SAT sees them; it works in whole numbers.

    Rows are rounded to the weaker side where 64 bits are too few.
    """

    def __init__(self, ready: Ready, rows: Sequence[Row], ceiling: int | None) -> None:
        self._model = cp_model.CpModel()
        self._most = [ready.most(k) for k in range(len(ready.kinds))]
        self._counts = [self._model.new_int_var(0, n, "") for n in self._most]
        costs = [kind.cost for kind in ready.kinds]
        self._top = sum(n * max(0, c) for n, c in zip(self._most, costs, strict=True))
        top = self._top if ceiling is None else ceiling
        least = min(top, floor_of(ready))
        self._is_paid_for = least < 0
        self.cost = self._model.new_int_var(least, top, "")
        rate = ready.credit
        if rate:
            free = [rate.denominator * k.cost - rate.numerator * k.usable for k in ready.kinds]
            self._add_line(rate.numerator * ready.net_length, free, rate.denominator)
        else:
            self._model.add(self.cost == cp_model.LinearExpr.weighted_sum(self._counts, costs))
        for row in rows:
            each = [row.scale * c - y for c, y in zip(costs, row.yields, strict=True)]
            self._add_line(row.need, each, row.scale)
            self._add_need(row.holds, row.need)

    def minimise(self, expression: Any, work: float) -> Any:
        """Return the engine after its work, None when no counts agree with all rows."""
        self._model.minimize(expression)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.catch_sigint_signal = False  # Ctrl-C is the caller's
        solver.parameters.max_deterministic_time = work
        self._status = solver.solve(self._model)
        return None if self._status == cp_model.INFEASIBLE else solver

    def found(self, solver: Any) -> tuple[int, ...]:
        """Return the counts that the engine found, () when it ran out of work before any."""
        if self._status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return ()
        return tuple(solver.value(n) for n in self._counts)

    def scaled(self, each: Sequence[int], besides: int) -> tuple[int, Any]:
        """Return (shift, Σ count · each >> shift, rounded down) so that it fits with `besides`."""
        size = besides + sum(abs(e) * n for e, n in zip(each, self._most, strict=True))
        shift = max(0, size.bit_length() - SUM_BITS)
        small = [e >> shift for e in each]
        return shift, cp_model.LinearExpr.weighted_sum(self._counts, small)

    def _add_line(self, base: int, each: Sequence[int], scale: int) -> None:
        """Ask that scale · cost ≥ base + Σ count · each."""
        shift, terms = self.scaled(each, abs(base) + scale * self._top)
        if shift and self._is_paid_for:
            return  # a scale rounded up is on the weaker side of costs above 0 only
        self._model.add(self.cost * -(-scale >> shift) >= (base >> shift) + terms)

    def _add_need(self, holds: Sequence[int], need: int) -> None:
        """Ask that Σ count · holds ≥ need."""
        shift, terms = self.scaled([-h for h in holds], need)
        self._model.add(terms <= -(need >> shift))


def floor_of(ready: Ready) -> int:
    """Return the bound that needs no proof: every stock there is, used at its best price."""
    if not ready.weights:
        return 0
    return sum(
        ready.most(k) * min(0, ready.net(k, ready.weights[-1])) for k in range(len(ready.kinds))
    )
