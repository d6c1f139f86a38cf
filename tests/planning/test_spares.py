"""Spares by risk: exact binomial chances, offcuts that stand in, the cheapest way to a level."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from scipy.stats import binom

from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.domain.spares import Breakage, Handling, SparesTable
from optimiser.errors import InvalidInput
from optimiser.planning.plan import plan_cutting
from optimiser.planning.spares import (
    MOST_SPARES,
    enough_chance,
    spares_by_risk,
    usual_breakage,
)
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)

NEVER = Fraction(0)


def rails(count: int, *, keep: int = 900_000, length: int = 1500) -> CuttingRequest:
    """One rail comes out of each length."""
    return a_request(
        a_length_material(
            a_length_part("rail", length, count), stock=[a_stock_length("S", 2400, 360)]
        ),
        keep=a_keep(keep),
    )


def table_of(
    request: CuttingRequest, piece: Fraction, part: Fraction, *levels: Fraction
) -> SparesTable:
    rates = tuple(
        Breakage(material=item.material, piece=piece, part=part) for item in request.materials
    )
    plan: CuttingPlan = plan_cutting(request)
    return spares_by_risk(request, plan, rates, levels or (Fraction(1, 20),))


@pytest.mark.parametrize("count", [1, 7, 40])
@pytest.mark.parametrize("rate", [Fraction(1, 100), Fraction(1, 20), Fraction(3, 10)])
@pytest.mark.parametrize("spares", [0, 1, 3, 6])
def test_broken_stock_follows_the_exact_binomial_distribution(
    count: int, rate: Fraction, spares: int
) -> None:
    # Source: scipy.stats.binom; enough are good when at most `spares` of all that is bought break.
    exposure = table_of(rails(count), rate, NEVER).exposures[0]

    chance = enough_chance(exposure, spares)

    assert chance == pytest.approx(binom.cdf(spares, count + spares, float(rate)), abs=1e-8)
    assert chance <= binom.cdf(spares, count + spares, float(rate))


@pytest.mark.parametrize("rate", [Fraction(1, 50), Fraction(1, 5)])
@pytest.mark.parametrize("spares", [0, 1, 2])
def test_spoiled_parts_follow_the_exact_binomial_distribution(rate: Fraction, spares: int) -> None:
    # Source: scipy.stats.binom; one spare yields one rail.
    exposure = table_of(rails(12), NEVER, rate).exposures[0]

    expected = binom.cdf(spares, 12, float(rate))

    assert enough_chance(exposure, spares) == pytest.approx(expected, abs=1e-8)


def test_a_spare_that_yields_two_parts_makes_good_two_losses() -> None:
    # Source: scipy.stats.binom; of 1200 two come out of 2400.
    exposure = table_of(rails(12, length=1200), NEVER, Fraction(1, 5)).exposures[0]

    assert exposure.yields == 2
    assert enough_chance(exposure, 1) == pytest.approx(binom.cdf(2, 12, 0.2), abs=1e-8)


def test_parts_that_fit_the_kept_offcuts_need_no_spare() -> None:
    # Three of four lengths give a small part too, one keeps 700 of it; source: scipy.stats.binom.
    request = a_request(
        a_length_material(
            a_length_part("long", 1500, 4),
            a_length_part("small", 650, 3),
            stock=[a_stock_length("S", 2400, 360)],
            kerf=200,
        ),
        keep=a_keep(600),
    )
    exposure = table_of(request, NEVER, Fraction(1, 5)).exposures[0]

    assert (exposure.large, exposure.small) == (4, 3)
    assert exposure.from_offcuts == 1
    expected = binom.cdf(0, 4, 0.2) * binom.cdf(1, 3, 0.2)
    assert enough_chance(exposure, 0) == pytest.approx(expected, abs=1e-8)


def test_board_offcuts_stand_in_for_small_board_parts() -> None:
    request = a_request(
        a_sheet_material(
            a_board_part("door", 6000, 24000, 1, turn=False),
            a_board_part("shelf", 3000, 5000, 2),
            stock=[a_stock_sheet("B", 12200, 24400, 2400)],
        ),
        keep=a_keep(width=3000, height=3000),
    )

    exposure = table_of(request, NEVER, Fraction(1, 10)).exposures[0]

    assert exposure.small == 2
    assert exposure.from_offcuts == 2


def test_all_losses_together_agree_with_counting_every_case() -> None:
    # By hand: every pattern of broken pieces, broken spares and spoiled parts, weighed.
    piece, part = Fraction(1, 10), Fraction(1, 5)
    exposure = table_of(rails(3), piece, part).exposures[0]
    spares = 2

    enough = Fraction(0)
    for broken in product((False, True), repeat=3 + spares):
        for spoiled in product((False, True), repeat=3):
            lost, gone = sum(broken), sum(spoiled)
            weight = piece**lost * (1 - piece) ** (len(broken) - lost)
            weight *= part**gone * (1 - part) ** (len(spoiled) - gone)
            enough += weight if lost + gone <= spares else 0

    assert enough_chance(exposure, spares) == pytest.approx(float(enough), abs=1e-8)


def test_the_cheapest_spares_over_all_materials_reach_the_level() -> None:
    request = a_request(
        a_length_material(
            a_length_part("a", 1500, 6), stock=[a_stock_length("S", 2400, 100)], material="cheap"
        ),
        a_length_material(
            a_length_part("b", 1500, 2), stock=[a_stock_length("T", 2400, 900)], material="dear"
        ),
    )
    table = table_of(request, Fraction(1, 20), Fraction(1, 50), Fraction(1, 5), Fraction(1, 50))

    for level in table.levels:
        # By hand: every pair of counts.
        costs = [
            100 * one + 900 * two
            for one in range(MOST_SPARES)
            for two in range(MOST_SPARES)
            if 1 - enough_chance(table.exposures[0], one) * enough_chance(table.exposures[1], two)
            <= level.level
        ]
        assert level.reached
        assert level.cost == min(costs)
        assert level.chance <= level.level
    assert table.levels[0].cost <= table.levels[1].cost


def test_a_level_beyond_all_spares_tried_is_said_not_to_be_reached() -> None:
    table = table_of(rails(90), Fraction(1, 2), NEVER)

    assert not table.levels[0].reached


def test_rough_handling_breaks_four_times_as_much_as_careful_handling() -> None:
    request = rails(2)

    careful = usual_breakage(request, Handling.CAREFUL)
    rough = usual_breakage(request, Handling.ROUGH)

    assert rough[0].piece == 4 * careful[0].piece


@pytest.mark.parametrize(
    ("piece", "level", "said"),
    [
        (Fraction(1), Fraction(1, 20), "no chance from 0 to below 1"),
        (Fraction(-1, 9), Fraction(1, 20), "no chance from 0 to below 1"),
        (NEVER, Fraction(0), "no chance between 0 and 1"),
        (NEVER, Fraction(1), "no chance between 0 and 1"),
    ],
)
def test_what_is_no_chance_is_refused(piece: Fraction, level: Fraction, said: str) -> None:
    with pytest.raises(InvalidInput, match=said):
        table_of(rails(2), piece, NEVER, level)


def test_a_material_without_rates_is_refused_by_name() -> None:
    request = rails(2)

    with pytest.raises(InvalidInput, match="'timber' has 0 rates"):
        spares_by_risk(request, plan_cutting(request), ())
