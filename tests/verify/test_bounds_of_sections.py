"""No bound of a section may exceed its true least cost: held against other ways to find it."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import highspy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.plan import LengthWeights
from optimiser.domain.request import Choice, Keep, LengthMaterial
from optimiser.verify.bounds import length_bound
from optimiser.verify.weighing import BadCertificate
from tests.cutting_builders import (
    a_keep,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_stock_length,
)


def weights(*each: int, scale: int = 1) -> LengthWeights:
    return LengthWeights(weights=each, scale=scale)


def bound_of(
    material: LengthMaterial,
    *certificate: LengthWeights,
    keep: Keep | None = None,
    choices: tuple[Choice, ...] = (),
) -> int:
    return length_bound(material, keep or a_keep(), choices, certificate)


def patterns_of(material: LengthMaterial, usable: int) -> list[tuple[tuple[int, ...], int]]:
    """All ways to cut a usable length, each with what is left beyond the last kerf."""
    counts = product(*(range(part.quantity + 1) for part in material.parts))
    found = []
    for each in counts:
        taken = sum(
            n * (part.length + material.kerf) for n, part in zip(each, material.parts, strict=True)
        )
        if any(each) and taken <= usable + material.kerf:
            found.append((each, usable - taken))
    return found


def least_net_cost(material: LengthMaterial, keep: Keep) -> int | None:
    """The least net cost over all patterns of all stock, by a general integer programme."""
    rate = keep.credit * min(
        (Fraction(stock.price, stock.length) for stock in material.stock), default=Fraction(0)
    )
    pieces = [
        (stock.length - 2 * material.end_trim, int(stock.price), stock.available)
        for stock in material.stock
    ] + [
        (offcut.length - 2 * offcut.end_trim, int(rate * offcut.length), 1)
        for offcut in material.offcuts
    ]
    model = highspy.Highs()  # type: ignore[no-untyped-call]  # it has no types
    model.setOptionValue("output_flag", False)
    model.setOptionValue("mip_rel_gap", 0.0)
    most = sum(part.quantity for part in material.parts)
    rows: list[list[tuple[int, float]]] = [[] for _ in material.parts]
    column = 0
    for usable, cost, available in pieces:
        of_piece = []
        for counts, left in patterns_of(material, usable):
            credit = int(rate * left) if left > 0 and left >= keep.length else 0
            limit = most if available is None else min(most, available)
            model.addVar(0, limit)
            model.changeColCost(column, cost - credit)
            model.changeColIntegrality(column, highspy.HighsVarType.kInteger)
            of_piece.append(column)
            for row, n in zip(rows, counts, strict=True):
                if n:
                    row.append((column, float(n)))
            column += 1
        if available is not None and of_piece:
            model.addRow(0, available, len(of_piece), of_piece, [1.0] * len(of_piece))
    for row, part in zip(rows, material.parts, strict=True):
        if not row:
            return None
        model.addRow(
            part.quantity, part.quantity, len(row), [at for at, _ in row], [n for _, n in row]
        )
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return round(model.getInfo().objective_function_value)


@st.composite
def small_sections(draw: st.DrawFn) -> tuple[LengthMaterial, Keep, tuple[LengthWeights, ...]]:
    parts = [
        a_length_part(f"p{n}", draw(st.integers(2, 30)), draw(st.integers(1, 4)))
        for n in range(draw(st.integers(1, 3)))
    ]
    stock = [
        a_stock_length(
            f"s{n}",
            draw(st.integers(30, 60)),
            draw(st.integers(1, 90)),
            draw(st.sampled_from((None, None, 1, 3))),
        )
        for n in range(draw(st.integers(1, 2)))
    ]
    offcuts = [
        a_length_offcut(f"r{n}", draw(st.integers(5, 40)), draw(st.sampled_from((0, 1))))
        for n in range(draw(st.integers(0, 2)))
    ]
    material = a_length_material(
        *parts,
        stock=stock,
        offcuts=offcuts,
        kerf=draw(st.sampled_from((0, 1, 4))),
        trim=draw(st.sampled_from((0, 2))),
    )
    credit = draw(st.sampled_from((Fraction(0), Fraction(1, 2), Fraction(9, 10))))
    reason = st.builds(
        lambda each, scale: LengthWeights(weights=tuple(each), scale=scale),
        st.lists(st.integers(0, 60), min_size=len(parts), max_size=len(parts)),
        st.sampled_from((1, 1, 2, 7)),
    )
    by_length = LengthWeights(
        weights=tuple(part.length + material.kerf for part in material.parts), scale=1
    )
    reasons = (*draw(st.lists(reason, min_size=1, max_size=3)), by_length)
    return material, a_keep(draw(st.integers(1, 40)), credit=credit), reasons


@settings(max_examples=150, deadline=None, derandomize=True)
@given(small_sections())
def test_no_weights_whatever_prove_more_than_the_least_cost_of_a_section(
    case: tuple[LengthMaterial, Keep, tuple[LengthWeights, ...]],
) -> None:
    material, keep, certificate = case
    least = least_net_cost(material, keep)

    bound = length_bound(material, keep, (), certificate)

    if least is not None:
        assert bound <= least


def gilmore_gomory() -> LengthMaterial:
    """Gilmore and Gomory 1961 (from memory); the least cost is 170."""
    return a_length_material(
        a_length_part("2", 2, 20),
        a_length_part("3", 3, 10),
        a_length_part("4", 4, 20),
        stock=[a_stock_length("5", 5, 6), a_stock_length("6", 6, 7), a_stock_length("9", 9, 10)],
    )


def test_the_published_section_costs_170_by_enumeration_and_by_its_weights() -> None:
    # By hand: with 2, 3 and 5 the lengths hold 5, 7 and 10 at most, for 6, 7 and 10 p, so that no
    # penny buys more than a weight of 1; the parts weigh 40 + 30 + 100.
    assert least_net_cost(gilmore_gomory(), a_keep()) == 170
    assert bound_of(gilmore_gomory(), weights(2, 3, 5)) == 170
    assert bound_of(gilmore_gomory(), weights(24, 36, 60, scale=12)) == 170


def test_plain_length_proves_less_than_the_published_weights() -> None:
    # By hand: 150 of length is 16 nines and a six, 167.
    assert bound_of(gilmore_gomory(), weights(2, 3, 4)) == 167


def test_the_best_of_several_reasons_counts() -> None:
    assert bound_of(gilmore_gomory(), weights(2, 3, 4), weights(2, 3, 5), weights(0, 0, 0)) == 170


def test_no_reason_proves_nothing() -> None:
    assert bound_of(gilmore_gomory()) == 0


def test_no_pattern_is_credited_with_more_parts_than_are_demanded() -> None:
    """Scheithauer and Terno's type (from memory): stock 132, parts 44 × 2, 33 × 3, 12 × 6.

    With copies unlimited each would fill a length, 3 · 44 = 4 · 33 = 11 · 12 = 132.
    """
    material = a_length_material(
        a_length_part("44", 44, 2),
        a_length_part("33", 33, 3),
        a_length_part("12", 12, 6),
        stock=[a_stock_length("132", 132, 1)],
    )

    assert least_net_cost(material, a_keep()) == 3
    # By hand: all weigh 88 + 99 + 72 = 259, and of so many 66 + 60 = 126 is the most in 132; with
    # copies unlimited 3 · 44 = 132 would let two lengths hold all.
    assert bound_of(material, weights(44, 33, 12)) == 3


@pytest.mark.parametrize(("kerf", "trim", "least"), [(0, 0, 1), (4, 0, 1), (5, 0, 2), (4, 1, 2)])
def test_kerf_and_trim_count_in_the_bound_of_a_section(kerf: int, trim: int, least: int) -> None:
    # By hand: 498 + 4 + 498 = 1000.
    material = a_length_material(
        a_length_part("half", 498, 2), stock=[a_stock_length("1000", 1000, 1)], kerf=kerf, trim=trim
    )

    assert bound_of(material, weights(1)) == least


def test_credit_for_all_that_is_not_a_part_lowers_the_bound_of_a_section() -> None:
    # By hand: half of 100 p for the 400 that are left.
    material = a_length_material(
        a_length_part("part", 600), stock=[a_stock_length("1000", 1000, 100)]
    )

    assert bound_of(material, weights(1), keep=a_keep(400, credit=Fraction(1, 2))) == 80


def test_the_bound_of_a_section_holds_for_the_lightest_option_of_a_choice() -> None:
    material = a_length_material(
        a_length_part("always", 900),
        a_length_part("long", 900, 3),
        a_length_part("short", 900, 1),
        stock=[a_stock_length("1000", 1000, 10)],
    )
    choice = Choice(id="which", options=(("long",), ("short",)))

    assert bound_of(material, weights(1, 1, 1)) == 50
    assert bound_of(material, weights(1, 1, 1), choices=(choice,)) == 20


def test_a_cheap_offcut_lowers_the_bound_of_a_section_only_once() -> None:
    material = a_length_material(
        a_length_part("part", 600, 3),
        stock=[a_stock_length("1000", 1000, 100)],
        offcuts=[a_length_offcut("rack 1", 600)],
    )

    # By hand: half of 60 p for the offcut, two new lengths.
    assert bound_of(material, weights(1), keep=a_keep(900, credit=Fraction(1, 2))) <= 230
    assert bound_of(material, weights(1)) == 200


@pytest.mark.parametrize(
    "reason",
    [
        weights(1, 1),
        weights(1, 1, 1, 1),
        weights(1, 1, -1),
        weights(1, 1, 1, scale=0),
        weights(1, 1, 1, scale=-5),
        weights(2**62, 2**62, 2**62),
    ],
    ids=["too few", "too many", "below 0", "scale 0", "scale below 0", "too large"],
)
def test_a_reason_that_cannot_be_read_proves_nothing_and_says_so(reason: LengthWeights) -> None:
    with pytest.raises(BadCertificate):
        bound_of(gilmore_gomory(), reason)


def test_a_short_cheap_length_is_not_overlooked_by_the_bound_of_a_section() -> None:
    # By hand: one part of 10 is cut from the 10 for 2 p; the longer two cost 3 p.
    material = a_length_material(
        a_length_part("part", 10, 1),
        a_length_part("none", 10, 1),
        stock=[
            a_stock_length("20", 20, 3),
            a_stock_length("20 too", 20, 3),
            a_stock_length("10", 10, 2),
        ],
    )
    either = Choice(id="which", options=(("part",), ("none",)))

    assert bound_of(material, weights(1, 1), choices=(either,)) == 2
