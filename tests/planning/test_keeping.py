"""Keep rules that follow from what became of offcuts."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from scipy.stats import beta

from optimiser.domain.keeping import KeepTerms, OffcutLife
from optimiser.domain.part_list import PartList
from optimiser.errors import InvalidInput
from optimiser.planning.keeping import PRIOR_LIVES, USED_SHARE, keep_advice, with_advice
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths
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

TIMBER = a_length_material(stock=[a_stock_length("long", 24_000, 400)])
BOARD = a_sheet_material(stock=[a_stock_sheet("sheet", 12_000, 24_000, 1_000)])
USUAL = a_keep(6_000, 3_000, 3_000, Fraction(1, 2))
TERMS = KeepTerms(usual=USUAL, handling=Pence(0), horizon=90)
TODAY = 1_000


def lives(count: int, size: int, *, after: int | None, used: bool = True) -> list[OffcutLife]:
    """Return so many lengths racked 400 days ago that ended `after` days; None: still there."""
    return [
        OffcutLife(
            material="timber",
            size=(Tenths(size),),
            racked=TODAY - 400,
            ended=None if after is None else TODAY - 400 + after,
            used=used and after is not None,
        )
        for _ in range(count)
    ]


def chances(found: list[OffcutLife], terms: KeepTerms = TERMS) -> dict[int, Fraction]:
    (advice,) = keep_advice([TIMBER], found, (), terms, today=TODAY)
    return {item.least: item.chance for item in advice.classes}


def test_without_history_credit_is_the_usual_one_and_everything_is_worth_keeping() -> None:
    (advice,) = keep_advice([TIMBER], (), (), TERMS, today=TODAY)

    assert advice.keep == replace(USUAL, length=Tenths(1_500))
    assert {item.chance for item in advice.classes} == {USUAL.credit / USED_SHARE}


def test_a_chance_is_the_mean_of_the_beta_distribution_after_the_lives_seen() -> None:
    # 7 of 10 used: a Beta(prior) of 4 lives becomes another Beta, whose mean scipy knows.
    seen = chances(lives(7, 7_000, after=20) + lives(3, 7_000, after=200, used=False))
    prior = float(USUAL.credit / USED_SHARE)

    after = beta(PRIOR_LIVES * prior + 7, PRIOR_LIVES * (1 - prior) + 3)

    assert float(seen[6_000]) == pytest.approx(after.mean())
    assert seen[3_000] == USUAL.credit / USED_SHARE


def test_a_piece_used_after_the_horizon_counts_as_one_that_was_not() -> None:
    assert chances(lives(5, 7_000, after=91)) == chances(lives(5, 7_000, after=91, used=False))


def test_a_piece_that_has_lain_half_the_horizon_counts_half_a_life() -> None:
    young = OffcutLife(material="timber", size=(Tenths(7_000),), racked=TODAY - 45)

    (advice,) = keep_advice([TIMBER], [young], (), TERMS, today=TODAY)

    assert next(item.lives for item in advice.classes if item.least == 6_000) == Fraction(1, 2)


def test_sizes_that_are_never_used_are_no_longer_kept() -> None:
    short = lives(40, 2_000, after=200, used=False) + lives(40, 4_000, after=200, used=False)
    terms = replace(TERMS, handling=Pence(10))

    (advice,) = keep_advice([TIMBER], short + lives(30, 10_000, after=10), (), terms, today=TODAY)

    assert advice.keep.length >= 4_500
    assert advice.keep.credit > 0


def test_handling_dearer_than_any_piece_keeps_next_to_nothing_and_credits_nothing() -> None:
    (advice,) = keep_advice([TIMBER], (), (), replace(TERMS, handling=Pence(10_000)), today=TODAY)

    assert advice.keep.length == 24_000
    assert advice.keep.credit == 0


def test_parts_to_come_make_pieces_that_hold_them_likely_to_be_used() -> None:
    never = lives(40, 7_000, after=200, used=False)
    coming = PartList(lengths=(("timber", a_length_part("noggin", 5_600, 2)),), boards=())

    (bare,) = keep_advice([TIMBER], never, (), TERMS, today=TODAY)
    (advice,) = keep_advice([TIMBER], never, (coming,), TERMS, today=TODAY)

    wanted = {item.least for item in advice.classes if item.wanted}
    assert wanted == {6_000, 9_000}
    assert advice.keep.credit > bare.keep.credit


def test_pieces_on_the_rack_already_serve_the_parts_to_come() -> None:
    there = [OffcutLife(material="timber", size=(Tenths(7_000),), racked=TODAY)] * 2
    coming = PartList(lengths=(("timber", a_length_part("noggin", 5_600, 2)),), boards=())

    (advice,) = keep_advice([TIMBER], there, (coming,), TERMS, today=TODAY)

    assert {item.least for item in advice.classes if item.wanted} == {9_000}


def test_a_board_is_classed_by_its_shorter_side() -> None:
    strip = OffcutLife(
        material="board", size=(Tenths(24_000), Tenths(1_200)), racked=900, ended=910, used=True
    )
    coming = PartList(lengths=(), boards=(("board", a_board_part("cheek", 900, 7_000)),))

    (advice,) = keep_advice([BOARD], [strip], (coming,), TERMS, today=TODAY)

    assert [item.least for item in advice.classes if item.used] == [1_000]
    assert {item.least for item in advice.classes if item.wanted} == {1_000, 1_500}
    assert (advice.keep.width, advice.keep.height) == (1_000, 1_000)


def test_a_request_planned_with_the_advice_keeps_by_it() -> None:
    request = a_request(
        a_length_material(
            a_length_part("upright", 20_000), stock=[a_stock_length("long", 24_000, 400)]
        ),
        keep=USUAL,
    )
    found = lives(20, 4_000, after=5)

    ruled = with_advice(request, keep_advice(request.materials, found, (), TERMS, today=TODAY))

    assert plan_cutting(request).money.credit == 0
    assert plan_cutting(ruled).lengths[0].layouts[0].offcuts[0].length == 4_000


@pytest.mark.parametrize(
    ("life", "trouble"),
    [
        (replace(lives(1, 7_000, after=-1)[0]), "ended before it was racked"),
        (replace(lives(1, 7_000, after=500)[0]), "has a day ahead of today"),
        (replace(lives(1, 7_000, after=None)[0], size=(Tenths(0),)), "not above 0"),
    ],
)
def test_a_life_that_cannot_be_is_named(life: OffcutLife, trouble: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        keep_advice([TIMBER], [life], (), TERMS, today=TODAY)

    assert trouble in refused.value.problems[0].trouble


def test_terms_that_say_nothing_are_refused_by_name() -> None:
    with pytest.raises(InvalidInput) as refused:
        keep_advice(
            [TIMBER], (), (), KeepTerms(usual=USUAL, handling=Pence(-1), horizon=0), today=1
        )

    assert [item.field for item in refused.value.problems] == ["horizon", "handling"]
