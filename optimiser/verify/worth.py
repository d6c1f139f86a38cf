"""What an offcut is worth, worked out again from the request alone.

Credit and value are the request's share of the lowest stock price per metre (or square metre) of
the material, rounded down to whole pence for each piece; a material with no stock is worth nothing.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from optimiser.domain.request import Keep, LengthMaterial, SheetMaterial


def length_rate(material: LengthMaterial, keep: Keep) -> Fraction:
    """Return pence per tenth of a millimetre."""
    prices = [Fraction(stock.price, stock.length) for stock in material.stock]
    return keep.credit * min(prices, default=Fraction(0))


def sheet_rate(material: SheetMaterial, keep: Keep) -> Fraction:
    """Return pence per square tenth."""
    prices = [Fraction(stock.price, stock.width * stock.height) for stock in material.stock]
    return keep.credit * min(prices, default=Fraction(0))


def worth(rate: Fraction, size: int) -> int:
    """Return the worth of one piece of that length or area in pence, rounded down."""
    return rate.numerator * size // rate.denominator


def length_is_kept(keep: Keep, length: int) -> bool:
    """Return whether a remainder of that length goes on the rack."""
    return length >= keep.length


def board_is_kept(keep: Keep, width: int, height: int) -> bool:
    """Return whether a remainder of that size, lying either way, goes on the rack."""
    return (width >= keep.width and height >= keep.height) or (
        height >= keep.width and width >= keep.height
    )
