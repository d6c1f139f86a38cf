"""Ways to choose held against each other: what was planned once is never given up for less."""

from __future__ import annotations

from dataclasses import replace
from itertools import count
from types import SimpleNamespace
from typing import Any

import pytest

from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning import plan as planning
from optimiser.planning.better import better_outcome
from optimiser.planning.plan import plan_cutting
from optimiser.solvers import protocol
from optimiser.solvers.lengths.problem import LengthsOutcome, Pattern
from optimiser.solvers.lengths.solve import solve as solve_lengths
from optimiser.solvers.protocol import Budget, Progress, Status
from optimiser.solvers.sheets.problem import SheetsOutcome
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


def two_ways(seconds: float) -> CuttingRequest:
    """The first way takes 5 of 600, the second 4 of 600 and 2 of 450, from lengths of 1000."""
    return a_request(
        a_length_material(
            a_length_part("first", 600, 5),
            a_length_part("second", 600, 4),
            a_length_part("short", 450, 4),
            stock=[a_stock_length("1000", 1000, 100)],
            kerf=0,
            trim=0,
        ),
        choices=(Choice(id="way", options=(("first",), ("second", "short"))),),
        seconds=seconds,
    )


def test_a_way_that_only_more_time_makes_cheap_is_not_given_up(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Quick plans of the first way are made to look dear, as large orders' quick plans may be."""

    def slow(problem: Any, *, budget: Budget, seed: int, progress: Progress) -> LengthsOutcome:
        found = solve_lengths(problem, budget=budget, seed=seed, progress=progress)
        if problem.demands[0] and budget.seconds < 0.15:
            return replace(found, cost=found.cost + 200, bound=0, status=Status.FEASIBLE)
        return replace(found, bound=found.cost - 1, status=Status.FEASIBLE, exhausted=False)

    monkeypatch.setattr(planning, "solve_lengths", slow)
    ticks = count()
    clock = SimpleNamespace(monotonic=lambda: next(ticks) / 5_000)
    monkeypatch.setattr(protocol, "time", clock)
    request = two_ways(2.0)

    plan = plan_cutting(request)

    # By hand: 5 lengths in the first way; 4 of 600 and 4 of 450 take 6.
    assert (plan.chosen[0].option, plan.money.net) == (0, 500)
    assert check_plan(request, plan) == ()


def test_two_workers_find_what_one_finds() -> None:
    request = two_ways(1.0)
    board = a_sheet_material(
        a_board_part("panel", 600, 600, 3), stock=[a_stock_sheet("s", 1000, 1000, 50)]
    )
    request = replace(request, sheets=(board,))

    one, two = plan_cutting(request), plan_cutting(request, workers=2)

    assert check_plan(request, two) == ()
    assert (one.money.net, one.chosen) == (two.money.net, two.chosen) == (650, one.chosen)


def an_outcome(cost: int, bound: int, layouts: int = 1) -> LengthsOutcome:
    return LengthsOutcome(
        status=Status.FEASIBLE,
        patterns=(Pattern(stock=0, counts=(1,), times=1),) * layouts,
        cost=cost,
        bound=bound,
        rows=(((bound,), 1),),
        missing=(0,),
        method=f"for {cost}",
        seconds=1.0,
    )


def test_of_two_outcomes_the_cheaper_stands_with_the_better_proof() -> None:
    cheap, proven = an_outcome(90, 70), an_outcome(95, 90)

    for old, new in ((cheap, proven), (proven, cheap)):
        better = better_outcome(old, new)
        assert isinstance(better, LengthsOutcome)
        assert (better.cost, better.method) == (90, "for 90")
        assert (better.bound, better.rows) == (90, (((90,), 1),))
        assert better.status is Status.OPTIMAL
        assert better.seconds == 2.0


def test_a_better_proof_of_a_board_is_taken_with_all_its_reasons() -> None:
    cheap = SheetsOutcome(
        status=Status.FEASIBLE,
        patterns=(),
        cost=90,
        bound=70,
        rows=((((1, 1),), ((1, 1),)),),
        weights=(),
        once=(),
        missing=(),
        method="cheap",
        seconds=1.0,
    )
    proven = replace(cheap, cost=95, bound=90, weights=((1,),), once=((2,),), method="proven")

    for old, new in ((cheap, proven), (proven, cheap)):
        better = better_outcome(old, new)
        assert isinstance(better, SheetsOutcome)
        assert (better.cost, better.bound, better.method) == (90, 90, "cheap")
        assert (better.weights, better.once) == (((1,),), ((2,),))
        assert better.status is Status.OPTIMAL
