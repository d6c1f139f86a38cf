"""From fractions of layouts to whole ones: fix what is sure, and search the small rest.

The linear programme says how often each layout should be cut, in fractions. Whole numbers of them
are fixed, the rest of the demand is priced anew, and the last few sheets are left to ruin and
recreate, which is at its best on few parts with a clear target.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from itertools import count, product
from math import floor, prod
from random import Random

from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.columns import Column, block_of
from optimiser.solvers.sheets.engine import Engine
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.pool import Layout, Plan, net_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.remaining import Places, price_rest
from optimiser.solvers.sheets.table import Kind, kinds_of, new_table, sizes_repeat
from optimiser.solvers.sheets.tree import Block, renamed, without

# The rest that is left to ruin and recreate, in sheets by the programme's value: tried in turn.
# Where sizes repeat the programme is near the truth until the last sheets; where nearly every part
# has its own size, more is left open.
REPEATED_RESTS = (4, 8, 2, 6, 12, 3)
VARIED_RESTS = (12, 8, 20, 16)
# Slices of ruin and recreate spent on one rest: so many, or one for each sheet if that is more.
_SLICES = 12
# Rounds of pricing before the first layouts are fixed, and after each time some were.
_FIRST_ROUNDS = 6
_ROUNDS = 2
# Layouts are fixed in about so many steps, at least one at a time.
_STEPS = 30
# Counts of sheets that are listed one by one at most.
_MOST_COUNTS = 20_000


@dataclass(slots=True)
class Rounder:
    """Makes whole plans from what a generator found."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    generator: Generator
    budget: Budget
    seed: int
    slices: int = 0  # spent on one rest; 0: by the rest
    _luck: Random = field(init=False)
    _rests: tuple[int, ...] = field(init=False)
    _places: Places = field(init=False)
    _blocks: dict[Column, Block] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._luck = Random(self.seed)
        self._places = Places(self.kinds, staged=self.problem.max_stages is not None)
        self._rests = REPEATED_RESTS if sizes_repeat(self.kinds) else VARIED_RESTS

    def plans(self, target: int, best: Callable[[], int | None]) -> Iterator[Plan]:
        """Yield complete plans without end; each search stops once its plan costs `target`.

        A plan may be empty: none was found in that go. `best` says what the best plan costs.
        """
        for number in count():
            rest = self._rests[number % len(self._rests)]
            limits = self._limits(number, best())
            fixed, left = self._dive(rest, limits, shaken=number >= 2)
            yield self._completed(fixed, left, limits, target, self.seed + number, rest) or ()

    def _limits(self, number: int, best: int | None) -> list[int | None]:
        """Say how many sheets of each size may be used: every other time just enough for a gain."""
        limits = [sheet.available for sheet in self.problem.sheets]
        if number % 2 and len(limits) > 1 and best is not None:
            counts = open_counts(self.generator, best)
            if counts:
                # The dearest still open is the likeliest to be enough.
                return list(counts[number // 2 % min(3, len(counts))])
        return limits

    def _dive(
        self, rest: int, limits: list[int | None], *, shaken: bool
    ) -> tuple[list[Column], list[int]]:
        """Fix layouts until the programme over what is left is worth no more than `rest` sheets.

        Takes the sheets used off `limits`; returns the layouts and the demand that is left.
        """
        master = self.generator.master
        left = [kind.demand for kind in self.kinds]
        fixed: list[Column] = []
        # Cheapest useful sheet as a measure of how much is left.
        unit = min((cost for cost in self.generator.costs if cost > 0), default=1.0)
        price_rest(self.generator, self._places, left, limits, _FIRST_ROUNDS)
        while any(left) and not self.budget.is_spent:
            master.restrict(left, limits)
            relaxed = master.solve()
            if relaxed is None or relaxed.value <= rest * unit:
                break
            most = max(1, int(relaxed.value / unit / _STEPS))
            chosen = self._chosen(left, limits, most, shaken=shaken)
            if not chosen:
                break
            for column in chosen:
                fixed.append(column)
                for kind, made in column.counts:
                    left[kind] = max(0, left[kind] - made)
                limit = limits[column.sheet]
                if limit is not None:
                    limits[column.sheet] = limit - 1
            price_rest(self.generator, self._places, left, limits, _ROUNDS)
        master.restrict([kind.demand for kind in self.kinds],
                        [sheet.available for sheet in self.problem.sheets])  # fmt: skip
        return fixed, left

    def _chosen(
        self, left: list[int], limits: list[int | None], most: int, *, shaken: bool
    ) -> list[Column]:
        """Return the layouts to fix next: whole ones first, else up to `most` of the best.

        None but the very first may make more of a part than is left.
        """
        used = self.generator.master.primal()
        spare = list(left)
        free = [sum(left) if limit is None else limit for limit in limits]
        whole: list[Column] = []
        for column, value in used:
            for _ in range(floor(value + 1e-6)):
                if self._takes(column, spare, free):
                    whole.append(column)
        if whole:
            return whole
        ranked = sorted(
            ((self._worth(column, value, left, shaken=shaken), place)
             for place, (column, value) in enumerate(used)),
            reverse=True,
        )  # fmt: skip
        chosen: list[Column] = []
        for worth, place in ranked:
            if worth <= 0 or len(chosen) == most:
                break
            column = used[place][0]
            if self._takes(column, spare, free):
                chosen.append(column)
            elif not chosen and free[column.sheet]:
                return [column]
        return chosen

    def _worth(self, column: Column, value: float, left: list[int], *, shaken: bool) -> float:
        """Return how sure a layout is: much used by the programme, and full."""
        area = sum(
            min(made, left[kind]) * self.kinds[kind].width * self.kinds[kind].height
            for kind, made in column.counts
        )
        sheet = self.problem.sheets[column.sheet]
        filled = area / (sheet.width * sheet.height)
        worth = value * filled * filled
        return worth * (0.6 + 0.8 * self._luck.random()) if shaken else worth

    @staticmethod
    def _takes(column: Column, spare: list[int], free: list[int]) -> bool:
        """Take a layout's parts and sheet off what there is, if there are enough of each."""
        if not free[column.sheet] or any(made > spare[kind] for kind, made in column.counts):
            return False
        free[column.sheet] -= 1
        for kind, made in column.counts:
            spare[kind] -= made
        return True

    def _completed(
        self,
        fixed: list[Column],
        left: list[int],
        limits: list[int | None],
        target: int,
        seed: int,
        rest: int,
    ) -> Plan | None:
        done = self._cut_to_demand(fixed)
        if not any(left):
            return done
        sheets = tuple(
            replace(sheet, available=limit)
            for sheet, limit in zip(self.problem.sheets, limits, strict=True)
        )
        kerf = self.problem.kerf
        open_ = replace(
            self.problem,
            widths=tuple(kind.width - kerf for kind in self.kinds),
            heights=tuple(kind.height - kerf for kind in self.kinds),
            demands=tuple(left),
            turns=tuple(kind.turns for kind in self.kinds),
            sheets=sheets,
        )
        goal = target - net_of(self.problem, done)
        found = searched(open_, goal, self.slices or max(_SLICES, rest), seed, self.budget)
        return None if found is None else done + found

    def _cut_to_demand(self, fixed: list[Column]) -> Plan:
        made: Counter[int] = Counter()
        for column in fixed:
            made.update(dict(column.counts))
        surplus = {kind: made[kind] - self.kinds[kind].demand for kind in made}
        layouts: list[Layout] = []
        for column in fixed:
            if column not in self._blocks:
                self._blocks[column] = block_of(self.problem, self.kinds, column)
            block = self._blocks[column]
            if any(surplus[kind] > 0 for kind, _ in column.counts):
                block = without(block, surplus)
            layouts.append((column.sheet, block))
        return tuple(layout for layout in layouts if not layout[1].is_left)


def open_counts(generator: Generator, below: int) -> list[tuple[int, ...]]:
    """Return the counts of sheets that cost less than `below` in all and that nothing refutes.

    Dearest first; empty where there are too many to list.
    """
    spare = below - 1 - generator.constant
    tops = [
        carrier.most if carrier.cost <= 0 else min(carrier.most, int(spare / carrier.cost))
        for carrier in generator.carriers
    ]
    if spare < 0 or prod(top + 1 for top in tops) > _MOST_COUNTS:
        return []
    found = []
    for counts in product(*(range(top + 1) for top in tops)):
        cost = sum(n * c.cost for n, c in zip(counts, generator.carriers, strict=True))
        if cost <= spare and all(
            sum(n * v for n, v in zip(counts, load.carries, strict=True)) >= load.demand
            for load in generator.known.values()
        ):
            found.append((cost, counts))
    return [counts for _, counts in sorted(found, reverse=True)]


def searched(
    problem: SheetsProblem, goal: int, slices: int, seed: int, budget: Budget
) -> Plan | None:
    """Return the best plan that ruin and recreate finds in so many slices; None if it finds none.

    Its parts are named by their place in the problem.
    """
    kinds = kinds_of(problem)
    engine = Engine(new_table(problem, kinds, seed))
    engine.floor = goal
    for number in range(engine.constructions()):
        engine.construct(number)
        if engine.unplaced == 0 and (engine.net is None or engine.net_cost < engine.net):
            engine.keep(engine.net_cost)
        if budget.is_spent:
            break
    engine.restore()
    for _ in range(slices):
        if (engine.net is not None and engine.net <= goal) or budget.is_spent:
            break
        if engine.step() == c.FOUND:
            engine.keep(engine.net_cost)
    if engine.net is None:
        return None
    engine.restore()
    names = [kind.parts[0] for kind in kinds]
    return tuple((sheet, renamed(block, names)) for sheet, block in engine.plan())
