"""Answers that were proved by hand or published: the solver must reach them and never beat them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.solve import solve
from tests.solvers.sheets.shop import a_problem, check, sawn, sheets_used, so_much_work

# Cintra, Miyazawa, Wakabayashi and Xavier 2008, instance gcut1d: sheets of 250 × 250.
GCUT1D = [
    (167, 184, 90),
    (114, 118, 75),
    (167, 152, 71),
    (83, 140, 13),
    (70, 86, 39),
    (143, 166, 79),
    (120, 160, 63),
    (66, 148, 93),
    (87, 141, 61),
    (69, 165, 85),
]


@pytest.mark.parametrize("turn", [False, True])
def test_a_pinwheel_is_proven_to_need_a_second_sheet_since_no_cut_runs_edge_to_edge(
    *, turn: bool
) -> None:
    # Common textbook pattern, hand proof: a first cut would leave a strip that parts cannot fill.
    problem = a_problem([(3, 2, 2), (2, 3, 2), (1, 1, 1)], [(5, 5, 1)], turn=turn)

    outcome = solve(problem, budget=so_much_work(30), seed=0)

    check(problem, outcome)
    assert sheets_used(outcome) == 2
    assert outcome.status is Status.OPTIMAL


@pytest.mark.parametrize(
    ("size", "kerf", "turn", "sheets"),
    [
        # Hand proofs: two across need 2·size + kerf within 1000 × 500.
        ((500, 250), 0, False, 1),
        ((500, 250), 3, False, 4),
        ((500, 250), 3, True, 2),
        ((498, 248), 4, False, 1),
        ((498, 248), 5, False, 4),
        ((498, 248), 5, True, 2),
    ],
)
def test_the_kerf_between_four_parts_decides_how_many_sheets(
    size: tuple[int, int], kerf: int, turn: bool, sheets: int
) -> None:
    problem = a_problem([(*size, 4)], [(1000, 500, 1)], kerf=kerf, turn=turn)

    outcome = solve(problem, budget=so_much_work(30), seed=0)

    check(problem, outcome)
    assert outcome.cost == sheets
    assert outcome.status is Status.OPTIMAL


def test_trimmed_edges_leave_just_enough_for_four_parts() -> None:
    # Hand proof: 1000 × 500 less 10 on each edge is 980 × 480, and 488 + 4 + 488 = 980.
    problem = a_problem([(488, 238, 4)], [(980, 480, 1)], kerf=4)

    outcome = solve(problem, budget=so_much_work(30), seed=0)

    check(problem, outcome)
    assert (outcome.cost, outcome.status) == (1, Status.OPTIMAL)


@pytest.mark.parametrize(("turn", "sheets"), [(True, 1), (False, 2)])
def test_three_parts_share_a_sheet_only_if_the_grain_allows(turn: bool, sheets: int) -> None:
    # Hand proof: turned, three of 800 lie across 2440; with the grain fixed, one row of two.
    problem = a_problem([(1220, 800, 3)], [(2440, 1220, 1)], turn=turn)

    outcome = solve(problem, budget=so_much_work(30), seed=0)

    check(problem, outcome)
    assert (outcome.cost, outcome.status) == (sheets, Status.OPTIMAL)


@pytest.mark.parametrize(("taken", "left"), [(2, 500), (3, 150)])
def test_box_sides_come_off_one_board_and_the_rest_stays_in_one_piece(
    taken: int, left: int
) -> None:
    # By hand: sides of 350 × 2387 from 1200 × 2400 with a knife.
    problem = a_problem([(350, 2387, taken)], [(1200, 2400, 100)], keep=(100, 1000))

    outcome = solve(problem, budget=so_much_work(10), seed=0)

    check(problem, outcome)
    assert outcome.cost == 100
    (pattern,) = outcome.patterns
    # All that is left is worth a penny each square only if it is one piece of the full height.
    whole = a_problem(
        [(350, 2387, taken)], [(1200, 2400, 100)], keep=(left, 2387), credit=Fraction(1)
    )
    assert sawn(whole, pattern).credit in (left * 2387, left * 2400)


@pytest.mark.parametrize(("turn", "published"), [(False, 294), (True, 291)])
def test_hundreds_of_equal_parts_are_cut_from_the_published_least_number_of_sheets(
    turn: bool, published: int
) -> None:
    problem = a_problem(GCUT1D, [(250, 250, 1)], turn=turn)

    outcome = solve(problem, budget=so_much_work(400), seed=0)

    check(problem, outcome)
    assert (outcome.cost, outcome.status) == (published, Status.OPTIMAL)


@pytest.mark.parametrize(("turn", "least"), [(False, 329_423), (True, 320_601)])
def test_two_panel_sizes_are_mixed_by_price(turn: bool, least: int) -> None:
    # Panels of Skalbeck and Schultz 1976; cost = area; `least` is a linear programme's bound.
    problem = a_problem(
        [(28, 30, 180), (20, 24, 180), (16, 20, 100), (14, 21, 100), (12, 18, 100)],
        [(48, 96, 4608), (60, 108, 6480)],
        turn=turn,
    )

    outcome = solve(problem, budget=so_much_work(60), seed=0)

    check(problem, outcome)
    assert least <= outcome.cost <= least * 108 // 100
    assert outcome.bound <= outcome.cost


# Furniture orders of Macedo, Alves and Valério de Carvalho 2010: sheets of 2750 × 1220.
A_FURNITURE_ORDER = [(463, 386, 18), (1680, 420, 6)]


@pytest.mark.parametrize("turn", [False, True])
def test_a_furniture_order_takes_three_sheets(*, turn: bool) -> None:
    problem: SheetsProblem = a_problem(A_FURNITURE_ORDER, [(2750, 1220, 1)], turn=turn)

    outcome = solve(problem, budget=so_much_work(150), seed=2)

    check(problem, outcome)
    assert (outcome.cost, outcome.bound) == (3, 3)
