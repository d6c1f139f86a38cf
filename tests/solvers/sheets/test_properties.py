"""Any problem: the plan can be cut, the demand is met, the bound is never above the cost."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets.bounds import Proof
from optimiser.solvers.sheets.outcome import read_back, written
from optimiser.solvers.sheets.problem import SheetsProblem, Way
from optimiser.solvers.sheets.solve import solve
from optimiser.solvers.sheets.table import kinds_of
from tests.solvers.sheets.exact import least_cost
from tests.solvers.sheets.shop import a_problem, check, so_much_work


@st.composite
def problems(draw: st.DrawFn) -> SheetsProblem:
    """Make a problem with all that may vary."""
    sheets = draw(
        st.lists(
            st.tuples(
                st.integers(10, 60),
                st.integers(10, 60),
                st.integers(1, 99),
                st.sampled_from((1, 2, 99)),
            ),
            min_size=1,
            max_size=3,
        )
    )
    parts = draw(
        st.lists(
            st.tuples(st.integers(1, 40), st.integers(1, 40), st.integers(0, 5)),
            min_size=1,
            max_size=6,
        )
    )
    # A credit above a sheet's price would make empty sheets a gain; no caller asks for that.
    cheapest = min(Fraction(cost, width * height) for width, height, cost, _ in sheets)
    return a_problem(
        parts,
        sheets,
        turn=draw(st.booleans()),
        kerf=draw(st.integers(0, 4)),
        stages=draw(st.sampled_from((None, None, 1, 2, 3))),
        keep=(draw(st.integers(1, 30)), draw(st.integers(1, 30))),
        first_cut=draw(st.sampled_from((None, None, Way.RIP, Way.CROSS))),
        credit=cheapest * draw(st.sampled_from((Fraction(0), Fraction(1, 2), Fraction(9, 10)))),
    )


@settings(max_examples=120, deadline=None, derandomize=True)
@given(problems(), st.integers(0, 2**40))
def test_every_plan_can_be_cut_and_every_bound_holds(problem: SheetsProblem, seed: int) -> None:
    outcome = solve(problem, budget=so_much_work(6), seed=seed)

    if outcome.status in (Status.OPTIMAL, Status.FEASIBLE):
        check(problem, outcome)
        assert (outcome.status is Status.OPTIMAL) == (outcome.bound == outcome.cost)
        assert bound_from_rows(problem, outcome.rows) >= outcome.bound
    else:
        assert outcome.patterns == ()
        assert 0 < sum(outcome.missing) <= sum(problem.demands)


@settings(max_examples=120, deadline=None, derandomize=True)
@given(problems())
def test_a_search_goes_on_from_the_plan_it_is_given(problem: SheetsProblem) -> None:
    before = solve(problem, budget=so_much_work(8), seed=1, simple=False)
    if not before.patterns:
        return

    after = solve(problem, budget=so_much_work(1), seed=2, known=before)

    check(problem, after)
    assert after.cost <= before.cost
    kinds = kinds_of(problem)
    plan = read_back(problem, kinds, before.patterns)
    assert sum(before.times for before in before.patterns) == len(plan)
    proof = Proof(bound=before.bound, rows=before.rows, short=False)
    again = written(problem, kinds, plan, proof, before.seconds, before.method)
    assert again.cost == before.cost
    assert Counter(read_back(problem, kinds, again.patterns)) == Counter(plan)


def bound_from_rows(
    problem: SheetsProblem,
    rows: tuple[tuple[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]], ...],
) -> Fraction:
    """Work out what rows prove, by plain counting of sheets; 0 without rows."""
    best = Fraction(0)
    areas = sum(
        w * h * d for w, h, d in zip(problem.widths, problem.heights, problem.demands, strict=True)
    )
    for across, along in rows:
        first, second = dict(across), dict(along)
        demand = 0
        for part, copies in enumerate(problem.demands):
            w, h = problem.widths[part], problem.heights[part]
            if copies:
                ways = [first[w] * second[h]]
                ways += [first[h] * second[w]] if problem.turns[part] else []
                demand += copies * min(ways)
        carried = {0: Fraction(0)}
        parts = sum(problem.demands)
        for sheet in problem.sheets:
            most = most_weight(first, sheet.width, problem.kerf) * most_weight(
                second, sheet.height, problem.kerf
            )
            cost = sheet.cost - problem.credit * sheet.width * sheet.height
            times = parts if sheet.available is None else min(parts, sheet.available)
            for _ in range(times):
                grown = dict(carried)
                for weight, paid in carried.items():
                    total = min(demand, weight + most)
                    grown[total] = min(grown.get(total, paid + cost), paid + cost)
                if grown == carried:
                    break
                carried = grown
        best = max(best, -((-carried[demand] - problem.credit * areas) // 1) + Fraction(0))
    return best


def most_weight(weights: dict[int, int], length: int, kerf: int) -> int:
    """Return the most weight that fits a length, each size as often as it fits."""
    most = [0] * (length + kerf + 1)
    for x in range(1, len(most)):
        most[x] = max(
            [most[x - 1]]
            + [most[x - size - kerf] + w for size, w in weights.items() if size + kerf <= x]
        )
    return most[-1]


TINY = [
    ([(3, 2, 2), (2, 3, 2), (1, 1, 1)], [(5, 5, 3)], 0),
    ([(4, 3, 3), (2, 2, 5), (5, 1, 4)], [(7, 6, 5), (5, 5, 3)], 0),
    ([(3, 3, 4), (2, 5, 3), (4, 1, 3)], [(9, 7, 4)], 1),
    ([(6, 2, 3), (3, 3, 3), (1, 4, 5)], [(8, 8, 7), (6, 5, 3)], 1),
    ([(5, 4, 2), (3, 2, 6), (2, 2, 3)], [(10, 6, 6), (6, 6, 4, 1)], 0),
    ([(7, 3, 2), (4, 4, 2), (2, 3, 4), (1, 5, 3)], [(9, 9, 8), (7, 4, 3, 2)], 1),
]


@pytest.mark.parametrize("turn", [False, True])
@pytest.mark.parametrize(("parts", "sheets", "kerf"), TINY)
def test_on_tiny_sheets_the_plan_costs_what_an_integer_programme_says(
    parts: list[tuple[int, int, int]],
    sheets: list[tuple[int, int, int]],
    kerf: int,
    turn: bool,
) -> None:
    problem = a_problem(parts, sheets, kerf=kerf, turn=turn)

    outcome = solve(problem, budget=so_much_work(80), seed=0)

    check(problem, outcome)
    least = least_cost(problem)
    assert least is not None
    assert outcome.bound <= least <= outcome.cost
    assert outcome.cost == least


@pytest.mark.parametrize(
    ("first_cut", "sheets"), [(None, 1), (Way.CROSS, 1), (Way.RIP, 2)], ids=str
)
def test_a_saw_that_rips_first_cannot_stack_what_is_as_wide_as_the_sheet(
    first_cut: Way | None, sheets: int
) -> None:
    """Two parts as wide as the sheet need a crosscut only; a third part lets a sheet be ripped."""
    stacked = a_problem([(10, 4, 2)], [(10, 8, 5), (12, 4, 5)], first_cut=first_cut)

    outcome = solve(stacked, budget=so_much_work(20), seed=0)

    check(stacked, outcome)
    assert outcome.cost == 5 * sheets


def test_a_part_that_the_first_cut_rules_out_is_named() -> None:
    problem = a_problem([(10, 4, 2)], [(10, 8, 5)], first_cut=Way.RIP)

    outcome = solve(problem, budget=so_much_work(20), seed=0)

    assert outcome.status is Status.IMPOSSIBLE
    assert outcome.missing == (2,)


def test_the_same_seed_and_work_give_the_same_plan() -> None:
    problem = a_problem(
        [(37, 53, 9), (61, 29, 8), (44, 44, 7), (12, 70, 9)],
        [(200, 100, 20), (100, 100, 11, 2)],
        kerf=2,
        turn=True,
    )

    first = solve(problem, budget=so_much_work(20), seed=5)
    second = solve(problem, budget=so_much_work(20), seed=5)

    assert first.patterns == second.patterns
    assert first.cost == second.cost
