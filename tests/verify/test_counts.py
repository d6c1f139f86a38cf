"""The least cost over counts of stock, against trying them all, and what cannot fool it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.verify import counts as module
from optimiser.verify.counts import Line, Need, least_cost


def by_trying_all(
    limits: Sequence[int], lines: Sequence[Line], needs: Sequence[Need]
) -> int | None:
    costs = [
        max(-(-(line.base + _sum(line.each, n)) // line.scale) for line in lines)
        for n in product(*(range(limit + 1) for limit in limits))
        if all(_sum(need.holds, n) >= need.demand for need in needs)
    ]
    return min(costs, default=None)


def _sum(each: Sequence[int], counts: Sequence[int]) -> int:
    return sum(e * n for e, n in zip(each, counts, strict=True))


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_the_least_cost_is_that_of_the_best_counts_of_all(data: st.DataObject) -> None:
    stocks = data.draw(st.integers(1, 4))
    limits = data.draw(st.lists(st.integers(0, 4), min_size=stocks, max_size=stocks))
    steps = st.lists(st.integers(-20, 40), min_size=stocks, max_size=stocks).map(tuple)
    lines = data.draw(
        st.lists(
            st.builds(Line, st.integers(-50, 100), steps, st.integers(1, 5)), min_size=1, max_size=3
        )
    )
    yields = st.lists(st.integers(0, 20), min_size=stocks, max_size=stocks).map(tuple)
    needs = data.draw(st.lists(st.builds(Need, yields, st.integers(0, 100)), max_size=3))

    assert least_cost(limits, lines, needs) == by_trying_all(limits, lines, needs)


@pytest.mark.parametrize("seed", range(30))
def test_reasons_as_large_as_certificates_have_them_are_weighed_exactly(seed: int) -> None:
    rng = Random(seed)
    limits = [rng.randint(1, 5) for _ in range(3)]
    prices = [rng.randint(300, 900) for _ in limits]
    scale = 1 << rng.randint(20, 40)
    lines = [Line(0, tuple(prices), 1)]
    lines.append(
        Line(rng.randrange(900 * scale), tuple(rng.randrange(500 * scale) for _ in limits), scale)
    )
    needs = [
        Need(tuple(rng.randrange(1 << 55) for _ in limits), rng.randrange(1 << 57))
        for _ in range(3)
    ]

    assert least_cost(limits, lines, needs) == by_trying_all(limits, lines, needs)


def test_two_needs_that_one_kind_of_stock_meets_each_ask_for_both_kinds_together() -> None:
    """Alone each need is met by one piece; no one piece meets both."""
    lines = [Line(0, (10, 10), 1)]
    long_parts = Need((5, 0), 5)
    short_parts = Need((0, 5), 5)

    assert least_cost([9, 9], lines, [long_parts]) == 10
    assert least_cost([9, 9], lines, [short_parts]) == 10
    assert least_cost([9, 9], lines, [long_parts, short_parts]) == 20


def test_needs_that_contradict_each_other_leave_no_counts() -> None:
    assert least_cost([1, 1], [Line(0, (1, 1), 1)], [Need((3, 2), 6)]) is None


def test_a_search_cut_short_still_proves_no_more_than_there_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    rng = Random(7)
    limits = [3] * 5
    lines = [Line(0, tuple(rng.randint(40, 60) for _ in limits), 1)]
    needs = [Need(tuple(rng.randint(40, 60) for _ in limits), 300) for _ in range(3)]
    least = by_trying_all(limits, lines, needs)
    assert least is not None

    for boxes in range(1, 30, 4):
        monkeypatch.setattr(module, "MOST_BOXES", boxes)
        bound = least_cost(limits, lines, needs)

        assert bound is not None
        assert bound <= least
