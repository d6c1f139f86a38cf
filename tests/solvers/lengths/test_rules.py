"""Rules of the rack, the credit and the outcome, each as one sentence."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from optimiser.solvers.lengths.pool import is_impossible
from optimiser.solvers.lengths.prepare import prepare
from optimiser.solvers.lengths.solve import solve
from optimiser.solvers.protocol import Budget, Status
from tests.solvers.lengths.builders import a_problem, cut, faults, proven_by


def test_nothing_to_cut_costs_nothing() -> None:
    problem = a_problem({600: 0}, [(2400, 360, None)])

    outcome = cut(problem)

    assert (outcome.status, outcome.cost, outcome.patterns) == (Status.OPTIMAL, 0, ())


def test_no_stock_at_all_is_impossible_and_everything_is_missing() -> None:
    problem = a_problem({600: 2, 300: 1}, [])

    outcome = cut(problem)

    assert outcome.status is Status.IMPOSSIBLE
    assert outcome.missing == (2, 1)


def test_an_offcut_that_is_cheaper_than_new_stock_is_used_first() -> None:
    problem = a_problem({900: 1}, [(2400, 360, None), (1000, 70, 1)], kerf=3)

    outcome = cut(problem)

    assert faults(problem, outcome) == []
    assert (outcome.cost, outcome.patterns[0].stock) == (70, 1)


def test_a_remainder_worth_keeping_is_credited_and_a_shorter_one_is_not() -> None:
    kept = a_problem({1400: 1}, [(2400, 360, None)], kerf=3, keep=600, credit=Fraction(3, 40))
    scrap = a_problem({1900: 1}, [(2400, 360, None)], kerf=3, keep=600, credit=Fraction(3, 40))

    assert cut(kept).cost == 360 - 74  # ⌊997 · 3/40⌋
    assert cut(scrap).cost == 360


def test_two_parts_share_a_length_only_where_that_costs_less_after_credit() -> None:
    """Two offcuts of 1000 would earn 75 each; one shared 4800 earns nothing and saves more."""
    problem = a_problem(
        {1400: 2}, [(2400, 360, None), (2810, 400, None)], kerf=3, keep=600, credit=Fraction(3, 40)
    )

    outcome = cut(problem)

    assert faults(problem, outcome) == []
    assert outcome.cost == 400


def test_an_empty_offcut_is_never_bought_for_its_credit() -> None:
    problem = a_problem(
        {500: 1}, [(600, 100, None), (9000, 10, 1)], keep=100, credit=Fraction(1, 10)
    )

    outcome = cut(problem)

    assert faults(problem, outcome) == []
    assert outcome.cost == 10 - 850
    assert len(outcome.patterns) == 1


def test_equal_sizes_from_different_jobs_are_told_apart_in_the_outcome() -> None:
    problem = a_problem({700: 3, 500: 2}, [(2400, 1, None)], kerf=3)
    twice = type(problem)(
        sizes=(700, 500, 700),
        demands=(1, 2, 2),
        kerf=3,
        stocks=problem.stocks,
        keep=0,
        credit=Fraction(0),
    )

    outcome = cut(twice)

    assert faults(twice, outcome) == []
    assert outcome.cost == cut(problem).cost == 2


def test_equal_offcuts_are_each_used_no_more_than_once() -> None:
    problem = a_problem({900: 3}, [(1000, 10, 1), (1000, 10, 1), (1000, 90, None)])

    outcome = cut(problem)

    assert faults(problem, outcome) == []
    assert outcome.cost == 110


def test_scarce_stock_that_fits_by_length_but_not_by_piece_is_proven_impossible() -> None:
    """Four of 60 in two lengths of 125 hold; five of 49 in two of 125 do not, though 245 < 250."""
    problem = a_problem({49: 5}, [(125, 1, 2)])

    outcome = cut(problem)

    assert outcome.status is Status.IMPOSSIBLE
    assert outcome.missing == (1,)


def test_two_stocks_with_enough_length_in_sum_may_still_hold_too_few_parts() -> None:
    """4 + 4 + 3 is 6 + 5 by length, but neither stock holds two of the three."""
    outcome = cut(a_problem({4: 2, 3: 1}, [(6, 1, 1), (5, 1, 1)]))

    assert outcome.status is Status.IMPOSSIBLE
    assert outcome.missing == (0, 1)


def test_the_exhaustive_proof_of_shortage_tells_scarce_from_enough() -> None:
    too_few = prepare(a_problem({49: 5}, [(125, 1, 2)]))
    enough = prepare(a_problem({49: 4}, [(125, 1, 2)]))

    assert is_impossible(too_few, [(0, ((0, 2),))], seconds=2.0, seed=0)
    assert not is_impossible(enough, [(0, ((0, 2),))], seconds=2.0, seed=0)


def test_progress_hears_falling_costs_and_rising_bounds_and_the_last_is_the_outcome() -> None:
    problem = a_problem({45: 97, 36: 610, 31: 395, 14: 211}, [(100, 1, None)])
    heard: list[tuple[int, int]] = []

    outcome = solve(
        problem,
        budget=Budget.of(2.0),
        seed=0,
        progress=lambda cost, bound: heard.append((cost, bound)),
    )

    assert heard[-1] == (outcome.cost, outcome.bound)
    assert all(b[0] <= a[0] and b[1] >= a[1] for a, b in pairwise(heard))


def test_a_spent_budget_still_gives_a_plan() -> None:
    problem = a_problem({1130: 40, 871: 33, 1203: 21}, [(4800, 725, None), (2400, 360, None)])

    outcome = solve(problem, budget=Budget.of(0.0), seed=0)

    assert faults(problem, outcome) == []


def test_the_same_seed_gives_the_same_proven_outcome() -> None:
    problem = a_problem({1380: 22, 1520: 25, 1560: 12, 2150: 18, 2200: 20}, [(5600, 1, None)])

    first, second = cut(problem, seed=7), cut(problem, seed=7)

    assert first.status is Status.OPTIMAL
    assert (first.patterns, first.rows) == (second.patterns, second.rows)


def test_the_rows_prove_the_bound_when_recomputed_by_listing_patterns() -> None:
    problem = a_problem(
        {7: 4, 5: 3, 4: 5}, [(9, 5, None), (14, 9, 2), (16, 10, 3)], keep=2, credit=Fraction(1, 3)
    )

    outcome = cut(problem)

    assert proven_by(problem, outcome.rows) == outcome.bound


def test_a_credit_with_a_monstrous_denominator_earns_the_same_whole_pence() -> None:
    monstrous = Fraction(0.075)
    problem = a_problem(
        {14_003: 3, 9_001: 4}, [(24_000, 3600, None)], kerf=30, keep=600, credit=monstrous
    )

    outcome = cut(problem)

    assert faults(problem, outcome) == []
