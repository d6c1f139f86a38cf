"""Whether single sizes and counts can be right at all."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.errors import Problem
from optimiser.units import LARGEST, mm


def size_problems(field: str, **sizes: int) -> Iterator[Problem]:
    """Name each size that is not above 0 and up to the largest there is."""
    for name, size in sizes.items():
        if not 0 < size <= LARGEST:
            yield Problem(
                f"{field}.{name}_mm",
                f"{mm(size)} is not a size above 0 and up to 100 m",
                "Give the size in mm",
            )


def size_or_zero_problems(field: str, **sizes: int) -> Iterator[Problem]:
    """Name each size that is below 0 or above the largest there is."""
    for name, size in sizes.items():
        if not 0 <= size <= LARGEST:
            yield Problem(
                f"{field}.{name}_mm",
                f"{mm(size)} is not a size from 0 to 100 m",
                "Give 0 or more in mm",
            )


def ease_problems(field: str, ease: int, **sizes: int) -> Iterator[Problem]:
    """Name an ease that would leave nothing of a part."""
    for name, size in sizes.items():
        if not 0 <= ease < max(1, size):
            yield Problem(
                f"{field}.ease_mm",
                f"{mm(ease)} is not from 0 to less than its {name} of {mm(size)}",
                "Give how many mm the part may be smaller without harm",
            )
            return


def count_problems(field: str, count: int | None, *, least: int) -> Iterator[Problem]:
    """Name a number of things that is too few; None is any number."""
    if count is not None and count < least:
        yield Problem(field, f"{count} is too few", f"Give a whole number from {least}")
