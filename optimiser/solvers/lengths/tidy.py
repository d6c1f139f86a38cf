"""Makes a plan simpler to buy and cut once its cost is settled.

At equal cost: fewer pieces of stock, then fewer different layouts (each is a new setting of the
stops), then one offcut as long as can be. Where a trifle more money buys much fewer layouts, that
plan is found as well. Must not know: bounds.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from ortools.linear_solver import pywraplp

from optimiser.solvers.lengths.combine import combine
from optimiser.solvers.lengths.greedy import fill_by_value, stock_left
from optimiser.solvers.lengths.plans import Layout, Plan, cost_of, settle
from optimiser.solvers.lengths.pool import QUIET
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.lengths.pricing import Array, Pricer
from optimiser.solvers.protocol import Budget

# How dear a layout may be beyond its parts' prices, as a share of its cost, to be repeated.
LENIENCES = (0.0005, 0.002, 0.005, 0.01, 0.02, 0.04)
POOL = 1_200  # layouts; above it the integer program finds nothing in its time
EXTRA_SHARE = 400  # one part in so many of the cost may be spent on fewer layouts: 0.25 %
NODES = 300  # of the integer program
STEPS = 40  # numbers of repeats tried


@dataclass(frozen=True, slots=True, order=True)
class Rank:
    """What a plan is judged by, in this order."""

    cost: int
    pieces: int
    layouts: int
    shorter_by: int  # the longest usable length less the longest offcut


def rank(ready: Ready, plan: Mapping[Layout, int]) -> Rank:
    """Return how good a plan is; less is better."""
    longest = max(kind.usable for kind in ready.kinds)
    left = max(_offcut(ready, layout) for layout in plan)
    return Rank(cost_of(ready, plan), sum(plan.values()), len(plan), longest - left)


def tidy(
    ready: Ready, pricer: Pricer, plan: Plan, prices: Array, pool: Iterable[Layout], budget: Budget
) -> tuple[Plan, Plan | None]:
    """Return a plan of the same cost at most that ranks no worse, and the trade.

    The trade has fewer layouts still, for up to 0.25 % more; None where none was found. `prices`
    are floats by type in pence, `pool` holds layouts worth a look.
    """
    best = combine(ready, plan, budget)
    best_rank = rank(ready, best)
    dearest = best_rank.cost + best_rank.cost // EXTRA_SHARE
    trade: Plan | None = None
    fewest = best_rank.layouts
    seen = {*plan, *best}
    for lenience in LENIENCES:
        if budget.is_spent:
            break
        found = _repeat(ready, pricer, prices, lenience, budget)
        exact, missing = settle(ready, found)
        if any(missing):
            continue
        seen |= set(exact)
        exact = combine(ready, exact, budget)
        its_rank = rank(ready, exact)
        if its_rank < best_rank:
            best, best_rank = exact, its_rank
        if its_rank.cost <= dearest and its_rank.layouts < fewest:
            trade, fewest = exact, its_rank.layouts
    layouts = sorted(seen | set(_worth_a_look(ready, prices, pool, POOL - len(seen))))
    for most in (best_rank.cost, dearest):
        if budget.is_spent or len(layouts) > POOL:
            break
        chosen = _choose(ready, layouts, most, fewest, budget.left / 2)
        if chosen is None:
            continue
        its_rank = rank(ready, chosen)
        if its_rank < best_rank:
            best, best_rank = chosen, its_rank
        if its_rank.cost <= dearest and its_rank.layouts < fewest:
            trade, fewest = chosen, its_rank.layouts
    return best, trade if trade is not None and fewest < best_rank.layouts else None


def _repeat(ready: Ready, pricer: Pricer, prices: Array, lenience: float, budget: Budget) -> Plan:
    """Look for layouts that can be cut many times over, the most repeats first."""
    residual = np.array(ready.demands, np.int64)
    plan: Plan = {}
    scale = 2.0**30 / max(float(prices.max()), 1e-9)
    values = np.maximum(1, (prices * scale).astype(np.int64))
    repeats = int(residual.max())
    tried = 0
    while repeats > 1 and tried < STEPS and not budget.is_spent:
        left = stock_left(ready, plan)
        kinds = [k for k in range(len(ready.kinds)) if left[k] >= repeats]
        answer = pricer.search(values, residual // repeats, 0, [0] * len(kinds), kinds, 4_000)
        found = None
        for find in answer.finds:
            net = ready.net(find.kind, ready.fill(find.items))
            beyond = net - sum(float(prices[t]) * n for t, n in find.items)
            if beyond <= lenience * net and (found is None or beyond < found[0]):
                found = (beyond, (find.kind, find.items))
        if found is None:
            # Every number of repeats while there are few, larger strides where there are many.
            repeats -= max(1, repeats // 12)
            tried += 1
            continue
        kind, items = found[1]
        times = min([left[kind]] + [int(residual[t]) // n for t, n in items])
        plan[found[1]] = plan.get(found[1], 0) + times
        for t, n in items:
            residual[t] -= n * times
        repeats = min(repeats, max(1, int(residual.max())))
    return fill_by_value(ready, pricer, np.maximum(prices, 1e-9), budget, start=plan)


def _worth_a_look(ready: Ready, prices: Array, pool: Iterable[Layout], most: int) -> list[Layout]:
    """Return the layouts of the pool that cost least beyond their parts' prices."""

    def beyond(layout: Layout) -> float:
        kind, items = layout
        return ready.net(kind, ready.fill(items)) - sum(float(prices[t]) * n for t, n in items)

    return sorted(set(pool), key=lambda layout: (beyond(layout), layout))[: max(0, most)]


