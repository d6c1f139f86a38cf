"""Part of a plan made anew: a few dozen sheets at a time, by column generation and rounding.

Beyond some hundred different parts one linear programme over all of them takes longer than it
helps. A few dozen sheets of the plan, the worst filled ones sooner than others, are an order of
their own, small enough for the full programme; what it saves is saved in the whole plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from itertools import count
from random import Random

from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.pool import Layout, Plan, parts_of, worth_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.rounding import Rounder
from optimiser.solvers.sheets.table import Kind, kinds_of
from optimiser.solvers.sheets.tree import Block, renamed

# Sheets are taken until they hold so many parts.
_PARTS = 150
# Plans rounded for one group.
_GOES = 2


@dataclass(slots=True)
class Regrouper:
    """Makes a plan better group by group."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    budget: Budget
    seed: int
    _luck: Random = field(init=False)

    def __post_init__(self) -> None:
        self._luck = Random(self.seed)

    def plans(self, best: Callable[[], Plan]) -> Iterator[Plan]:
        """Yield better plans without end; an empty one where a go gained nothing."""
        for number in count():
            plan = best()
            chosen = self._chosen(plan)
            group = [plan[place] for place in sorted(chosen)]
            others = [layout for place, layout in enumerate(plan) if place not in chosen]
            found = self._anew(tuple(group), others, self.seed + number)
            yield tuple(others) + found if found else ()

    def _chosen(self, plan: Plan) -> set[int]:
        """Draw sheets, those with much left over sooner, until there are parts enough."""
        ranked = sorted(
            range(len(plan)),
            key=lambda place: -self._luck.random() * (0.2 + self._waste(plan[place])),
        )
        chosen: set[int] = set()
        parts = 0
        for place in ranked:
            parts += parts_of(plan[place][1]).total()
            if chosen and parts > _PARTS:
                break
            chosen.add(place)
        return chosen

    @staticmethod
    def _waste(layout: Layout) -> float:
        block = layout[1]
        left = sum(piece.width * piece.height for piece in block.walk() if piece.is_left)
        return left / (block.width * block.height)

    def _anew(self, group: Plan, others: list[Layout], seed: int) -> Plan | None:
        """Return another plan for the parts of a group if one is found that is worth more."""
        demand: Counter[int] = Counter()
        for _, block in group:
            demand.update(parts_of(block))
        names = sorted(demand)
        taken = Counter(sheet for sheet, _ in others)
        kerf = self.problem.kerf
        problem = replace(
            self.problem,
            widths=tuple(self.kinds[kind].width - kerf for kind in names),
            heights=tuple(self.kinds[kind].height - kerf for kind in names),
            demands=tuple(demand[kind] for kind in names),
            turns=tuple(self.kinds[kind].turns for kind in names),
            sheets=tuple(
                sheet
                if sheet.available is None
                else replace(sheet, available=sheet.available - taken[place])
                for place, sheet in enumerate(self.problem.sheets)
            ),
        )
        now = worth_of(self.problem, group)
        kinds = kinds_of(problem)
        generator = Generator(problem, kinds, prove(problem, scales=1), self.budget)
        generator.start()
        rounder = Rounder(problem, kinds, generator, self.budget, seed)
        goes = rounder.plans(0, lambda: now[0])
        for plan in (next(goes) for _ in range(_GOES)):
            if plan and worth_of(problem, plan) < now:
                return tuple((sheet, self._named(block, kinds, names)) for sheet, block in plan)
            if self.budget.is_spent:
                break
        return None

    @staticmethod
    def _named(block: Block, kinds: tuple[Kind, ...], names: list[int]) -> Block:
        """Call the parts of a group by the kinds of the whole problem."""
        return renamed(block, [names[kind.parts[0]] for kind in kinds])
