"""Floor and ceiling of a real room are not level: where they are at any x along the wall.

Heights are taken at the left, in the middle and at the right of the site and run straight between.
The datum is the highest point of the floor under the feature wall. Exact: every level is kept as
a whole number over one common denominator and only rounded, always to the safe side, when asked.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.frame import LevelPoint
from optimiser.domain.wall import Site
from optimiser.units import Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """The room as surveyed, seen from the feature wall's left end (`offset` from the site's)."""

    clear: int
    offset: int
    width: int
    left: int
    middle: int
    right: int
    fall: int

    def _floor_over(self, x: int) -> int:
        """Floor at x above the floor at the site's left side wall, times `clear`."""
        return -self.fall * (self.offset + x)

    def _datum(self) -> int:
        return max(self._floor_over(0), self._floor_over(self.width))

    def _ceiling_over(self, x: int) -> int:
        """Ceiling at x above the datum, times `clear`."""
        at = self.offset + x
        if 2 * at <= self.clear:
            height = self.left * self.clear + (self.middle - self.left) * 2 * at
        else:
            past = 2 * at - self.clear
            height = self.middle * self.clear + (self.right - self.middle) * past
        return self._floor_over(x) + height - self._datum()

    def floor(self, x: int) -> int:
        """Return the floor's level at x, 0 or below, rounded down."""
        return (self._floor_over(x) - self._datum()) // self.clear

    def ceiling(self, x: int) -> int:
        """Return the ceiling's level at x, rounded down."""
        return self._ceiling_over(x) // self.clear

    @property
    def bend(self) -> int | None:
        """Where the site's middle falls on the feature wall, if it does."""
        at = self.clear // 2 - self.offset
        return at if 0 < at < self.width else None

    def _corners(self, x0: int, x1: int) -> tuple[int, ...]:
        bend = self.bend
        return (x0, bend, x1) if bend is not None and x0 < bend < x1 else (x0, x1)

    def lowest_ceiling(self, x0: int, x1: int) -> int:
        """Return the lowest ceiling from x0 to x1, rounded down."""
        return min(self.ceiling(x) for x in self._corners(x0, x1))

    def highest_ceiling(self, x0: int, x1: int) -> int:
        """Return the highest ceiling from x0 to x1, rounded down."""
        return max(self.ceiling(x) for x in self._corners(x0, x1))

    def lowest_floor(self, x0: int, x1: int) -> int:
        """Return the lowest floor from x0 to x1, rounded down."""
        return min(self.floor(x0), self.floor(x1))

    def points(self) -> tuple[LevelPoint, ...]:
        """Return floor and ceiling at the ends of the wall and where its ceiling bends."""
        return tuple(
            LevelPoint(x=Tenths(x), floor=Tenths(self.floor(x)), ceiling=Tenths(self.ceiling(x)))
            for x in self._corners(0, self.width)
        )


def levels_of(site: Site, *, offset: int, width: int) -> Levels:
    """Return the levels of a site; heights left out are taken from the left one, or between."""
    right = site.height_right if site.height_right is not None else site.height_left
    middle = site.height_middle
    if middle is None:
        middle = Tenths((site.height_left + right) // 2)
    return Levels(
        clear=site.clear_width,
        offset=offset,
        width=width,
        left=site.height_left,
        middle=middle,
        right=right,
        fall=site.floor_fall,
    )
