"""Layouts met on the way, and the cheapest choice among them that serves every part.

One layout is kept for each sheet size and set of parts, the one whose left-over pieces earn most.
The choice is a set covering; parts served twice are taken out again, so that the demand is met
exactly. Its solver is never believed: what it chose is costed anew by the caller.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from math import gcd
from typing import TypeAlias

from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind
from optimiser.solvers.sheets.tree import Block, credit_of, largest_left, without

# A sheet index and its layout.
Layout: TypeAlias = tuple[int, Block]
Plan: TypeAlias = tuple[Layout, ...]
_Key: TypeAlias = tuple[int, tuple[tuple[int, int], ...]]

MOST_LAYOUTS = 3000

# Of the integer program at a time: what it does not find by then it seldom finds at all, and its
# tree grows in memory. Work comes first, so that the same seed gives the same plan.
NODES = 2_000
MOST_SECONDS = 3.0


def parts_of(block: Block) -> Counter[int]:
    """Count the parts of a layout by kind."""
    return Counter(leaf.part for leaf in block.walk() if leaf.part >= 0)


def net_of(problem: SheetsProblem, plan: Plan) -> int:
    """Return what the sheets of a plan cost less what their left-over pieces earn."""
    return sum(problem.sheets[sheet].cost - credit_of(problem, block) for sheet, block in plan)


def worth_of(problem: SheetsProblem, plan: Plan) -> tuple[int, int, int]:
    """Return what makes one plan better than another, less is better: net cost, sheets, offcut."""
    largest = max((largest_left(problem, block) for _, block in plan), default=0)
    return (net_of(problem, plan), len(plan), -largest)


def step_of(problem: SheetsProblem) -> int:
    """Return the least by which two plans may differ in cost."""
    if problem.credit > 0:
        return 1
    return gcd(*(sheet.cost for sheet in problem.sheets)) or 1


@dataclass(slots=True)
class Pool:
    """The layouts met so far."""

    problem: SheetsProblem
    layouts: dict[_Key, tuple[int, Block]] = field(default_factory=dict)

    def add(self, plan: Plan) -> None:
        """Take in the layouts of a state, if new or better than the like."""
        for sheet, block in plan:
            key = (sheet, tuple(sorted(parts_of(block).items())))
            known = self.layouts.get(key)
            if known is None and len(self.layouts) >= MOST_LAYOUTS:
                continue
            earned = credit_of(self.problem, block)
            if key[1] and (known is None or earned > known[0]):
                self.layouts[key] = (earned, block)

    def best_of(self, plan: Plan) -> Plan:
        """Return the plan with equal sets of parts cut in the same, best known way."""
        self.add(plan)
        chosen = []
        for sheet, block in plan:
            key = (sheet, tuple(sorted(parts_of(block).items())))
            chosen.append((sheet, self.layouts[key][1] if key in self.layouts else block))
        return tuple(chosen)

    def cheapest(
        self, kinds: tuple[Kind, ...], below: int, bound: int, seconds: float
    ) -> Plan | None:
        """Return a plan of pool layouts with a net cost below `below`, if one is found in time.

        With nothing between `bound` and `below`, any such plan is the best.
        """
        if seconds <= 0 or below <= bound:
            return None
        # Loaded late: the first plan does not wait for it.
        from ortools.linear_solver import pywraplp

        solver = pywraplp.Solver.CreateSolver("HIGHS")
        solver.SetNumThreads(1)
        # The engine greets on standard output unless told not to.
        solver.SetSolverSpecificParametersAsString(f"output_flag=false,mip_max_nodes={NODES}")
        solver.SetTimeLimit(max(1, int(1000 * min(seconds, MOST_SECONDS))))
        infinity = solver.infinity()
        demand = {place: kind.demand for place, kind in enumerate(kinds)}
        serve = {place: solver.Constraint(float(n), infinity) for place, n in demand.items()}
        limits = [
            solver.Constraint(0.0, infinity if s.available is None else float(s.available))
            for s in self.problem.sheets
        ]
        total = solver.Objective()
        total.SetMinimization()
        step = step_of(self.problem)
        cap = solver.Constraint(-infinity, float(below - step))
        is_choice = bound + step < below
        uses = []
        for (sheet, counts), (earned, _) in self.layouts.items():
            most = max(-(-demand[kind] // count) for kind, count in counts)
            use = solver.IntVar(0.0, float(most), "")
            uses.append(use)
            cost = float(self.problem.sheets[sheet].cost - earned)
            if is_choice:
                total.SetCoefficient(use, cost)
            cap.SetCoefficient(use, cost)
            limits[sheet].SetCoefficient(use, 1.0)
            for kind, count in counts:
                serve[kind].SetCoefficient(use, float(count))
        status = solver.Solve()
        if status not in (pywraplp.Solver.OPTIMAL, pywraplp.Solver.FEASIBLE):
            return None
        chosen = [
            (sheet, block)
            for ((sheet, _), (_, block)), use in zip(self.layouts.items(), uses, strict=True)
            for _ in range(round(use.solution_value()))
        ]
        return self._exactly(chosen, demand)

    def _exactly(self, chosen: list[Layout], demand: dict[int, int]) -> Plan | None:
        """Take out parts served beyond the demand; None if some part is not served enough."""
        served: Counter[int] = Counter()
        for _, block in chosen:
            served.update(parts_of(block))
        surplus = {kind: served[kind] - count for kind, count in demand.items()}
        if min(surplus.values(), default=0) < 0:
            return None
        used = Counter(sheet for sheet, _ in chosen)
        for sheet, count in used.items():
            available = self.problem.sheets[sheet].available
            if available is not None and count > available:
                return None
        plan = [(sheet, without(block, surplus)) for sheet, block in chosen]
        return tuple((sheet, block) for sheet, block in plan if not block.is_left)
