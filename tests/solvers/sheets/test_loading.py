"""Layouts from elsewhere in the search's table: it holds them whole, or says it has no room."""

from __future__ import annotations

from collections import Counter

from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.engine import Engine
from optimiser.solvers.sheets.outcome import read_back
from optimiser.solvers.sheets.problem import Cut, Leaf, Node, SheetPattern, SheetsOutcome
from optimiser.solvers.sheets.solve import solve
from optimiser.solvers.sheets.table import kinds_of, new_table
from optimiser.solvers.sheets.tree import Block, left_over
from tests.solvers.sheets.shop import a_problem, check, so_much_work

PROBLEM = a_problem([(10, 10, 40)], [(100, 100, 10)])


def in_waste(depth: int) -> Node:
    """One part on a sheet of its own, a strip cut off the sheet `depth` times before it comes."""
    node: Node = Cut(True, 10, Cut(False, 10, Leaf(0), Leaf()), Leaf())
    for number in range(depth, 0, -1):
        node = Cut(number % 2 == 1, 99 - (number - 1) // 2, node, Leaf())
    return node


def outcome(depth: int) -> SheetsOutcome:
    return SheetsOutcome(
        status=Status.FEASIBLE,
        patterns=(SheetPattern(sheet=0, root=in_waste(depth), times=40),),
        cost=400,
        bound=0,
        rows=(),
        weights=(),
        once=(),
        missing=(0,),
        method="by hand",
        seconds=0.0,
    )


def all_cut(engine: Engine) -> Counter[int]:
    return Counter(leaf.part for _, block in engine.plan() for leaf in block.walk())


def test_layouts_with_much_left_over_in_one_another_are_loaded_whole() -> None:
    kinds = kinds_of(PROBLEM)
    plan = read_back(PROBLEM, kinds, outcome(1).patterns)
    engine = Engine(new_table(PROBLEM, kinds, 1))

    assert engine.load(plan, 400)

    assert Counter(engine.plan()) == Counter(plan)
    # Whatever the search does from there, it never runs out of pieces.
    for _ in range(30):
        engine.step()
        assert engine.table.head[c.FREE_NODE] > 0
        assert all_cut(engine)[0] + engine.waiting[0] == 40


def test_a_plan_of_too_many_pieces_is_told_and_not_loaded_in_part() -> None:
    kinds = kinds_of(PROBLEM)
    plan = read_back(PROBLEM, kinds, outcome(12).patterns)
    engine = Engine(new_table(PROBLEM, kinds, 1))

    assert not engine.load(plan, 400)

    assert engine.sheets == 0
    assert engine.waiting == (40,)


def test_a_search_goes_on_from_a_plan_that_has_no_room() -> None:
    known = outcome(12)
    check(PROBLEM, known)

    found = solve(PROBLEM, budget=so_much_work(20), seed=1, known=known)

    check(PROBLEM, found)
    assert found.cost == 10  # 40 parts on one sheet of 100


def test_pieces_are_counted_with_those_inside_them() -> None:
    part = Block(rip=False, width=1, height=4, part=0, turned=False, pieces=())
    strip = Block(
        rip=True, width=3, height=4, part=-1, turned=False, pieces=(part, left_over(2, 4))
    )

    assert part.pieces_in_all == 1
    assert strip.pieces_in_all == 3