def _choose(
    ready: Ready, layouts: Sequence[Layout], most_cost: int, most_layouts: int, seconds: float
) -> Plan | None:
    """Choose exactly the parts asked for from the layouts: fewest pieces, layouts, long offcut."""
    solver = pywraplp.Solver.CreateSolver("HIGHS")
    solver.SetNumThreads(1)
    # Work ends the search, not time, so that the same seed gives the same plan.
    solver.SetSolverSpecificParametersAsString(f"{QUIET},mip_max_nodes={NODES}")
    solver.SetTimeLimit(max(1, int(seconds * 1000)))
    objective = solver.Objective()
    objective.SetMinimization()
    demand = [solver.Constraint(float(d), float(d)) for d in ready.demands]
    stock = [solver.Constraint(0.0, float(ready.most(k))) for k in range(len(ready.kinds))]
    cost = solver.Constraint(-solver.infinity(), float(most_cost))
    used = solver.Constraint(0.0, float(most_layouts))
    one = solver.Constraint(0.0, 1.0)
    longest = max(kind.usable for kind in ready.kinds)
    counts = []
    for kind, items in layouts:
        most = min([ready.most(kind)] + [ready.demands[t] // n for t, n in items])
        count = solver.IntVar(0.0, float(most), "")
        is_used = solver.BoolVar("")
        link = solver.Constraint(-solver.infinity(), 0.0)
        link.SetCoefficient(count, 1.0)
        link.SetCoefficient(is_used, -float(most))
        for t, n in items:
            demand[t].SetCoefficient(count, float(n))
        stock[kind].SetCoefficient(count, 1.0)
        cost.SetCoefficient(count, float(ready.net(kind, ready.fill(items))))
        used.SetCoefficient(is_used, 1.0)
        objective.SetCoefficient(count, float(most_layouts + 1))
        objective.SetCoefficient(is_used, 1.0)
        left = _offcut(ready, (kind, items))
        if left:
            shown = solver.BoolVar("")
            one.SetCoefficient(shown, 1.0)
            tie = solver.Constraint(-solver.infinity(), 0.0)
            tie.SetCoefficient(shown, 1.0)
            tie.SetCoefficient(is_used, -1.0)
            objective.SetCoefficient(shown, -0.9 * left / longest)
        counts.append(count)
    status = solver.Solve()
    if status != pywraplp.Solver.OPTIMAL and (
        status != pywraplp.Solver.FEASIBLE or solver.wall_time() >= seconds * 1000
    ):
        return None
    plan = {
        layout: round(count.solution_value())
        for layout, count in zip(layouts, counts, strict=True)
        if count.solution_value() > 0.5
    }
    # The engine works in floats: what it says is counted again.
    exact, missing = settle(ready, plan)
    return None if any(missing) else exact


def _offcut(ready: Ready, layout: Layout) -> int:
    """Return the length worth keeping that a layout leaves, 0 when there is none."""
    kind, items = layout
    left = ready.kinds[kind].usable - ready.fill(items) * ready.unit
    return left if left >= max(1, ready.keep) else 0
