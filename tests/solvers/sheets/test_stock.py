"""Scarce, cheap and several kinds of stock; keeping left-over pieces; stages; what cannot be."""

from __future__ import annotations

from fractions import Fraction

from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets.solve import solve
from tests.solvers.sheets.shop import a_problem, check, sawn, so_much_work


def test_an_offcut_on_the_rack_is_used_before_a_sheet_is_bought() -> None:
    problem = a_problem([(600, 400, 1)], [(2440, 1220, 2400), (700, 500, 150, 1)])

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    check(problem, outcome)
    assert (outcome.cost, outcome.status) == (150, Status.OPTIMAL)


def test_the_rack_helps_where_it_saves_a_sheet() -> None:
    # By hand: four halves and one part as large as the offcut; two sheets alone hold four halves.
    problem = a_problem(
        [(1220, 1220, 4), (600, 600, 1)], [(2440, 1220, 2400), (610, 610, 100, 1)], kerf=0
    )

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    check(problem, outcome)
    assert (outcome.cost, outcome.status) == (4900, Status.OPTIMAL)


def test_two_small_sheets_beat_one_large_one_when_they_are_cheaper() -> None:
    problem = a_problem([(100, 100, 2)], [(200, 100, 50), (100, 100, 20)])

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    check(problem, outcome)
    assert (outcome.cost, outcome.status) == (40, Status.OPTIMAL)


def test_at_equal_cost_fewer_sheets_are_cut() -> None:
    problem = a_problem([(100, 100, 2)], [(100, 100, 20), (200, 100, 40)])

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    check(problem, outcome)
    assert [(pattern.sheet, pattern.times) for pattern in outcome.patterns] == [(1, 1)]


def test_credit_for_a_kept_piece_can_make_the_dearer_sheet_cheaper() -> None:
    # By hand: the small sheet costs 60 net; the large one 100 - ⌊0.005 · 100 · 100⌋ = 50.
    problem = a_problem(
        [(100, 100, 1)],
        [(150, 100, 60), (200, 100, 100)],
        keep=(100, 100),
        credit=Fraction(1, 200),
    )

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    check(problem, outcome)
    assert outcome.cost == 50


def test_what_is_left_of_an_l_goes_to_the_piece_that_is_worth_keeping() -> None:
    # By hand: 60 × 40 leaves 40 × 100, or 40 × 40 and 100 × 60; only the latter is 60 wide.
    problem = a_problem([(60, 40, 1)], [(100, 100, 100)], keep=(60, 100), credit=Fraction(1, 100))

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    check(problem, outcome)
    assert outcome.cost == 100 - 60


def test_two_runs_of_cuts_waste_a_sheet_that_three_would_fill() -> None:
    # By hand: 60 × 100 beside 40 × 50 twice needs rip then crosscut; the last pair one run more.
    parts = [(60, 100, 1), (40, 50, 1), (20, 50, 2)]

    three = a_problem(parts, [(100, 100, 1)], stages=3)
    two = a_problem(parts, [(100, 100, 1)], stages=2)
    in_three = solve(three, budget=so_much_work(20), seed=0)
    in_two = solve(two, budget=so_much_work(20), seed=0)

    check(three, in_three)
    check(two, in_two)
    assert (in_three.cost, in_two.cost) == (1, 2)


def test_one_run_of_cuts_yields_strips_of_full_height_only() -> None:
    strips = a_problem([(30, 100, 3)], [(100, 100, 1)], stages=1)
    halves = a_problem([(50, 50, 1)], [(100, 100, 1)], stages=1)

    of_strips = solve(strips, budget=so_much_work(20), seed=0)

    check(strips, of_strips)
    assert of_strips.cost == 1
    assert solve(halves, budget=so_much_work(20), seed=0).status is Status.IMPOSSIBLE


def test_a_part_that_fits_no_sheet_is_named_missing() -> None:
    problem = a_problem([(50, 50, 2), (300, 10, 3)], [(200, 200, 1)], turn=True)

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    assert (outcome.status, outcome.missing, outcome.patterns) == (Status.IMPOSSIBLE, (0, 3), ())


def test_too_few_sheets_are_proven_too_few_by_weight() -> None:
    # Two parts above half both ways never share a sheet; areas alone would allow it.
    problem = a_problem([(60, 60, 3)], [(100, 100, 10, 2)])

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    assert (outcome.status, outcome.missing, outcome.patterns) == (Status.IMPOSSIBLE, (1,), ())
    assert len(outcome.rows) == 1


def test_a_pinwheel_on_its_only_sheet_is_proven_impossible() -> None:
    # Its area is one sheet exactly; no weights of sizes refute it, weights of whole parts do.
    problem = a_problem([(3, 2, 2), (2, 3, 2), (1, 1, 1)], [(5, 5, 1, 1)])

    outcome = solve(problem, budget=so_much_work(60), seed=0)

    assert outcome.status is Status.IMPOSSIBLE
    assert outcome.weights
    assert sum(outcome.missing) >= 1


def test_too_few_sheets_without_time_for_a_proof_are_not_called_impossible() -> None:
    problem = a_problem([(3, 2, 2), (2, 3, 2), (1, 1, 1)], [(5, 5, 1, 1)])

    outcome = solve(problem, budget=so_much_work(3), seed=0)

    assert outcome.status is Status.UNKNOWN
    assert sum(outcome.missing) >= 1
    assert outcome.patterns == ()


def test_equal_parts_of_two_jobs_keep_their_own_names_and_turns() -> None:
    problem = a_problem([(30, 50, 2), (50, 30, 1)], [(100, 50, 1)], turn=True)

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    check(problem, outcome)
    assert outcome.cost == 1


def test_scarce_sheets_are_filled_rather_than_given_up() -> None:
    problem = a_problem([(50, 100, 4), (25, 50, 8)], [(100, 100, 10, 3)])

    outcome = solve(problem, budget=so_much_work(40), seed=0)

    check(problem, outcome)
    assert outcome.cost == 30


def test_no_parts_cost_nothing() -> None:
    problem = a_problem([(50, 50, 0)], [(100, 100, 10)])

    outcome = solve(problem, budget=so_much_work(5), seed=0)

    assert (outcome.status, outcome.cost, outcome.patterns) == (Status.OPTIMAL, 0, ())


def test_progress_is_told_with_falling_costs_and_true_bounds() -> None:
    problem = a_problem([(37, 53, 9), (61, 29, 8), (44, 44, 7)], [(100, 100, 10)], kerf=2)
    told: list[tuple[int, int]] = []

    outcome = solve(
        problem,
        budget=so_much_work(20),
        seed=0,
        progress=lambda cost, bound: told.append((cost, bound)),
    )

    assert told
    assert [cost for cost, _ in told] == sorted((cost for cost, _ in told), reverse=True)
    assert all(bound <= outcome.cost for _, bound in told)
    assert told[-1] == (outcome.cost, outcome.bound)


def test_no_cut_divides_what_is_left_over_anyway() -> None:
    problem = a_problem([(30, 20, 1)], [(100, 100, 10)], kerf=1)

    outcome = solve(problem, budget=so_much_work(5), seed=0)

    (pattern,) = outcome.patterns
    assert sawn(problem, pattern).runs == 2


def test_hundreds_of_strips_side_by_side_are_written_as_cuts() -> None:
    problem = a_problem([(10, 500, 900)], [(11_697, 500, 100)], kerf=3)

    outcome = solve(problem, budget=so_much_work(5), seed=0)

    check(problem, outcome)
    assert (outcome.cost, outcome.status) == (100, Status.OPTIMAL)
