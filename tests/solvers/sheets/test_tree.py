"""Layouts as values: waste joined, parts taken out, an L cut the better way round."""

from __future__ import annotations

from fractions import Fraction

from optimiser.solvers.sheets.pool import parts_of
from optimiser.solvers.sheets.problem import Cut, Leaf
from optimiser.solvers.sheets.table import kinds_of
from optimiser.solvers.sheets.tidy import laid_anew, rank_of, settings_of, tidied
from optimiser.solvers.sheets.tree import (
    Block,
    credit_of,
    divided,
    largest_left,
    left_over,
    real_cuts,
    runs_of,
    without,
)
from tests.solvers.sheets.shop import a_problem


def a_part(kind: int, width: int, height: int) -> Block:
    return Block(rip=False, width=width, height=height, part=kind, turned=False, pieces=())


def test_left_over_neighbours_become_one_piece_and_stand_last() -> None:
    block = divided([left_over(10, 50), a_part(0, 30, 50), left_over(20, 50)], 60, 50, rip=True)

    assert [piece.width for piece in block.pieces] == [30, 30]
    assert block.pieces[-1].is_left


def test_strips_within_strips_of_the_same_way_are_one_row() -> None:
    inner = divided([a_part(0, 20, 50), left_over(10, 50)], 30, 50, rip=True)

    block = divided([inner, left_over(30, 50)], 60, 50, rip=True)

    assert [piece.width for piece in block.pieces] == [20, 40]


def test_taking_the_only_part_out_leaves_the_whole_piece() -> None:
    strip = divided([a_part(0, 30, 20), left_over(30, 30)], 30, 50, rip=False)
    sheet = divided([strip, left_over(30, 50)], 60, 50, rip=True)

    assert without(sheet, {0: 1}) == left_over(60, 50)


def test_a_sliver_no_wider_than_the_kerf_is_no_far_piece() -> None:
    block = divided([a_part(0, 33, 53), left_over(3, 53)], 36, 53, rip=True)

    assert real_cuts(block, 3) == Cut(rip=True, at=30, near=Leaf(0), far=None)


def test_an_l_of_waste_is_cut_so_that_the_larger_piece_stays_whole() -> None:
    problem = a_problem([(60, 40, 1)], [(100, 100, 10)])
    strip = divided([a_part(0, 60, 40), left_over(60, 60)], 60, 100, rip=False)
    sheet = divided([strip, left_over(40, 100)], 100, 100, rip=True)

    tidy = tidied(problem, sheet)

    assert largest_left(problem, sheet) == 4000
    assert largest_left(problem, tidy) == 6000


def test_an_l_stays_as_it_is_where_turning_it_needs_too_many_runs_of_cuts() -> None:
    column = divided([a_part(0, 30, 40), a_part(1, 30, 30), left_over(30, 30)], 30, 100, rip=False)
    sheet = divided([column, left_over(70, 100)], 100, 100, rip=True)
    problem = a_problem([(30, 40, 1), (30, 30, 1)], [(100, 100, 10)], stages=2, keep=(30, 100))

    assert credit_of(problem, tidied(problem, sheet)) == 0
    assert tidied(problem, sheet) == sheet


def test_slivers_and_small_pieces_earn_nothing() -> None:
    problem = a_problem(
        [(60, 40, 1)], [(100, 100, 10)], kerf=3, keep=(50, 50), credit=Fraction(1, 100)
    )

    assert credit_of(problem, left_over(3, 100)) == 0
    assert credit_of(problem, left_over(52, 100)) == 0
    assert credit_of(problem, left_over(53, 103)) == 50


def test_strips_that_part_alike_are_parted_by_long_rips_first() -> None:
    # Two rows of 40 | 60, one above the other: one rip does for both, along the sheet.
    problem = a_problem([(40, 70, 2), (60, 70, 2)], [(100, 140, 10)])
    row = divided([a_part(0, 40, 70), a_part(1, 60, 70)], 100, 70, rip=True)
    sheet = divided([row, row], 100, 140, rip=False)

    tidy = tidied(problem, sheet)

    assert tidy.rip
    assert [piece.width for piece in tidy.pieces] == [60, 40]
    assert rank_of(problem, tidy) > rank_of(problem, sheet)


def test_a_row_with_a_part_that_goes_right_through_is_not_parted_the_other_way() -> None:
    problem = a_problem([(40, 70, 1), (60, 70, 1), (100, 70, 1)], [(100, 140, 10)])
    row = divided([a_part(0, 40, 70), a_part(1, 60, 70)], 100, 70, rip=True)
    sheet = divided([row, a_part(2, 100, 70)], 100, 140, rip=False)

    assert tidied(problem, sheet) == sheet


def test_a_setting_of_the_fence_counts_once_however_often_it_is_used() -> None:
    row = divided([a_part(0, 40, 70), a_part(1, 60, 70)], 100, 70, rip=True)
    sheet = divided([row, row], 100, 140, rip=False)

    # The fence stands at 60 for a rip of each row, and at 70 for the crosscut.
    assert settings_of(sheet) == {(True, 60), (False, 70)}


def test_parts_are_laid_anew_where_fewer_runs_of_cuts_do() -> None:
    # Two parts as high as the sheet, reached by a needless crosscut of what lies above the third.
    problem = a_problem([(50, 100, 2), (20, 40, 2)], [(120, 100, 10)])
    kinds = kinds_of(problem)
    low = divided([a_part(1, 20, 40), a_part(1, 20, 40), left_over(20, 20)], 20, 100, rip=False)
    nested = Block(
        rip=False,
        width=120,
        height=100,
        part=-1,
        turned=False,
        pieces=(divided([a_part(0, 50, 100), a_part(0, 50, 100), low], 120, 100, rip=True),),
    )

    ((sheet, anew),) = laid_anew(problem, kinds, ((0, nested),))

    assert sheet == 0
    assert parts_of(anew) == parts_of(nested)
    assert runs_of(nested) == 3
    assert runs_of(anew) == 2
