"""States what a search found in the problem's own sizes and stocks."""

from __future__ import annotations

from optimiser.solvers.lengths.plans import Plan, cost_of, unfold
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.lengths.problem import LengthsOutcome, LengthsProblem
from optimiser.solvers.lengths.search import Search
from optimiser.solvers.protocol import Status


def outcome_of(problem: LengthsProblem, search: Search, trade: Plan | None) -> LengthsOutcome:
    """State what was found, in the problem's own sizes and stocks."""
    ready = search.ready
    status = Status.IMPOSSIBLE if search.is_impossible else Status.UNKNOWN
    patterns = []
    missing = [0] * len(problem.sizes)
    bound = search.bound
    if search.cost is not None:
        bound = min(bound, search.cost)
        status = Status.OPTIMAL if search.cost == bound else Status.FEASIBLE
        patterns = unfold(problem, ready, search.plan)
    else:
        for t, sources in enumerate(ready.sources):
            short = search.missing[t]
            for index in sources:
                missing[index] = min(short, problem.demands[index])
                short -= missing[index]
    return LengthsOutcome(
        status=status,
        patterns=tuple(patterns),
        cost=search.cost or 0,
        bound=bound,
        rows=tuple((_spread(problem, ready, row.weights), row.scale) for row in search.rows),
        missing=tuple(missing),
        method=search.method,
        seconds=search.budget.used,
        exhausted=search.exhausted,
        trade_off=None
        if trade is None
        else (tuple(unfold(problem, ready, trade)), cost_of(ready, trade)),
    )


def _spread(problem: LengthsProblem, ready: Ready, weights: tuple[int, ...]) -> tuple[int, ...]:
    """Give each of the problem's sizes the weight of its type; 0 where none is demanded."""
    spread = [0] * len(problem.sizes)
    for t, sources in enumerate(ready.sources):
        for index in sources:
            spread[index] = weights[t]
    return tuple(spread)
