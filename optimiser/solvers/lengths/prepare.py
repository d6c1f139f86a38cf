"""Turns the problem into the form in which a part needs no thought about the saw.

A part takes its size and one kerf, a stock gains one kerf, so a pattern fits when plain lengths add
up. Equal sizes become one type, equal stocks one kind, everything is divided by the greatest common
divisor of the parts. Stocks that hold nothing are dropped. Must not know: how patterns are found.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from optimiser.solvers.lengths.problem import LengthsProblem

Items = tuple[tuple[int, int], ...]  # (type, how many), types rising


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """Equal stocks seen as one. `capacity` is in scaled units, `available` None is unlimited."""

    usable: int
    cost: int
    capacity: int
    available: int | None
    sources: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """The problem after preparation: types by falling weight, kinds by falling capacity.

    `weights` are in units of `unit` (tenths); `sources[t]` are the sizes that became type t.
    `credit` earns the same whole pence as the problem's on every left over that can occur.
    Every plan's cost is a multiple of `step`. `net_length` is that of all parts, without kerf.
    """

    weights: tuple[int, ...]
    demands: tuple[int, ...]
    sources: tuple[tuple[int, ...], ...]
    kinds: tuple[Kind, ...]
    unit: int
    kerf: int
    keep: int
    credit: Fraction
    step: int
    net_length: int

    @property
    def total(self) -> int:
        """Return the number of parts."""
        return sum(self.demands)

    @property
    def unstocked(self) -> tuple[int, ...]:
        """Return the types that are longer than every stock there is."""
        longest = max((kind.capacity for kind in self.kinds), default=0)
        return tuple(t for t, weight in enumerate(self.weights) if weight > longest)

    def most(self, kind: int) -> int:
        """Return how many stocks of a kind a plan can use at most: each holds a part."""
        available = self.kinds[kind].available
        return self.total if available is None else min(available, self.total)

    def fill(self, items: Items) -> int:
        """Return the scaled length that a pattern takes, one kerf a part included."""
        return sum(count * self.weights[t] for t, count in items)

    def earned(self, kind: int, fill: int) -> int:
        """Return the credit for what a filled stock leaves."""
        left = max(0, self.kinds[kind].usable - fill * self.unit)
        if left < self.keep:
            return 0
        return left * self.credit.numerator // self.credit.denominator

    def net(self, kind: int, fill: int) -> int:
        """Return the net cost of a layout."""
        return self.kinds[kind].cost - self.earned(kind, fill)


def prepare(problem: LengthsProblem) -> Ready:
    """Merge, scale and sort; see the module's docstring."""
    by_weight: dict[int, list[int]] = {}
    for index, (size, demand) in enumerate(zip(problem.sizes, problem.demands, strict=True)):
        if demand:
            by_weight.setdefault(size + problem.kerf, []).append(index)
    heavy_first = sorted(by_weight, reverse=True)
    unit = gcd(*heavy_first) or 1
    kinds = _kinds(problem, heavy_first[-1] if heavy_first else 1, unit)
    credit = problem.credit
    if credit:
        credit = _below(credit, max([stock.usable for stock in problem.stocks], default=1))
    return Ready(
        weights=tuple(weight // unit for weight in heavy_first),
        demands=tuple(sum(problem.demands[i] for i in by_weight[w]) for w in heavy_first),
        sources=tuple(tuple(by_weight[weight]) for weight in heavy_first),
        kinds=kinds,
        unit=unit,
        kerf=problem.kerf,
        keep=problem.keep,
        credit=credit,
        step=1 if credit else gcd(*(kind.cost for kind in kinds)) or 1,
        net_length=sum(s * d for s, d in zip(problem.sizes, problem.demands, strict=True)),
    )


def _kinds(problem: LengthsProblem, lightest: int, unit: int) -> tuple[Kind, ...]:
    """Merge equal stocks; drop those that are used up or too short for every part."""
    groups: dict[tuple[int, int], list[int]] = {}
    for index, stock in enumerate(problem.stocks):
        if stock.available != 0 and stock.usable + problem.kerf >= lightest:
            groups.setdefault((stock.usable, stock.cost), []).append(index)
    kinds = []
    for (usable, cost), sources in sorted(groups.items(), key=lambda group: (-group[0][0], group)):
        limits = [problem.stocks[index].available for index in sources]
        finite = [limit for limit in limits if limit is not None]
        kinds.append(
            Kind(
                usable=usable,
                cost=cost,
                capacity=(usable + problem.kerf) // unit,
                available=sum(finite) if len(finite) == len(limits) else None,
                sources=tuple(sources),
            )
        )
    return tuple(kinds)


def _below(ratio: Fraction, largest: int) -> Fraction:
    """Return the greatest fraction ≤ `ratio` whose denominator is at most `largest`.

    Multiplied by any whole number up to `largest` it rounds down to the same whole number, and it
    keeps the products small enough for machine integers (theory of Farey sequences).
    """
    if ratio.denominator <= largest:
        return ratio
    p0, q0, p1, q1 = 0, 1, 1, 0
    n, d = ratio.numerator, ratio.denominator
    while True:
        a = n // d
        if q0 + a * q1 > largest:
            break
        p0, q0, p1, q1 = p1, q1, p0 + a * p1, q0 + a * q1
        n, d = d, n - a * d
    k = (largest - q0) // q1
    return max(b for b in (Fraction(p0 + k * p1, q0 + k * q1), Fraction(p1, q1)) if b <= ratio)


def as_items(counts: Iterable[int]) -> Items:
    """Turn counts by type into (type, count) pairs."""
    return tuple((t, int(count)) for t, count in enumerate(counts) if count)
