"""The hot loops, compiled: bounded knapsacks by branch and bound and by table.

All numbers are int64 and exact. Values are scaled so that a value times a capacity stays below
2^61 (see pricing.py). Branch and bound does not care how fine the lengths are measured; the table
does, but it never takes exponential time, so it stands in when a node limit trips.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from optimiser.solvers.compiled import compiled, lean

# numba's decorator and arrays are untyped for mypy; every array is int64 unless named otherwise.
Array = Any


@lean
def relaxed(values: Array, weights: Array, limits: Array, start: int, room: int, slope: int) -> int:
    """Bound the value of items from `start` on, sorted by falling value a length, in `room`.

    `slope` is taken off each value per unit of length; items that then lose are left out.
    """
    total = 0
    for j in range(start, values.shape[0]):
        value = values[j] - slope * weights[j]
        if value <= 0:
            return total
        take = limits[j] * weights[j]
        if take >= room:
            return int(total + value * room // weights[j])
        total += limits[j] * value
        room -= take
    return total


@compiled
def tree(
    values: Array,
    weights: Array,
    limits: Array,
    lightest: Array,
    stock: Array,
    credit: Array,
    threshold: int,
    node_limit: int,
    kept: Array,
    kept_values: Array,
    collect: int,
) -> tuple[int, int, int]:
    """Search patterns of one stock whose value plus scaled credit exceeds `threshold`.

    Items are sorted by falling value a length; `lightest[j]` is the least weight from j on, one
    longer than the rest. `stock` = capacity, usable. `credit` = numerator, denominator, keep, unit,
    scale, scale·numerator//denominator. With `collect` 0 the threshold rises with each find, and
    `kept` holds the last finds in turn; with 1 it stays, maximal patterns are kept, and the search
    stops when `kept` is full. Returns (best, finds, nodes); nodes > node_limit: not finished.
    """
    n = values.shape[0]
    credited = credit[0] > 0
    counts = np.zeros(n, np.int64)
    stack = np.zeros(n + 1, np.int64)
    depth = 0
    room = stock[0]
    value = 0
    best = threshold
    finds = 0
    nodes = 0
    j = 0
    while True:
        while j < n and room >= lightest[j]:
            nodes += 1
            if value + _hope(values, weights, limits, stock, credit, j, room, best - value) <= best:
                if not credited and depth > 0 and stack[depth - 1] == j - 1:
                    # Taking more of item j-1 off cannot help: nothing after it is better.
                    room += counts[j - 1] * weights[j - 1]
                    value -= counts[j - 1] * values[j - 1]
                    counts[j - 1] = 0
                    depth -= 1
                break
            take = min(limits[j], room // weights[j])
            if take > 0:
                counts[j] = take
                room -= take * weights[j]
                value += take * values[j]
                stack[depth] = j
                depth += 1
                gain = value + _credit(stock, credit, stock[0] - room)
                if gain > best and _wanted(collect, credit, weights, limits, counts, room):
                    finds = _keep(kept, kept_values, finds, counts, gain)
                    best += (gain - best) * (1 - collect)
            j += 1
        if collect == 1 and finds >= kept.shape[0]:
            return best, finds, node_limit + 1
        if depth == 0 or nodes > node_limit:
            return best, finds, nodes
        top = stack[depth - 1]
        counts[top] -= 1
        room += weights[top]
        value -= values[top]
        if counts[top] == 0:
            depth -= 1
        elif credited:
            gain = value + _credit(stock, credit, stock[0] - room)
            if gain > best:
                finds = _keep(kept, kept_values, finds, counts, gain)
                best += (gain - best) * (1 - collect)
        j = top + 1


@lean
def _hope(
    values: Array,
    weights: Array,
    limits: Array,
    stock: Array,
    credit: Array,
    start: int,
    room: int,
    enough: int,
) -> int:
    """Bound what items from `start` on and the credit can add; need not be tight above `enough`."""
    bound = relaxed(values, weights, limits, start, room, 0)
    fill, unit = stock[0] - room, credit[3]
    left = stock[1] - fill * unit
    if credit[0] == 0 or bound > enough or left < credit[2]:
        return int(bound)
    # Up to the fill that still leaves a piece worth keeping, length costs its credit.
    soft = (left - credit[2]) // unit
    slope = credit[5]
    kept = (slope + 1) * left + relaxed(values, weights, limits, start, soft, slope * unit)
    return int(max(bound, kept))


@compiled
def _keep(kept: Array, kept_values: Array, finds: int, counts: Array, gain: int) -> int:
    """Write a find to its slot, the oldest find's when all are taken; return the new number."""
    kept[finds % kept.shape[0], :] = counts
    kept_values[finds % kept.shape[0]] = gain
    return finds + 1


@lean
def _credit(stock: Array, credit: Array, fill: int) -> int:
    """Return the scaled credit for what a fill leaves of a stock."""
    left = max(0, stock[1] - fill * credit[3])
    if credit[0] == 0 or left < credit[2]:
        return 0
    return int(credit[4] * (left * credit[0] // credit[1]))


@lean
def _wanted(
    collect: int, credit: Array, weights: Array, limits: Array, counts: Array, room: int
) -> bool:
    """Return whether a find is kept: when collecting without credit, only maximal patterns are."""
    if collect == 0 or credit[0] > 0:
        return True
    for j in range(weights.shape[0]):  # noqa: SIM110 - numba has no all() over a generator
        if counts[j] < limits[j] and weights[j] <= room:
            return False
    return True


@compiled
def search_stocks(
    values: Array,
    weights: Array,
    limits: Array,
    lightest: Array,
    stocks: Array,
    credit: Array,
    thresholds: Array,
    node_limit: int,
    kept: Array,
    kept_values: Array,
    finds: Array,
    nodes: Array,
) -> None:
    """Run `tree` on each stock; `thresholds` become the best values, the rest is filled in."""
    for k in range(stocks.shape[0]):
        best, found, used = tree(
            values, weights, limits, lightest, stocks[k], credit, thresholds[k], node_limit,
            kept[k], kept_values[k], 0,
        )  # fmt: skip
        thresholds[k] = best
        finds[k] = found
        nodes[k] = used


@compiled
def table(values: Array, weights: Array, capacity: int) -> tuple[Array, Array]:
    """Fill the 0/1 knapsack table: best value within each length, and one bit a decision."""
    n = values.shape[0]
    best = np.zeros(capacity + 1, np.int64)
    bits = np.zeros((n, capacity // 8 + 1), np.uint8)
    for t in range(n):
        weight = weights[t]
        value = values[t]
        for x in range(capacity, weight - 1, -1):
            candidate = best[x - weight] + value
            if candidate > best[x]:
                best[x] = candidate
                bits[t, x >> 3] |= np.uint8(1 << (x & 7))
    return best, bits


@lean
def trace(weights: Array, bits: Array, length: int, taken: Array) -> None:
    """Mark in `taken` the entries that make up the table's best value within `length`."""
    x = length
    for t in range(weights.shape[0] - 1, -1, -1):
        taken[t] = 0
        if bits[t, x >> 3] & np.uint8(1 << (x & 7)):
            taken[t] = 1
            x -= weights[t]
