"""The least money that satisfies several rows at once, held to counting."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.verify.joint import Row, Supply, joint_least_cost

COSTS = st.builds(Fraction, st.integers(-6, 60), st.integers(1, 7))


@st.composite
def shops(draw: st.DrawFn) -> tuple[list[Supply], list[Row], Fraction]:
    supplies = draw(st.lists(st.builds(Supply, COSTS, st.integers(0, 4)), min_size=1, max_size=4))
    yields = st.tuples(*(st.integers(0, 12) for _ in supplies))
    rows = draw(st.lists(st.builds(Row, yields, st.integers(-3, 30)), max_size=4))
    return supplies, rows, draw(st.builds(Fraction, st.integers(-90, 90), st.integers(1, 5)))


@settings(max_examples=300, deadline=None, derandomize=True)
@given(shops())
def test_the_least_cost_of_all_rows_together_equals_plain_enumeration(
    shop: tuple[list[Supply], list[Row], Fraction],
) -> None:
    supplies, rows, offset = shop
    sums = [
        offset + sum(n * supply.cost for n, supply in zip(counts, supplies, strict=True))
        for counts in product(*(range((supply.available or 0) + 1) for supply in supplies))
        if all(
            sum(n * yielded for n, yielded in zip(counts, row.yields, strict=True)) >= row.need
            for row in rows
        )
    ]

    expected = -(-min(sums) // 1) if sums else None
    assert joint_least_cost(supplies, rows, offset) == expected


def test_two_rows_together_prove_more_than_either_alone() -> None:
    # By hand: the first row alone is met by 4 of A for 40 p, the second by 4 of B for 40 p, both
    # only by four of each.
    supplies = [Supply(Fraction(10), None), Supply(Fraction(10), None)]
    rows = [Row((5, 0), 16), Row((0, 5), 16)]

    assert [joint_least_cost(supplies, [row]) for row in rows] == [40, 40]
    assert joint_least_cost(supplies, rows) == 80


def test_a_supply_that_costs_nothing_satisfies_only_the_rows_it_yields_for() -> None:
    supplies = [Supply(Fraction(0), None), Supply(Fraction(7), None)]
    rows = [Row((1, 1), 50), Row((0, 3), 4)]

    assert joint_least_cost(supplies, rows) == 14


def test_scarce_stock_that_cannot_satisfy_a_row_has_no_cost() -> None:
    assert joint_least_cost([Supply(Fraction(5), 2)], [Row((3,), 7)]) is None
    assert joint_least_cost([], [Row((), 1)]) is None
    assert joint_least_cost([], [], Fraction(7, 2)) == 4


def test_an_unlimited_supply_that_costs_less_than_nothing_has_no_least_cost() -> None:
    with pytest.raises(ValueError, match="less than nothing"):
        joint_least_cost([Supply(Fraction(-1), None)], [Row((1,), 1)])


def test_a_search_cut_short_still_answers_with_a_lower_bound() -> None:
    # Costs per yield close to each other: more nodes than the search may visit.
    supplies = [Supply(Fraction(1000 + n), 40) for n in range(1, 40, 2)]
    rows = [
        Row(tuple(1000 - 7 * n for n in range(1, 40, 2)), 123_457),
        Row(tuple(700 + 5 * n for n in range(1, 40, 2)), 123_456),
    ]

    answer = joint_least_cost(supplies, rows)

    # All of the cheapest seven or so, then one kind to fill both rows: some cost that is reachable.
    counts = [40] * 5 + [0] * 15
    while any(
        sum(n * y for n, y in zip(counts, row.yields, strict=True)) < row.need for row in rows
    ):
        place = next(k for k, n in enumerate(counts) if n < 40)
        counts[place] += 1
    reachable = sum(n * supply.cost for n, supply in zip(counts, supplies, strict=True))
    assert answer is not None
    assert 120_000 <= answer <= reachable
