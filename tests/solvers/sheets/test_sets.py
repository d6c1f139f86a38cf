"""Every set of parts that a sheet yields, against an integer programme over plates (HiGHS)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.sets import fitting_sets, prove_by_sets
from optimiser.solvers.sheets.solve import solve
from optimiser.solvers.sheets.table import kinds_of
from optimiser.verify.wanted_once import WantedPart, most_of_sets
from tests.solvers.sheets.exact import least_cost
from tests.solvers.sheets.shop import a_problem, check, sheets_used, so_much_work

# Berkey and Wang 1987, class 5, 20 parts, instance 6, as published: sheets of 100 × 100.
CLASS_5 = [
    (14, 69), (74, 13), (23, 86), (84, 42), (12, 72), (97, 96), (60, 71), (57, 86), (77, 62),
    (41, 56), (7, 56), (62, 84), (29, 97), (63, 82), (53, 62), (22, 93), (25, 64), (50, 96),
    (21, 45), (92, 1),
]  # fmt: skip


def class_5(credit: Fraction = Fraction(0)) -> SheetsProblem:
    return a_problem([(w, h, 1) for w, h in CLASS_5], [(100, 100, 1000)], credit=credit)


def test_a_published_order_needs_nine_sheets_which_no_table_proves() -> None:
    problem = class_5()
    known = prove(problem)

    outcome = solve(problem, budget=so_much_work(2000), seed=0)

    check(problem, outcome)
    assert known.bound == 8000
    assert prove_by_sets(problem, kinds_of(problem), known, 60.0).bound == 9000
    # A search of a few hundredths of a second has no time to list them.
    assert prove_by_sets(problem, kinds_of(problem), known, 0.01) is known
    assert outcome.status is Status.OPTIMAL
    assert sheets_used(outcome) == 9


def test_credit_for_waste_lowers_the_bound_by_sets_to_what_it_may_earn() -> None:
    problem = class_5(credit=Fraction(1, 20))

    proof = prove_by_sets(problem, kinds_of(problem), prove(problem), 60.0)

    parts = sum(width * height for width, height in CLASS_5)
    assert proof.bound == -(-(9 * 1000 - Fraction(9 * 10_000 - parts, 20)) // 1)


def test_a_large_order_is_left_to_the_tables() -> None:
    problem = a_problem([(3 + n, 2 + n, 9) for n in range(9)], [(100, 100, 1)])

    assert fitting_sets(kinds_of(problem), [(100, 100)]) is None
    known = prove(problem)
    assert prove_by_sets(problem, kinds_of(problem), known, 60.0) is known


@st.composite
def small_orders(draw: st.DrawFn) -> SheetsProblem:
    parts = draw(
        st.lists(
            st.tuples(st.integers(1, 7), st.integers(1, 7), st.integers(1, 2)),
            min_size=1,
            max_size=3,
        )
    )
    return a_problem(parts, [(8, 7, 10)], turn=draw(st.booleans()), kerf=draw(st.integers(0, 1)))


@settings(max_examples=40, deadline=None, derandomize=True)
@given(small_orders())
def test_a_set_is_listed_if_and_only_if_one_sheet_yields_it(problem: SheetsProblem) -> None:
    kinds = kinds_of(problem)
    one = (replace(problem.sheets[0], available=1),)
    sets = fitting_sets(kinds, [(8 + problem.kerf, 7 + problem.kerf)])
    assert sets is not None

    for counts in product(*(range(kind.demand + 1) for kind in kinds)):
        if any(counts):
            order = replace(
                problem,
                widths=tuple(kind.width - problem.kerf for kind in kinds),
                heights=tuple(kind.height - problem.kerf for kind in kinds),
                turns=tuple(kind.turns for kind in kinds),
                demands=counts,
                sheets=one,
            )
            assert (counts in sets.counts) == (least_cost(order) is not None), counts


@settings(max_examples=40, deadline=None, derandomize=True)
@given(small_orders(), st.lists(st.integers(0, 9), min_size=6, max_size=6))
def test_the_checker_counts_the_same_sets_its_own_way(
    problem: SheetsProblem, weights: list[int]
) -> None:
    kinds = kinds_of(problem)
    room = (8 + problem.kerf, 7 + problem.kerf)
    sets = fitting_sets(kinds, [room])
    assert sets is not None

    listed = [
        WantedPart(
            ways=((k.width, k.height), (k.height, k.width))[: 2 if k.turns else 1],
            weight=weight,
            quantity=k.demand,
        )
        for k, weight in zip(kinds, weights, strict=False)
    ]

    heaviest = max(
        (sum(a * b for a, b in zip(c, weights, strict=False)) for c in sets.largest(room)),
        default=0,
    )
    assert most_of_sets(listed, [room]) == [heaviest]


@settings(max_examples=40, deadline=None, derandomize=True)
@given(small_orders(), st.integers(3, 9), st.integers(3, 9), st.integers(0, 2))
def test_no_bound_is_above_the_least_cost(
    problem: SheetsProblem, width: int, height: int, few: int
) -> None:
    problem = replace(
        problem,
        sheets=(
            problem.sheets[0],
            replace(problem.sheets[0], width=width, height=height, cost=6, available=few),
        ),
    )
    least = least_cost(problem)
    if least is not None:
        assert prove_by_sets(problem, kinds_of(problem), prove(problem), 60.0).bound <= least
