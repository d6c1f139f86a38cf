"""What an offcut is worth when the solvers weigh keeping it against buying."""

from __future__ import annotations

from fractions import Fraction

from optimiser.domain.request import Keep, LengthMaterial, SheetMaterial


def length_credit(material: LengthMaterial, keep: Keep) -> Fraction:
    """Return pence per tenth of a millimetre: the keep rule's share of the cheapest stock."""
    return keep.credit * min(
        (Fraction(stock.price, stock.length) for stock in material.stock), default=Fraction(0)
    )


def sheet_credit(material: SheetMaterial, keep: Keep) -> Fraction:
    """Return pence per square tenth: the keep rule's share of the cheapest stock."""
    return keep.credit * min(
        (Fraction(stock.price, stock.width * stock.height) for stock in material.stock),
        default=Fraction(0),
    )


def value_of(credit: Fraction, size: int) -> int:
    """Return the value of one piece of that length or area in whole pence, rounded down."""
    return size * credit.numerator // credit.denominator
