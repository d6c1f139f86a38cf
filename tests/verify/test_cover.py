"""The least money whose stock holds a weight: the last step of every bound, held to counting."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.verify.cover import Source, least_cover

FRACTIONS = st.builds(Fraction, st.integers(-6, 60), st.integers(1, 7))
LIMITED = st.builds(Source, FRACTIONS, st.integers(0, 12), st.integers(0, 4))
UNLIMITED = st.builds(
    Source,
    st.builds(Fraction, st.integers(0, 60), st.integers(1, 7)),
    st.integers(0, 12),
    st.none(),
)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(
    st.lists(LIMITED, max_size=3),
    st.lists(UNLIMITED, max_size=2),
    st.integers(-3, 30),
    st.builds(Fraction, st.integers(-90, 90), st.integers(1, 5)),
)
def test_the_least_cost_of_stock_equals_plain_enumeration(
    limited: list[Source], unlimited: list[Source], demand: int, offset: Fraction
) -> None:
    sources = (*limited, *unlimited)
    ranges = [
        range((max(demand, 0) if source.available is None else source.available) + 1)
        for source in sources
    ]
    sums = [
        offset + sum(n * source.cost for n, source in zip(counts, sources, strict=True))
        for counts in product(*ranges)
        if sum(n * source.holds for n, source in zip(counts, sources, strict=True)) >= demand
    ]

    expected = -(-min(sums) // 1) if sums else None
    assert least_cover(sources, demand, offset) == expected


def test_the_least_cost_may_lie_with_the_dearest_stock_by_weight() -> None:
    # By hand: a weight of 1 is held by the last for 2 p, by either of the others for 3 p.
    sources = (
        Source(Fraction(3), 2, None),
        Source(Fraction(3), 2, None),
        Source(Fraction(2), 1, 1),
    )

    assert least_cover(sources, 1, Fraction(0)) == 2


def test_an_unlimited_source_that_costs_less_than_nothing_has_no_least_cover() -> None:
    with pytest.raises(ValueError, match="less than nothing"):
        least_cover((Source(Fraction(-1, 3), 5, None),), 10, Fraction(0))


def test_stock_that_cannot_hold_the_demand_has_no_cost() -> None:
    assert least_cover((Source(Fraction(5), 3, 2),), 7, Fraction(0)) is None
    assert least_cover((), 1, Fraction(0)) is None
    assert least_cover((), 0, Fraction(7, 2)) == 4


def test_a_search_cut_short_still_answers_with_a_lower_bound() -> None:
    # Sums near each other in cost per weight, many of each: more nodes than the search may visit.
    sources = tuple(Source(Fraction(1000 + n, 1), 1000 - 7 * n, 40) for n in range(1, 40, 2))
    demand = 123_457

    answer = least_cover(sources, demand, Fraction(0))

    # Filled greedily with whole pieces, cheapest by weight first: some cost that is reachable.
    cost, missing = 0, demand
    for source in sources:
        pieces = min(40, -(-missing // source.holds))
        cost, missing = cost + pieces * int(source.cost), missing - pieces * source.holds
        if missing <= 0:
            break
    assert missing <= 0
    assert answer is not None
    assert answer <= cost
