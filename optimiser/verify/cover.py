"""The least money whose stock can hold a given weight: the last step of every bound.

An exact search in whole numbers. Where it would take too long it answers with the value of its
relaxation (fractions of a stock piece allowed), which is lower and therefore still a bound.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import lcm

MOST_NODES = 20_000


@dataclass(frozen=True, slots=True)
class Source:
    """One stock or rack offcut: what one piece costs, the most it holds, how many there are."""

    cost: Fraction
    holds: int
    available: int | None


def least_cover(sources: tuple[Source, ...], demand: int, offset: Fraction) -> int | None:
    """Return the least whole pence ≥ offset + Σ n·cost, n whole, such that Σ n·holds ≥ demand.

    None when all there is cannot hold the demand. Raises ValueError if an unlimited source has a
    cost below 0, for then nothing is least.
    """
    paid, wanted = offset, demand
    choices = []
    for source in sources:
        if source.cost > 0:
            if source.holds > 0:
                choices.append(source)
        elif source.available is None:
            if source.cost < 0:
                raise ValueError("an unlimited source costs less than nothing")
            if source.holds > 0:
                wanted = 0
        else:
            # Whatever costs nothing or less is taken whole: it can only lower the sum.
            paid += source.cost * source.available
            wanted -= source.holds * source.available
    if wanted <= 0:
        return _ceiling(paid)
    choices.sort(key=lambda source: (source.cost / source.holds, -source.holds))
    return _Search(choices, paid).least(wanted)


def _ceiling(value: Fraction) -> int:
    return -(-value.numerator // value.denominator)


class _Search:
    """Depth first, cheapest per weight first, most pieces first; costs in a common whole unit."""

    def __init__(self, sources: list[Source], paid: Fraction) -> None:
        self._unit = lcm(paid.denominator, *(source.cost.denominator for source in sources))
        self._paid = int(paid * self._unit)
        self._costs = [int(source.cost * self._unit) for source in sources]
        self._holds = [source.holds for source in sources]
        self._limits = [source.available for source in sources]
        self._best: int | None = None
        self._nodes = 0

    def least(self, demand: int) -> int | None:
        root = self._relaxed(0, demand, self._paid)
        if root is None:
            return None
        self._visit(0, demand, self._paid)
        if self._best is None or self._nodes > MOST_NODES:
            return -(-root // self._unit)
        return self._best

    def _relaxed(self, first: int, demand: int, paid: int) -> int | None:
        """Return the least cost when pieces may be split, rounded up in the common unit."""
        for cost, holds, limit in zip(
            self._costs[first:], self._holds[first:], self._limits[first:], strict=True
        ):
            if demand <= 0:
                break
            if limit is None or limit * holds >= demand:
                return paid - (-cost * demand // holds)
            paid += limit * cost
            demand -= limit * holds
        return paid if demand <= 0 else None

    def _visit(self, first: int, demand: int, paid: int) -> None:
        self._nodes += 1
        if self._nodes > MOST_NODES:
            return
        if demand <= 0:
            pence = -(-paid // self._unit)
            if self._best is None or pence < self._best:
                self._best = pence
            return
        if first == len(self._holds):
            return
        most = -(-demand // self._holds[first])
        limit = self._limits[first]
        if limit is not None:
            most = min(most, limit)
        for pieces in range(most, -1, -1):
            rest = demand - pieces * self._holds[first]
            sum_ = paid + pieces * self._costs[first]
            relaxed = self._relaxed(first + 1, rest, sum_)
            if relaxed is None or self._nodes > MOST_NODES:
                return
            if not self._is_hopeless(relaxed):
                self._visit(first + 1, rest, sum_)
            elif rest >= 0:
                # As long as none of the cheapest source's yield is wasted, fewer pieces of it only
                # cost more: all that follow are hopeless too.
                return

    def _is_hopeless(self, relaxed: int) -> bool:
        return self._best is not None and -(-relaxed // self._unit) >= self._best
