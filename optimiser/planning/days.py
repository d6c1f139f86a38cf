"""Days as plain numbers, so that windows are sums; the library itself reads no clock.

Source: the Gregorian calendar's rule of leap years, counted from 1 March of year 0.
"""

from __future__ import annotations

import re

_ISO = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_MONTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
# 1 March of year 0 was a Wednesday, counted back in the Gregorian calendar.
_FIRST_WEEKDAY = 2


def day_number(text: str) -> int:
    """Return the number of an ISO date. Raises ValueError for what is no date."""
    match = _ISO.fullmatch(text)
    if match is None:
        raise ValueError(f"{text!r} is not a date such as 2026-12-01")
    year, month, day = (int(group) for group in match.groups())
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    if not 1 <= month <= 12 or not 1 <= day <= _MONTHS[month - 1] + (leap and month == 2):
        raise ValueError(f"{text!r} is not a day of the calendar")
    return _from_march(year - (month < 3), (month - 3) % 12) + day - 1


def day_text(number: int) -> str:
    """Write a day's number as an ISO date."""
    year = number // 366
    while _from_march(year + 1, 0) <= number:
        year += 1
    month = max(m for m in range(12) if _from_march(year, m) <= number)
    day = number - _from_march(year, month) + 1
    return f"{year + (month > 9):04d}-{(month + 2) % 12 + 1:02d}-{day:02d}"


def weekday(number: int) -> int:
    """Return the day of the week, 0 for Monday."""
    return (number + _FIRST_WEEKDAY) % 7


def _from_march(year: int, month: int) -> int:
    """Return the number of the first of a month, months counted from March."""
    return 365 * year + year // 4 - year // 100 + year // 400 + (153 * month + 2) // 5
