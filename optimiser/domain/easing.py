"""Near misses: dimensions which, eased by a little, would save stock."""

from __future__ import annotations

from dataclasses import dataclass
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
    """Easings of one job that are alike: the same dimension of parts of one name, as much less."""

    easings: tuple[Easing, ...]

    @property
    def parts(self) -> tuple[str, ...]:
        """Return the ids of the parts."""
        return tuple(easing.part for easing in self.easings)

    @property
    def fields(self) -> tuple[str, ...]:
        """Return the fields of the wall's file, those that count for most parts first."""
        ranks: dict[str, tuple[int, int]] = {}
        for easing in self.easings:
            for place, field in enumerate(easing.fields):
                count, places = ranks.get(field, (0, 0))
                ranks[field] = (count - 1, places + place)
        return tuple(sorted(ranks, key=lambda field: (*ranks[field], field)))


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
        alike: dict[tuple[str, str, str, Tenths], list[Easing]] = {}
        for easing in self.easings:
            key = (easing.job, easing.name, easing.dimension, easing.by)
            alike.setdefault(key, []).append(easing)
        return tuple(EasingRun(easings=tuple(easings)) for easings in alike.values())

    @property
    def eased(self) -> Tenths:
        """Return the sum of all easings."""
        return Tenths(sum(easing.by for easing in self.easings))

    @property
    def per_mm(self) -> Fraction:
        """Return the saving in pence for each millimetre eased."""
        return Fraction(10 * self.saving, self.eased)
