"""A length is a whole number of tenths of a millimetre, money a whole number of pence.

Tape measures read millimetres, kerfs and boards need one decimal (common practice, no source).
Integers make "does it fit?" exact and sums independent of their order. Only this module turns text
or numbers from outside into `Tenths` and `Pence`, and back.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import NewType

Tenths = NewType("Tenths", int)
Pence = NewType("Pence", int)

# No room, board or bar is longer than 100 m: a larger figure is a slip of the keyboard or the unit.
LARGEST = Tenths(1_000_000)
LARGEST_MONEY = Pence(100_000_000)

# No figure here needs more signs, and within so many decimal arithmetic is exact: beyond its 28
# digits it would round in silence, and a million of them would take seconds to read.
MOST_SIGNS = 28

_MM_PER_UNIT = {"": Decimal(1), "mm": Decimal(1), "cm": Decimal(10), "m": Decimal(1000)}
_MEASURE = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(mm|cm|m)?", re.IGNORECASE)


def tenths(value: int | float | str | Decimal, *, unit: str = "mm") -> Tenths:
    """Read a size of 0 or more, as a number or as a text that may name its own unit.

    A decimal comma counts as a decimal point. `unit` is what a bare number means.
    Raises ValueError, whose text says what is wrong, for anything that is not a size, is finer than
    0.1 mm, or is longer than 100 m.
    """
    if isinstance(value, bool):
        raise ValueError(f"{value!r} is not a size")
    text = str(value).strip()
    match = _MEASURE.fullmatch(text) if len(text) <= MOST_SIGNS else None
    if match is None:
        raise ValueError(f"{text[:40]!r} is not a size of 0 or more such as 2281.5")
    number = Decimal(match[1].replace(",", "."))
    exact = number * _MM_PER_UNIT[(match[2] or unit).lower()] * 10
    # Refused, never rounded: a silent tenth is a part that does not fit.
    if exact != exact.to_integral_value():
        raise ValueError(f"{text[:40]!r} is finer than 0.1 mm")
    if exact > LARGEST:
        raise ValueError(f"{text[:40]!r} is longer than 100 m")
    return Tenths(int(exact))


def mm(size: int) -> str:
    """Write a size in mm as a person would: no decimal unless there is one."""
    whole, tenth = divmod(abs(size), 10)
    sign = "-" if size < 0 else ""
    return f"{sign}{whole}.{tenth}" if tenth else f"{sign}{whole}"


def counted(number: int, one: str, many: str = "") -> str:
    """Write how many there are of a thing, in the plural unless there is 1 of it."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def mm_number(size: int) -> int | float:
    """Write a size in mm as a JSON number."""
    return size // 10 if size % 10 == 0 else size / 10


def metres(size: int) -> str:
    """Write a size in metres with two decimals."""
    return f"{Decimal(size) / 10_000:.2f}"


def square_metres(area: int) -> str:
    """Write an area, given in square tenths, in square metres with two decimals."""
    return f"{Decimal(area) / 100_000_000:.2f}"


def pence(text: str) -> Pence:
    """Read a sum of money of 0 or more, such as "3.60". Raises ValueError with the reason."""
    if not isinstance(text, str):
        raise ValueError(f'{text!r} must be money written as text, such as "3.60"')
    if len(text) > MOST_SIGNS or re.fullmatch(r"[0-9]+([.,][0-9]{1,2})?", text.strip()) is None:
        raise ValueError(f"{text[:40]!r} is not a sum of money such as 3.60")
    sum_ = Pence(int(Decimal(text.strip().replace(",", ".")) * 100))
    if sum_ > LARGEST_MONEY:
        raise ValueError(f"{text[:40]!r} is more than a million pounds")
    return sum_


def pounds(sum_: int) -> str:
    """Write a sum of money with two decimals and no sign of currency."""
    sign = "-" if sum_ < 0 else ""
    return f"{sign}{abs(sum_) // 100}.{abs(sum_) % 100:02d}"


def ratio(text: str) -> Fraction:
    """Read a decimal from 0 to 1, such as "0.5". Raises ValueError with the reason."""
    plain = str(text).strip().replace(",", ".")
    if len(plain) > MOST_SIGNS or re.fullmatch(r"0(\.[0-9]+)?|1(\.0+)?", plain) is None:
        raise ValueError(f"{plain[:40]!r} is not a decimal from 0 to 1, such as 0.5")
    return Fraction(plain)


def decimal_text(value: Fraction) -> str:
    """Write a fraction that came from a decimal as that decimal."""
    return format((Decimal(value.numerator) / Decimal(value.denominator)).normalize(), "f")


def half_up(value: Fraction) -> int:
    """Round to the nearest whole number, halves up: the rule of VAT on an invoice total."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)


def ceiling(value: Fraction) -> int:
    """Round up to a whole number."""
    return -(-value.numerator // value.denominator)
