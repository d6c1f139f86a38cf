"""Small random problems against listed patterns and an engine that the solver does not use."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import highspy
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.solvers.lengths.problem import LengthsProblem
from optimiser.solvers.protocol import Status
from tests.solvers.lengths.builders import a_problem, cut, faults, patterns_of, proven_by


def least_cost(problem: LengthsProblem) -> int | None:
    """Return the least cost over all whole numbers of listed patterns; None: there is no plan."""
    if not any(problem.demands):
        return 0
    engine = highspy.Highs()  # type: ignore[no-untyped-call]  # it has no types
    engine.silent()
    listed = [(k, p) for k in range(len(problem.stocks)) for p in patterns_of(problem, k)]
    costs = [problem.cost(k, p) for k, p in listed]
    for cost in costs:
        engine.addVar(0.0, 1000.0)
        engine.changeColCost(engine.getNumCol() - 1, float(cost))
        engine.changeColIntegrality(engine.getNumCol() - 1, highspy.HighsVarType.kInteger)
    for i, demand in enumerate(problem.demands):
        columns = [c for c, (_, p) in enumerate(listed) if p[i]]
        values = [float(listed[c][1][i]) for c in columns]
        engine.addRow(
            float(demand),
            float(demand),
            len(columns),
            np.array(columns, np.int32),
            np.array(values),
        )
    for k, stock in enumerate(problem.stocks):
        if stock.available is not None:
            columns = [c for c, (used, _) in enumerate(listed) if used == k]
            engine.addRow(
                0.0,
                float(stock.available),
                len(columns),
                np.array(columns, np.int32),
                np.ones(len(columns)),
            )
    engine.run()
    if engine.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    times = [round(value) for value in engine.getSolution().col_value]
    return sum(n * cost for n, cost in zip(times, costs, strict=True))


def a_random_problem(seed: int) -> LengthsProblem:
    """Draw up to five sizes and three stocks, one in two of them scarce, half with credit."""
    rng = Random(seed)
    sizes = rng.sample(range(15, 60), rng.randint(2, 5))
    parts = {size: rng.randint(1, 6) for size in sizes}
    stocks: list[tuple[int, int, int | None]] = []
    for _ in range(rng.randint(1, 3)):
        usable = rng.randint(55, 130)
        stocks.append((usable, usable * 3 + rng.randint(-20, 20), rng.choice([None, None, 1, 4])))
    return a_problem(
        parts,
        stocks,
        kerf=rng.choice([0, 1, 3]),
        keep=rng.choice([5, 20]),
        credit=rng.choice([Fraction(0), Fraction(3, 2), Fraction(7, 5)]),
    )


@pytest.mark.parametrize("seed", range(24))
def test_small_random_problems_reach_the_cost_that_listing_every_pattern_gives(seed: int) -> None:
    problem = a_random_problem(seed)
    best = least_cost(problem)

    outcome = cut(problem, seconds=0.8)

    if best is None:
        assert outcome.status in (Status.IMPOSSIBLE, Status.UNKNOWN)
        assert any(outcome.missing)
    else:
        assert faults(problem, outcome) == []
        assert outcome.cost == best
        assert outcome.bound <= best


@st.composite
def problems(draw: st.DrawFn) -> LengthsProblem:
    """Draw problems of any odd shape: equal sizes, no demand, parts too long, free offcuts."""
    count = draw(st.integers(1, 4))
    sizes = draw(st.lists(st.integers(1, 40), min_size=count, max_size=count))
    demands = draw(st.lists(st.integers(0, 4), min_size=count, max_size=count))
    rows = draw(
        st.lists(
            st.tuples(st.integers(10, 60), st.integers(0, 80), st.sampled_from([None, 0, 1, 2])),
            min_size=1,
            max_size=2,
        )
    )
    base = a_problem(
        {},
        rows,
        kerf=draw(st.integers(0, 3)),
        keep=draw(st.integers(0, 15)),
        credit=draw(st.sampled_from([Fraction(0), Fraction(1, 3), Fraction(5, 7)])),
    )
    return LengthsProblem(
        sizes=tuple(sizes),
        demands=tuple(demands),
        kerf=base.kerf,
        stocks=base.stocks,
        keep=base.keep,
        credit=base.credit,
    )


@settings(max_examples=40, deadline=None, derandomize=True)
@given(problems())
def test_whatever_is_asked_the_plan_is_exact_and_the_bound_holds(problem: LengthsProblem) -> None:
    best = least_cost(problem)

    outcome = cut(problem, seconds=0.15)

    if outcome.status in (Status.IMPOSSIBLE, Status.UNKNOWN):
        assert outcome.patterns == ()
        assert any(outcome.missing)
        assert best is None or outcome.status is Status.UNKNOWN
    else:
        assert faults(problem, outcome) == []
        assert best is not None
        assert outcome.bound <= best <= outcome.cost
        assert outcome.status is not Status.OPTIMAL or outcome.cost == best
        proven = proven_by(problem, outcome.rows)
        assert proven is not None
        assert outcome.bound <= proven or not outcome.rows
        assert proven <= best
