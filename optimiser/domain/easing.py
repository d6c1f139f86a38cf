"""Near misses: dimensions which, eased by a little, would save stock."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.units import Pence, Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Easing:
    """One dimension of one part made smaller: "length", "width" or "height".

    `fields` are those of the wall's file that it comes from, such as "wall.width"; the one that
    counts for most first, none where the part comes from a list.
    """

    part: str
    job: str
    name: str
    dimension: str
    asked: Tenths
    eased: Tenths
    fields: tuple[str, ...] = ()

    @property
    def by(self) -> Tenths:
        """Return how much smaller it is."""
        return Tenths(self.asked - self.eased)


@dataclass(frozen=True, slots=True, kw_only=True)
class EasingRun:
    """Parts of one job and name that are eased alike: as much of the same dimension of one size."""

    parts: tuple[str, ...]
    first: Easing


@dataclass(frozen=True, slots=True, kw_only=True)
class NearMiss:
    """A smallest set of easings that was found for one material, and the purchase it saves.

    `certain`: it is proven that without easing nothing so cheap exists, so the saving is the
    easings' own. `fewest`: every smaller set was tried and proven to save too little.
    `request` and `plan` are the material as eased; money counts purchase alone.
    """

    material: str
    easings: tuple[Easing, ...]
    purchase: Pence
    saving: Pence
    certain: bool
    fewest: bool
    request: CuttingRequest
    plan: CuttingPlan

    @property
    def runs(self) -> tuple[EasingRun, ...]:
        """Return the easings, those that are alike as one, in the order of the first of each."""
        alike: dict[Easing, list[str]] = {}
        for easing in self.easings:
            alike.setdefault(replace(easing, part=""), []).append(easing.part)
        return tuple(
            EasingRun(parts=tuple(parts), first=replace(easing, part=parts[0]))
            for easing, parts in alike.items()
        )

    @property
    def eased(self) -> Tenths:
        """Return the sum of all easings."""
        return Tenths(sum(easing.by for easing in self.easings))

    @property
    def per_mm(self) -> Fraction:
        """Return the saving in pence for each millimetre eased."""
        return Fraction(10 * self.saving, self.eased)
