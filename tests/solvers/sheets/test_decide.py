"""The exact model of small orders: against an integer programme over plates (HiGHS)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.decide import Decision, decide, is_small
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.outcome import written
from optimiser.solvers.sheets.pool import net_of, step_of
from optimiser.solvers.sheets.problem import SheetsProblem, Way
from optimiser.solvers.sheets.solve import solve
from optimiser.solvers.sheets.table import kinds_of
from tests.solvers.sheets.exact import least_cost
from tests.solvers.sheets.shop import a_problem, check, sheets_used, so_much_work

# Berkey and Wang 1987, 20 parts, as published: sheets of 100 × 100. Class 10, instance 9, and class
# 7, instance 5.
CLASS_10 = [
    (18, 27), (99, 71), (49, 30), (37, 45), (7, 35), (28, 45), (93, 94), (21, 24), (7, 5),
    (18, 31), (99, 20), (18, 76), (68, 87), (21, 28), (77, 7), (26, 18), (42, 30), (34, 37),
    (96, 56), (97, 33),
]  # fmt: skip
CLASS_7 = [
    (97, 48), (71, 18), (9, 46), (94, 49), (82, 22), (67, 33), (96, 25), (94, 19), (15, 7),
    (71, 8), (90, 66), (68, 1), (78, 4), (84, 46), (99, 20), (84, 44), (87, 13), (69, 45),
    (78, 34), (74, 49),
]  # fmt: skip


def published(sizes: list[tuple[int, int]], *, turn: bool) -> SheetsProblem:
    return a_problem([(w, h, 1) for w, h in sizes], [(100, 100, 1000)], turn=turn)


def decided(problem: SheetsProblem, cost: int, seconds: float = 60.0) -> Decision:
    kinds = kinds_of(problem)
    generator = Generator(problem, kinds, prove(problem), so_much_work(100_000))
    generator.start()
    generator.run(lambda: False)
    prices = generator.priced()
    assert prices is not None
    return decide(problem, kinds, *prices, cost, seconds)


def test_a_published_order_gets_the_five_sheets_that_no_search_found() -> None:
    problem = published(CLASS_10, turn=False)

    decision = decided(problem, 6000)

    assert decision.rows == ()
    assert decision.pool is not None
    kinds = kinds_of(problem)
    plan = decision.pool.cheapest(kinds, 6000, 5000, 60.0)
    assert plan is not None
    outcome = written(problem, kinds, plan, prove(problem), 0.0, "exact model")
    check(problem, outcome)
    assert sheets_used(outcome) == 5


def test_a_published_order_needs_six_sheets_which_sets_that_fit_do_not_prove() -> None:
    problem = published(CLASS_7, turn=True)

    outcome = solve(problem, budget=so_much_work(3000), seed=0)

    check(problem, outcome)
    assert outcome.status is Status.OPTIMAL
    assert sheets_used(outcome) == 6
    assert replace(outcome, narrowed=()).bound == 6000
    assert len(outcome.narrowed) > 1


def test_a_search_of_little_time_lists_little() -> None:
    problem = published(CLASS_7, turn=True)

    assert decided(problem, 6000).rows
    assert decided(problem, 6000, seconds=0.01) == Decision()


def test_an_order_with_rules_for_the_saw_is_left_to_others() -> None:
    problem = published(CLASS_7, turn=True)

    assert is_small(problem, kinds_of(problem), 6)
    for ruled in (replace(problem, max_stages=3), replace(problem, first_cut=Way.RIP)):
        assert not is_small(ruled, kinds_of(ruled), 6)


def test_orders_of_many_parts_in_all_or_on_a_sheet_are_left_to_others() -> None:
    problem = published(CLASS_7, turn=True)
    large = replace(problem, demands=(9,) * len(CLASS_7))

    assert not is_small(large, kinds_of(large), 60)
    assert not is_small(problem, kinds_of(problem), 2)


@st.composite
def small_orders(draw: st.DrawFn) -> SheetsProblem:
    parts = draw(
        st.lists(
            st.tuples(st.integers(1, 7), st.integers(1, 7), st.integers(1, 3)),
            min_size=1,
            max_size=4,
        )
    )
    sheets: list[tuple[int, int, int] | tuple[int, int, int, int]] = [(8, 7, 10)]
    if draw(st.booleans()):
        sheets.append(
            (draw(st.integers(3, 9)), draw(st.integers(3, 9)), draw(st.integers(2, 9)), 1)
        )
    if draw(st.booleans()):
        sheets.append((draw(st.integers(3, 9)), draw(st.integers(3, 9)), draw(st.integers(5, 12))))
    return a_problem(parts, sheets, turn=draw(st.booleans()), kerf=draw(st.integers(0, 1)))


@settings(max_examples=120, deadline=None, derandomize=True)
@given(small_orders(), st.integers(0, 12))
def test_what_is_decided_is_so(problem: SheetsProblem, above: int) -> None:
    least = least_cost(problem)
    assume(least is not None)
    assert least is not None

    decision = decided(problem, least + above)

    step = step_of(problem)
    # A plan costs a whole number of steps.
    most = (least + above - 1) // step * step
    if most < least:
        assert decision.pool is None or (
            decision.pool.cheapest(kinds_of(problem), least, 0, 60.0) is None
        )
        return
    # There is a cheaper plan: nothing rules it out, and the layouts listed make the cheapest.
    assert decision.rows == ()
    assert decision.pool is not None
    plan = decision.pool.cheapest(kinds_of(problem), most + step, 0, 60.0)
    assert plan is not None
    assert net_of(problem, plan) == least
    check(problem, written(problem, kinds_of(problem), plan, prove(problem), 0.0, "exact model"))


@settings(max_examples=40, deadline=None, derandomize=True)
@given(small_orders(), st.fractions(0, Fraction(1, 20), max_denominator=40))
def test_no_plan_with_credit_is_ruled_out(problem: SheetsProblem, credit: Fraction) -> None:
    least = least_cost(problem)
    assume(least is not None)
    problem = replace(problem, credit=credit, keep=(2, 2))
    outcome = solve(problem, budget=so_much_work(150), seed=0)

    check(problem, outcome)
    # A plan of that cost stands, so none of at most that cost is ruled out.
    assert decided(problem, outcome.cost + 1).rows == ()
