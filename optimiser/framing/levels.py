"""Floor and ceiling of a real room are not level: where they are at any x along the wall.

Heights are taken at any number of places along the site and run straight between. The datum is the
highest point of the floor under the feature wall. Exact: each level stays a ratio of whole numbers
and is only rounded, always to the safe side, when asked.
"""

from __future__ import annotations

import bisect
from dataclasses import dataclass, field
from fractions import Fraction

from optimiser.domain.frame import LevelPoint
from optimiser.domain.wall import Site
from optimiser.units import Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """The room as surveyed, seen from the feature wall's left end.

    `places` are x, `floors` and `ceilings` the levels there, all doubled so that a half is whole;
    `datum` is subtracted from both. A box of the wall that stands on another, or stops short of
    the ceiling, has a flat floor or ceiling of its own instead.
    """

    places: tuple[int, ...]
    floors: tuple[int, ...]
    ceilings: tuple[int, ...]
    datum: Fraction
    width: int
    flat_floor: int | None = None
    flat_ceiling: int | None = None
    # Asked hundreds of times at the same few places.
    _known: dict[tuple[str, int, int], int] = field(
        init=False, compare=False, repr=False, default_factory=dict
    )

    def _at(self, levels: tuple[int, ...], x: int) -> int:
        at = 2 * x
        i = min(max(bisect.bisect_right(self.places, at), 1), len(self.places) - 1)
        x0, x1 = self.places[i - 1], self.places[i]
        at = min(max(at, x0), x1)
        over = levels[i - 1] * (x1 - x0) + (levels[i] - levels[i - 1]) * (at - x0)
        top, bottom = self.datum.numerator, self.datum.denominator
        return (over * bottom - top * (x1 - x0)) // (2 * (x1 - x0) * bottom)

    def floor(self, x: int) -> int:
        """Return the floor's level at x, 0 or below, rounded down."""
        return self.flat_floor if self.flat_floor is not None else self._at(self.floors, x)

    def ceiling(self, x: int) -> int:
        """Return the ceiling's level at x, rounded down."""
        return self.flat_ceiling if self.flat_ceiling is not None else self._at(self.ceilings, x)

    def _corners(self, x0: int, x1: int) -> tuple[int, ...]:
        return (x0, *(at // 2 for at in self.places if 2 * x0 < at < 2 * x1), x1)

    def lowest_ceiling(self, x0: int, x1: int) -> int:
        """Return the lowest ceiling from x0 to x1, rounded down."""
        known = self._known.get(("lowest_ceiling", x0, x1))
        if known is None:
            known = min(self.ceiling(x) for x in self._corners(x0, x1))
            self._known["lowest_ceiling", x0, x1] = known
        return known

    def highest_ceiling(self, x0: int, x1: int) -> int:
        """Return the highest ceiling from x0 to x1, rounded down."""
        known = self._known.get(("highest_ceiling", x0, x1))
        if known is None:
            known = max(self.ceiling(x) for x in self._corners(x0, x1))
            self._known["highest_ceiling", x0, x1] = known
        return known

    def lowest_floor(self, x0: int, x1: int) -> int:
        """Return the lowest floor from x0 to x1, rounded down."""
        known = self._known.get(("lowest_floor", x0, x1))
        if known is None:
            known = min(self.floor(x) for x in self._corners(x0, x1))
            self._known["lowest_floor", x0, x1] = known
        return known

    def points(self) -> tuple[LevelPoint, ...]:
        """Return floor and ceiling at the ends of the wall and where either bends."""
        return tuple(
            LevelPoint(x=Tenths(x), floor=Tenths(self.floor(x)), ceiling=Tenths(self.ceiling(x)))
            for x in dict.fromkeys(self._corners(0, self.width))
        )


def levels_of(site: Site, *, offset: int, width: int) -> Levels:
    """Return the levels of a site; heights left out are taken from the left one, or between."""
    if site.levels:
        # A place surveyed twice is refused elsewhere; here it must not stop the search for more.
        taken = sorted({point.x: point for point in site.levels}.values(), key=lambda p: p.x)
        places = tuple(2 * (point.x - offset) for point in taken)
        floors = tuple(2 * point.floor for point in taken)
        ceilings = tuple(2 * (point.floor + point.height) for point in taken)
    else:
        left = site.height_left or 0
        right = site.height_right if site.height_right is not None else left
        # A middle left out rounds down to a whole tenth, as a survey would read it.
        middle = site.height_middle if site.height_middle is not None else (left + right) // 2
        clear, fall = site.clear_width, site.floor_fall
        places = (-2 * offset, clear - 2 * offset, 2 * clear - 2 * offset)
        floors = (0, -fall, -2 * fall)
        ceilings = (2 * left, 2 * middle - fall, 2 * right - 2 * fall)
    if len(places) == 1:
        places, floors, ceilings = (places[0], places[0] + 2), floors * 2, ceilings * 2
    exact = [_exact(places, floors, 2 * x) for x in (0, width)] + [
        Fraction(level) for at, level in zip(places, floors, strict=True) if 0 < at < 2 * width
    ]
    return Levels(places=places, floors=floors, ceilings=ceilings, datum=max(exact), width=width)


def _exact(places: tuple[int, ...], levels: tuple[int, ...], at: int) -> Fraction:
    i = min(max(bisect.bisect_right(places, at), 1), len(places) - 1)
    at = min(max(at, places[i - 1]), places[i])
    share = Fraction(at - places[i - 1], places[i] - places[i - 1])
    return levels[i - 1] + (levels[i] - levels[i - 1]) * share
