"""What a section may measure as bought, what it shrinks to, and what it weighs.

EN 336 states sizes at 20 % moisture; timber shrinks across its grain by about 0.25 % for each 1 %
that it dries, and hardly along it.
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

# Up to 100 wide, then beyond; less and more in tenths: EN 336, tolerance classes 1 and 2.
_SMALL = 1_000
_REFERENCE = 20
# For each 1 % of moisture, from 20 %: article on an information sheet of softwood sizes.
_SHRINKAGE = Fraction(25, 10_000)


class Finish(Enum):
    """Sawn timber is of tolerance class 1, planed timber of class 2."""

    SAWN = "T1"
    PLANED = "T2"


_TOLERANCES = {
    Finish.SAWN: ((10, 30), (20, 40)),
    Finish.PLANED: ((10, 10), (15, 15)),
}


def allowed(size: int, finish: Finish) -> tuple[int, int]:
    """Return the least and the most that a target size may measure at 20 %, in tenths."""
    less, more = _TOLERANCES[finish][0 if size <= _SMALL else 1]
    return size - less, size + more


def dried(size: int, moisture: int) -> Fraction:
    """Return what a size at 20 % measures at another moisture, in tenths."""
    return size * (1 - _SHRINKAGE * (_REFERENCE - moisture))


def metres_per_cubic_metre(thickness: int, width: int) -> Fraction:
    """Return how many metres of a section make a cubic metre."""
    return Fraction(10**8, thickness * width)


def grams(thickness: int, width: int, length: int, density: int) -> Fraction:
    """Return the mass of a timber in grams, sizes in tenths, density in kg/m³."""
    return Fraction(thickness * width * length * density, 10**9)
