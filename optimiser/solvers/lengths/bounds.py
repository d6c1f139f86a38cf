"""Proves how little a plan can cost, from rows of whole weights; no float decides anything here.

Each row gives a cover bound (count the stocks by what they can hold of the weights) and a price
bound (weights are prices of parts; a stock may not hold more than it costs). Both are stated in
problem.py, and anyone can recompute them with a bounded knapsack.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, gcd
from typing import Any

import numpy as np

from optimiser.solvers.lengths import kernels
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.lengths.pricing import Pricer

Array = Any  # numpy arrays of int64

# Enough for every batch measured; a search cut short still bounds, only less tightly.
COVER_NODES = 300_000
SCALE_ROUNDS = 12
COST_BITS = 24


@dataclass(frozen=True, slots=True)
class Row:
    """Weights by type with their scale, and the bounds they prove; None where a row proves none.

    `starves`: all the stock there is cannot hold the weights, so there is no plan.
    """

    weights: tuple[int, ...]
    scale: int
    cover: int | None
    price: int | None
    starves: bool

    @property
    def bound(self) -> int | None:
        """Return the greater of both bounds."""
        return max((b for b in (self.cover, self.price) if b is not None), default=None)


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


def prove(
    ready: Ready, pricer: Pricer, weights: tuple[int, ...], scale: int, ceiling: int | None
) -> Row:
    """Compute what a row proves. `ceiling` is the cost of a plan in hand: no more can be proven."""
    values = np.array(weights, np.int64)
    limits = np.array(ready.demands, np.int64)
    need = sum(w * d for w, d in zip(weights, ready.demands, strict=True))
    free = pricer.search(values, limits, 0, [0] * len(ready.kinds)).best
    if _starves(ready, free, need):
        return Row(weights, scale, None, None, starves=True)
    cover = _cover(ready, free, need, ceiling)
    scale, price = _price(ready, pricer, values, limits, scale, need)
    return Row(weights, scale, cover, price, starves=False)


def _starves(ready: Ready, yields: Sequence[int], need: int) -> bool:
    if any(kind.available is None and y for kind, y in zip(ready.kinds, yields, strict=True)):
        return False
    held = sum(y * (kind.available or 0) for kind, y in zip(ready.kinds, yields, strict=True))
    return held < need


def _cover(ready: Ready, yields: Sequence[int], need: int, ceiling: int | None) -> int | None:
    """Return the least cost of whole stocks that hold the weights, with credit for all the rest.

    Generous on purpose: every remainder earns, and no kerf is paid. Costs are rounded down to
    1/`fine` of a penny, so that the count works on whole numbers.
    """
    nets = [kind.cost - ready.credit * kind.usable for kind in ready.kinds]
    back = ready.credit * ready.net_length
    top = max(ceil(abs(net)) for net in nets) or 1
    fine = max(1, (1 << COST_BITS) // top) if ready.credit else 1
    entries: list[tuple[int, int, int]] = []
    fixed = 0
    for kind, net, held in zip(ready.kinds, nets, yields, strict=True):
        if net <= 0:
            # Better than free: the cheapest count takes them all.
            if kind.available is None and net < 0:
                return None
            most = kind.available if kind.available is not None else -(-need // max(1, held))
            fixed += floor(net * fine) * most
            need -= held * most
        elif held:
            entries.append((floor(net * fine), held, kind.available or -(-need // held)))
    goal = 1 << 50 if ceiling is None else ceil((ceiling - back) * fine) - fixed
    bound = ceil(Fraction(_least_cover(entries, need, goal) + fixed, fine) + back)
    return bound if ceiling is None else min(bound, ceiling)


def _least_cover(entries: list[tuple[int, int, int]], need: int, goal: int) -> int:
    """Minimise the cost of (cost, yield, limit) entries that yield `need`; at most `goal`."""
    if need <= 0:
        return 0
    if not entries:
        return max(0, goal)
    step = gcd(*(cost for cost, _, _ in entries))
    entries = sorted(entries, key=lambda entry: (Fraction(entry[0], entry[1]), entry))
    costs, held, most = (np.array(column, np.int64) for column in zip(*entries, strict=True))
    most = np.minimum(most, -(-need // held))
    goal_steps = max(0, -(-goal // step))
    least, _ = kernels.cover(costs // step, held, most, need, goal_steps, COVER_NODES)
    return int(least) * step


def _price(
    ready: Ready, pricer: Pricer, values: Array, limits: Array, scale: int, need: int
) -> tuple[int, int | None]:
    """Return the least scale at which no unlimited stock holds more than it costs, and the bound.

    Newton's rule on the scale: the pattern that breaks it most sets the next one.
    """
    for _ in range(SCALE_ROUNDS):
        costs = [scale * kind.cost for kind in ready.kinds]
        answer = pricer.search(values, limits, scale, costs)
        worst = scale
        for find in answer.finds:
            if ready.kinds[find.kind].available is None:
                net = ready.net(find.kind, ready.fill(find.items))
                if net <= 0:
                    return scale, None
                held = sum(int(values[t]) * n for t, n in find.items)
                worst = max(worst, ceil(Fraction(held, net)))
        if worst == scale:
            excess = sum(
                (kind.available or 0) * min(0, cost - best)
                for kind, cost, best in zip(ready.kinds, costs, answer.best, strict=True)
            )
            return scale, ceil(Fraction(need + excess, scale))
        if not pricer.is_safe(worst, int(values.max())):
            return scale, None
        scale = worst
    return scale, None
