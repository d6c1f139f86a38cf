"""Reworking, regrouping and tidying: the parts stay the same, the cost never rises."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from random import Random
from typing import Any

import numpy as np
import pytest

from benchmarks.lengths_sets import batch
from optimiser.solvers.lengths import rework as module
from optimiser.solvers.lengths.combine import combine
from optimiser.solvers.lengths.greedy import best_fit, start_values
from optimiser.solvers.lengths.plans import Layout, cost_of, missing_from
from optimiser.solvers.lengths.prepare import Ready, prepare
from optimiser.solvers.lengths.pricing import Pricer
from optimiser.solvers.lengths.regroup import draw_group
from optimiser.solvers.lengths.rework import rework
from optimiser.solvers.lengths.tidy import rank, tidy
from optimiser.solvers.protocol import Budget
from tests.solvers.lengths.builders import a_problem, cut, faults


def stock_overdrawn(ready: Ready, plan: Mapping[Layout, int]) -> list[int]:
    used = [0] * len(ready.kinds)
    for (kind, _), times in plan.items():
        used[kind] += times
    return [k for k, n in enumerate(used) if n > ready.most(k)]


@pytest.mark.parametrize("seed", range(6))
def test_reworked_pieces_hold_the_same_parts_for_no_more_money(seed: int) -> None:
    ready = prepare(batch(3, seed))
    plan = best_fit(ready)

    better = rework(ready, plan, start_values(ready, 1.02), seed, Budget.of(0.2), until=0.2)

    assert not any(missing_from(ready, better))
    assert stock_overdrawn(ready, better) == []
    assert all(ready.fill(items) <= ready.kinds[kind].capacity for kind, items in better)
    assert cost_of(ready, better) < cost_of(ready, plan)


@pytest.mark.parametrize("seed", range(4))
def test_the_compiled_rounds_do_what_their_plain_twin_does(seed: int) -> None:
    ready = prepare(batch(1, seed))
    pieces = module._spread(best_fit(ready))[1]
    prices = start_values(ready, 1.02) / 100.0
    compiled, plain = (module._State(ready, pieces, prices, seed + 1) for _ in range(2))

    rounds: Any = module._rounds
    saved = compiled.run(40, rounds)
    with pytest.MonkeyPatch.context() as patch:
        for name in ("_take_apart", "_loss", "_best_piece", "_replace", "_fill", "_net", "_random"):
            patch.setattr(module, name, getattr(module, name).py_func)
        with np.errstate(over="ignore"):
            saved_plainly = plain.run(40, rounds.py_func)

    assert saved == saved_plainly
    assert module._gather({}, compiled) == module._gather({}, plain)


def test_a_group_of_layouts_goes_back_into_the_plan_it_came_from() -> None:
    ready = prepare(batch(5, 0))
    plan = best_fit(ready)
    losses = dict.fromkeys(plan, 0.0)

    drawn = draw_group(ready, plan, losses, Random(3))

    assert 0 < len(drawn.plan) < len(plan)
    assert drawn.joined(drawn.plan) == plan
    assert not any(missing_from(drawn.ready, drawn.plan))
    assert stock_overdrawn(drawn.ready, drawn.plan) == []
    assert cost_of(drawn.ready, drawn.plan) + cost_of(ready, drawn.rest) == cost_of(ready, plan)


def test_at_equal_cost_the_plan_with_fewer_layouts_is_chosen() -> None:
    """Six 70 and six 30 from lengths of 100: 70 + 30 six times over is one layout."""
    ready = prepare(a_problem({70: 6, 30: 6, 50: 4, 40: 2}, [(100, 10, None)]))
    mixed = {
        (0, ((0, 1), (3, 1))): 5,
        (0, ((0, 1),)): 1,
        (0, ((1, 2),)): 1,
        (0, ((1, 1), (2, 1))): 2,
        (0, ((3, 1),)): 1,
    }
    assert not any(missing_from(ready, mixed))
    prices = np.array([7.0, 5.0, 4.0, 3.0])

    plan, _ = tidy(ready, Pricer(ready), mixed, prices, mixed, Budget.of(2.0))

    assert not any(missing_from(ready, plan))
    assert rank(ready, plan) < rank(ready, mixed)
    # 6 of 70 + 30, 2 of 50 + 50 and one 40 + 40: nothing needs fewer pieces or layouts.
    assert (rank(ready, plan).pieces, rank(ready, plan).layouts) == (9, 3)


def test_the_parts_of_three_layouts_are_cut_by_two_where_that_costs_no_more() -> None:
    """Ten 50, six 30 and four 20 from five lengths of 100, in three layouts: two do as well."""
    ready = prepare(a_problem({50: 10, 30: 6, 20: 4}, [(150, 10, None)]))
    three = {
        (0, ((0, 2), (1, 1))): 3,
        (0, ((0, 2), (2, 2))): 1,
        (0, ((0, 2), (1, 1), (2, 1))): 1,
        (0, ((1, 2), (2, 1))): 1,
    }
    assert not any(missing_from(ready, three))

    fewer = combine(ready, three, Budget.of(5.0))

    assert not any(missing_from(ready, fewer))
    assert cost_of(ready, fewer) <= cost_of(ready, three)
    assert all(ready.fill(items) <= 150 for _, items in fewer)
    assert len(fewer) == 2


@pytest.mark.parametrize("seed", range(8))
def test_combined_layouts_yield_the_same_parts_from_the_stock_there_is(seed: int) -> None:
    ready = prepare(batch(2, seed))
    plan = best_fit(ready)

    fewer = combine(ready, plan, Budget.of(1.0))

    assert not any(missing_from(ready, fewer))
    assert stock_overdrawn(ready, fewer) == []
    assert all(ready.fill(items) <= ready.kinds[kind].capacity for kind, items in fewer)
    assert cost_of(ready, fewer) <= cost_of(ready, plan)
    assert len(fewer) <= len(plan)


def test_of_plans_alike_the_one_with_the_longest_offcut_is_chosen() -> None:
    """Two lengths, 40 + 40 and 60 + 30: kept apart they leave 20 and 10, together 30 at best."""
    ready = prepare(a_problem({40: 2, 60: 1, 30: 1}, [(100, 10, None)], keep=5))
    even = {(0, ((0, 1), (2, 1))): 1, (0, ((1, 2),)): 1}

    plan, _ = tidy(ready, Pricer(ready), even, np.array([6.0, 4.0, 3.0]), even, Budget.of(2.0))

    assert rank(ready, plan).shorter_by == 70  # 60 + 40 leaves nothing, 40 + 30 leaves 30


def test_the_trade_has_fewer_layouts_for_a_quarter_of_a_percent_at_most() -> None:
    problem = batch(8, 2)

    outcome = cut(problem, seconds=3.0)

    assert outcome.trade_off is not None
    patterns, cost = outcome.trade_off
    assert len(patterns) < len(outcome.patterns)
    assert outcome.cost <= cost <= outcome.cost * Fraction(401, 400)
    made = [0] * len(problem.sizes)
    for pattern in patterns:
        for i, n in enumerate(pattern.counts):
            made[i] += n * pattern.times
    assert tuple(made) == problem.demands
    assert faults(problem, outcome) == []
