"""The linear programme over layouts: what prices the parts, and how far sheets could be shared.

Rows: the demand of each kind, or of a class of kinds (see `classes.py`), at least; each sheet's
number at most. An artificial column a row keeps it solvable when stock is scarce. Its floats guide
the search; they prove nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from optimiser.solvers.compiled import Real
from optimiser.solvers.sheets.columns import Column

# Artificial columns cost so many times what the dearest sheet does.
_ARTIFICIAL = 4.0
EPSILON = 1e-7


@dataclass(frozen=True, slots=True)
class Relaxed:
    """An optimal point of the programme over the columns so far."""

    value: float
    duals: Real  # the price of a part of each kind
    rents: Real  # what one sheet more would save, 0 where there are enough
    short: float  # parts on artificial columns


class Master:
    """Columns found so far and the programme over them."""

    def __init__(
        self,
        shares: Real,
        demands: Sequence[int],
        costs: Sequence[float],
        limits: Sequence[int | None],
    ) -> None:
        # Loaded late: the first plan does not wait for it.
        from ortools.linear_solver import pywraplp

        self.columns: list[Column] = []
        self._known: set[tuple[int, tuple[tuple[int, int], ...]]] = set()
        self._costs = list(costs)
        # Any: the package carries no types.
        self._solver: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._parameters = pywraplp.MPSolverParameters()
        self._parameters.SetIntegerParam(
            pywraplp.MPSolverParameters.PRESOLVE, pywraplp.MPSolverParameters.PRESOLVE_OFF
        )
        self._optimal = pywraplp.Solver.OPTIMAL
        infinity = self._solver.infinity()
        self._infinity = infinity
        self._shares = shares
        self._demand = [
            self._solver.Constraint(float(d), infinity) for d in shares @ np.array(demands, float)
        ]
        # A plan has no more sheets than parts; a row without any bound would be lost on copying.
        self._plenty = float(sum(demands))
        self._limit = [
            self._solver.Constraint(-infinity, self._plenty if limit is None else float(limit))
            for limit in limits
        ]
        self._objective = self._solver.Objective()
        self._objective.SetMinimization()
        self._variables: list[Any] = []
        self._artificial = []
        penalty = _ARTIFICIAL * max([1.0, *costs])
        for row in self._demand:
            variable = self._solver.NumVar(0.0, infinity, "")
            row.SetCoefficient(variable, 1.0)
            self._objective.SetCoefficient(variable, penalty)
            self._artificial.append(variable)

    def add(self, columns: Iterable[Column]) -> int:
        """Take in new columns; return how many were new."""
        before = len(self.columns)
        for column in columns:
            key = (column.sheet, column.counts)
            if key in self._known:
                continue
            self._known.add(key)
            variable = self._solver.NumVar(0.0, self._infinity, "")
            self._objective.SetCoefficient(variable, self._costs[column.sheet])
            kinds, counts = zip(*column.counts, strict=True)
            made = self._shares[:, kinds] @ np.array(counts, float)
            for row in np.flatnonzero(made):
                self._demand[row].SetCoefficient(variable, float(made[row]))
            self._limit[column.sheet].SetCoefficient(variable, 1.0)
            self.columns.append(column)
            self._variables.append(variable)
        return len(self.columns) - before

    def solve(self) -> Relaxed | None:
        """Solve the programme; None when the engine gives up."""
        if self._solver.Solve(self._parameters) != self._optimal:
            # The engine has lost its way among the changes of many rounds.
            self._start_afresh()
            if self._solver.Solve(self._parameters) != self._optimal:
                return None
        return Relaxed(
            float(self._objective.Value()),
            self._shares.T @ np.maximum(0.0, [row.dual_value() for row in self._demand]),
            np.maximum(0.0, [-row.dual_value() for row in self._limit]),
            sum(variable.solution_value() for variable in self._artificial),
        )

    def _start_afresh(self) -> None:
        """Give the same programme to a new engine."""
        from ortools.linear_solver import linear_solver_pb2, pywraplp

        model = linear_solver_pb2.MPModelProto()
        self._solver.ExportModelToProto(model)
        self._solver = pywraplp.Solver.CreateSolver("GLOP")
        self._solver.LoadModelFromProto(model)
        self._objective = self._solver.Objective()
        rows, variables = self._solver.constraints(), self._solver.variables()
        self._demand, self._limit = rows[: len(self._demand)], rows[len(self._demand) :]
        self._artificial = variables[: len(self._demand)]
        self._variables = variables[len(self._demand) :]

    def primal(self) -> list[tuple[Column, float]]:
        """Return the columns used by the programme just solved, and how often."""
        values = [variable.solution_value() for variable in self._variables]
        return [
            (column, value)
            for column, value in zip(self.columns, values, strict=True)
            if value > EPSILON
        ]

    def harden(self) -> None:
        """Make artificial columns dearer."""
        for variable in self._artificial:
            self._objective.SetCoefficient(
                variable, 64.0 * self._objective.GetCoefficient(variable)
            )

    def restrict(self, demands: Sequence[int], limits: Sequence[int | None]) -> None:
        """Ask for other demands and limits."""
        for row, demand in zip(self._demand, self._shares @ np.array(demands, float), strict=True):
            row.SetBounds(float(demand), self._infinity)
        if len(self._shares) < len(demands):
            # A class may be served by any of its kinds; a kind by none that is used up.
            for column, variable in zip(self.columns, self._variables, strict=True):
                has = all(made <= demands[kind] for kind, made in column.counts)
                variable.SetUb(self._infinity if has else 0.0)
        for row, limit in zip(self._limit, limits, strict=True):
            row.SetBounds(-self._infinity, self._plenty if limit is None else float(limit))

    def price(self, costs: Sequence[float], artificial: float) -> None:
        """Set what layouts on each sheet cost, and what a part left out does."""
        self._costs = list(costs)
        for column, variable in zip(self.columns, self._variables, strict=True):
            self._objective.SetCoefficient(variable, self._costs[column.sheet])
        for variable in self._artificial:
            self._objective.SetCoefficient(variable, artificial)
