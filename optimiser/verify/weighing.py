"""What the bounds of both kinds of material stand on: weights added up over parts and over lengths.

A certificate is a list of reasons; each gives every part a weight, and what matters is only how
much weight one stock piece can hold. That is recomputed by plain tables that share nothing with the
solvers, so a wrong weight can make a bound poor but never false.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.verify.worth import worth

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from optimiser.domain.request import Choice

# Weights are added up in 64 bits; a certificate that could overflow them is refused.
_MOST = 2**62

PartT = TypeVar("PartT", LengthPart, BoardPart)


class BadCertificate(ValueError):
    """The certificate cannot be read as one."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A measure of what a plan cuts: of the parts in no choice, and of each option's parts."""

    fixed: int
    options: tuple[tuple[int, ...], ...]

    @property
    def least(self) -> int:
        """Return the amount where each choice takes the option with least of it."""
        return self.fixed + sum(min(each) for each in self.options)

    def of(self, chosen: Sequence[int]) -> int:
        """Return the amount where each choice takes the option named."""
        return self.fixed + sum(
            each[option] for each, option in zip(self.options, chosen, strict=True)
        )

    def times(self, factor: int) -> Amount:
        """Return so many times the amount."""
        return Amount(
            self.fixed * factor,
            tuple(tuple(value * factor for value in each) for each in self.options),
        )


def amount_of(
    parts: tuple[PartT, ...], choices: tuple[Choice, ...], measure: Callable[[PartT], int]
) -> Amount:
    """Add a measure over the parts that must be cut, and over those of each option."""
    measures = {part.id: measure(part) for part in parts}
    optional = {id_ for choice in choices for option in choice.options for id_ in option}
    return Amount(
        sum(value for id_, value in measures.items() if id_ not in optional),
        tuple(
            tuple(sum(measures.get(id_, 0) for id_ in set(option)) for option in choice.options)
            for choice in choices
        ),
    )


class FillTable:
    """The most weight of parts that fill at most x, for every x: a bounded knapsack table."""

    def __init__(self, items: Sequence[tuple[int, int, int]], capacity: int) -> None:
        self._step = gcd(*(size for size, _, _ in items)) or 1
        cells = capacity // self._step + 1
        heaviest = max((weight * (capacity // size) for size, weight, _ in items), default=0)
        if heaviest >= _MOST:
            raise BadCertificate("a weight is too large to add up safely")
        self._most: NDArray[np.int64] = np.zeros(cells, dtype=np.int64)
        merged: dict[tuple[int, int], int] = {}
        for size, weight, copies in items:
            merged[size, weight] = merged.get((size, weight), 0) + copies
        for (size, weight), copies in merged.items():
            self._add(size // self._step, weight, min(copies, capacity // size))

    def _add(self, size: int, weight: int, copies: int) -> None:
        """Offer up to `copies` pieces, in lots of 1, 2, 4 … and a last lot."""
        lot = 1
        while copies > 0:
            lot = min(lot, copies)
            cells = size * lot
            if cells < len(self._most):
                np.maximum(
                    self._most[cells:], self._most[:-cells] + weight * lot, out=self._most[cells:]
                )
            copies -= lot
            lot *= 2

    def most(self, capacity: int) -> int:
        """Return the most weight that fits a capacity."""
        return int(self._most[capacity // self._step])

    def most_with_credit(
        self, usable: int, kerf: int, least: int, keep: int, rate: Fraction, scale: int
    ) -> int:
        """Return the most of weight + scale · credit that one piece yields, all fills compared.

        A piece holds one part at least, so it is filled to `least`, the shortest part and its kerf.
        """
        best = self.most(usable + kerf)
        longest_fill = usable - keep
        if rate == 0 or longest_fill < least:
            return best
        # Credit falls as the fill grows and the table rises, so only steps of the table matter.
        steps = np.flatnonzero(np.diff(self._most[: longest_fill // self._step + 1])) + 1
        fills = np.append(steps[steps * self._step > least] * self._step, least)
        largest = max(rate.numerator * usable, scale * worth(rate, usable) + best)
        exact = np.int64 if largest < _MOST else object
        left = usable - fills.astype(exact)
        earned = left * rate.numerator // rate.denominator
        held = self._most[fills // self._step].astype(exact)
        return max(best, int((held + scale * earned).max()))
