"""What a sheet yields in prices and credit together: the checker's table, held against trees."""

from __future__ import annotations

from fractions import Fraction
from itertools import count
from random import Random
from types import SimpleNamespace
from typing import TypeAlias

import pytest

from optimiser.domain.plan import PartWeights
from optimiser.domain.request import Choice, CuttingRequest
from optimiser.formats.plan import plan_document, plan_from_document
from optimiser.planning.plan import plan_cutting
from optimiser.solvers import protocol
from optimiser.verify.board_bounds import sheet_bound, sheet_reasons
from optimiser.verify.credited import most_with_credit
from optimiser.verify.filling import Rectangle, TooHeavy
from optimiser.verify.weighing import BadCertificate
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_request,
    a_sheet_material,
    a_stock_sheet,
)

RATE = Fraction(1, 300)
# The weight of a part, or the sizes of what is left over.
Piece: TypeAlias = int | tuple[int, int]


def _cut(luck: Random, width: int, height: int, parts: list[Rectangle], kerf: int) -> list[Piece]:
    """Cut a piece, one kerf added to its sizes, at random: weights of parts, sizes left over."""
    fitting = [part for part in parts if part.across <= width and part.along <= height]
    if fitting and luck.random() < 0.4:
        part = luck.choice(fitting)
        beside = _cut(luck, width - part.across, part.along, parts, kerf)
        above = _cut(luck, width, height - part.along, parts, kerf)
        return [part.weight, *beside, *above]
    if luck.random() < 0.5 and min(width, height) > 4:
        if luck.random() < 0.5:
            at = luck.randrange(2, width - 1)
            pieces = ((at, height), (width - at, height))
        else:
            at = luck.randrange(2, height - 1)
            pieces = ((width, at), (width, height - at))
        return [each for piece in pieces for each in _cut(luck, *piece, parts, kerf)]
    return [(width - kerf, height - kerf)]


