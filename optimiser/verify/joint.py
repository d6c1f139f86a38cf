"""The least money whose stock satisfies several rows of weights at once.

Each row alone is what `cover.py` looks at; together they say more, since one and the same number of
stock pieces must satisfy them all. Best first, so that a search cut short still yields a bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from heapq import heappop, heappush
from math import lcm
from typing import TypeAlias

MOST_NODES = 3_000

_Ranges: TypeAlias = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Supply:
    """One stock or rack offcut: what one piece costs, and how many there are."""

    cost: Fraction
    available: int | None


@dataclass(frozen=True, slots=True)
class Row:
    """One reason: the most that a piece of each supply yields, and what all together must yield."""

    yields: tuple[int, ...]
    need: int


def joint_least_cost(
    supplies: Sequence[Supply], rows: Sequence[Row], offset: Fraction = Fraction(0)
) -> int | None:
    """Return the least whole pence ≥ offset + Σ n·cost over whole n that satisfy every row.

    A row asks for Σ n·yields ≥ need, 0 ≤ n ≤ available. None when all there is cannot satisfy some
    row. Raises ValueError if an unlimited supply costs less than nothing, for then nothing is
    least. Where the search is cut short the answer may be lower than the least: still a bound.
    """
    paid = offset
    needs = [row.need for row in rows]
    bought = []
    for place, supply in enumerate(supplies):
        if supply.cost > 0:
            bought.append(place)
        elif supply.available is not None:
            # Whatever costs nothing or less is taken whole: it can only lower the sum.
            paid += supply.cost * supply.available
            for number, row in enumerate(rows):
                needs[number] -= supply.available * row.yields[place]
        elif supply.cost < 0:
            raise ValueError("an unlimited supply costs less than nothing")
        else:
            for number, row in enumerate(rows):
                needs[number] = 0 if row.yields[place] > 0 else needs[number]
    open_rows = [
        Row(tuple(row.yields[place] for place in bought), need)
        for row, need in zip(rows, needs, strict=True)
        if need > 0
    ]
    unit = lcm(*(supplies[place].cost.denominator for place in bought))
    costs = [int(supplies[place].cost * unit) for place in bought]
    tops = _tops(open_rows, [supplies[place].available for place in bought])
    least = _Search(costs, open_rows).least(tops)
    if least is None:
        return None
    total = paid + Fraction(least, unit)
    return -(-total.numerator // total.denominator)


def _tops(rows: Sequence[Row], available: Sequence[int | None]) -> _Ranges:
    """Return the most of each supply worth buying: one kind alone then satisfies all it can."""
    ranges = []
    for place, limit in enumerate(available):
        enough = max(
            (-(-row.need // row.yields[place]) for row in rows if row.yields[place] > 0), default=0
        )
        ranges.append((0, enough if limit is None else min(limit, enough)))
    return tuple(ranges)


@dataclass(frozen=True, slots=True)
class _Relaxed:
    """The least cost that satisfies one row when pieces may be split; `broken` is split."""

    cost: int
    counts: tuple[int, ...]
    broken: int | None


class _Search:
    """Best first over ranges of counts; the bound of a node is that of its dearest row."""

    def __init__(self, costs: Sequence[int], rows: Sequence[Row]) -> None:
        self._costs = costs
        self._rows = [*rows, *_summed(rows)]
        self._orders = [_cheapest_first(costs, row) for row in self._rows]

    def least(self, ranges: _Ranges) -> int | None:
        if not self._rows:
            return 0
        root = self._dearest(ranges)
        if root is None:
            return None
        heap = [(root.cost, 0, root, ranges)]
        for number in range(1, 2 * MOST_NODES, 2):
            cost, _, relaxed, ranges = heap[0]
            split = self._split(relaxed, ranges)
            if split is None:
                return cost
            heappop(heap)
            place, low_end = split
            low, high = ranges[place]
            for side, part in enumerate(((low, low_end), (low_end + 1, high))):
                narrowed = (*ranges[:place], part, *ranges[place + 1 :])
                child = self._dearest(narrowed)
                if child is not None:
                    heappush(heap, (max(cost, child.cost), number + side, child, narrowed))
            if not heap:
                return None
        return heap[0][0]

    def _dearest(self, ranges: _Ranges) -> _Relaxed | None:
        """Return the relaxation of the row that costs most; None if some row cannot be met."""
        dearest: _Relaxed | None = None
        for row, order in zip(self._rows, self._orders, strict=True):
            relaxed = self._relaxed(row, order, ranges)
            if relaxed is None:
                return None
            if dearest is None or relaxed.cost > dearest.cost:
                dearest = relaxed
        return dearest

    def _relaxed(self, row: Row, order: Sequence[int], ranges: _Ranges) -> _Relaxed | None:
        counts = [low for low, _ in ranges]
        cost = sum(low * price for low, price in zip(counts, self._costs, strict=True))
        missing = row.need - sum(
            low * yielded for low, yielded in zip(counts, row.yields, strict=True)
        )
        for place in order:
            if missing <= 0:
                break
            low, high = ranges[place]
            yielded = row.yields[place]
            if (high - low) * yielded < missing:
                counts[place] = high
                cost += (high - low) * self._costs[place]
                missing -= (high - low) * yielded
                continue
            whole, rest = divmod(missing, yielded)
            counts[place] = low + whole
            # Costs are whole numbers, so the sum may be rounded up.
            cost += -(-missing * self._costs[place] // yielded)
            return _Relaxed(cost, tuple(counts), place if rest else None)
        return None if missing > 0 else _Relaxed(cost, tuple(counts), None)

    def _split(self, relaxed: _Relaxed, ranges: _Ranges) -> tuple[int, int] | None:
        """Say which range to divide, and where; None if the counts satisfy every row."""
        if relaxed.broken is not None:
            return relaxed.broken, relaxed.counts[relaxed.broken]
        for row, order in zip(self._rows, self._orders, strict=True):
            got = sum(n * yielded for n, yielded in zip(relaxed.counts, row.yields, strict=True))
            if got < row.need:
                for place in order:
                    if relaxed.counts[place] < ranges[place][1]:
                        return place, relaxed.counts[place]
        return None


def _cheapest_first(costs: Sequence[int], row: Row) -> list[int]:
    """List the supplies that yield anything, by what a unit of yield costs."""
    ratios = [
        (Fraction(cost, yielded), place)
        for place, (cost, yielded) in enumerate(zip(costs, row.yields, strict=True))
        if yielded > 0
    ]
    return [place for _, place in sorted(ratios)]


def _summed(rows: Sequence[Row]) -> list[Row]:
    """Add up the rows, each scaled to about the same need: dearer than any alone, as a rule."""
    if len(rows) < 2:
        return []
    largest = max(row.need for row in rows)
    factors = [max(1, largest // row.need) for row in rows]
    columns = zip(*(row.yields for row in rows), strict=True)
    yields = tuple(
        sum(factor * yielded for factor, yielded in zip(factors, column, strict=True))
        for column in columns
    )
    need = sum(factor * row.need for factor, row in zip(factors, rows, strict=True))
    return [Row(yields, need)]
