"""What is left after whole layouts are fixed is searched to its end."""

from __future__ import annotations

from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.rounding import searched
from optimiser.solvers.sheets.solve import _Run
from optimiser.solvers.sheets.table import kinds_of
from tests.solvers.sheets.shop import a_problem, so_much_work


def test_a_rest_that_is_free_already_is_searched_without_harm_for_a_goal_below_nothing() -> None:
    # What was fixed has used up more than the target: no plan of the rest can cost so little.
    problem = a_problem([(40, 40, 2)], [(100, 100, 0, 1), (100, 100, 500)])

    plan = searched(problem, goal=-300, slices=8, seed=0, budget=so_much_work(500))

    assert plan is not None
    assert [sheet for sheet, _ in plan] == [0]


def test_building_layouts_for_set_covering_ends_with_its_share_of_the_time() -> None:
    # Thousands of them took ten seconds of a budget of two.
    parts = [(width, 60 - width // 2, 1) for width in range(13, 45)]
    problem = a_problem(parts, [(100, 130, 7), (90, 90, 5)])
    run = _Run(
        problem=problem,
        kinds=kinds_of(problem),
        budget=so_much_work(2000),
        seed=0,
        progress=None,
        prices_first=False,
    )
    run.proof = prove(problem, scales=1)
    run._first_plans()
    generator = run._generate()
    # Each reading of this clock takes a second, so a share of what is left builds a few.
    run.budget = so_much_work(60)

    run._rounded(generator)

    assert len(generator.master.columns) > 200
    assert 0 < len(run.pool.layouts) < 30
