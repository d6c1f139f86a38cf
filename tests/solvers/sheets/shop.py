"""Problems in a line, budgets that count, and a saw that checks every cut it is told to make."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import count

from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.problem import (
    Cut,
    Node,
    Sheet,
    SheetPattern,
    SheetsOutcome,
    SheetsProblem,
    Way,
)


def a_problem(
    parts: list[tuple[int, int, int]],
    sheets: Sequence[tuple[int, int, int] | tuple[int, int, int, int]],
    *,
    turn: bool = False,
    kerf: int = 0,
    stages: int | None = None,
    keep: tuple[int, int] = (1, 1),
    credit: Fraction = Fraction(0),
    first_cut: Way | None = None,
) -> SheetsProblem:
    """Parts as (width, height, demand), sheets as (width, height, cost[, available])."""
    return SheetsProblem(
        widths=tuple(width for width, _, _ in parts),
        heights=tuple(height for _, height, _ in parts),
        demands=tuple(demand for _, _, demand in parts),
        turns=(turn,) * len(parts),
        kerf=kerf,
        sheets=tuple(
            Sheet(
                width=sheet[0],
                height=sheet[1],
                cost=sheet[2],
                available=sheet[3] if len(sheet) > 3 else None,
            )
            for sheet in sheets
        ),
        max_stages=stages,
        keep=keep,
        credit=credit,
        first_cut=first_cut,
    )


def so_much_work(readings: int) -> Budget:
    """Budget by work: each reading of the clock, about two a slice, takes a second."""
    return Budget(float(readings), count().__next__, 0.0)


@dataclass(slots=True)
class Saw:
    """Cuts one sheet by its tree; what comes off is counted. Wrong orders stop it."""

    problem: SheetsProblem
    parts: Counter[int]
    credit: int = 0
    runs: int = 0
    area: int = 0

    def cut(
        self, node: Node, width: int, height: int, *, runs: int = 0, way: bool | None = None
    ) -> None:
        assert width > 0
        assert height > 0
        if isinstance(node, Cut):
            size = width if node.rip else height
            beyond = size - node.at - self.problem.kerf
            assert 0 < node.at < size
            assert (node.far is not None) == (beyond > 0)
            runs += node.rip != way
            near = (node.at, height) if node.rip else (width, node.at)
            self.cut(node.near, *near, runs=runs, way=node.rip)
            if node.far is not None:
                far = (beyond, height) if node.rip else (width, beyond)
                self.cut(node.far, *far, runs=runs, way=node.rip)
            return
        self.runs = max(self.runs, runs)
        if node.part is None:
            self.credit += self.problem.credit_for(width, height)
            return
        given = (self.problem.widths[node.part], self.problem.heights[node.part])
        assert self.problem.turns[node.part] or not node.turned
        assert (width, height) == (given[::-1] if node.turned else given)
        self.parts[node.part] += 1
        self.area += width * height


def sawn(problem: SheetsProblem, pattern: SheetPattern) -> Saw:
    """Cut one sheet of a pattern."""
    sheet = problem.sheets[pattern.sheet]
    saw = Saw(problem, Counter())
    saw.cut(pattern.root, sheet.width, sheet.height)
    return saw


def check(problem: SheetsProblem, outcome: SheetsOutcome) -> None:
    """Cut the whole plan: demand met exactly, stock there, stages kept, money right."""
    served: Counter[int] = Counter()
    used: Counter[int] = Counter()
    cost = 0
    for pattern in outcome.patterns:
        assert pattern.times >= 1
        saw = sawn(problem, pattern)
        assert saw.parts
        if problem.first_cut is not None and isinstance(pattern.root, Cut):
            assert pattern.root.rip == (problem.first_cut is Way.RIP)
        assert problem.max_stages is None or saw.runs <= problem.max_stages
        for part, copies in saw.parts.items():
            served[part] += copies * pattern.times
        used[pattern.sheet] += pattern.times
        cost += pattern.times * (problem.sheets[pattern.sheet].cost - saw.credit)
    assert [served[part] for part in range(len(problem.demands))] == list(problem.demands)
    for sheet, times in used.items():
        available = problem.sheets[sheet].available
        assert available is None or times <= available
    assert cost == outcome.cost
    assert outcome.bound <= outcome.cost
    assert not any(outcome.missing)


def sheets_used(outcome: SheetsOutcome) -> int:
    """Count the sheets of a plan."""
    return sum(pattern.times for pattern in outcome.patterns)
