"""Rounds the linear master into whole layouts, pricing again on what is left after each step."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor
from random import Random

import numpy as np

from optimiser.solvers.lengths.greedy import stock_left
from optimiser.solvers.lengths.master import QUICK_NODES, Master, Relaxed
from optimiser.solvers.lengths.plans import Layout, Plan
from optimiser.solvers.protocol import Budget

NEARLY_WHOLE = 1e-6
NEARLY_ONE = 0.6
TYPES_A_COLUMN = 50


def dive(
    master: Master,
    budget: Budget,
    ceiling: int | None,
    rng: Random,
    rounds: int,
    blur: float,
    counts: Sequence[int] | None = None,
) -> Plan | None:
    """Fix whole parts of the linear plan, else its largest fraction, until the demand is met.

    `counts` limits how many of each kind are used, by default what is there. `rounds` of pricing
    follow each step. Gives up where no plan below `ceiling` can follow. `blur` is the width of the
    noise on the fractions, so that repeated dives differ.
    """
    ready = master.ready
    demands = list(ready.demands)
    left = stock_left(ready, {}) if counts is None else list(counts)
    plan: Plan = {}
    spent = 0
    try:
        while any(demands):
            if budget.is_spent:
                return plan
            master.restrict(demands, left)
            hope = None if ceiling is None else ceiling - spent
            relaxed = _priced(master, demands, left, rounds, hope)
            if relaxed is None or relaxed.short > NEARLY_WHOLE:
                return plan
            if hope is not None and _least_whole(master, relaxed) >= hope:
                return None
            fixed = _fixed(master, demands, left, rng, blur)
            if not fixed:
                return plan
            for layout, times in fixed:
                kind, items = layout
                plan[layout] = plan.get(layout, 0) + times
                spent += times * ready.net(kind, ready.fill(items))
        return plan
    finally:
        master.restrict(ready.demands, stock_left(ready, {}))


def _priced(
    master: Master, demands: list[int], left: list[int], rounds: int, hope: int | None
) -> Relaxed | None:
    """Solve the rest's program with `rounds` of new columns, and more while it costs `hope`."""
    limits = np.array(demands, np.int64)
    most = [min(n, sum(demands)) for n in left]
    relaxed = master.solve()
    done = 0
    while relaxed is not None:
        is_dear = hope is not None and _least_whole(master, relaxed) >= hope
        if done >= rounds and not is_dear:
            return relaxed
        finds, bound = master.price(relaxed.duals, limits, most, None if is_dear else QUICK_NODES)
        if is_dear and hope is not None and bound > hope - master.ready.step + NEARLY_WHOLE:
            return relaxed
        if not master.add((find.kind, find.items) for find in finds):
            return relaxed
        relaxed = master.solve()
        done += 1
    return relaxed


def _least_whole(master: Master, relaxed: Relaxed) -> int:
    step = master.ready.step
    return step * ceil(relaxed.value / step - NEARLY_WHOLE)


def _fixed(
    master: Master, demands: list[int], left: list[int], rng: Random, blur: float
) -> list[tuple[Layout, int]]:
    """Choose what to fix and take it off `demands` and `left`."""
    fixed = []
    primal = master.primal()
    for column, value in primal:
        times = floor(value + NEARLY_WHOLE)
        taken = _take(master.columns[column], times, demands, left)
        if taken:
            fixed.append((master.columns[column], taken))
    if fixed:
        return fixed
    ranked = sorted(primal, key=lambda pair: -pair[1] - blur * rng.random())
    # Large orders take several at a step, or a dive would never end.
    most = 1 + len(demands) // TYPES_A_COLUMN
    for column, value in ranked:
        if fixed and value < NEARLY_ONE:
            break
        if _take(master.columns[column], 1, demands, left):
            fixed.append((master.columns[column], 1))
        if len(fixed) == most:
            break
    return fixed


def _take(layout: Layout, times: int, demands: list[int], left: list[int]) -> int:
    """Take up to `times` layouts off what is left; return how many were taken."""
    kind, items = layout
    times = min([times, left[kind]] + [demands[t] // n for t, n in items])
    if times > 0:
        left[kind] -= times
        for t, n in items:
            demands[t] -= n * times
    return max(0, times)
