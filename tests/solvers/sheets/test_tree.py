"""Layouts as values: waste joined, parts taken out, an L cut the better way round."""

from __future__ import annotations

from fractions import Fraction

from optimiser.solvers.sheets.problem import Cut, Leaf
from optimiser.solvers.sheets.tidy import tidied
from optimiser.solvers.sheets.tree import (
    Block,
    credit_of,
    divided,
    largest_left,
    left_over,
    real_cuts,
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
