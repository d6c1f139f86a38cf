"""Takes a few stock pieces of a plan apart and fills them again, many thousand times a second.

A piece is refilled with the parts that pay most for it at the prices of the linear program, found
by a short depth-first search; what comes out cheaper, or as cheap, stays. Compiled; the same source
runs plainly in the tests. Must not know: bounds, columns.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from optimiser.solvers.compiled import compiled, lean
from optimiser.solvers.lengths.plans import Layout, Plan
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.protocol import Budget

Array = Any  # numpy arrays of int64, float64 where named prices or noise

MOST_PARTS = 60  # taken apart at a time, and in a piece that is
MOST_PIECES = 6
NODES = 250  # of the search that fills one piece
CALL = 200  # rounds between two looks at the clock, 20 to 40 ms
NOISE = 0.03  # of the prices


def rework(
    ready: Ready, plan: Mapping[Layout, int], prices: Array, seed: int, budget: Budget, until: float
) -> Plan:
    """Return a plan of the same parts that costs no more.

    `prices` are floats by type in pence; works until the budget's clock shows `until`, or nothing
    is left to save. The same seed and the same number of rounds give the same plan.
    """
    kept, pieces = _spread(plan)
    if len(pieces) < 2:
        return dict(plan)
    state = _State(ready, pieces, prices, seed)
    while budget.used < until and not budget.is_spent:
        state.run(CALL, _rounds)
    return _gather(kept, state)


class _State:
    """The arrays that the compiled rounds work on."""

    def __init__(
        self, ready: Ready, pieces: list[tuple[int, list[int]]], prices: Array, seed: int
    ) -> None:
        most = len(pieces) + MOST_PARTS
        self.kinds = np.zeros(most, np.int64)
        self.sizes = np.zeros(most, np.int64)
        self.parts = np.zeros((most, MOST_PARTS), np.int64)
        for row, (kind, parts) in enumerate(pieces):
            self.kinds[row] = kind
            self.sizes[row] = len(parts)
            self.parts[row, : len(parts)] = parts
        # How many pieces there are, and the state of the random numbers (never 0).
        self.counters = np.array(
            [len(pieces), (seed * 2_654_435_761 + 88_172_645_463_325_252) & ((1 << 62) - 1)],
            np.int64,
        )
        self.left = np.array([ready.most(k) for k in range(len(ready.kinds))], np.int64)
        for kind, _ in pieces:
            self.left[kind] -= 1
        self.weights = np.array(ready.weights, np.int64)
        self.stock = np.array([(k.capacity, k.usable, k.cost) for k in ready.kinds], np.int64)
        credit = ready.credit
        self.credit = np.array(
            [credit.numerator, credit.denominator, ready.keep, ready.unit], np.int64
        )
        self.prices = np.array(prices, np.float64)

    def run(self, rounds: int, code: Callable[..., int]) -> int:
        """Take `rounds` steps; return the pence saved."""
        return code(
            self.kinds, self.sizes, self.parts, self.counters, self.left, self.weights, self.stock,
            self.credit, self.prices, rounds,
        )  # fmt: skip


def _spread(plan: Mapping[Layout, int]) -> tuple[Plan, list[tuple[int, list[int]]]]:
    """Return the layouts with too many parts to touch, and every other piece with its parts."""
    kept: Plan = {}
    pieces = []
    for (kind, items), times in sorted(plan.items()):
        parts = [t for t, n in items for _ in range(min(n, MOST_PARTS + 1))]
        if len(parts) > MOST_PARTS:
            kept[kind, items] = times
        else:
            pieces += [(kind, parts)] * times
    return kept, pieces


def _gather(kept: Plan, state: _State) -> Plan:
    plan = dict(kept)
    for row in range(int(state.counters[0])):
        parts = state.parts[row, : state.sizes[row]]
        types, counts = np.unique(parts, return_counts=True)
        items = tuple((int(t), int(n)) for t, n in zip(types, counts, strict=True))
        layout = (int(state.kinds[row]), items)
        plan[layout] = plan.get(layout, 0) + 1
    return plan


@compiled
def _rounds(
    kinds: Array,
    sizes: Array,
    parts: Array,
    counters: Array,
    left: Array,
    weights: Array,
    stock: Array,
    credit: Array,
    prices: Array,
    rounds: int,
) -> int:
    """Take pieces apart and fill them again `rounds` times; return the pence saved."""
    saved = 0
    pool = np.zeros(MOST_PARTS, np.int64)
    values = np.zeros(MOST_PARTS, np.float64)
    chosen = np.zeros(MOST_PIECES, np.int64)
    new_kinds = np.zeros(MOST_PARTS, np.int64)
    new_sizes = np.zeros(MOST_PARTS, np.int64)
    new_parts = np.zeros((MOST_PARTS, MOST_PARTS), np.int64)
    marks = np.zeros(MOST_PARTS, np.int64)
    best_marks = np.zeros(MOST_PARTS, np.int64)
    stack = np.zeros(MOST_PARTS, np.int64)
    for _ in range(rounds):
        taken, pooled = _take_apart(
            kinds, sizes, parts, counters, weights, stock, credit, prices, chosen, pool
        )
        if taken < 2:
            continue
        old = 0
        for i in range(taken):
            row = chosen[i]
            left[kinds[row]] += 1
            old += _net(stock, credit, kinds[row], _fill(parts[row], sizes[row], weights))
        pool[:pooled] = np.sort(pool[:pooled])  # types by falling weight
        for i in range(pooled):
            values[i] = prices[pool[i]] * (1.0 + NOISE * (_random(counters) - 0.5))
        made = 0
        new = 0
        while pooled > 0 and new <= old:
            kind, size = _best_piece(
                pool, values, pooled, left, weights, stock, credit, marks, best_marks, stack
            )
            if kind < 0:
                break
            left[kind] -= 1
            new_kinds[made] = kind
            new_sizes[made] = size
            rest = 0
            put = 0
            for i in range(pooled):
                if best_marks[i]:
                    new_parts[made, put] = pool[i]
                    put += 1
                else:
                    pool[rest] = pool[i]
                    values[rest] = values[i]
                    rest += 1
            pooled = rest
            new += _net(stock, credit, kind, _fill(new_parts[made], size, weights))
            made += 1
        is_full = counters[0] + made - taken > kinds.shape[0]
        if pooled > 0 or new > old or is_full or (new == old and made > taken):
            for i in range(made):
                left[new_kinds[i]] += 1
            for i in range(taken):
                left[kinds[chosen[i]]] -= 1
            continue
        saved += old - new
        _replace(
            kinds, sizes, parts, counters, chosen, taken, new_kinds, new_sizes, new_parts, made
        )
    return saved


@compiled
def _take_apart(
    kinds: Array,
    sizes: Array,
    parts: Array,
    counters: Array,
    weights: Array,
    stock: Array,
    credit: Array,
    prices: Array,
    chosen: Array,
    pool: Array,
) -> tuple[int, int]:
    """Choose pieces, the first among the dearer ones; return how many, and how many parts."""
    count = counters[0]
    wanted = 2 + int(_random(counters) * (MOST_PIECES - 1))
    taken = 0
    pooled = 0
    for _ in range(2 * wanted):
        row = int(_random(counters) * count)
        if taken == 0:
            # The worst of a few: there is most to gain.
            worst = _loss(kinds, sizes, parts, weights, stock, credit, prices, row)
            for _ in range(7):
                other = int(_random(counters) * count)
                loss = _loss(kinds, sizes, parts, weights, stock, credit, prices, other)
                if loss > worst:
                    worst = loss
                    row = other
        is_new = True
        for i in range(taken):
            is_new = is_new and chosen[i] != row
        if not is_new or pooled + sizes[row] > MOST_PARTS:
            continue
        chosen[taken] = row
        taken += 1
        for i in range(sizes[row]):
            pool[pooled] = parts[row, i]
            pooled += 1
        if taken == wanted:
            break
    return taken, pooled


@lean
def _loss(
    kinds: Array,
    sizes: Array,
    parts: Array,
    weights: Array,
    stock: Array,
    credit: Array,
    prices: Array,
    row: int,
) -> float:
    """Return what a piece costs beyond the prices of its parts."""
    worth = 0.0
    for i in range(sizes[row]):
        worth += prices[parts[row, i]]
    return _net(stock, credit, kinds[row], _fill(parts[row], sizes[row], weights)) - worth


@compiled
def _best_piece(
    pool: Array,
    values: Array,
    pooled: int,
    left: Array,
    weights: Array,
    stock: Array,
    credit: Array,
    marks: Array,
    best_marks: Array,
    stack: Array,
) -> tuple[int, int]:
    """Fill one piece with the longest part of the pool and what pays most beside it.

    Leaves the choice in `best_marks`; returns (kind, number of parts), kind -1 when none holds it.
    """
    best = -1e300
    best_kind = -1
    best_size = 0
    rate = credit[0] / credit[1] * credit[3]
    dearest = 0.0
    for i in range(pooled):
        dearest = max(dearest, values[i] / weights[pool[i]])
    for kind in range(stock.shape[0]):
        capacity = stock[kind, 0]
        if left[kind] <= 0 or capacity < weights[pool[0]]:
            continue
        marks[:pooled] = 0
        marks[0] = 1
        depth = 0
        room = capacity - weights[pool[0]]
        worth = values[0]
        i = 1
        for _ in range(NODES):
            # Down: take every part that fits; a run of equal parts is entered at its first only.
            while i < pooled:
                fits = weights[pool[i]] <= room
                is_twin = pool[i] == pool[i - 1] and marks[i - 1] == 0 and i > 1
                if fits and not is_twin:
                    if worth + room * max(dearest, rate) - stock[kind, 2] <= best:
                        break
                    marks[i] = 1
                    stack[depth] = i
                    depth += 1
                    room -= weights[pool[i]]
                    worth += values[i]
                i += 1
            gain = worth - _net(stock, credit, kind, capacity - room)
            if gain > best:
                best = gain
                best_kind = kind
                best_size = depth + 1
                best_marks[:pooled] = marks[:pooled]
            if depth == 0:
                break
            # Up: leave the last part out and go on behind it.
            depth -= 1
            i = stack[depth]
            marks[i] = 0
            room += weights[pool[i]]
            worth -= values[i]
            i += 1
    return best_kind, best_size


@compiled
def _replace(
    kinds: Array,
    sizes: Array,
    parts: Array,
    counters: Array,
    chosen: Array,
    taken: int,
    new_kinds: Array,
    new_sizes: Array,
    new_parts: Array,
    made: int,
) -> None:
    """Put the new pieces where the old ones were; the last pieces fill the gaps that are left."""
    for i in range(made):
        row = chosen[i] if i < taken else counters[0] + i - taken
        kinds[row] = new_kinds[i]
        sizes[row] = new_sizes[i]
        parts[row, :] = new_parts[i, :]
    count = counters[0] + made - taken
    if made < taken:
        gaps = np.sort(chosen[made:taken])[::-1]
        last = counters[0] - 1
        for row in gaps:
            kinds[row] = kinds[last]
            sizes[row] = sizes[last]
            parts[row, :] = parts[last, :]
            last -= 1
    counters[0] = count


@lean
def _fill(parts: Array, size: int, weights: Array) -> int:
    total = 0
    for i in range(size):
        total += weights[parts[i]]
    return total


@lean
def _net(stock: Array, credit: Array, kind: int, fill: int) -> int:
    """Return the cost of a piece less the credit for what is left of it."""
    left = max(0, stock[kind, 1] - fill * credit[3])
    if left < credit[2]:
        return int(stock[kind, 2])
    return int(stock[kind, 2] - left * credit[0] // credit[1])


@lean
def _random(counters: Array) -> float:
    """Return a number from 0 up to 1 (xorshift, Marsaglia 2003)."""
    x = np.uint64(counters[1])
    x ^= x << np.uint64(13)
    x ^= x >> np.uint64(7)
    x ^= x << np.uint64(17)
    counters[1] = np.int64(x >> np.uint64(1)) | 1
    return (x >> np.uint64(11)) / 9007199254740992.0
