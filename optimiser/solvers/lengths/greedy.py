"""The instant answer, and a good one when LP prices say what the parts are worth.

`best_fit` puts the longest part where it leaves least; `fill_by_value` fills one stock after the
other with the pattern that gives most value for its cost. Both may leave parts out when stock is
scarce; both give plans that hold no part too many.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from optimiser.solvers.lengths.plans import Layout, Plan
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.lengths.pricing import Find, Pricer
from optimiser.solvers.protocol import Budget

Array = Any  # numpy arrays of int64

# The two exponents that start column generation well (measured; 1.0 is ten times worse).
EXPONENTS = (1.02, 1.05)
# Patterns this near the best of a search are taken with it: the plans are as good, and a tenth of
# the searches does (measured).
SLACK = 0.0005


def stock_left(ready: Ready, plan: Mapping[Layout, int]) -> list[int]:
    """Return how many of each kind a plan leaves on the rack or at the merchant."""
    left = [ready.most(k) for k in range(len(ready.kinds))]
    for (kind, _), times in plan.items():
        left[kind] -= times
    return left


def best_fit(ready: Ready) -> Plan:
    """Place parts longest first into the open stock with least room, else open a new one.

    Equal parts are placed together, so the work grows with the types, not with the parts.
    """
    left = stock_left(ready, {})
    groups: list[list[Any]] = []  # [room, kind, counts by type, times]
    for t, weight in enumerate(ready.weights):
        demand = ready.demands[t]
        while demand:
            placed = _join(groups, t, weight, demand)
            demand -= placed
            if placed:
                continue
            kind = _opening(ready, left, weight, demand)
            if kind is None:
                break
            times = min(left[kind], max(1, demand // (ready.kinds[kind].capacity // weight)))
            groups.append([ready.kinds[kind].capacity, kind, {}, times])
            left[kind] -= times
    plan: Plan = {}
    for _, kind, counts, times in groups:
        layout = (kind, tuple(sorted(counts.items())))
        if counts:
            plan[layout] = plan.get(layout, 0) + times
    return plan


def _join(groups: list[list[Any]], t: int, weight: int, demand: int) -> int:
    """Put parts into the open stocks with least room that holds them; return how many."""
    fitting = [group for group in groups if group[0] >= weight]
    if not fitting:
        return 0
    group = min(fitting, key=lambda g: (g[0], g[1]))
    each = min(group[0] // weight, demand)
    times = min(group[3], demand // each)
    counts = {**group[2], t: group[2].get(t, 0) + each}
    groups.append([group[0] - each * weight, group[1], counts, times])
    group[3] -= times
    if group[3] == 0:
        groups.remove(group)
    return int(each * times)


def _opening(ready: Ready, left: Sequence[int], weight: int, demand: int) -> int | None:
    """Choose the stock to open for a part: least cost a length filled by it, or by others later."""
    options = [k for k, kind in enumerate(ready.kinds) if left[k] and kind.capacity >= weight]
    if not options:
        return None

    def merit(k: int) -> tuple[float, int]:
        kind = ready.kinds[k]
        whole = min(demand, kind.capacity // weight) * weight
        # The rest of the length will be filled nine tenths by parts to come (a guess that works).
        return kind.cost / (whole + 0.9 * (kind.capacity - whole)), k

    return min(options, key=merit)


def start_values(ready: Ready, exponent: float) -> Array:
    """Return values that grow slightly faster than the length, so that long parts go first."""
    weights = np.array(ready.weights, np.float64)
    return weights * (weights / weights.max()) ** (exponent - 1.0)


def fill_by_value(
    ready: Ready,
    pricer: Pricer,
    values: Array,
    budget: Budget,
    start: Mapping[Layout, int] | None = None,
    node_limit: int = 4000,
) -> Plan:
    """Take, until the demand is met, the pattern with the least cost a value, as often as it fits.

    `values` are floats by type, in any unit. The search a stock is cut at `node_limit`: here a good
    pattern at once beats the best one later.
    """
    plan: Plan = dict(start or {})
    residual = np.array(ready.demands, np.int64)
    for (_, items), times in plan.items():
        for t, n in items:
            residual[t] -= n * times
    left = stock_left(ready, plan)
    top = float(values.max()) if len(values) else 0.0
    scale = 2.0**30 / top if top > 0 else 1.0
    whole = np.maximum(1, (values * scale).astype(np.int64))
    while residual.any() and not budget.is_spent:
        kinds = [k for k in range(len(ready.kinds)) if left[k] > 0]
        answer = pricer.search(whole, residual, 0, [0] * len(kinds), kinds, node_limit)
        if not answer.finds:
            break
        ranked = sorted((_merit(ready, find, scale), find) for find in answer.finds)
        enough = ranked[0][0] + abs(ranked[0][0]) * SLACK
        for merit, find in ranked:
            if merit > enough:
                break
            times = min([left[find.kind]] + [int(residual[t]) // n for t, n in find.items])
            if times == 0:
                continue
            for t, n in find.items:
                residual[t] -= n * times
            left[find.kind] -= times
            layout = (find.kind, find.items)
            plan[layout] = plan.get(layout, 0) + times
    return plan


def _merit(ready: Ready, find: Find, scale: float) -> float:
    net = ready.net(find.kind, ready.fill(find.items))
    return net * scale / find.value if net > 0 else float(net)
