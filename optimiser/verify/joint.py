"""The bound of a whole plan with choices: no options, however combined, cost less than this.

A material's own bound takes the least option of every choice for itself, and a choice cannot be
taken two ways at once. Here all materials are held to the same options. A *support* of a material
is a sum over its parts that its cost never falls below (a mix of its reasons, Lagrange); supports
of all materials add up, and what they say is the least over each choice's options. Where the ways
to choose are few they are listed, and those that the supports leave cheapest are counted out one by
one. Floats only suggest which mixes to try; what one proves is worked out in whole numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
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
# Ways to choose that are listed one by one at most.
MOST_WAYS = 4_096
# Ways that are counted out, and boxes of counts that each material may take for it.
MOST_COUNTED = 60
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
    ways = prod(_options_of(materials, len(start)))
    return _listed(materials, start) if ways <= MOST_WAYS else _stepped(materials, start)


def _options_of(materials: Sequence[Reasons], choices: int) -> tuple[int, ...]:
    """Return how many options each choice has."""
    for material in materials:
        for line in material.lines:
            return tuple(len(each) for each in line.base.options)
    return (1,) * choices


@dataclass(frozen=True, slots=True)
class _Support:
    """A material costs at least this many millionths of a penny, by the options taken."""

    fixed: int
    options: tuple[tuple[int, ...], ...]


def _support(material: Reasons, value: Callable[[Amount], int]) -> _Support | None:
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
    return _Support(
        floor(fixed * UNIT),
        tuple(
            tuple(
                floor(sum((f * amount.options[c][o] for f, amount in parts), Fraction(0)) * UNIT)
                for o in range(len(each))
            )
            for c, each in enumerate(material.lines[0].base.options)
        ),
    )


def _listed(materials: Sequence[Reasons], start: Sequence[int]) -> int:
    """Bound every way to choose; count out those that the supports leave cheapest."""
    shape = _options_of(materials, len(start))
    floors: list[Grid] = [np.zeros(shape, np.int64) for _ in materials]
    seen = [0] * len(materials)
    counted: dict[tuple[int, ...], int] = {}
    known: list[dict[tuple[int, ...], int]] = [{} for _ in materials]
    here = tuple(start)
    for _ in range(MOST_COUNTED):
        total = 0
        for m, material in enumerate(materials):
            amounts = tuple(
                amount.of(here)
                for amount in (
                    *(line.base for line in material.lines),
                    *(need.demand for need in material.needs),
                )
            )
            if amounts not in known[m]:
                known[m][amounts] = material.least_of(here, BOXES)
                if seen[m] < MOST_SUPPORTS:
                    seen[m] += 1
                    _raise(floors[m], _support(material, partial(Amount.of, chosen=here)))
            total += known[m][amounts]
        counted[here] = total
        sums = np.sum(floors, axis=0)
        for way, cost in counted.items():
            sums[way] = max(cost * UNIT, int(sums[way]))
        here = tuple(int(i) for i in np.unravel_index(int(sums.argmin()), shape))
        if here in counted:
            break
    return -(-int(sums.min()) // UNIT)


def _raise(floors: Grid, support: _Support | None) -> None:
    """Raise what is known of every way to choose by a support."""
    if support is None:
        return
    sums = np.full(floors.shape, support.fixed, np.int64)
    for axis, each in enumerate(support.options):
        sums += np.array(each, np.int64).reshape([-1 if a == axis else 1 for a in range(sums.ndim)])
    np.maximum(floors, sums, out=floors)


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
            support = _support(material, average)
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
