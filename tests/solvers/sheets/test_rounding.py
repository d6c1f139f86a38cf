"""What is left after whole layouts are fixed is searched to its end."""

from __future__ import annotations

from optimiser.solvers.sheets.rounding import searched
from tests.solvers.sheets.shop import a_problem, so_much_work


def test_a_rest_that_is_free_already_is_searched_without_harm_for_a_goal_below_nothing() -> None:
    # What was fixed has used up more than the target: no plan of the rest can cost so little.
    problem = a_problem([(40, 40, 2)], [(100, 100, 0, 1), (100, 100, 500)])

    plan = searched(problem, goal=-300, slices=8, seed=0, budget=so_much_work(500))

    assert plan is not None
    assert [sheet for sheet, _ in plan] == [0]
