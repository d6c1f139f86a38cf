"""The bound of a whole plan with choices: no options, however combined, cost less than this.

A material's own bound takes the least option of every choice for itself, and a choice cannot be
taken two ways at once. Here all materials are held to the same options. A *support* of a material
is a sum over its parts that its cost never falls below (a mix of its reasons, Lagrange); supports
of all materials add up, and what they say is the least over each choice's options. Where the ways
to choose are few they are listed, and those that the supports leave cheapest are counted out one by
one. Where they are many, each material takes for itself the least option of those choices where
that loses least, until the rest are few; and a mix is stepped towards the best for all. Floats only
suggest which mixes to try; what one proves is worked out in whole numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache, partial
from math import floor, prod
from typing import TYPE_CHECKING

import numpy as np

from optimiser.verify.mix import best_mix
from optimiser.verify.weighing import Amount

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from optimiser.verify.reasons import Reasons

    Grid = NDArray[np.int64]

# Supports are added up in millionths of a penny, each rounded down.
UNIT = 1_000_000
# Sums of amounts and of supports stay below this.
_MOST = 2**62
# Ways to choose that are listed one by one at most; so many of those left where there are more.
MOST_WAYS = 1_000_000
FEWER_WAYS = 200_000
# Amounts in the tables of all materials together: a few seconds.
MOST_ENTRIES = 16_000_000
# Costs of one material that are counted out, and boxes of counts that each may take.
MOST_COUNTED = 240
BOXES = 12
# Of each material.
MOST_SUPPORTS = 10
# Steps from one mix to the next where the ways are too many to list.
STEPS = 24


# A plan is counted when it is made and again when it is checked: the same question twice.
@lru_cache(maxsize=8)
def joint_bound(materials: tuple[Reasons, ...], start: tuple[int, ...]) -> int:
    """Return a net cost in pence below which no plan is, whatever options are taken.

    `start` names an option for each choice, of which there is one at least: where to look for good
    mixes of the reasons first. Any will do.
    """
    if not all(map(is_small, materials)):
        return _stepped(materials, start)
    few = prod(_options_of(materials, len(start))) <= MOST_WAYS
    few = few and sum(map(_entries, materials)) <= MOST_ENTRIES
    listed = _listed(*_with_fewer_ways(materials, start, MOST_WAYS if few else FEWER_WAYS))
    return listed if few else max(listed, _stepped(materials, start))


def is_small(material: Reasons) -> bool:
    """Return whether the material's amounts add up within 64 bits."""
    return all(
        abs(amount.fixed) + sum(max(map(abs, each)) for each in amount.options) < _MOST
        for amount in _amounts_of(material)
    )


def _entries(material: Reasons) -> int:
    """Return how many amounts a material's table has."""
    amounts = _amounts_of(material)
    return len(amounts) * prod(_shape_of(amounts, _options_of((material,), 0)))


def _amounts_of(material: Reasons) -> tuple[Amount, ...]:
    return (*(line.base for line in material.lines), *(need.demand for need in material.needs))


def _shape_of(amounts: Sequence[Amount], options: Sequence[int]) -> tuple[int, ...]:
    """Return how many options each choice has that some amount can tell apart, 1 if none."""
    return tuple(
        count if any(len(set(amount.options[axis])) > 1 for amount in amounts) else 1
        for axis, count in enumerate(options)
    )


def _options_of(materials: Sequence[Reasons], choices: int) -> tuple[int, ...]:
    """Return how many options each choice has."""
    for material in materials:
        for line in material.lines:
            return tuple(len(each) for each in line.base.options)
    return (1,) * choices


@dataclass(frozen=True, slots=True)
class Support:
    """A material costs at least this many millionths of a penny, by the options taken."""

    fixed: int
    options: tuple[tuple[int, ...], ...]


def support_of(material: Reasons, value: Callable[[Amount], int]) -> Support | None:
    """Return what the best mix for these amounts says of all others; None: nothing of use."""
    if not material.lines:
        return None
    lines, needs = material.settled(value)
    box = tuple((0, limit) for limit in material.limits)
    mix = best_mix(box, lines, needs)
    share = sum(mix.lines)
    if share == 0:
        return None
    parts = [
        (weight / line.scale / share, line.base)
        for weight, line in zip(mix.lines, material.lines, strict=True)
        if weight
    ]
    parts += [
        (weight / share, need.demand)
        for weight, need in zip(mix.needs, material.needs, strict=True)
        if weight
    ]
    fixed = sum((factor * amount.fixed for factor, amount in parts), Fraction(0))
    for k, (least, most) in enumerate(box):
        step = sum(
            (w / ln.scale * ln.each[k] for w, ln in zip(mix.lines, lines, strict=True)), Fraction(0)
        ) - sum((w * need.holds[k] for w, need in zip(mix.needs, needs, strict=True)), Fraction(0))
        fixed += step * (least if step > 0 else most) / share
    return Support(
        floor(fixed * UNIT),
        tuple(
            tuple(
                floor(sum((f * amount.options[c][o] for f, amount in parts), Fraction(0)) * UNIT)
                for o in range(len(each))
            )
            for c, each in enumerate(material.lines[0].base.options)
        ),
    )


