"""Which option of each choice to cut: ways to choose, held against each other by plans.

What an option takes of every material is priced by the weights that the solvers' proofs give its
parts; sums of prices are separable, so the ways that cost least by price follow one another without
listing them all. They are planned in that order, and beside them the ways next to the best one so
far; the few that come out cheapest are planned for longer. A material that two ways cut alike is
planned once for both.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from heapq import heappop, heappush
from math import sqrt
from typing import TYPE_CHECKING, TypeAlias

from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.planning.better import better_outcome
from optimiser.planning.options import alike_options, priced_options
from optimiser.solvers.sheets.problem import SheetsOutcome

if TYPE_CHECKING:
    from optimiser.planning.crew import Crew
    from optimiser.solvers.lengths.problem import LengthsOutcome
    from optimiser.solvers.protocol import Budget
    from optimiser.verify.weighing import Amount

    Outcome: TypeAlias = LengthsOutcome | SheetsOutcome

Way: TypeAlias = tuple[int, ...]
Material: TypeAlias = LengthMaterial | SheetMaterial
# One material, a way, seconds, the plan of boards to go on from; planned, None where it cannot be.
Task: TypeAlias = tuple[str, Way, float, SheetsOutcome | None]
Cutters: TypeAlias = "Crew[Task, Outcome | None]"

# Of the time: looking about, then planning the best few for longer, the rest for the last two.
LOOKING = 0.2
CHOOSING = 0.5
# Of the time, for one material of one way that is planned for longer.
RACING = 0.1
# Lengths settle so much sooner than boards.
OF_LENGTHS = 0.4
# How much longer a plan must be given than before.
LONGER = 1.5
# What could save less than one part in so many of a way is not planned for longer.
RELEVANT = 500
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
    crew: Cutters
    budget: Budget
    # Told the name, the best outcome so far of the way that costs least.
    settle: Callable[[str, Outcome], None]
    cuts: dict[tuple[str, Way], _Cut] = field(default_factory=dict)
    tried: dict[Way, int] = field(default_factory=dict)
    saved: int = 0
    _failed: set[Way] = field(default_factory=set)
    _alike: dict[str, tuple[tuple[int, ...], ...]] = field(default_factory=dict)
    _prices: dict[str, Amount] = field(default_factory=dict)
    # By material: what planning for longer saved, and what it could have saved at most.
    _gains: dict[str, tuple[int, int]] = field(default_factory=dict)
    _quick: float = QUICK
    _shares: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for material in self.request.materials:
            self._alike[material.material] = alike_options(self.request, material)
            is_length = isinstance(material, LengthMaterial)
            self._shares[material.material] = OF_LENGTHS if is_length else 1.0

    def take(self, name: str, way: Way, outcome: Outcome | None, seconds: float) -> None:
        """Take in a plan; of two the better one stands, with the better proof of both."""
        key = self._cut(name, way)
        known = self.cuts.get(key)
        if known is not None and known.outcome is not None:
            seconds = max(seconds, known.seconds)
            if outcome is None:
                outcome = known.outcome
            else:
                fewer = self.request.fewer_layouts
                outcome = better_outcome(known.outcome, outcome, fewer_layouts=fewer)
        self.cuts[key] = _Cut(outcome, seconds)

    def outcome(self, name: str, way: Way) -> Outcome | None:
        """Return the best plan of a material for a way, if one was made."""
        cut = self.cuts.get(self._cut(name, way))
        return None if cut is None else cut.outcome

    def decide(self, start: Way, until: float) -> Way:
        """Return the way that costs least of those tried until so many seconds are used.

        Every plan made counts for all ways that cut it. `start` is planned as long as the best way
        is, so that the answer is not dearer than `start` for want of time, and `saved` compares
        like with like.
        """
        begun = self.budget.used
        looking = begun + LOOKING * (until - begun)
        choosing = begun + CHOOSING * (until - begun)
        self._add_up(start)
        if self.request.choices:
            count = len(self.request.materials)
            self._quick = max(QUICK, (looking - begun) / MEANT / max(1, count))
            self._try([start], self._quick)
            self._price(start)
            self._look_about(looking, self._quick)
            self._race(start, choosing, max(QUICK, RACING * (until - begun)))
        self._finish(start, until)
        best = self._best()
        self.saved = self.tried[start] - self.tried[best]
        return best

    def _best(self) -> Way:
        return min(self.tried, key=lambda way: (self.tried[way], way))

    def _look_about(self, until: float, each: float) -> None:
        """Plan the ways that cost least by price in turn with those next to the best so far."""
        by_price = self._by_price()
        turn = 0
        while not self._is_late(until):
            best = self._best()
            ways: list[Way] = []
            for _ in range(self.crew.workers):
                turn += 1
                way = next(by_price, None) if turn % 2 else self._beside(best, ways)
                if way is None:
                    way = next(by_price, None) or self._beside(best, ways)
                if way is not None and way not in ways:
                    ways.append(way)
            if not ways:
                return
            self._try(ways, each)
            if self._best() != best:
                self._price(self._best())
                by_price = self._by_price()

    def _race(self, start: Way, until: float, each: float) -> None:
        """Plan ways for longer, the most promising next: cost less what more time brought so far.

        A quick plan may be a whole sheet dearer than what a few tenths of a second find.
        """
        raced: set[Way] = set()
        ways = [start]
        while ways and not self._is_late(until):
            before = {
                cut: self._outcome(*cut)
                for cut in self._open_cuts(ways).values()
                if self._gap(*cut) * RELEVANT >= self.tried[ways[0]]
            }
            self._try(ways, each, until, {self._cut(*cut) for cut in before})
            for (name, way), old in before.items():
                gained, gaps = self._gains.get(name, (0, 0))
                gained += old.cost - self._outcome(name, way).cost
                self._gains[name] = (gained, gaps + old.cost - old.bound)
            raced.update(ways)
            for way in list(self.tried):
                self._add_up(way)
            waiting = sorted((way for way in self.tried if way not in raced), key=self._hoped)
            ways = waiting[: self.crew.workers]

    def _hoped(self, way: Way) -> tuple[float, Way]:
        """Return what a way may cost once it is planned for longer."""
        total = float(self.tried[way])
        for name in self._alike:
            if self.cuts[self._cut(name, way)].seconds <= self._quick:
                gained, gaps = self._gains.get(name, (0, 0))
                total -= self._gap(name, way) * gained / max(1, gaps)
        return total, way

    def _finish(self, start: Way, until: float) -> None:
        """Give the time left to what is not proven of the best way and of `start`.

        More to those with more to gain; the root of the gap is what counts, as some gaps are only
        the bound's.
        """
        best = self._best()
        for name in self._alike:
            known = self.outcome(name, best)
            assert known is not None
            self.settle(name, known)
        ways = [best]
        least = sum(self._outcome(name, start).bound for name in self._alike)
        if start != best and least < self.tried[best]:
            ways.append(start)
        waiting = sorted(self._open_cuts(ways).values(), key=lambda cut: self._gap(*cut))
        for task, outcome in self.crew.run(self._shared_out(waiting, until)):
            name, way, seconds, _ = task
            self.take(name, way, outcome, seconds)
            if self._key(name, way) == self._key(name, best):
                self.settle(name, self._outcome(name, best))
        for way in list(self.tried):
            self._add_up(way)

    def _shared_out(self, waiting: list[tuple[str, Way]], until: float) -> Iterator[Task]:
        """Hand out what is waiting, the least gap first, with its share of the time left.

        Lengths begin anew, and as long as before brings the same again: who would not get longer
        than that leaves the time to those with more to gain. Boards go on from what there is.
        """
        waiting = list(waiting)
        while waiting:
            left = 0.0 if self.budget.cancelled() else until - self.budget.used
            if left <= QUICK:
                return
            roots = [sqrt(max(1, self._gap(*cut))) for cut in waiting]
            share = min(left, left * self.crew.workers * roots[0] / sum(roots))
            cut = waiting.pop(0)
            boards = self._boards(*cut)
            before = 0.0 if boards is not None else self.cuts[self._cut(*cut)].seconds
            if share > max(QUICK, (LONGER if waiting else 1.0) * before):
                yield (*cut, share, boards)

    def _is_late(self, until: float) -> bool:
        return self.budget.is_spent or self.budget.used >= until

    def _open_cuts(self, ways: Iterable[Way]) -> dict[tuple[str, Way], tuple[str, Way]]:
        """Return what of these ways more time might improve, each once, with a way that cuts it."""
        cuts: dict[tuple[str, Way], tuple[str, Way]] = {}
        for way in ways:
            for name in self._alike:
                outcome = self.outcome(name, way)
                if outcome is not None and outcome.cost > outcome.bound and not _is_done(outcome):
                    cuts.setdefault(self._cut(name, way), (name, way))
        return cuts

    def _try(
        self,
        ways: list[Way],
        seconds: float,
        until: float | None = None,
        again: set[tuple[str, Way]] | None = None,
    ) -> None:
        """Plan what was never planned, and until so much time is used what is worth it `again`."""
        tasks: dict[tuple[str, Way], Task] = {}
        for way in ways:
            for name in self._alike:
                cut = self._cut(name, way)
                known = self.cuts.get(cut)
                own = max(QUICK, seconds * self._shares[name])
                if known is None or (again and cut in again and known.seconds < own):
                    tasks.setdefault(cut, (name, way, own, self._boards(name, way)))
        for (name, way, given, _), outcome in self.crew.run(self._in_time(tasks.values(), until)):
            self.take(name, way, outcome, given)
        for way in ways:
            self._add_up(way)

    def _in_time(self, tasks: Iterable[Task], until: float | None) -> Iterator[Task]:
        for task in tasks:
            known = self._cut(task[0], task[1]) in self.cuts
            if not (known and until is not None and self._is_late(until)):
                yield task

    def _add_up(self, way: Way) -> None:
        """Work out what a way costs by the best plans there are; one without plan is out."""
        outcomes = [self.outcome(name, way) for name in self._alike]
        if any(outcome is None for outcome in outcomes):
            self.tried.pop(way, None)
            self._failed.add(way)
            return
        self.tried[way] = sum(outcome.cost for outcome in outcomes if outcome is not None)

    def _outcome(self, name: str, way: Way) -> Outcome:
        outcome = self.outcome(name, way)
        assert outcome is not None
        return outcome

    def _boards(self, name: str, way: Way) -> SheetsOutcome | None:
        """Return the best plan of a board for a way so far; lengths are planned anew."""
        outcome = self.outcome(name, way)
        return outcome if isinstance(outcome, SheetsOutcome) else None

    def _gap(self, name: str, way: Way) -> int:
        outcome = self._outcome(name, way)
        return outcome.cost - outcome.bound

    def _cut(self, name: str, way: Way) -> tuple[str, Way]:
        return name, self._key(name, way)

    def _key(self, name: str, way: Way) -> Way:
        """Return the way as far as a material can tell it from others."""
        return tuple(same[option] for same, option in zip(self._alike[name], way, strict=True))

    def _price(self, way: Way) -> None:
        """Price what the options take by the weights that came with the plan of a way."""
        for material in self.request.materials:
            name = material.material
            outcome = self.outcome(name, way)
            if outcome is not None:
                self._prices[name] = priced_options(self.request, material, outcome)

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

    def _beside(self, best: Way, beside: list[Way]) -> Way | None:
        """Return the way not tried that differs from a way in one choice and costs least."""
        ways = [
            (*best[:place], option, *best[place + 1 :])
            for place, open_ in enumerate(self.open_)
            for option in open_
            if option != best[place]
        ]
        new = (way for way in ways if self._is_new(way) and way not in beside)
        return min(new, key=self._cost, default=None)

    def _is_new(self, way: Way) -> bool:
        return way not in self.tried and way not in self._failed


def _is_done(outcome: Outcome) -> bool:
    """Return whether every layout that could make it cheaper was looked at."""
    return bool(getattr(outcome, "exhausted", False))