def _worth(pieces: list[Piece], keep: tuple[int, int], scale: int) -> int:
    total = 0
    for piece in pieces:
        if isinstance(piece, int):
            total += piece
        else:
            width, height = piece
            if max(width, height) >= max(keep) and min(width, height) >= min(keep):
                total += scale * (width * height * RATE.numerator // RATE.denominator)
    return total


@pytest.mark.parametrize("sums", [2_000, 40_000, 10**9])
def test_no_layout_yields_more_than_the_table_says_on_any_grid(sums: int) -> None:
    luck = Random(7)
    for _ in range(25):
        kerf = luck.randrange(4)
        width, height = luck.randrange(60, 140), luck.randrange(60, 140)
        parts = [
            Rectangle(luck.randrange(12, 70), luck.randrange(12, 70), luck.randrange(200))
            for _ in range(4)
        ]
        keep = (luck.randrange(15, 40), luck.randrange(15, 40))
        (most,) = most_with_credit(tuple(parts), ((width, height),), kerf, keep, RATE, 10, sums)
        for _ in range(60):
            assert _worth(_cut(luck, width, height, parts, kerf), keep, 10) <= most


def test_the_finest_table_says_just_what_the_best_layout_by_hand_yields() -> None:
    # A sheet of 100 × 60 without kerf, one part of 100 × 40 worth 500: 100 × 20 is left over,
    # 2,000 a hundredth of a penny each, kept from 20 × 20 on and not from 21 × 21 on.
    part = (Rectangle(100, 40, 500),)
    rate = Fraction(1, 100)
    assert most_with_credit(part, ((100, 60),), 0, (20, 20), rate, 10) == (700,)
    # Else keeping all of it, 60 pence, is worth more than the part: 60 · 10.
    assert most_with_credit(part, ((100, 60),), 0, (21, 21), rate, 10) == (600,)


def test_a_part_smaller_than_the_step_is_counted_by_area() -> None:
    (most,) = most_with_credit(
        (Rectangle(2, 2, 9),), ((1_000, 1_000),), 0, (100, 100), RATE, 1, 100
    )
    assert most == 9 * 1_000 * 1_000 // 4


def test_values_that_could_overflow_are_refused() -> None:
    with pytest.raises(TooHeavy):
        most_with_credit((Rectangle(1, 1, 2**50),), ((9_999, 9_999),), 0, (9, 9), RATE, 1)


def a_strip_too_narrow_to_keep() -> CuttingRequest:
    """One part on one sheet; what is left beside it is scrap, and would earn 125 if it were not."""
    return a_request(
        a_sheet_material(
            a_board_part("wide", 1000, 750, turn=False),
            stock=[a_stock_sheet("full", 1000, 1000, 1000)],
            kerf=0,
        ),
        keep=a_keep(width=300, height=300, credit=Fraction(1, 2)),
        seconds=0.5,
    )


@pytest.fixture
def own_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """A clock that counts its readings: how busy the machine is makes no difference."""
    ticks = count()
    clock = SimpleNamespace(monotonic=lambda: next(ticks) / 10_000)
    monkeypatch.setattr(protocol, "time", clock)


@pytest.mark.usefixtures("own_clock")
def test_a_plan_is_proven_though_its_scrap_would_have_been_credited() -> None:
    request = a_strip_too_narrow_to_keep()
    material = request.sheets[0]

    plan = plan_cutting(request)

    assert plan.money.net == 1000
    assert plan.proven
    plain = tuple(one for one in plan.sheets[0].certificate if not getattr(one, "scale", 0))
    assert sheet_bound(material, request.keep, (), plain) == 875


@pytest.mark.usefixtures("own_clock")
def test_a_plan_file_keeps_the_scale_of_prices() -> None:
    request = a_strip_too_narrow_to_keep()
    plan = plan_cutting(request)

    assert plan_from_document(plan_document(plan)) == plan
    assert any(getattr(one, "scale", 0) for one in plan.sheets[0].certificate)


@pytest.mark.parametrize(
    "reason",
    [PartWeights(weights=(1,), scale=-1), PartWeights(weights=(1,), scale=1, once=True)],
    ids=["a scale below 0", "prices of parts wanted once"],
)
def test_what_cannot_be_read_as_prices_is_refused(reason: PartWeights) -> None:
    request = a_strip_too_narrow_to_keep()

    with pytest.raises(BadCertificate, match="scale"):
        sheet_reasons(request.sheets[0], request.keep, (), (reason,))


@pytest.mark.parametrize("price", [0, 1, 500, 875, 1000, 1500, 4000, 10**6])
def test_whatever_prices_are_handed_over_no_bound_is_above_the_best_plan(price: int) -> None:
    request = a_strip_too_narrow_to_keep()
    reason = PartWeights(weights=(price,), scale=1)

    assert sheet_bound(request.sheets[0], request.keep, (), (reason,)) <= 1000


def test_parts_of_two_options_of_a_choice_never_share_a_sheet() -> None:
    # Either half board goes beside the other, and neither beside the board that is cut anyway:
    # two sheets, as the halves are never both cut.
    request = a_request(
        a_sheet_material(
            a_board_part("anyway", 1000, 600, turn=False),
            a_board_part("half", 1000, 500, turn=False),
            a_board_part("other half", 1000, 499, turn=False),
            stock=[a_stock_sheet("full", 1000, 1000, 700)],
            kerf=0,
        ),
        keep=a_keep(width=5000, height=5000, credit=Fraction(0)),
        choices=(Choice(id="way", options=(("half",), ("other half",))),),
    )
    material, once = request.sheets[0], (PartWeights(weights=(1, 1, 1), once=True),)

    for way in ((0,), (1,)):
        reasons = sheet_reasons(material, request.keep, request.choices, once)
        assert reasons.least_of(way) == 1400
    # Were each in a choice of its own, both halves could be wanted, and one sheet holds them.
    apart = (
        Choice(id="one", options=(("half",), ())),
        Choice(id="two", options=(("other half",), ())),
    )
    assert sheet_reasons(material, request.keep, apart, once).least_of((0, 1)) == 700
