"""Which ways to choose may cost least by all that is known so far, and so are planned next.

A way is planned, what its proofs say of all others is learnt, and the way that is left cheapest now
is the next (as in the decomposition of Benders 1962, each proof a cut; here cuts count stock in
whole pieces). What was learnt belongs into the plan's certificate: it bounds the other ways.
"""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import combinations
from math import inf, prod
from typing import TYPE_CHECKING

import numpy as np

from optimiser.planning.floors import Floors
from optimiser.planning.options import alike_options
from optimiser.verify.joint import UNIT, is_small
from optimiser.verify.reasons import Reasons

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from optimiser.domain.request import CuttingRequest
    from optimiser.planning.floors import Numbers, Way

# Ways are all listed up to so many; of more, those next to the best and so many cheapest by price.
MOST_LISTED = 200_000
MOST_NEAR = 3_000
# Ways counted out for one lead.
MOST_COUNTED = 60


class Leads:
    """The ways to choose, what is known of them, and which to plan next."""

    def __init__(self, request: CuttingRequest, open_: tuple[tuple[int, ...], ...]) -> None:
        self._open = open_
        self._floors = {
            material.material: Floors(alike_options(request, material))
            for material in request.materials
        }
        self._ways: Numbers = np.zeros((0, len(open_)), np.int64)
        self._is_whole = prod(map(len, open_)) <= MOST_LISTED
        if self._is_whole:
            self._list(_all_ways(open_))

    def learn(self, name: str, way: Way, cost: float, reasons: Reasons) -> None:
        """Take in one material's plan for a way: its cost, inf if there is none, and its proof.

        Amounts that do not add up within 64 bits say nothing here.
        """
        self._floors[name].learn(way, cost, reasons if is_small(reasons) else Reasons())

    def next(self, best: Way, most: int) -> tuple[list[Way], float]:
        """Return up to so many ways not planned that may cost least, and a floor of what they cost.

        Where all ways are listed, no way that is not planned costs less than the floor (inf if
        there is none). `best` is the cheapest way so far: where to look for good floors.
        """
        supports = [floors.support(best) for floors in self._floors.values()]
        if not self._is_whole:
            prices = [dict.fromkeys(open_, 0.0) for open_ in self._open]
            for support in supports:
                if support is not None:
                    for each, options in zip(prices, support.options, strict=True):
                        for option in each:
                            each[option] += options[option] / UNIT
            self._list(np.array(list(dict.fromkeys(self._near(best, prices)))))
        found: list[Way] = []
        least = inf
        is_open = np.zeros(len(self._ways), bool)
        for floors in self._floors.values():
            is_open |= np.isnan(floors.planned)[floors.places]
        for floors in self._floors.values():
            is_open &= ~np.isinf(floors.planned)[floors.places]
        for _ in range(most):
            if not is_open.any():
                break
            lead = self._lead(is_open)
            if not found:
                least = float(self._sum_of_floors()[is_open].min())
            found.append(tuple(self._ways[lead].tolist()))
            is_open[lead] = False
        return found, least

    def _lead(self, is_open: NDArray[np.bool_]) -> int:
        """Return the open way that is likely to cost least, its stock counted in whole pieces."""
        lead = 0
        for _ in range(MOST_COUNTED):
            sums = np.zeros(len(self._ways))
            for floors in self._floors.values():
                sums += floors.likely()[floors.places]
            sums[~is_open] = inf
            lead = int(sums.argmin())
            rose = [floors.count(int(floors.places[lead])) for floors in self._floors.values()]
            if not any(rose):
                break
        return lead

    def _sum_of_floors(self) -> NDArray[np.float64]:
        sums = np.zeros(len(self._ways))
        for floors in self._floors.values():
            sums += floors.floors[floors.places]
        return sums

    def _list(self, ways: Numbers) -> None:
        self._ways = ways
        for floors in self._floors.values():
            floors.list_ways(ways)

    def _near(self, best: Way, prices: list[dict[int, float]]) -> Iterator[Way]:
        """Yield the best way, those that differ from it in one choice or two, and the cheapest."""
        yield best
        steps = [
            (place, option)
            for place, open_ in enumerate(self._open)
            for option in open_
            if option != best[place]
        ]
        for place, option in steps:
            yield (*best[:place], option, *best[place + 1 :])
        pairs = (pair for pair in combinations(steps, 2) if pair[0][0] != pair[1][0])
        for _, ((place, option), (other, its)) in zip(range(MOST_NEAR), pairs, strict=False):
            way = list(best)
            way[place], way[other] = option, its
            yield tuple(way)
        yield from cheapest_ways(prices, MOST_NEAR)


def _all_ways(open_: tuple[tuple[int, ...], ...]) -> Numbers:
    """List every way, a row each; a grid would have more sides than numpy allows."""
    count = prod(map(len, open_))
    ways: Numbers = np.zeros((count, len(open_)), np.int64)
    alike = count
    for choice, options in enumerate(open_):
        again = count // alike
        alike //= len(options)
        ways[:, choice] = np.tile(np.repeat(options, alike), again)
    return ways


def cheapest_ways(prices: list[dict[int, float]], most: int) -> Iterator[Way]:
    """Yield up to so many ways, the one whose options' prices add up to least first.

    `prices` has for each choice what each of its open options costs.
    """
    ranked = [sorted((price, option) for option, price in each.items()) for each in prices]
    first = tuple(0 for _ in ranked)
    # No choice before the last that was moved is moved again, so that no way comes twice.
    heap = [(sum(each[0][0] for each in ranked), first, 0)]
    for _ in range(most):
        if not heap:
            return
        cost, places, since = heappop(heap)
        yield tuple(each[at][1] for each, at in zip(ranked, places, strict=True))
        for place in range(since, len(ranked)):
            at = places[place] + 1
            if at < len(ranked[place]):
                step = ranked[place][at][0] - ranked[place][at - 1][0]
                heappush(heap, (cost + step, (*places[:place], at, *places[place + 1 :]), place))
