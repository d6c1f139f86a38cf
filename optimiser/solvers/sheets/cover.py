"""The least cost of sheets that together carry a demanded weight: the step from rows to a bound.

Exact in whole numbers and fractions. Best-first, so that it may stop early: the bound of the next
node to be opened holds for all that are left.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from heapq import heappop, heappush
from math import ceil, floor

# Beyond this many nodes the bound reached so far is taken: valid, if not the best.
_MOST_NODES = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """One sheet size: what one costs, at least, how much it carries, and how many there may be."""

    cost: Fraction
    carries: int
    most: int


def least_cost(
    carriers: tuple[Carrier, ...], demand: int, constant: Fraction = Fraction(0)
) -> int | None:
    """Return a lower bound, rounded up, on constant + Σ nₖ·costₖ with Σ nₖ·carriesₖ ≥ demand.

    None if all there is carries less than the demand.
    """
    useful = sorted(
        (carrier for carrier in carriers if carrier.most and (carrier.carries or carrier.cost < 0)),
        key=lambda carrier: Fraction(carrier.cost, carrier.carries or 1),
    )
    ranges = tuple((0, carrier.most) for carrier in useful)
    start = _relaxed(useful, ranges, demand)
    if start is None:
        return None
    heap = [(start[0], 0, start[1], ranges)]
    for count in range(1, 2 * _MOST_NODES, 2):
        cost, _, broken, ranges = heap[0]
        if broken is None:
            break
        heappop(heap)
        place, amount = broken
        low, high = ranges[place]
        for step, part in enumerate(((low, floor(amount)), (floor(amount) + 1, high))):
            if part[0] > part[1]:
                continue
            narrowed = (*ranges[:place], part, *ranges[place + 1 :])
            child = _relaxed(useful, narrowed, demand)
            if child is not None:
                heappush(heap, (max(cost, child[0]), count + step, child[1], narrowed))
    return ceil(heap[0][0] + constant)


def _relaxed(
    carriers: list[Carrier], ranges: tuple[tuple[int, int], ...], demand: int
) -> tuple[Fraction, tuple[int, Fraction] | None] | None:
    """Return the least cost with fractions allowed, and which number is broken; None if too few."""
    cost = Fraction(0)
    missing = demand
    for carrier, (low, high) in zip(carriers, ranges, strict=True):
        taken = high if carrier.cost < 0 else low
        cost += taken * carrier.cost
        missing -= taken * carrier.carries
    for place, (carrier, (low, high)) in enumerate(zip(carriers, ranges, strict=True)):
        if missing <= 0:
            break
        if carrier.cost < 0 or not carrier.carries:
            continue
        extra = Fraction(missing, carrier.carries)
        if extra > high - low:
            cost += (high - low) * carrier.cost
            missing -= (high - low) * carrier.carries
            continue
        cost += extra * carrier.cost
        broken = None if extra.denominator == 1 else (place, low + extra)
        return cost, broken
    return None if missing > 0 else (cost, None)
