"""Bounds: weights prove what areas cannot, and the counting behind them is exact."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from random import Random

import pytest

from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.cover import Carrier, Load, least_cost
from tests.solvers.sheets.shop import a_problem
from tests.solvers.sheets.test_worked_examples import GCUT1D


def test_parts_over_half_both_ways_need_a_sheet_each() -> None:
    proof = prove(a_problem([(51, 51, 7)], [(100, 100, 1)]))

    assert proof.bound == 7


def test_area_alone_proves_less_than_all_functions_together() -> None:
    problem = a_problem([(51, 51, 7), (10, 10, 1)], [(100, 100, 1)])

    assert prove(problem, scales=1).bound < prove(problem).bound


def test_the_kerf_counts_in_the_bound() -> None:
    # By hand: with kerf 3 one part of 500 × 250 fills a sheet of 1000 × 500, with none four do.
    four = [(500, 250, 4)]

    assert prove(a_problem(four, [(1000, 500, 1)])).bound == 1
    assert prove(a_problem(four, [(1000, 500, 1)], kerf=3)).bound == 4


def test_a_part_that_can_only_lie_upright_weighs_as_such() -> None:
    # By hand: 2387 does not lie across 1200, so turning is no help: two of 700 need two boards.
    problem = a_problem([(700, 2387, 2)], [(1200, 2400, 1)], turn=True)

    assert prove(problem).bound == 2


def test_credit_is_granted_for_all_that_is_not_a_part() -> None:
    # By hand: one sheet of 100 for 100 × 50, half left: at most 100 - 5000 / 100 = 50 net.
    problem = a_problem([(100, 50, 1)], [(100, 100, 100)], credit=Fraction(1, 100))

    assert prove(problem).bound == 50


def test_a_cheap_offcut_lowers_the_bound_only_once() -> None:
    # By hand: the offcut holds one, each sheet one.
    problem = a_problem([(60, 60, 3)], [(100, 100, 50), (60, 60, 5, 1)])

    assert prove(problem).bound == 105


def test_stock_that_weighs_too_little_is_proven_short() -> None:
    assert prove(a_problem([(60, 60, 3)], [(100, 100, 10, 2)])).short
    assert not prove(a_problem([(60, 60, 2)], [(100, 100, 10, 2)])).short


# Christofides and Whitlock 1977, Wang 1983, Herz 1972: the most that one sheet can yield when
# copies are unlimited (own exact dynamic programme); a bound for many copies must allow for it.
@pytest.mark.parametrize(
    ("sheet", "parts", "most"),
    [
        (
            (127, 98),
            [(21, 13), (36, 17), (54, 20), (24, 27), (18, 65)],
            12_348,
        ),
        (
            (250, 250),
            [(w, h) for w, h, _ in GCUT1D],
            56_460,
        ),
    ],
)
def test_the_bound_allows_for_the_best_known_filling_of_a_sheet(
    sheet: tuple[int, int], parts: list[tuple[int, int]], most: int
) -> None:
    # A thousand sheets so filled yield parts of 1000 · most square; no bound may ask for more.
    for width, height in parts:
        fewest = prove(a_problem([(width, height, 1000)], [(*sheet, 1)])).bound
        fit = (sheet[0] // width) * (sheet[1] // height)
        assert fewest == -(-1000 // fit)
        assert fewest * most >= 1000 * width * height


def test_the_least_cost_of_carriers_equals_plain_enumeration() -> None:
    rng = Random(3)
    for _ in range(400):
        carriers = tuple(
            Carrier(cost=Fraction(rng.randint(-3, 40), rng.randint(1, 3)), most=rng.randint(0, 4))
            for _ in range(rng.randint(1, 4))
        )
        loads = tuple(
            Load(
                carries=tuple(rng.randint(0, 12) for _ in carriers),
                demand=rng.randint(-2, 40),
            )
            for _ in range(rng.randint(0, 3))
        )
        sums = [
            sum(n * carrier.cost for n, carrier in zip(counts, carriers, strict=True))
            for counts in product(*(range(carrier.most + 1) for carrier in carriers))
            if all(
                sum(n * v for n, v in zip(counts, load.carries, strict=True)) >= load.demand
                for load in loads
            )
        ]

        cover = least_cost(carriers, loads)

        assert (cover is None) == (not sums)
        if cover is not None:
            assert cover.bound == -(-min(sums) // 1)
            assert cover.counts is not None
            assert all(
                sum(n * v for n, v in zip(cover.counts, load.carries, strict=True)) >= load.demand
                for load in loads
            )
