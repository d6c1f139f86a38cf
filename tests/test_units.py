"""Sizes are whole tenths and money whole pence, read and written only here."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.units import (
    ceiling,
    decimal_text,
    half_up,
    mm,
    mm_number,
    pence,
    pounds,
    ratio,
    tenths,
)


@given(st.integers(0, 1_000_000))
def test_a_size_survives_being_written_and_read(size: int) -> None:
    assert tenths(mm(size)) == size
    assert tenths(mm_number(size)) == size


@given(st.integers(0, 100_000_000))
def test_money_survives_being_written_and_read(sum_: int) -> None:
    assert pence(pounds(sum_)) == sum_


@pytest.mark.parametrize(
    ("text", "size"),
    [("2281.5", 22_815), ("2281,5", 22_815), ("2.4 m", 24_000), ("60cm", 6_000), (" 38 mm ", 380)],
)
def test_a_size_may_name_its_unit_and_use_a_decimal_comma(text: str, size: int) -> None:
    assert tenths(text) == size


@pytest.mark.parametrize(
    "text", ["", "-5", "nan", "inf", "1e3", "0.05", "100000.1", "2 ft", "1.234,5", "٣"]
)
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is"):
        tenths(text)


@pytest.mark.parametrize("text", ["", "-1", "1.234", "£3", "1000000.01", "nan"])
def test_what_is_no_money_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is"):
        pence(text)


def test_vat_is_rounded_half_up_on_the_sum() -> None:
    # 12 × 4.79 at the standard rate of 20 % (GOV.UK, VAT for builders); sums calculated.
    net = 12 * pence("4.79")

    vat = half_up(Fraction(net * 2_000, 10_000))

    assert (pounds(net), pounds(vat), pounds(net + vat)) == ("57.48", "11.50", "68.98")
    assert [half_up(Fraction(n, 2)) for n in (1, 2, 3)] == [1, 1, 2]


def test_a_ratio_is_read_and_written_as_a_decimal() -> None:
    assert ratio("0,25") == Fraction(1, 4)
    assert decimal_text(Fraction(1, 4)) == "0.25"
    with pytest.raises(ValueError, match="from 0 to 1"):
        ratio("1.5")


@pytest.mark.parametrize("text", ["", "-0.1", "1.0001", "nan", "inf", "half", "sNaN"])
def test_what_is_no_share_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is not a decimal from 0 to 1"):
        ratio(text)


@given(st.fractions())
def test_rounding_half_up_lands_within_a_half_and_takes_halves_up(value: Fraction) -> None:
    assert -Fraction(1, 2) < half_up(value) - value <= Fraction(1, 2)


@given(st.fractions())
def test_rounding_up_never_falls_below(value: Fraction) -> None:
    assert 0 <= ceiling(value) - value < 1


@pytest.mark.parametrize("read", [tenths, pence, ratio])
@pytest.mark.parametrize("text", ["9" * 1_000_000, "1e-9999999", "0." + "0" * 40 + "1"])
def test_a_number_without_end_is_refused_and_never_rounded(
    read: Callable[[str], object], text: str
) -> None:
    with pytest.raises(ValueError, match="is not"):
        read(text)
