"""From a screen's diagonal to its picture, and from a seat to the look up at it.

The only place besides `loads` where floats are allowed; sizes leave it rounded up to a whole tenth,
so that a recess is never too small by rounding. At 16:9 a diagonal D has the width D·16/√337, by
Pythagoras.
"""

from __future__ import annotations

import math
from fractions import Fraction

from optimiser.units import Tenths

_TENTHS_PER_INCH = 254
# 16² + 9² = 337
_DIAGONAL_SQUARED = 337


def picture_size(diagonal: Fraction) -> tuple[Tenths, Tenths]:
    """Return width and height in tenths of a 16:9 picture, `diagonal` in inches, rounded up."""

    def side(share: int) -> Tenths:
        squared = (_TENTHS_PER_INCH * diagonal * share) ** 2 / _DIAGONAL_SQUARED
        rounded = math.isqrt(math.ceil(squared))
        return Tenths(rounded if rounded * rounded >= squared else rounded + 1)

    return side(16), side(9)


def distance_for_field(width: float, degrees: float) -> float:
    """Return how far away a picture of `width` fills a horizontal field of `degrees`."""
    return width / 2 / math.tan(math.radians(degrees / 2))


def upward_look(centre: int, eye: int, distance: int) -> float:
    """Return the angle in degrees at which an eye looks up at the middle of a screen."""
    return math.degrees(math.atan2(centre - eye, distance))


def least_distance(centre: int, eye: int, degrees: float) -> int:
    """Return from how far away, in tenths rounded up, an eye looks up by no more than that."""
    distance = math.ceil((centre - eye) / math.tan(math.radians(degrees)))
    return distance if upward_look(centre, eye, distance) <= degrees else distance + 1
