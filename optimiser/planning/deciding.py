"""Which option of each choice to cut: ways to choose, held against each other by plans.

The first options are planned, and then the ways that may cost least by all that the plans before
have proven (leads.py), until there is none or so much of the time is used. A material that two ways
cut alike is planned once for both, and every plan made counts for all ways that cut it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from math import inf, sqrt
from typing import TYPE_CHECKING, TypeAlias

from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.planning.better import better_outcome
from optimiser.planning.leads import Leads
from optimiser.planning.options import alike_options
from optimiser.planning.proofs import certificate_of, reasons_of
from optimiser.solvers.sheets.problem import SheetsOutcome
from optimiser.verify.reasons import Reasons

if TYPE_CHECKING:
    from optimiser.planning.crew import Crew
    from optimiser.planning.proofs import Outcome, Reason
    from optimiser.solvers.protocol import Budget

Way: TypeAlias = tuple[int, ...]
Material: TypeAlias = LengthMaterial | SheetMaterial
# One material, a way, seconds, the plan of boards to go on from; planned, None where it cannot be.
Task: TypeAlias = tuple[str, Way, float, SheetsOutcome | None]
Cutters: TypeAlias = "Crew[Task, Outcome | None]"

# Of the time: planning ways, and those that came out best for longer where no more lead on.
CHOOSING = 0.7
# Of the time, for one material of one way: long enough for a proof that says something.
EACH = 0.08
# Ways that are planned at once for each process, where there are several.
LEADS = 2
# Lengths settle so much sooner than boards.
OF_LENGTHS = 0.4
# Who has less than this share of what may be gained gets less of the time.
WORTH = 0.25
# How much longer a plan must be given than before.
LONGER = 1.5
# What could save less than one part in so many of a way is not planned for longer.
RELEVANT = 500
# The first options are planned to the end where such a share of their gap would make them cheapest.
HOPE = 0.5
# Seconds that planning a material takes at least.
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
    # By material the proofs of the plans that were learnt from, in order.
    proofs: dict[str, list[tuple[Reason, ...]]] = field(default_factory=dict)
    _materials: dict[str, Material] = field(default_factory=dict)
    _alike: dict[str, tuple[tuple[int, ...], ...]] = field(default_factory=dict)
    # By material: what planning for longer saved, and what it could have saved at most.
    _gains: dict[str, tuple[int, int]] = field(default_factory=dict)
    _shares: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for material in self.request.materials:
            name = material.material
            self._materials[name] = material
            self.proofs[name] = []
            self._alike[name] = alike_options(self.request, material)
            self._shares[name] = OF_LENGTHS if isinstance(material, LengthMaterial) else 1.0

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

        `start` is planned as long as other ways are, and as long as the best one where it is near,
        so that the answer is not dearer for want of time. `saved` is what the best way was cheaper
        when both had been planned as long.
        """
        begun = self.budget.used
        choosing = begun + CHOOSING * (until - begun)
        self._add_up(start)
        if self.request.choices:
            each = max(QUICK, EACH * (until - begun))
            self._share_by_worth(start)
            self._try([start], each, choosing, {self._cut(name, start) for name in self._alike})
            self._follow(start, choosing, each)
            self._race(start, choosing, each)
        best = self._best()
        self.saved = self.tried[start] - self.tried[best]
        gap = sum(self._gap(name, start) for name in self._alike)
        is_near = self.saved <= HOPE * gap
        self._finish([best, start] if is_near and start != best else [best], until)
        if is_near:
            best = self._best()
            self.saved = self.tried[start] - self.tried[best]
        return best

    def _best(self) -> Way:
        return min(self.tried, key=lambda way: (self.tried[way], way))

    def _share_by_worth(self, start: Way) -> None:
        """Give little time to what can save little."""
        gaps = {name: self._gap(name, start) for name in self._alike}
        for name, gap in gaps.items():
            self._shares[name] *= min(1.0, gap / (WORTH * max(1, sum(gaps.values()))))

    def _follow(self, start: Way, until: float, each: float) -> None:
        """Plan the ways that may cost least by what the plans before have proven."""
        leads = Leads(self.request, self.open_)
        ways = [start]
        lasted = 0.0
        # One that would be done long after `until` is not begun.
        while not self._is_late(until - lasted / 2):
            for name in self._alike:
                for way in ways:
                    self._learn(leads, name, way)
            best = self._best()
            ways, least = leads.next(best, self._at_once())
            if not ways or least >= self.tried[best]:
                return
            begun = self.budget.used
            self._try(ways, each)
            lasted = self.budget.used - begun

    def _at_once(self) -> int:
        """Return how many leads are planned at once: where several work, none waits for another."""
        return self.crew.workers if self.crew.workers == 1 else LEADS * self.crew.workers

    def _learn(self, leads: Leads, name: str, way: Way) -> None:
        """Let what is proven of a plan say which ways are worth planning."""
        outcome = self.outcome(name, way)
        if outcome is None:
            leads.learn(name, way, inf, Reasons())
            return
        material = self._materials[name]
        certificate = certificate_of(self.request, material, outcome)
        if certificate not in self.proofs[name]:
            self.proofs[name].append(certificate)
        leads.learn(name, way, outcome.cost, reasons_of(self.request, material, certificate))

    def _race(self, start: Way, until: float, each: float) -> None:
        """Plan ways for longer, the most promising next: cost less what more time brought so far.

        A quick plan may be a whole sheet dearer than what a few tenths of a second find.
        """
        first = each
        each *= LONGER
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
            waiting = sorted(
                (way for way in self.tried if way not in raced),
                key=lambda way: self._hoped(way, first),
            )
            ways = waiting[: self.crew.workers]

    def _hoped(self, way: Way, first: float) -> tuple[float, Way]:
        """Return what a way, planned for `first` seconds so far, may cost once planned longer."""
        total = float(self.tried[way])
        for name in self._alike:
            if self.cuts[self._cut(name, way)].seconds <= first:
                gained, gaps = self._gains.get(name, (0, 0))
                total -= self._gap(name, way) * gained / max(1, gaps)
        return total, way

    def _finish(self, ways: list[Way], until: float) -> None:
        """Give the time left to what is not proven of these ways, the best first.

        More to those with more to gain; the root of the gap is what counts, as some gaps are only
        the bound's.
        """
        best = ways[0]
        for name in self._alike:
            self.settle(name, self._outcome(name, best))
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


def _is_done(outcome: Outcome) -> bool:
    """Return whether every layout that could make it cheaper was looked at."""
    return bool(getattr(outcome, "exhausted", False))
