"""Which option of each choice to cut: ways to choose, held against each other by plans.

What an option takes of every material is priced by the weights that the solvers' proofs give its
parts; sums of prices are separable, so the ways that cost least by price follow one another without
listing them all. They are planned in that order, and beside them the ways next to the best one so
far; the few that come out cheapest are planned for longer. A material that two ways cut alike is
planned once for both.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from heapq import heappop, heappush
from typing import TYPE_CHECKING, TypeAlias

from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.planning.lifting import lifted_lengths
from optimiser.verify.weighing import Amount, amount_of

if TYPE_CHECKING:
    from optimiser.solvers.lengths.problem import LengthsOutcome
    from optimiser.solvers.protocol import Budget
    from optimiser.solvers.sheets.problem import SheetsOutcome

    Outcome: TypeAlias = LengthsOutcome | SheetsOutcome

Way: TypeAlias = tuple[int, ...]
Material: TypeAlias = LengthMaterial | SheetMaterial
# Plans one material for a way within seconds; None where the stock yields no plan.
Cutter: TypeAlias = Callable[[str, Way, float], "Outcome | None"]

# Of the time: looking about, then planning the best few for longer.
LOOKING = 0.6
# Ways that are planned for longer, and how often that is halved.
FINALISTS = 4
# So many ways are meant to be planned while looking about; a material is given no less than QUICK.
MEANT = 40
QUICK = 0.03


@dataclass(slots=True)
class _Cut:
    """The best plan of one material for one way, and how long was spent on it."""

    outcome: Outcome | None
    seconds: float


@dataclass(slots=True)
class Decider:
    """Plans ways to choose; `cuts` keeps the best plan of each material by what it must cut."""

    request: CuttingRequest
    open_: tuple[tuple[int, ...], ...]
    cutter: Cutter
    budget: Budget
    cuts: dict[tuple[str, Way], _Cut] = field(default_factory=dict)
    tried: dict[Way, int] = field(default_factory=dict)
    saved: int = 0
    _failed: set[Way] = field(default_factory=set)
    _alike: dict[str, tuple[tuple[int, ...], ...]] = field(default_factory=dict)
    _prices: dict[str, Amount] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for material in self.request.materials:
            self._alike[material.material] = _alike(self.request, material)

    def take(self, name: str, way: Way, outcome: Outcome, seconds: float) -> None:
        """Take in a plan that was made before."""
        self.cuts[name, self._key(name, way)] = _Cut(outcome, seconds)

    def outcome(self, name: str, way: Way) -> Outcome | None:
        """Return the best plan of a material for a way, if one was made."""
        cut = self.cuts.get((name, self._key(name, way)))
        return None if cut is None else cut.outcome

    def decide(self, start: Way, until: float) -> Way:
        """Return the way that costs least of those tried until so many seconds are used.

        `start` is planned as long as the best ones are, so that `saved` compares like with like.
        """
        begun = self.budget.used
        looking = begun + LOOKING * (until - begun)
        count = len(self.request.materials)
        each = max(QUICK, (looking - begun) / MEANT / max(1, count))
        self._try(start, each)
        self._price(start)
        self._look_about(looking, each)
        self._plan_longer(start, until)
        best = min(self.tried, key=lambda way: (self.tried[way], way))
        self.saved = self.tried[start] - self.tried[best]
        return best

    def _look_about(self, until: float, each: float) -> None:
        """Plan the ways that cost least by price in turn with those next to the best so far."""
        by_price = self._by_price()
        turn = 0
        while not self._is_late(until) and self.tried:
            best = min(self.tried, key=lambda way: (self.tried[way], way))
            turn += 1
            way = next(by_price, None) if turn % 2 else self._beside(best)
            if way is None:
                way = next(by_price, None) or self._beside(best)
            if way is None:
                return
            self._try(way, each)
            if min(self.tried, key=lambda way: (self.tried[way], way)) != best:
                self._price(way)
                by_price = self._by_price()

    def _plan_longer(self, start: Way, until: float) -> None:
        """Halve the best few ways, each round planned twice as long as the one before."""
        finalists = sorted(self.tried, key=lambda way: (self.tried[way], way))[:FINALISTS]
        if start not in finalists:
            finalists.append(start)
        while len(finalists) > 1 and not self._is_late(until):
            rounds = len(finalists).bit_length() - 1
            share = (until - self.budget.used) / rounds / len(finalists)
            names = [
                name for name in self._alike if len({self._key(name, way) for way in finalists}) > 1
            ]
            for way in finalists:
                if self._is_late(until):
                    return
                self._try(way, share / max(1, len(names)), names)
            finalists.sort(key=lambda way: (self.tried[way], way))
            del finalists[max(2, (len(finalists) + 1) // 2) :]
            if start not in finalists:
                finalists.append(start)
            if rounds == 1:
                return

    def _is_late(self, until: float) -> bool:
        return self.budget.is_spent or self.budget.used >= until

    def _try(self, way: Way, seconds: float, names: list[str] | None = None) -> None:
        """Plan the materials that were not planned for so long yet; a way without plan is out."""
        total = 0
        for name, alike in self._alike.items():
            key = (name, self._key(name, way))
            known = self.cuts.get(key)
            if known is None or (
                known.outcome is not None
                and (names is None or name in names)
                and alike
                and known.outcome.cost > known.outcome.bound
                and known.seconds < seconds
            ):
                outcome = self.cutter(name, way, seconds)
                old = None if known is None else known.outcome
                if old is not None and (outcome is None or outcome.cost > old.cost):
                    outcome = old
                known = self.cuts[key] = _Cut(outcome, seconds)
            if known.outcome is None:
                self.tried.pop(way, None)
                self._failed.add(way)
                return
            total += known.outcome.cost
        self.tried[way] = total

    def _key(self, name: str, way: Way) -> Way:
        """Return the way as far as a material can tell it from others."""
        return tuple(same[option] for same, option in zip(self._alike[name], way, strict=True))

    def _price(self, way: Way) -> None:
        """Price what the options take by the weights that came with the plan of a way."""
        for material in self.request.materials:
            name = material.material
            outcome = self.outcome(name, way)
            if outcome is not None:
                self._prices[name] = _priced(self.request, material, outcome)

    def _cost(self, way: Way) -> Fraction:
        """Return what a way costs by price, at the rate at which the ways tried came out."""
        return sum((self._scaled(name, way) for name in self._alike), Fraction(0))

    def _scaled(self, name: str, way: Way) -> Fraction:
        return self._rate(name) * self._prices[name].of(way)

    def _rate(self, name: str) -> Fraction:
        """Return how a material's cost compares with its price over the ways tried."""
        price = self._prices[name]
        costs = weights = 0
        for way in self.tried:
            outcome = self.outcome(name, way)
            if outcome is not None:
                costs += outcome.cost
                weights += price.of(way)
        return Fraction(costs, max(1, weights))

    def _by_price(self) -> Iterator[Way]:
        """Yield the ways not tried yet, cheapest by price first."""
        if not self.tried:
            return
        rates = {name: self._rate(name) for name in self._alike}
        fixed = sum((rates[n] * self._prices[n].fixed for n in rates), Fraction(0))
        ranked: list[list[tuple[Fraction, int]]] = []
        for place, open_ in enumerate(self.open_):
            each = [
                (sum((rates[n] * self._prices[n].options[place][o] for n in rates), Fraction(0)), o)
                for o in open_
            ]
            ranked.append(sorted(each))
        first = tuple(0 for _ in ranked)
        heap = [(fixed + sum((each[0][0] for each in ranked), Fraction(0)), first)]
        seen = {first}
        while heap:
            cost, places = heappop(heap)
            way = tuple(each[at][1] for each, at in zip(ranked, places, strict=True))
            if self._is_new(way):
                yield way
            for place, each in enumerate(ranked):
                at = places[place] + 1
                after = (*places[:place], at, *places[place + 1 :])
                if at < len(each) and after not in seen:
                    seen.add(after)
                    heappush(heap, (cost + each[at][0] - each[at - 1][0], after))

    def _beside(self, best: Way) -> Way | None:
        """Return the way not tried that differs from a way in one choice and costs least."""
        ways = [
            (*best[:place], option, *best[place + 1 :])
            for place, open_ in enumerate(self.open_)
            for option in open_
            if option != best[place]
        ]
        return min(filter(self._is_new, ways), key=self._cost, default=None)

    def _is_new(self, way: Way) -> bool:
        return way not in self.tried and way not in self._failed


def _alike(request: CuttingRequest, material: Material) -> tuple[tuple[int, ...], ...]:
    """Return for each option of each choice the first that takes the same of a material."""
    ids = {part.id for part in material.parts}
    alike = []
    for choice in request.choices:
        own = [frozenset(option) & ids for option in choice.options]
        alike.append(tuple(own.index(each) for each in own))
    return tuple(alike)


def _priced(request: CuttingRequest, material: Material, outcome: Outcome) -> Amount:
    """Return what a plan's proof weighs of the parts of each option, all on one scale."""
    if isinstance(material, LengthMaterial):
        rows = getattr(outcome, "rows", ())
        weights = [part.length + material.kerf for part in material.parts]
        if rows:
            weights = list(lifted_lengths(material, rows[-1][0]))
        weigh = dict(zip((part.id for part in material.parts), weights, strict=True))
        return amount_of(
            material.parts, request.choices, lambda part: part.quantity * weigh[part.id]
        )
    kerf = material.kerf
    return amount_of(
        material.parts,
        request.choices,
        lambda part: part.quantity * (part.width + kerf) * (part.height + kerf),
    )
