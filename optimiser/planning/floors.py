"""What is known of one material's cost by way to choose: planned, or proven to be no less.

Ways that cut the same of the material are one here. A proof made for one way's plan speaks of all
ways (see lifting.py); counted out in whole pieces of stock it says how many another way takes at
least, which prices alone do not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import partial
from math import inf
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from optimiser.verify.joint import UNIT, Support, support_of
from optimiser.verify.reasons import Reasons
from optimiser.verify.weighing import Amount

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Numbers: TypeAlias = NDArray[np.int64]
    Floats: TypeAlias = NDArray[np.float64]

Way: TypeAlias = tuple[int, ...]

# Boxes of counts that one count of stock may take.
BOXES = 12
# Lines and needs that are counted with.
MOST_REASONS = 24
# Supports that stand when other ways are listed.
MOST_SUPPORTS = 10
_WIDE = 2**40


@dataclass(slots=True)
class Floors:
    """Costs of one material's plans, and floors of the ways listed, by what they cut of it."""

    # For each option of each choice the first that cuts the same of the material.
    alike: tuple[tuple[int, ...], ...]
    costs: dict[Way, float] = field(default_factory=dict)
    _reasons: Reasons = field(default_factory=Reasons)
    _counted: dict[Way, int] = field(default_factory=dict)
    _supports: list[Support] = field(default_factory=list)
    _fresh: set[int] = field(default_factory=set)
    # Of the ways listed: the place of each among the keys; by key, options, floor and plan's cost.
    places: Numbers = field(init=False)
    floors: Floats = field(init=False)
    planned: Floats = field(init=False)
    _keys: Numbers = field(init=False)
    _at: dict[Way, int] = field(init=False, default_factory=dict)
    _amounts: Numbers = field(init=False)

    def key(self, way: Sequence[int]) -> Way:
        """Return the way as far as the material can tell it from others."""
        return tuple(same[option] for same, option in zip(self.alike, way, strict=True))

    def learn(self, way: Way, cost: float, reasons: Reasons) -> None:
        """Take in a plan for a way, inf pence if there can be none, and what its proof says.

        What was counted before stands, and may be counted higher.
        """
        key = self.key(way)
        self.costs[key] = min(cost, self.costs.get(key, inf))
        if key in self._at:
            self.planned[self._at[key]] = self.costs[key]
        old = self._reasons
        lines = tuple(dict.fromkeys((*old.lines, *reasons.lines)))[:MOST_REASONS]
        needs = tuple(dict.fromkeys((*old.needs, *reasons.needs)))[:MOST_REASONS]
        if (lines, needs) != (old.lines, old.needs):
            self._reasons = Reasons(reasons.limits, lines, needs)
            if self._at:
                self._add_up()

    def list_ways(self, ways: Numbers) -> None:
        """Say which ways (a row each, a column a choice) are looked at from now on."""
        code: Numbers = np.zeros(len(ways), np.int64)
        columns = [np.array(same)[ways[:, c]] for c, same in enumerate(self.alike)]
        for column, same in zip(columns, self.alike, strict=True):
            if len(set(same)) > 1:
                code = code * len(same) + column
                if code.max(initial=0) > _WIDE:
                    code = np.unique(code, return_inverse=True)[1]
        _, firsts, self.places = np.unique(code, return_index=True, return_inverse=True)
        self._keys = np.stack([column[firsts] for column in columns], axis=1)
        self._at = {tuple(key): place for place, key in enumerate(self._keys.tolist())}
        self.floors = np.zeros(len(self._keys))
        self.planned = np.array([self.costs.get(key, np.nan) for key in self._at])
        for support in self._supports:
            self._lift(support)
        self._add_up()

    def support(self, way: Way) -> Support | None:
        """Return a sum over the options that no cost is below, high near the way, if there is any.

        The floors rise to it.
        """
        found = support_of(self._reasons, partial(Amount.of, chosen=way))
        if found is not None:
            self._supports = [*self._supports[1 - MOST_SUPPORTS :], found]
            if self._at:
                self._lift(found)
        return found

    def count(self, place: int) -> bool:
        """Count a key's stock in whole pieces, if not done yet; return whether its floor rose."""
        if place in self._fresh or not self._reasons.lines:
            return False
        self._fresh.add(place)
        key = tuple(self._keys[place].tolist())
        before = self.floors[place]
        least = self._reasons.least_of(key, BOXES)
        self._counted[key] = max(least, self._counted.get(key, 0))
        self._raise(place, self._counted[key])
        return bool(self.floors[place] > before)

    def likely(self) -> Floats:
        """Return by key the cost that was planned, else the floor and what is usual beyond."""
        beyond = self.planned - self.floors
        beyond = beyond[np.isfinite(beyond)]
        usual = float(np.median(beyond)) if len(beyond) else 0.0
        return np.where(np.isnan(self.planned), self.floors + usual, self.planned)

    def _add_up(self) -> None:
        """Work out the reasons' amounts by key, and the floors from what was counted before."""
        amounts = [line.base for line in self._reasons.lines]
        amounts += [need.demand for need in self._reasons.needs]
        columns = [self._spread(amount.fixed, amount.options) for amount in amounts]
        nothing: Numbers = np.zeros((len(self._keys), 0), np.int64)
        self._amounts = np.stack(columns, axis=1) if columns else nothing
        self._fresh = set()
        for key, least in self._counted.items():
            if key in self._at:
                self._raise(self._at[key], least)

    def _lift(self, support: Support) -> None:
        np.maximum(
            self.floors, self._spread(support.fixed, support.options) / UNIT, out=self.floors
        )

    def _raise(self, place: int, least: int) -> None:
        """Raise the floors of all keys that cut no less, by every reason."""
        no_less = (self._amounts >= self._amounts[place]).all(axis=1)
        self.floors[no_less] = np.maximum(self.floors[no_less], least)

    def _spread(self, fixed: int, options: Sequence[Sequence[int]]) -> Numbers:
        """Return a sum over the options by key."""
        total = np.full(len(self._keys), fixed, np.int64)
        for choice, each in enumerate(options):
            total += np.array(each, np.int64)[self._keys[:, choice]]
        return total