def _with_fewer_ways(
    materials: Sequence[Reasons], start: Sequence[int], most: int
) -> tuple[list[Reasons], list[int]]:
    """Let each material take its own least option of some choices, until there are `most` ways.

    Those come first of which that loses least by what the materials say about `start`, and all
    that have but one option.
    """
    options = _options_of(materials, len(start))
    supports = [
        found
        for material in materials
        if (found := support_of(material, partial(Amount.of, chosen=start))) is not None
    ]

    def loss(choice: int) -> int:
        each = [support.options[choice] for support in supports]
        together = min(map(sum, zip(*each, strict=True)), default=0)
        return together - sum(map(min, each))

    left = prod(options)
    freed: set[int] = set()
    for choice in sorted(range(len(options)), key=loss):
        if left > most or options[choice] == 1:
            left //= options[choice]
            freed.add(choice)
    return (
        [_freed(material, freed) for material in materials],
        [option for choice, option in enumerate(start) if choice not in freed],
    )


def _freed(material: Reasons, choices: set[int]) -> Reasons:
    """Return what a material's reasons say when it takes the least option of some choices."""

    def least(amount: Amount) -> Amount:
        return Amount(
            amount.fixed + sum(min(amount.options[choice]) for choice in choices),
            tuple(each for choice, each in enumerate(amount.options) if choice not in choices),
        )

    return replace(
        material,
        lines=tuple(replace(line, base=least(line.base)) for line in material.lines),
        needs=tuple(replace(need, demand=least(need.demand)) for need in material.needs),
    )


def _listed(materials: Sequence[Reasons], start: Sequence[int]) -> int:
    """Bound every way to choose; count out those that are left cheapest, material by material."""
    shape = _options_of(materials, len(start))
    tables = [_Table(material, shape) for material in materials if material.lines]
    sums: Grid = np.zeros(shape, np.int64)
    for table in tables:
        sums += table.grid
    counts = 0
    here = tuple(start)
    while True:
        news = [table for table in tables if not table.is_counted(here)]
        if not news or counts >= MOST_COUNTED:
            break
        for table in news:
            sums -= table.grid
            table.count(here)
            sums += table.grid
        counts += len(news)
        here = tuple(int(i) for i in np.unravel_index(int(sums.argmin()), shape))
    return -(-int(sums.min()) // UNIT)


class _Table:
    """What is known of one material's cost, by the amounts that its reasons have of each way.

    Of most choices a material cuts the same whatever is taken: only the others are told apart. A
    cost proven for some amounts holds for all that are no less, as more to hold and more cost to
    begin with never cost less.
    """

    def __init__(self, material: Reasons, shape: tuple[int, ...]) -> None:
        self._material = material
        amounts = _amounts_of(material)
        self._shape = _shape_of(amounts, shape)
        self._amounts = [self._spread(amount.fixed, amount.options) for amount in amounts]
        # The floors by way, in millionths of a penny; a way's axes may be of length 1.
        self.grid: Grid = np.zeros(self._shape, np.int64)
        self._counted = np.zeros(self._shape, np.bool_)
        self._supports = 0

    def is_counted(self, way: tuple[int, ...]) -> bool:
        return bool(self._counted[self._key(way)])

    def count(self, way: tuple[int, ...]) -> None:
        """Count a way out, and raise what is known of all ways that cut no less."""
        key = self._key(way)
        if self._supports < MOST_SUPPORTS:
            self._supports += 1
            support = support_of(self._material, partial(Amount.of, chosen=way))
            if support is not None:
                floors = self._spread(support.fixed, support.options)
                np.maximum(self.grid, floors, out=self.grid)
        least = self._material.least_of(way, BOXES) * UNIT
        no_less = np.ones(self._shape, np.bool_)
        alike = np.ones(self._shape, np.bool_)
        for amounts in self._amounts:
            no_less &= amounts >= amounts[key]
            alike &= amounts == amounts[key]
        self._counted |= alike
        np.maximum(self.grid, least, out=self.grid, where=no_less)

    def _key(self, way: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(at if count > 1 else 0 for at, count in zip(way, self._shape, strict=True))

    def _spread(self, fixed: int, options: Sequence[Sequence[int]]) -> Grid:
        """Add up a separable sum over the ways that are told apart."""
        total: Grid = np.full(self._shape, fixed, np.int64)
        for axis, (each, count) in enumerate(zip(options, self._shape, strict=True)):
            column = np.array(each[:count], np.int64)
            total += column.reshape([-1 if a == axis else 1 for a in range(total.ndim)])
        return total


def _stepped(materials: Sequence[Reasons], start: Sequence[int]) -> int:
    """Step from mix to mix, each for the average of the ways that those before left cheapest."""
    options = _options_of(materials, len(start))
    shares = [
        [Fraction(int(o == chosen)) for o in range(count)]
        for count, chosen in zip(options, start, strict=True)
    ]
    best = 0
    for step in range(STEPS):
        fixed = 0
        sums = [[0] * count for count in options]

        def average(amount: Amount) -> int:
            each = zip(amount.options, shares, strict=True)
            return amount.fixed + floor(
                sum(v * s for values, part in each for v, s in zip(values, part, strict=True))
            )

        for material in materials:
            support = support_of(material, average)
            if support is None:
                continue
            fixed += support.fixed
            for c, each in enumerate(support.options):
                sums[c] = [old + new for old, new in zip(sums[c], each, strict=True)]
        best = max(best, fixed + sum(map(min, sums)))
        for c, values in enumerate(sums):
            least = values.index(min(values))
            shares[c] = [
                (share * (step + 1) + int(o == least)) / (step + 2)
                for o, share in enumerate(shares[c])
            ]
    return -(-best // UNIT)
