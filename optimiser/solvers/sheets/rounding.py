"""From fractions of layouts to whole ones: fix what is sure, and search the small rest.

The linear programme says how often each layout should be cut, in fractions. Whole numbers of them
are fixed, the rest of the demand is priced anew, and the last few sheets are left to ruin and
recreate, which is at its best on few parts with a clear target.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from itertools import count
from math import floor
from random import Random

from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.columns import Column, block_of
from optimiser.solvers.sheets.engine import Engine
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.pool import Layout, Plan, net_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind, kinds_of, new_table
from optimiser.solvers.sheets.tree import Block, without

# The rest that is left to ruin and recreate, in sheets by the programme's value: tried in turn.
_RESTS = (4, 8, 2, 6, 12, 3)
FIRST_PLANS = len(_RESTS)
# Slices of ruin and recreate spent on one rest.
_SLICES = 12
# Rounds of pricing after each layout that is fixed.
_ROUNDS = 2


@dataclass(slots=True)
class Rounder:
    """Makes whole plans from what a generator found."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    generator: Generator
    budget: Budget
    seed: int
    _luck: Random = field(init=False)
    _blocks: dict[Column, Block] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._luck = Random(self.seed)

    def plans(self, target: int, best: Callable[[], int | None]) -> Iterator[Plan]:
        """Yield complete plans without end; each search stops once its plan costs `target`.

        A plan may be empty: none was found in that go. `best` says what the best plan costs.
        """
        for number in count():
            rest = _RESTS[number % len(_RESTS)]
            limits = self._limits(number, best())
            fixed, left = self._dive(rest, limits, shaken=number >= 2)
            yield self._completed(fixed, left, limits, target, self.seed + number) or ()

    def _limits(self, number: int, best: int | None) -> list[int | None]:
        """Say how many sheets of each size may be used: every other time just enough for a gain."""
        limits = [sheet.available for sheet in self.problem.sheets]
        if number % 2 and len(limits) > 1 and best is not None:
            counts = self.generator.open_counts(best)
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
        while any(left) and not self.budget.is_spent:
            master.restrict(left, limits)
            relaxed = master.solve()
            if relaxed is None or relaxed.value <= rest * unit:
                break
            chosen = self._chosen(left, shaken=shaken)
            if not chosen:
                break
            for column, times in chosen:
                fixed += [column] * times
                for kind, made in column.counts:
                    left[kind] = max(0, left[kind] - made * times)
                limit = limits[column.sheet]
                if limit is not None:
                    limits[column.sheet] = limit - times
            self.generator.price_rest(left, limits, _ROUNDS)
        master.restrict([kind.demand for kind in self.kinds],
                        [sheet.available for sheet in self.problem.sheets])  # fmt: skip
        return fixed, left

    def _chosen(self, left: list[int], *, shaken: bool) -> list[tuple[Column, int]]:
        """Return the layouts to fix next: all that are used once at least, else the best one."""
        used = self.generator.master.primal()
        whole = [
            (column, floor(value + 1e-6))
            for column, value in used
            if value >= 1 - 1e-6 and self._spare(column, left) >= floor(value + 1e-6)
        ]
        if whole:
            return whole
        best: tuple[float, Column] | None = None
        for column, value in used:
            area = sum(
                min(made, left[kind]) * self.kinds[kind].width * self.kinds[kind].height
                for kind, made in column.counts
            )
            sheet = self.problem.sheets[column.sheet]
            fill = area / (sheet.width * sheet.height)
            worth = value * fill * fill
            if shaken:
                worth *= 0.6 + 0.8 * self._luck.random()
            if best is None or worth > best[0]:
                best = (worth, column)
        return [] if best is None or best[0] <= 0 else [(best[1], 1)]

    def _spare(self, column: Column, left: list[int]) -> int:
        """Return how often a layout can be cut with none of its parts too many."""
        return min(left[kind] // made for kind, made in column.counts)

    def _completed(
        self,
        fixed: list[Column],
        left: list[int],
        limits: list[int | None],
        target: int,
        seed: int,
    ) -> Plan | None:
        done = self._cut_to_demand(fixed)
        if not any(left):
            return done
        sheets = tuple(
            replace(sheet, available=limit)
            for sheet, limit in zip(self.problem.sheets, limits, strict=True)
        )
        kerf = self.problem.kerf
        rest = replace(
            self.problem,
            widths=tuple(kind.width - kerf for kind in self.kinds),
            heights=tuple(kind.height - kerf for kind in self.kinds),
            demands=tuple(left),
            turns=tuple(kind.turns for kind in self.kinds),
            sheets=sheets,
        )
        goal = target - net_of(self.problem, done)
        found = searched(rest, goal, _SLICES, seed, self.budget)
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
    return tuple((sheet, _renamed(block, names)) for sheet, block in engine.plan())


def _renamed(block: Block, names: list[int]) -> Block:
    if block.part >= 0:
        return block._replace(part=names[block.part])
    return block._replace(pieces=tuple(_renamed(piece, names) for piece in block.pieces))
