"""Hundreds of sizes: classes that prove no more than is true, layouts of what is left, groups."""

from __future__ import annotations

from collections import Counter
from random import Random

import numpy as np
import pytest

from optimiser.solvers.sheets import classes, fill
from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.classes import shares_of
from optimiser.solvers.sheets.columns import Column, block_of
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.pool import parts_of, worth_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.regroup import Regrouper
from optimiser.solvers.sheets.remaining import Places, price_rest
from optimiser.solvers.sheets.sequence import Sequencer
from optimiser.solvers.sheets.solve import solve
from optimiser.solvers.sheets.table import kinds_of
from tests.solvers.sheets.shop import a_problem, check, so_much_work


def a_varied_problem(parts: int, seed: int, *, turn: bool = True, rack: int = 2) -> SheetsProblem:
    luck = Random(seed)
    sizes = [(luck.randint(20, 120), luck.randint(10, 90), 1) for _ in range(parts)]
    return a_problem(
        sizes, [(244, 122, 300), (305, 122, 390), (150, 100, 40, rack)], turn=turn, kerf=1
    )


def a_started_generator(problem: SheetsProblem, rows: int = classes.MOST_ROWS) -> Generator:
    generator = Generator(
        problem, kinds_of(problem), prove(problem, scales=1), so_much_work(100_000), rows
    )
    generator.start()
    return generator


def test_few_kinds_have_a_row_each() -> None:
    kinds = kinds_of(a_varied_problem(20, 1))

    assert np.array_equal(shares_of(a_varied_problem(20, 1), kinds), np.eye(len(kinds)))


@pytest.mark.parametrize("turn", [False, True])
def test_each_kind_is_counted_once_by_its_class_and_at_most_once_for_each_side(
    *, turn: bool
) -> None:
    problem = a_varied_problem(400, 2, turn=turn)
    kinds = kinds_of(problem)

    shares = shares_of(problem, kinds)

    assert len(shares) < len(kinds)
    # Rows of whole ones and noughts are the classes: each kind is in just one.
    members = shares[[set(np.unique(row)) <= {0.0, 1.0} and row.sum() >= 1 for row in shares]]
    assert (members.sum(axis=0) >= 1).all()
    assert shares.min() >= 0
    assert shares.max() <= 1
    assert (shares.sum(axis=0) <= 3).all()


def test_classes_prove_no_more_than_a_row_for_each_kind(monkeypatch: pytest.MonkeyPatch) -> None:
    luck = Random(3)
    large = [(luck.randint(45, 120), luck.randint(45, 120), 1) for _ in range(60)]
    problem = a_problem(large, [(150, 150, 300), (200, 150, 380)], turn=True, kerf=1)
    alone = a_started_generator(problem)
    alone.run(lambda: False)
    monkeypatch.setattr(classes, "_CLASSES", 12)

    together = a_started_generator(problem, rows=10)
    together.run(lambda: False)

    assert together.converged
    assert alone.converged
    assert together.relaxed is not None
    assert alone.relaxed is not None
    assert together.relaxed.value <= alone.relaxed.value + 1e-6
    assert prove(problem, scales=1).bound < together.proof.bound <= alone.proof.bound


def test_no_more_is_cut_than_is_left_and_every_part_fits_the_place_it_takes() -> None:
    problem = a_problem([(50, 40, 2), (45, 40, 1), (40, 50, 1), (10, 10, 5)], [(200, 100, 1)])
    kinds = kinds_of(problem)
    part = (fill.PART, 0, 0)
    wanted = Column(0, ((0, 4),), (*((fill.RIP, 50, 0), part) * 3, part))

    column = Places(kinds, staged=False).within(
        wanted, np.array([2, 1, 1, 0]), np.array([9, 7, 8, 1])
    )

    # The third place goes to the part of 45 × 40; 40 × 50 is too high, and no part is left for the
    # last.
    assert column is not None
    assert column.counts == ((0, 2), (1, 1))
    assert parts_of(block_of(problem, kinds, column)) == {0: 2, 1: 1}
    assert (
        Places(kinds, staged=False).within(wanted, np.array([0, 0, 0, 0]), np.array([9, 7, 8, 1]))
        is None
    )


def test_a_part_that_may_be_turned_takes_a_place_the_other_way_round() -> None:
    problem = a_problem([(50, 40, 1), (30, 45, 1)], [(200, 100, 1)], turn=True)
    kinds = kinds_of(problem)
    wanted = Column(0, ((0, 2),), ((fill.RIP, 50, 0), (fill.PART, 0, 0), (fill.PART, 0, 0)))

    column = Places(kinds, staged=False).within(wanted, np.array([1, 1]), np.array([5, 4]))

    assert column is not None
    assert column.counts == ((0, 1), (1, 1))
    assert parts_of(block_of(problem, kinds, column)) == {0: 1, 1: 1}


def test_layouts_for_what_is_left_use_no_more_than_that() -> None:
    problem = a_varied_problem(40, 4)
    kinds = kinds_of(problem)
    generator = a_started_generator(problem)
    known = set(generator.master.columns)
    left = [0 if place % 3 else kind.demand for place, kind in enumerate(kinds)]

    price_rest(generator, Places(kinds, staged=False), left, [None, None, 1], 3)

    new = [column for column in generator.master.columns if column not in known]
    assert new
    assert all(made <= left[kind] for column in new for kind, made in column.counts)


@pytest.mark.parametrize("seed", [1, 2])
def test_each_pass_cuts_every_part_once_out_of_the_stock_there_is(seed: int) -> None:
    problem = a_varied_problem(200, seed)
    kinds = kinds_of(problem)
    sequencer = Sequencer(problem, kinds, a_started_generator(problem), so_much_work(100_000))

    for plan in (sequencer.plan(), sequencer.plan()):
        assert plan is not None
        served: Counter[int] = Counter()
        for _, block in plan:
            served += parts_of(block)
        assert served == {place: kind.demand for place, kind in enumerate(kinds)}
        assert Counter(sheet for sheet, _ in plan)[2] <= 2


def test_a_group_of_sheets_is_given_back_with_the_same_parts_for_less() -> None:
    problem = a_varied_problem(200, 5)
    kinds = kinds_of(problem)
    # One part a sheet is a plan that any other beats.
    spread = tuple(
        (0, block_of(problem, kinds, Column(0, ((place, 1),), ((fill.PART, place, 0),))))
        for place, kind in enumerate(kinds)
        for _ in range(kind.demand)
    )
    regrouper = Regrouper(problem, kinds, so_much_work(100_000), 0)

    better = next(regrouper.plans(lambda: spread))

    assert worth_of(problem, better) < worth_of(problem, spread)
    served: Counter[int] = Counter()
    for _, block in better:
        served += parts_of(block)
    assert served == {place: kind.demand for place, kind in enumerate(kinds)}


@pytest.mark.parametrize(("turn", "stages"), [(True, None), (False, None), (True, 3)])
def test_hundreds_of_sizes_are_cut_as_asked_and_the_bound_holds(
    *, turn: bool, stages: int | None
) -> None:
    problem = a_varied_problem(220, 6, turn=turn)
    if stages is not None:
        sizes = list(zip(problem.widths, problem.heights, problem.demands, strict=True))
        problem = a_problem(sizes, [(244, 122, 300)], turn=turn, kerf=1, stages=stages)

    outcome = solve(problem, budget=so_much_work(600), seed=0)

    check(problem, outcome)
    area = sum(w * h for w, h in zip(problem.widths, problem.heights, strict=True))
    assert outcome.cost < 1.25 * 300 * area / (244 * 122)
