"""Column generation: tables against trying every cut, real layouts, weights that prove."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from typing import TypeAlias

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.solvers.sheets import fill
from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.columns import Filler, alike, block_of
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.grid import Grid, bounding_grid, coarse_grid, exact_grid
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.rounding import open_counts
from optimiser.solvers.sheets.solve import solve
from optimiser.solvers.sheets.table import kinds_of
from optimiser.solvers.sheets.tree import Block
from optimiser.solvers.sheets.twin import plain_twin
from tests.solvers.sheets.exact import least_cost
from tests.solvers.sheets.shop import a_problem, so_much_work
from tests.solvers.sheets.test_worked_examples import GCUT1D

Size: TypeAlias = tuple[int, int]


@st.composite
def small_problems(draw: st.DrawFn) -> SheetsProblem:
    parts = draw(
        st.lists(
            st.tuples(st.integers(1, 12), st.integers(1, 12), st.integers(1, 40)),
            min_size=1,
            max_size=5,
        )
    )
    sheets = draw(
        st.lists(
            st.tuples(st.integers(8, 24), st.integers(8, 24), st.integers(1, 30)),
            min_size=1,
            max_size=2,
        )
    )
    widest, highest = max(w for w, _, _ in sheets), max(h for _, h, _ in sheets)
    parts = [(min(w, widest), min(h, highest), demand) for w, h, demand in parts]
    return a_problem(parts, sheets, turn=draw(st.booleans()), kerf=draw(st.integers(0, 2)))


def most_by_recursion(problem: SheetsProblem, values: list[int]) -> dict[Size, int]:
    """Try every cut of every piece; sizes plus kerf, one value a kind, copies without limit."""
    ways = [
        (width, height, value)
        for kind, value in zip(kinds_of(problem), values, strict=True)
        for width, height in ((kind.width, kind.height), (kind.height, kind.width))[
            : 2 if kind.turns else 1
        ]
    ]
    widest = max(sheet.width for sheet in problem.sheets) + problem.kerf
    highest = max(sheet.height for sheet in problem.sheets) + problem.kerf
    best: dict[Size, int] = {}
    for width in range(widest + 1):
        for height in range(highest + 1):
            most = max((v for w, h, v in ways if w <= width and h <= height), default=0)
            for at in range(1, width // 2 + 1):
                most = max(most, best[at, height] + best[width - at, height])
            for at in range(1, height // 2 + 1):
                most = max(most, best[width, at] + best[width, height - at])
            best[width, height] = most
    return best


def most_of_sheets(problem: SheetsProblem, values: list[int]) -> list[int]:
    best = most_by_recursion(problem, values)
    return [best[s.width + problem.kerf, s.height + problem.kerf] for s in problem.sheets]


@settings(max_examples=120, deadline=None, derandomize=True)
@given(small_problems(), st.data())
def test_the_exact_table_equals_trying_every_cut(
    problem: SheetsProblem, data: st.DataObject
) -> None:
    # Demands high enough for any number of copies: the table knows no limit of them.
    plenty = a_problem(
        [(w, h, 600) for w, h in zip(problem.widths, problem.heights, strict=True)],
        [(s.width, s.height, s.cost) for s in problem.sheets],
        turn=problem.turns[0],
        kerf=problem.kerf,
    )
    kinds = kinds_of(plenty)
    values = data.draw(st.lists(st.integers(0, 30), min_size=len(kinds), max_size=len(kinds)))

    found = Filler.on(exact_grid(plenty, kinds)).fill(np.array(values, dtype=np.int64))

    assert found == most_of_sheets(plenty, values)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(small_problems(), st.data())
def test_a_coarse_grid_finds_no_more_and_what_it_finds_can_be_cut(
    problem: SheetsProblem, data: st.DataObject
) -> None:
    kinds = kinds_of(problem)
    values = data.draw(st.lists(st.integers(0, 30), min_size=len(kinds), max_size=len(kinds)))
    exact = exact_grid(problem, kinds)
    filler = Filler.on(coarse_grid(problem, kinds, exact, 6))
    whole = np.array(values, dtype=np.int64)
    tops = most_of_sheets(problem, values)

    found = filler.fill(whole)

    for sheet, (most, top) in enumerate(zip(found, tops, strict=True)):
        assert most <= top
        for number, column in enumerate(filler.layouts(sheet, 0, 4)):
            worth = sum(values[kind] * count for kind, count in column.counts)
            assert worth == most if number == 0 else worth <= top
            block = block_of(problem, kinds, column)
            size = problem.sheets[sheet]
            assert (block.width, block.height) == (
                size.width + problem.kerf, size.height + problem.kerf
            )  # fmt: skip
            assert_it_adds_up(block)
            held = [leaf for leaf in block.walk() if leaf.part >= 0]
            assert tuple(sorted((k, sum(p.part == k for p in held)) for k in {p.part for p in held})
                         ) == column.counts  # fmt: skip
            for leaf in held:
                kind = kinds[leaf.part]
                size_held = (kind.height, kind.width) if leaf.turned else (kind.width, kind.height)
                assert (leaf.width, leaf.height) == size_held
                assert kind.turns or not leaf.turned


def assert_it_adds_up(block: Block) -> None:
    if not block.pieces:
        return
    if block.rip:
        assert sum(piece.width for piece in block.pieces) == block.width
        assert {piece.height for piece in block.pieces} == {block.height}
    else:
        assert sum(piece.height for piece in block.pieces) == block.height
        assert {piece.width for piece in block.pieces} == {block.width}
    for piece in block.pieces:
        assert_it_adds_up(piece)


def test_a_rough_grid_never_says_less_than_the_exact_one() -> None:
    problem = a_problem(
        [(1013, 701, 9), (577, 1201, 8), (331, 333, 40)], [(4999, 3001, 1)], kerf=3, turn=True
    )
    kinds = kinds_of(problem)
    exact = exact_grid(problem, kinds)
    values = np.array([kind.width * kind.height for kind in kinds], dtype=np.int64)
    (most,) = Filler.on(exact).fill(values)

    rough = bounding_grid(problem, kinds, exact, exact.sums // 20)

    assert rough.sums <= exact.sums // 20
    (said,) = Filler.on(rough).fill(values)
    assert most <= said <= 1.1 * most


def a_filled_table(grid: Grid, run: object) -> np.ndarray[tuple[int, ...], np.dtype[np.int32]]:
    table = np.zeros((len(grid.xs), len(grid.ys)), dtype=np.int32)
    values = 7 * grid.columns + 5 * grid.rows
    left = fill.remainders(grid.ys)
    assert callable(run)
    run(table, grid.xs, grid.ys, grid.columns, grid.rows, values, left)
    return table


@pytest.mark.parametrize("turn", [False, True])
def test_the_compiled_table_and_the_plain_one_are_the_same(*, turn: bool) -> None:
    problem = a_problem([(21, 13, 9), (36, 17, 9), (54, 20, 9), (24, 27, 9)], [(127, 98, 1)],
                        turn=turn, kerf=1)  # fmt: skip
    grid = exact_grid(problem, kinds_of(problem))

    compiled = a_filled_table(grid, fill.fill)
    plain = a_filled_table(grid, plain_twin(fill).fill)

    assert compiled.max() > 0
    assert np.array_equal(compiled, plain)


def test_one_kind_fills_a_sheet_in_rows_and_columns() -> None:
    problem = a_problem([(30, 20, 50)], [(100, 70, 1)], kerf=2, turn=True)
    (kind,) = kinds_of(problem)

    (column,) = alike(problem, 0, kind, 0)

    # By hand: 32 × 22 on 102 × 72, three by three as given; turned four by two.
    assert column.counts == ((0, 9),)
    assert_it_adds_up(block_of(problem, (kind,), column))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(small_problems())
def test_weights_found_prove_the_bound_by_trying_every_cut(problem: SheetsProblem) -> None:
    generator = a_finished_generator(problem)
    proof = generator.proof
    kinds = kinds_of(problem)

    assert not proof.short
    if not proof.weights:
        assert proof.bound == prove(problem).bound
        return
    rows = []
    for weights in proof.weights:
        values = [weights[kind.parts[0]] for kind in kinds]
        need = sum(w * d for w, d in zip(weights, problem.demands, strict=True))
        rows.append((most_of_sheets(problem, values), need))
    # The cheapest whole numbers of sheets that hold every weight, by counting them all.
    costs = [sheet.cost for sheet in problem.sheets]
    tops = [-(-proof.bound // cost) for cost in costs]
    counts = product(*(range(top + 1) for top in tops))
    cheaper = [
        each
        for each in counts
        if sum(n * cost for n, cost in zip(each, costs, strict=True)) < proof.bound
        and all(sum(n * v for n, v in zip(each, most, strict=True)) >= need for most, need in rows)
    ]
    assert cheaper == []


def a_finished_generator(problem: SheetsProblem, readings: int = 10_000) -> Generator:
    generator = Generator(problem, kinds_of(problem), prove(problem), so_much_work(readings))
    generator.start()
    generator.run(lambda: False)
    return generator


@pytest.mark.parametrize(("turn", "published"), [(False, 294), (True, 291)])
def test_the_published_least_number_of_sheets_is_proven(*, turn: bool, published: int) -> None:
    # Cintra et al. 2008, gcut1d; the paper's values from memory, own exact runs agree.
    generator = a_finished_generator(a_problem(GCUT1D, [(250, 250, 1)], turn=turn))

    assert generator.proof.bound == published
    assert generator.converged


def test_counts_of_two_sizes_are_refuted_where_one_row_alone_proves_less() -> None:
    problem = a_problem([(20, 40, 4), (22, 30, 2), (12, 36, 10)], [(60, 50, 30), (75, 60, 46)])

    generator = a_finished_generator(problem)

    assert len(generator.proof.weights) > 1
    assert generator.relaxed is not None
    # No sum of 30s and 46s lies between 120 and 136 but 122 (one and two).
    assert generator.proof.bound == 136
    # And a plan of that cost there is, so the bound says no more than is true.
    assert solve(problem, budget=so_much_work(3_000), seed=0).cost == 136


def test_counts_still_open_are_dear_enough_and_cheap_enough() -> None:
    problem = a_problem([(60, 60, 3)], [(100, 100, 10), (110, 110, 14)])
    generator = a_finished_generator(problem)

    # By hand: each sheet holds one part, the larger one too few to be worth its price.
    assert generator.proof.bound == 30
    assert open_counts(generator, 35) == [(2, 1), (3, 0)]
    assert open_counts(generator, 30) == []


TINY = [
    ([(3, 2, 4), (2, 3, 4), (1, 1, 3)], [(5, 5, 3)], 0),
    ([(4, 3, 6), (2, 2, 9), (5, 1, 7)], [(7, 6, 5), (5, 5, 3)], 0),
    ([(3, 3, 8), (2, 5, 6), (4, 1, 6)], [(9, 7, 4)], 1),
    ([(5, 4, 4), (3, 2, 9), (2, 2, 6)], [(10, 6, 6), (6, 6, 4, 1)], 0),
]


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize(("parts", "sheets", "kerf"), TINY)
def test_no_bound_exceeds_what_an_integer_programme_says(
    parts: list[tuple[int, int, int]],
    sheets: list[tuple[int, int, int]],
    kerf: int,
    turn: bool,
) -> None:
    problem = a_problem(parts, sheets, kerf=kerf, turn=turn)

    bound = a_finished_generator(problem).proof.bound

    least = least_cost(problem)
    assert least is not None
    assert bound <= least
    assert least - bound <= max(sheet.cost for sheet in problem.sheets)


def test_the_bound_with_credit_grants_it_for_all_that_is_not_a_part() -> None:
    # By hand: one sheet of 100 for 100 × 50, half left: at most 100 − 5000 / 100 = 50 net.
    problem = a_problem([(100, 50, 1)], [(100, 100, 100)], credit=Fraction(1, 100))

    assert a_finished_generator(problem).proof.bound == 50


def test_layouts_of_thousands_of_tiny_parts_are_found() -> None:
    problem = a_problem([(1, 3, 1)], [(100, 99, 5)])
    kinds = kinds_of(problem)
    filler = Filler.on(exact_grid(problem, kinds))

    assert filler.fill(np.array([1], dtype=np.int64)) == [3_300]
    [column] = filler.layouts(0, 0, 1)
    assert column.counts == ((0, 3_300),)
