"""Time, seed and watchers: plans come early, never get dearer, and come again the same."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.planning import plan as planning
from optimiser.planning.deciding import QUICK
from optimiser.planning.plan import plan_cutting
from optimiser.solvers.protocol import Budget, Status
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_keep,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_length,
    a_stock_sheet,
    stock_used,
)


def timeless(plan: CuttingPlan) -> CuttingPlan:
    """The plan without the seconds it took."""
    return replace(
        plan,
        seconds=0.0,
        lengths=tuple(replace(item, seconds=0.0) for item in plan.lengths),
        sheets=tuple(replace(item, seconds=0.0) for item in plan.sheets),
    )


def a_day_of_work(seed: int = 5) -> CuttingRequest:
    return a_request(
        a_length_material(
            a_length_part("stud", 2400, 9, job="a"),
            a_length_part("plate", 3600, 4, job="a"),
            a_length_part("noggin", 560, 11, job="b"),
            stock=[a_stock_length("4800", 4800, 400), a_stock_length("3600", 3600, 310)],
            offcuts=[a_length_offcut("rack 1", 1400)],
            kerf=3,
            trim=5,
        ),
        a_sheet_material(
            a_board_part("panel", 600, 1100, 5, turn=False),
            a_board_part("strip", 150, 900, 4, cut_outs=(a_cut_out(20, 20, 60, 60),)),
            stock=[a_stock_sheet("full", 1220, 2440, 1800)],
            offcuts=[a_sheet_offcut("rack 2", 700, 1150)],
            kerf=3,
            trim=10,
        ),
        keep=a_keep(length=1000, width=300, height=600, credit=Fraction(1, 2)),
        seed=seed,
        seconds=2.0,
    )


def test_the_same_request_and_seed_give_the_same_proven_plan() -> None:
    request = a_request(
        a_length_material(
            a_length_part("stud", 2400, 9),
            a_length_part("noggin", 560, 8),
            stock=[a_stock_length("4800", 4800, 400), a_stock_length("3000", 3000, 310)],
        ),
        a_sheet_material(
            a_board_part("panel", 600, 1200, 8), stock=[a_stock_sheet("full", 1200, 2400, 1800)]
        ),
        seed=7,
    )

    first, second = plan_cutting(request), plan_cutting(request)

    assert first.proven
    assert timeless(first) == timeless(second)
    assert first.seed == 7


def test_whoever_watches_sees_checked_plans_that_never_get_dearer() -> None:
    request = a_day_of_work()
    seen: list[CuttingPlan] = []

    plan = plan_cutting(request, watch=seen.append)

    assert seen
    assert seen[-1] == plan
    assert all(check_plan(request, each) == () for each in seen)
    costs = [each.money.net for each in seen]
    assert costs == sorted(costs, reverse=True)


def test_a_plan_comes_even_in_no_time_at_all() -> None:
    request = replace(a_day_of_work(), seconds=0.0)

    plan = plan_cutting(request)

    assert check_plan(request, plan) == ()


@pytest.mark.parametrize("solver", ["solve_lengths", "solve_sheets"])
def test_a_plan_that_is_not_found_at_first_glance_gets_the_time_that_is_left(
    solver: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Given scarce stock whose first plan takes longer than the quick pass, it is found later."""
    solve = getattr(planning, solver)

    def slow(problem: Any, *, budget: Budget, **given: Any) -> Any:
        found = solve(problem, budget=budget, **given)
        if budget.seconds <= QUICK:
            return replace(found, status=Status.UNKNOWN, patterns=(), missing=problem.demands)
        return found

    monkeypatch.setattr(planning, solver, slow)
    request = a_request(
        a_length_material(
            a_length_part("stud", 600, 2), stock=[a_stock_length("1000", 1000, available=2)]
        ),
        a_sheet_material(
            a_board_part("panel", 600, 600, 2), stock=[a_stock_sheet("s", 1000, 1000, available=2)]
        ),
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"1000": 2, "s": 2}
