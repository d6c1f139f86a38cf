"""Layouts in few stages: tables against trying every cut, and cuts that keep to the limit."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.solvers.sheets import rows
from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.columns import Column, Filler, block_of, last_cuts
from optimiser.solvers.sheets.fill import CROSS, LEFT, PART, RIP
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.grid import exact_grid
from optimiser.solvers.sheets.problem import SheetsProblem, Way
from optimiser.solvers.sheets.remaining import Places
from optimiser.solvers.sheets.staged import StagedFiller
from optimiser.solvers.sheets.table import kinds_of
from optimiser.solvers.sheets.tree import begins_well, runs_of
from optimiser.solvers.sheets.twin import plain_twin
from tests.solvers.sheets.shop import a_problem, so_much_work


@st.composite
def staged_problems(draw: st.DrawFn) -> SheetsProblem:
    sides = st.integers(2, 9)
    parts = draw(st.lists(st.tuples(sides, sides, st.integers(1, 9)), min_size=1, max_size=4))
    sheets = draw(
        st.lists(
            st.tuples(st.integers(9, 20), st.integers(9, 20), st.integers(1, 30)),
            min_size=1,
            max_size=2,
        )
    )
    return a_problem(
        parts,
        sheets,
        turn=draw(st.booleans()),
        kerf=draw(st.integers(0, 2)),
        stages=draw(st.integers(1, 3)),
        first_cut=draw(st.sampled_from([None, Way.RIP, Way.CROSS])),
    )


def most_in_stages(problem: SheetsProblem, values: list[int], sheet: int) -> int:
    """Try every cut of every piece within the stages; sizes plus kerf, copies without limit.

    The first cut goes the way that is asked for, or the layout has none.
    """
    ways = [
        (width, height, value)
        for kind, value in zip(kinds_of(problem), values, strict=True)
        for width, height in ((kind.width, kind.height), (kind.height, kind.width))[
            : 2 if kind.turns else 1
        ]
    ]

    @cache
    def piece(width: int, height: int, stages: int, *, rip: bool) -> int:
        """Return the most of a piece whose next cuts, if any, go one way."""
        if stages == 0:
            return max((v for w, h, v in ways if (w, h) == (width, height)), default=0)
        return max(piece(width, height, stages - 1, rip=not rip), cut(width, height, stages, rip))

    @cache
    def cut(width: int, height: int, stages: int, rip: bool) -> int:
        most = 0
        for at in range(1, width if rip else height):
            near = (at, height) if rip else (width, at)
            far = (width - at, height) if rip else (width, height - at)
            most = max(
                most,
                piece(*near, stages - 1, rip=not rip) + piece(*far, stages, rip=rip),
            )
        return most

    size = problem.sheets[sheet]
    width, height = size.width + problem.kerf, size.height + problem.kerf
    stages = problem.max_stages
    assert stages is not None
    if problem.first_cut is not None:
        uncut = piece(width, height, 0, rip=True)
        return max(uncut, cut(width, height, stages, problem.first_cut is Way.RIP))
    return max(piece(width, height, stages, rip=True), piece(width, height, stages, rip=False))


@settings(max_examples=150, deadline=None, derandomize=True)
@given(staged_problems(), st.data())
def test_the_tables_equal_trying_every_cut_within_the_stages(
    problem: SheetsProblem, data: st.DataObject
) -> None:
    kinds = kinds_of(problem)
    values = data.draw(st.lists(st.integers(0, 30), min_size=len(kinds), max_size=len(kinds)))
    filler = StagedFiller(problem, kinds)

    found = filler.fill(np.array(values, dtype=np.int64))

    for sheet, most in enumerate(found):
        assert most == most_in_stages(problem, values, sheet)
        for number, column in enumerate(filler.layouts(sheet, 0, 4)):
            worth = sum(values[kind] * count for kind, count in column.counts)
            assert worth == most if number == 0 else worth <= most
            assert_it_can_be_cut(problem, column)


def assert_it_can_be_cut(problem: SheetsProblem, column: Column) -> None:
    kinds = kinds_of(problem)
    block = block_of(problem, kinds, column)
    stages = problem.max_stages
    assert stages is None or runs_of(block) <= stages
    assert begins_well(problem, block)
    size = problem.sheets[column.sheet]
    assert (block.width, block.height) == (size.width + problem.kerf, size.height + problem.kerf)
    held: dict[int, int] = {}
    for leaf in block.walk():
        if leaf.part < 0:
            continue
        kind = kinds[leaf.part]
        held[leaf.part] = held.get(leaf.part, 0) + 1
        assert kind.turns or not leaf.turned
        size_held = (kind.height, kind.width) if leaf.turned else (kind.width, kind.height)
        assert (leaf.width, leaf.height) == size_held
    assert tuple(sorted(held.items())) == column.counts


@settings(max_examples=80, deadline=None, derandomize=True)
@given(staged_problems(), st.data())
def test_another_part_in_the_place_of_one_takes_no_stage_more(
    problem: SheetsProblem, data: st.DataObject
) -> None:
    kinds = kinds_of(problem)
    values = np.array([kind.width * kind.height for kind in kinds], dtype=np.int64)
    left = np.array(
        data.draw(st.lists(st.integers(0, 3), min_size=len(kinds), max_size=len(kinds)))
    )
    filler = StagedFiller(problem, kinds)
    filler.fill(values)

    for column in filler.layouts(0, 0, 4):
        within = Places(kinds, staged=True).within(column, left, values)
        if within is not None:
            assert_it_can_be_cut(problem, within)
            assert all(count <= left[kind] for kind, count in within.counts)


@pytest.mark.parametrize("way", list(Way))
def test_layouts_of_any_stages_begin_with_the_cut_that_is_asked_for(way: Way) -> None:
    problem = a_problem([(40, 30, 9), (25, 55, 9), (10, 60, 9)], [(100, 120, 1)], first_cut=way)
    kinds = kinds_of(problem)
    filler = Filler.on(exact_grid(problem, kinds), way)
    (most,) = filler.fill(np.array([1200, 1375, 600]))

    found = list(filler.layouts(0, 0, 4))

    assert found
    assert max(sum(n * (1200, 1375, 600)[k] for k, n in one.counts) for one in found) <= most
    for column in found:
        assert_it_can_be_cut(problem, column)


def test_two_stages_of_a_sheet_of_strips() -> None:
    """Two strips of three parts, and below them what is left: seen at a glance."""
    problem = a_problem([(33, 40, 6)], [(100, 90, 1)], stages=2)
    filler = StagedFiller(problem, kinds_of(problem))

    (most,) = filler.fill(np.array([7]))

    assert most == 42
    (best, *_) = filler.layouts(0, 0, 1)
    assert best.counts == ((0, 6),)
    strip = ((RIP, 33, 0), (PART, 0, 0)) * 3 + ((LEFT, 0, 0),)
    assert best.steps == ((CROSS, 40, 0), *strip, (CROSS, 40, 0), *strip, (LEFT, 0, 0))
    assert last_cuts(best.steps)[1:3] == [CROSS, RIP]


def test_the_generator_keeps_to_the_stages_and_its_proof_holds_for_them() -> None:
    """Nine parts of 5 × 3 from 10 × 10: six a sheet by cuts, so two sheets at the least."""
    problem = a_problem([(5, 3, 9)], [(10, 10, 1)], stages=2)
    kinds = kinds_of(problem)
    generator = Generator(problem, kinds, prove(problem), so_much_work(400))

    generator.start()
    generator.run(lambda: False)

    assert generator.proof.bound == 2
    assert not generator.converged
    for column in generator.master.columns:
        assert_it_can_be_cut(problem, column)


def test_compiled_tables_equal_their_plain_twin() -> None:
    points = np.array([0, 3, 5, 6, 8, 9, 11], dtype=np.int64)
    sizes = np.array([3, 5], dtype=np.int64)
    tables = []
    for module in (rows, plain_twin(rows)):
        left = module.lesser(points, sizes)
        line = np.zeros((2, len(points)), dtype=np.int32)
        module.fill_rows(line, np.array([0, 1, 1]), left[[0, 0, 1]], np.array([4, 5, 9]))
        stacks = np.zeros((len(points), len(points)), dtype=np.int32)
        module.fill_stacks(stacks, line, left)
        across = np.zeros(len(points), dtype=np.int32)
        module.fill_line(across, stacks[4], module.lesser(points, points))
        tables.append([left.tolist(), line.tolist(), stacks.tolist(), across.tolist()])

    assert tables[0] == tables[1]
    assert tables[0][3][-1] > 0
