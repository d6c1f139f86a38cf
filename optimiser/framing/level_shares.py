"""How floor and ceiling of the room move with what the fitter surveyed: by which share of each.

A level between two surveyed places moves with both of them; all are counted from the datum, the
highest point of the floor, which moves with its own place.
"""

from __future__ import annotations

from dataclasses import replace

from optimiser.framing.settings import Settings
from optimiser.framing.shares import WHOLE, Shares, between, together

_STILL: Shares = {}
_FIT: Shares = {"materials.fit": -WHOLE}


class LevelShares:
    """What moves floor and ceiling over the stretches of one box; each is worked out once."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings
        self._levels = replace(settings.levels, flat_floor=None)
        self._known: dict[tuple[str, int, int], Shares] = {}
        self._alike: dict[tuple[tuple[str, int], ...], Shares] = {}
        datum = max(self._bends((0, settings.width)), key=self._levels.floor)
        self._datum = self._floor(datum)

    def over(self, span: tuple[int, int]) -> Shares:
        """Return what moves the highest ceiling over a span, up to which boards reach."""
        return self._cached("over", span)

    def under(self, span: tuple[int, int]) -> Shares:
        """Return what moves the top of an upright: the lowest ceiling, less the fit."""
        return self._cached("under", span)

    def floor(self, span: tuple[int, int]) -> Shares:
        """Return what moves the lowest floor under a span."""
        return self._cached("floor", span)

    def _cached(self, what: str, span: tuple[int, int]) -> Shares:
        found = self._known.get((what, *span))
        if found is None:
            bends, levels = self._bends(span), self._levels
            if what == "floor":
                moved = self._floor(min(bends, key=levels.floor))
            else:
                choose = max if what == "over" else min
                x = choose(bends, key=levels.ceiling)
                fit = _FIT if what == "under" else _STILL
                moved = together((self._height(x), WHOLE), (self._floor(x), WHOLE), (fit, WHOLE))
            found = together((moved, WHOLE), (self._datum, -WHOLE))
            # Stretches that move alike share one object, so that whoever asks need not compare.
            found = self._alike.setdefault(tuple(found.items()), found)
            self._known[what, span[0], span[1]] = found
        return found

    def _bends(self, span: tuple[int, int]) -> list[int]:
        """Return the ends of a span and the surveyed places within it."""
        site, offset = self._settings.wall.site, self._settings.offset
        places: list[int] = [point.x for point in site.levels]
        places = places or [site.clear_width // 2]
        inside = [x - offset for x in places if span[0] < x - offset < span[1]]
        return [span[0], *inside, span[1]]

    def _floor(self, x: int) -> Shares:
        site, at = self._settings.wall.site, x + self._settings.offset
        if site.levels:
            return self._surveyed("floor", at)
        if not site.floor_fall:
            return _STILL
        return {"site.floor_fall": -at * WHOLE // site.clear_width}

    def _height(self, x: int) -> Shares:
        """Return what the height of the room at x goes by."""
        site, at = self._settings.wall.site, x + self._settings.offset
        if site.levels:
            return self._surveyed("height", at)
        left: Shares = {"site.height_left": WHOLE}
        right: Shares = {"site.height_right": WHOLE} if site.height_right is not None else left
        middle = between(left, right, 1, 2)
        if site.height_middle is not None:
            middle = {"site.height_middle": WHOLE}
        if 2 * at <= site.clear_width:
            return between(left, middle, 2 * at, site.clear_width)
        return between(middle, right, 2 * at - site.clear_width, site.clear_width)

    def _surveyed(self, what: str, at: int) -> Shares:
        """Return the shares of the surveyed places on both sides of a place of the site."""
        points = sorted(enumerate(self._settings.wall.site.levels), key=lambda entry: entry[1].x)
        before = [entry for entry in points if entry[1].x <= at]
        after = [entry for entry in points if entry[1].x > at]
        if not before or not after:
            i, _ = (before[-1:] or after[:1])[0]
            return {f"site.levels[{i}].{what}": WHOLE}
        (i, low), (j, high) = before[-1], after[0]
        one: Shares = {f"site.levels[{i}].{what}": WHOLE}
        other: Shares = {f"site.levels[{j}].{what}": WHOLE}
        return between(one, other, at - low.x, high.x - low.x)
