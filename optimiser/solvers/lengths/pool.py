"""Chooses whole layouts from the columns in hand with an integer program.

The engine's word is never taken for cost or feasibility: the plan is settled and counted again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ortools.linear_solver import pywraplp
from ortools.sat.python import cp_model

from optimiser.solvers.lengths.plans import Layout, Plan
from optimiser.solvers.lengths.prepare import Ready

# The engine greets on standard output unless told not to; the call says False but is obeyed.
QUIET = "output_flag=false"


@dataclass(frozen=True, slots=True)
class Choice:
    """A plan, perhaps short of parts; `exhausted` when the engine saw that none is cheaper."""

    plan: Plan | None
    exhausted: bool


def choose(ready: Ready, layouts: Sequence[Layout], ceiling: int | None, seconds: float) -> Choice:
    """Return the cheapest whole plan below `ceiling` over the layouts that the engine finds.

    Without a ceiling no full plan is known: parts may then be left out, at a price that counts
    their length before any money.
    """
    solver = pywraplp.Solver.CreateSolver("HIGHS")
    solver.SetNumThreads(1)
    solver.SetSolverSpecificParametersAsString(QUIET)
    solver.SetTimeLimit(max(1, int(seconds * 1000)))
    infinity = solver.infinity()
    demand = [solver.Constraint(float(d), infinity) for d in ready.demands]
    scarce = {
        k: solver.Constraint(0.0, float(ready.most(k)))
        for k, kind in enumerate(ready.kinds)
        if kind.available is not None
    }
    objective = solver.Objective()
    objective.SetMinimization()
    cut = None if ceiling is None else solver.Constraint(-infinity, float(ceiling - ready.step))
    variables = []
    for kind, items in layouts:
        most = min(ready.most(kind), max(-(-ready.demands[t] // n) for t, n in items))
        variable = solver.IntVar(0.0, float(most), "")
        cost = float(ready.net(kind, ready.fill(items)))
        objective.SetCoefficient(variable, cost)
        if cut is not None:
            cut.SetCoefficient(variable, cost)
        for t, n in items:
            demand[t].SetCoefficient(variable, float(n))
        if kind in scarce:
            scarce[kind].SetCoefficient(variable, 1.0)
        variables.append(variable)
    if ceiling is None:
        dearest = max(kind.cost / kind.capacity for kind in ready.kinds)
        for row, weight, d in zip(demand, ready.weights, ready.demands, strict=True):
            slack = solver.IntVar(0.0, float(d), "")
            row.SetCoefficient(slack, 1.0)
            objective.SetCoefficient(slack, 100.0 * max(dearest, 1e-3) * weight)
    status = solver.Solve()
    if status == pywraplp.Solver.INFEASIBLE:
        return Choice(None, exhausted=True)
    if status not in (pywraplp.Solver.OPTIMAL, pywraplp.Solver.FEASIBLE):
        return Choice(None, exhausted=False)
    times = [round(variable.solution_value()) for variable in variables]
    plan = {layout: n for layout, n in zip(layouts, times, strict=True) if n > 0}
    return Choice(plan, exhausted=status == pywraplp.Solver.OPTIMAL)


def is_impossible(ready: Ready, layouts: Sequence[Layout], seconds: float, seed: int) -> bool:
    """Return whether no plan exists over the layouts, which must be all the maximal ones.

    Decided by CP-SAT on whole numbers; False when the time ends first.
    """
    model = cp_model.CpModel()
    counts = [model.new_int_var(0, ready.most(kind), "") for kind, _ in layouts]
    for t, d in enumerate(ready.demands):
        terms = [
            n * count
            for (_, items), count in zip(layouts, counts, strict=True)
            for u, n in items
            if u == t
        ]
        model.add(sum(terms) >= d)
    for k in range(len(ready.kinds)):
        used = [count for (kind, _), count in zip(layouts, counts, strict=True) if kind == k]
        model.add(sum(used) <= ready.most(k))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.catch_sigint_signal = False  # Ctrl-C is the caller's
    solver.parameters.random_seed = seed
    solver.parameters.max_time_in_seconds = max(0.01, seconds)
    return bool(solver.solve(model) == cp_model.INFEASIBLE)
