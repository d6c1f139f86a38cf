"""What the plots show: where the money of stock goes, cost beside bound, the rack by day."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from optimiser.units import Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class Spent:
    """What the stock of one material or job cost, in pence, by where it goes.

    `saw` is kerf and trim. Exact: the sums over all materials and over all jobs are alike.
    """

    name: str
    parts: Fraction
    kept: Fraction
    scrap: Fraction
    saw: Fraction

    @property
    def total(self) -> Fraction:
        """Return what all of it cost."""
        return self.parts + self.kept + self.scrap + self.saw

    @property
    def waste(self) -> Fraction:
        """Return what is neither part nor kept."""
        return self.scrap + self.saw


@dataclass(frozen=True, slots=True, kw_only=True)
class CostBar:
    """The net cost of a material's or a batch's plan, and what no plan can cost less than."""

    name: str
    cost: Pence
    bound: Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class RackMoment:
    """What lies on the rack from `at` on, in seconds of any clock.

    `length` in tenths, `area` in square tenths; `held` are those of them that plans hold.
    """

    at: float
    lengths: int
    boards: int
    length: int
    area: int
    held_length: int
    held_area: int
