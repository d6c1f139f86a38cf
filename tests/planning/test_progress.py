"""Those who wait hear costs that fall and bounds that rise, and may call the work off."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from optimiser.domain.plan import Trade
from optimiser.domain.request import CuttingRequest
from optimiser.planning.better import has_fewer_layouts
from optimiser.planning.lengths import lengths_plan
from optimiser.planning.plan import plan_cutting
from optimiser.planning.progress import PlanProgress
from optimiser.solvers.lengths.problem import LengthsOutcome, Pattern
from optimiser.solvers.protocol import Status
from optimiser.units import Pence
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)


def a_long_request(seconds: float) -> CuttingRequest:
    """Enough sizes that neither material is proven at once."""
    return a_request(
        a_length_material(
            *(a_length_part(f"t{n}", 4_003 + 617 * n, 2 + n % 5) for n in range(30)),
            stock=[a_stock_length("24", 24_000, 360), a_stock_length("30", 30_000, 455)],
            kerf=30,
        ),
        a_sheet_material(
            *(a_board_part(f"b{n}", 1_500 + 310 * n, 2_000 + 170 * n, 2) for n in range(25)),
            stock=[a_stock_sheet("s", 12_200, 24_400, 2_400)],
            kerf=30,
        ),
        seconds=seconds,
    )


def test_costs_fall_and_bounds_rise_and_the_last_is_never_better_than_the_plan() -> None:
    heard: list[PlanProgress] = []

    plan = plan_cutting(a_long_request(1.5), tell=heard.append)

    assert len(heard) > 1
    assert all(b.cost <= a.cost and b.bound >= a.bound for a, b in pairwise(heard))
    assert all(a.seconds <= b.seconds for a, b in pairwise(heard))
    assert heard[-1].cost >= plan.money.net


def test_work_that_is_called_off_still_gives_the_best_checked_plan_so_far() -> None:
    request = a_long_request(60.0)
    asked = 0

    def after_some_looks() -> bool:
        nonlocal asked
        asked += 1
        return asked > 200

    plan = plan_cutting(request, cancelled=after_some_looks)

    assert check_plan(request, plan) == ()
    assert plan.seconds < 30.0


def test_work_called_off_before_it_began_still_gives_a_plan() -> None:
    request = a_long_request(60.0)

    plan = plan_cutting(request, cancelled=lambda: True)

    assert check_plan(request, plan) == ()
    assert plan.seconds < 30.0


def test_a_trade_is_told_and_taken_only_when_asked_for() -> None:
    """Three of 60 and three of 40: mixed three times over, or each kind by itself for more."""
    material = a_length_material(
        a_length_part("long", 60, 3),
        a_length_part("short", 40, 3),
        stock=[a_stock_length("100", 100, 800), a_stock_length("60", 60, 500)],
    )
    mixed = (
        Pattern(stock=0, counts=(1, 1), times=2),
        Pattern(stock=0, counts=(0, 1), times=1),
        Pattern(stock=1, counts=(1, 0), times=1),
    )
    outcome = LengthsOutcome(
        status=Status.FEASIBLE,
        patterns=mixed,
        cost=2_900,
        bound=0,
        rows=(),
        missing=(0, 0),
        method="by hand",
        seconds=0.0,
        trade_off=((Pattern(stock=0, counts=(1, 1), times=3),), 2_400),
    )
    outcome = replace(outcome, cost=2_400 - 6)  # as if the mixed layouts cost a trifle less

    told = lengths_plan(material, a_request(material), outcome, ())
    taken = lengths_plan(material, replace(a_request(material), fewer_layouts=True), outcome, ())

    assert told.trade == Trade(layouts=1, extra=Pence(6))
    assert len(told.layouts) == 3
    assert taken.trade is None
    assert len(taken.layouts) == 1


def test_of_two_plans_near_in_cost_the_one_with_fewer_layouts_is_preferred_when_asked() -> None:
    mixed = tuple(Pattern(stock=0, counts=(1, 1), times=1) for _ in range(5))
    many = LengthsOutcome(
        status=Status.FEASIBLE,
        patterns=mixed,
        cost=10_000,
        bound=0,
        rows=(),
        missing=(0, 0),
        method="by hand",
        seconds=0.0,
    )
    few = replace(many, patterns=mixed[:3], cost=10_020)
    too_dear = replace(many, patterns=mixed[:3], cost=10_030)
    trading = replace(many, trade_off=(mixed[:2], 10_021))

    assert has_fewer_layouts(many, few)
    assert not has_fewer_layouts(few, many)
    assert not has_fewer_layouts(many, too_dear)
    assert has_fewer_layouts(too_dear, many)
    assert has_fewer_layouts(few, trading)
