"""The least cost of sheets that together carry what several rows demand: from rows to a bound.

Exact in whole numbers. Best-first, so that it may stop early: the bound of the next node to be
opened holds for all that are left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from heapq import heappop, heappush
from math import ceil, lcm
from typing import TypeAlias

# Beyond this many nodes the bound reached so far is taken: valid, if not the best.
_MOST_NODES = 1500

_Ranges: TypeAlias = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """One sheet size: what one costs, at least, and how many there may be."""

    cost: Fraction
    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """One row: how much a sheet of each size carries at most, and what all must carry."""

    carries: tuple[int, ...]
    demand: int


@dataclass(frozen=True, slots=True)
class Cover:
    """A lower bound, rounded up; the counts that reach it, None if the search was cut short."""

    bound: int
    counts: tuple[int, ...] | None


def least_cost(
    carriers: Sequence[Carrier], loads: Sequence[Load], constant: Fraction = Fraction(0)
) -> Cover | None:
    """Return the least of constant + Σ nₖ·costₖ, every row carried; None if that cannot be."""
    unit = lcm(*(carrier.cost.denominator for carrier in carriers))
    costs = [int(carrier.cost * unit) for carrier in carriers]
    rows = [*loads, *_joined(loads)] or [Load(carries=(0,) * len(costs), demand=0)]
    orders = [
        sorted(
            (k for k, carried in enumerate(row.carries) if carried and costs[k] >= 0),
            key=[
                Fraction(c, max(1, v)) for c, v in zip(costs, row.carries, strict=True)
            ].__getitem__,
        )
        for row in rows
    ]
    ranges: _Ranges = tuple(
        (carrier.most if carrier.cost < 0 else 0, carrier.most) for carrier in carriers
    )
    start = _dearest(costs, rows, orders, ranges)
    if start is None:
        return None
    heap = [(start[0], 0, start, ranges)]
    for number in range(1, 2 * _MOST_NODES, 2):
        cost, _, relaxed, ranges = heap[0]
        split = _split(rows, orders, relaxed, ranges)
        if split is None:
            return Cover(ceil(Fraction(cost, unit) + constant), relaxed[1])
        heappop(heap)
        place, amount = split
        low, high = ranges[place]
        for side, part in enumerate(((low, amount), (amount + 1, high))):
            narrowed = (*ranges[:place], part, *ranges[place + 1 :])
            child = _dearest(costs, rows, orders, narrowed)
            if child is not None:
                heappush(heap, (max(cost, child[0]), number + side, child, narrowed))
        if not heap:
            return None
    return Cover(ceil(Fraction(heap[0][0], unit) + constant), None)


# Cost, whole counts, and the place of a count that is broken, if one is.
_Relaxed: TypeAlias = tuple[int, tuple[int, ...], int | None]


def _dearest(
    costs: list[int], rows: Sequence[Load], orders: list[list[int]], ranges: _Ranges
) -> _Relaxed | None:
    """Return the relaxation of the row that costs most; None if some row cannot be carried."""
    dearest: _Relaxed | None = None
    for row, order in zip(rows, orders, strict=True):
        relaxed = _relaxed(costs, row, order, ranges)
        if relaxed is None:
            return None
        if dearest is None or relaxed[0] > dearest[0]:
            dearest = relaxed
    return dearest


def _relaxed(costs: list[int], row: Load, order: list[int], ranges: _Ranges) -> _Relaxed | None:
    """Return the least cost of one row with fractions of sheets allowed; None if too few."""
    counts = [low for low, _ in ranges]
    cost = sum(n * price for n, price in zip(counts, costs, strict=True))
    missing = row.demand - sum(n * v for n, v in zip(counts, row.carries, strict=True))
    for place in order:
        if missing <= 0:
            break
        low, high = ranges[place]
        carried = row.carries[place]
        if carried * (high - low) < missing:
            counts[place] = high
            cost += (high - low) * costs[place]
            missing -= (high - low) * carried
            continue
        counts[place] = low + missing // carried
        cost += -(-missing * costs[place] // carried)
        return cost, tuple(counts), place if missing % carried else None
    return None if missing > 0 else (cost, tuple(counts), None)


def _split(
    rows: Sequence[Load], orders: list[list[int]], relaxed: _Relaxed, ranges: _Ranges
) -> tuple[int, int] | None:
    """Return which range to divide after which count; None if the counts carry every row."""
    _, counts, broken = relaxed
    if broken is not None:
        return broken, counts[broken]
    for row, order in zip(rows, orders, strict=True):
        if sum(n * v for n, v in zip(counts, row.carries, strict=True)) < row.demand:
            return next((k, counts[k]) for k in order if counts[k] < ranges[k][1])
    return None


def _joined(loads: Sequence[Load]) -> list[Load]:
    """Add up the rows at about equal demands: the sum often bounds better than each."""
    wanted = [load for load in loads if load.demand > 0]
    if len(wanted) < 2:
        return []
    largest = max(load.demand for load in wanted)
    factors = [max(1, largest // load.demand) for load in wanted]
    carries = tuple(
        sum(factor * carried for factor, carried in zip(factors, column, strict=True))
        for column in zip(*(load.carries for load in wanted), strict=True)
    )
    demand = sum(f * load.demand for f, load in zip(factors, wanted, strict=True))
    return [Load(carries=carries, demand=demand)]
