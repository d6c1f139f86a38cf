"""Whether rows of weights rule out every plan below some cost: the checker's own list of sets.

A plan that costs little above what its parts weigh together has little to lose: on each of its
sheets lie parts that weigh nearly what a sheet can yield. By the first row the sets of parts that
do are listed: one part, or two sets beside each other or one above another, no part more often than
it is wanted. A set in a shape is passed over when the most that may lie outside it, by a table over
cuts, would still weigh too little. Each further row is counted over the sets left, and leaves
fewer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import ceil, lcm
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from optimiser.verify.counts import Line, Need, least_cost
from optimiser.verify.filling import filled
from optimiser.verify.wanted_once import TooManySets

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Whole: TypeAlias = NDArray[np.int64]
    Words: TypeAlias = NDArray[np.uint64]

# Pairs of shapes looked at: a second or two.
MOST_PAIRS = 30_000_000
# Shapes kept at a time: a hundred bytes each while they are looked at.
_MOST_SHAPES = 400_000
# Places along the longer side of the table over cuts.
_PLACES = 300
# Pairs looked at together.
_LOT = 1 << 18
# Beyond it sizes would not add up in 32 bits.
_LONGEST = 1 << 30
_NOTHING = -(1 << 60)
_MOST = 1 << 60
_WORD = 64


@dataclass(frozen=True, slots=True)
class NarrowPart:
    """A part's ways to lie, sizes with one kerf added; its weight in each row; copies wanted."""

    ways: tuple[tuple[int, int], ...]
    weights: tuple[int, ...]
    quantity: int


@dataclass(frozen=True, slots=True)
class NarrowSheet:
    """A sheet, sizes with one kerf added: what one costs at least, and how many there may be.

    `yields` is the most of the first weights that any layout on it has.
    """

    width: int
    height: int
    cost: Fraction
    available: int | None
    yields: int


def rules_out(
    parts: Sequence[NarrowPart],
    sheets: Sequence[NarrowSheet],
    most: Fraction,
    pairs: int = MOST_PAIRS,
) -> bool:
    """Return whether the rows show that sheets which cost `most` or less do not yield the parts.

    Raises TooManySets when more than `pairs` pairs of shapes would have to be looked at.
    """
    return _rules_out(_merged(parts), tuple(sheets), most, pairs)


# A plan is counted when it is made and again when it is checked: the same question twice.
@lru_cache(maxsize=64)
def _rules_out(
    parts: tuple[NarrowPart, ...], sheets: tuple[NarrowSheet, ...], most: Fraction, pairs: int
) -> bool:
    wanted = sum(part.quantity for part in parts)
    if wanted * max(max(part.weights) for part in parts) >= _MOST:
        raise TooManySets("weights of plans below a cost are too large")
    limits = [wanted if sheet.available is None else sheet.available for sheet in sheets]
    scale = lcm(*(sheet.cost.denominator for sheet in sheets))
    line = Line(0, tuple(int(sheet.cost * scale) for sheet in sheets), 1)
    weights = np.array([part.weights for part in parts], dtype=np.int64)
    copies = np.array([part.quantity for part in parts], dtype=np.int64)
    held: list[Whole] = []
    needs: list[Need] = []
    for row in range(weights.shape[1]):
        yields = [sheet.yields for sheet in sheets]
        if row:
            yields = [int((sets @ weights[:, row]).max(initial=0)) for sets in held]
        demand = int(copies @ weights[:, row])
        needs.append(Need(tuple(yields), demand))
        least = least_cost(limits, [line], needs)
        if least is None or least > most * scale:
            return True
        asked = _asked(sheets, limits, yields, demand, most)
        if asked is None or row + 1 == weights.shape[1]:
            return False
        if row:
            held = [
                sets[sets @ weights[:, row] >= need] for sets, need in zip(held, asked, strict=True)
            ]
        else:
            held = _Listing(parts, sheets, asked, pairs).sets()
    return False


def _merged(parts: Sequence[NarrowPart]) -> tuple[NarrowPart, ...]:
    """Take parts together that lie and weigh alike."""
    wanted: Counter[NarrowPart] = Counter()
    for part in parts:
        wanted[NarrowPart(tuple(sorted(part.ways)), part.weights, 0)] += part.quantity
    return tuple(replace(part, quantity=quantity) for part, quantity in wanted.items())


def _asked(
    sheets: Sequence[NarrowSheet],
    limits: Sequence[int],
    yields: Sequence[int],
    demand: int,
    most: Fraction,
) -> list[int] | None:
    """Return what each sheet yields at least in a plan that costs `most`; None if that is open.

    At so many weights to the penny that no sheet yields more than it costs, and a rent where there
    are few, all sheets together cost no more above what they yield than the plan above its parts.
    """
    if any(sheet.cost <= 0 and sheet.available is None for sheet in sheets):
        return None
    shares = [
        (yielded / sheet.cost, sheet.available is not None)
        for yielded, sheet in zip(yields, sheets, strict=True)
        if sheet.cost > 0
    ]
    scale = max(
        (share for share, few in shares if not few),
        default=max((share for share, _ in shares), default=Fraction(0)),
    )
    if scale <= 0:
        return None
    rents = [
        Fraction(0) if sheet.available is None else max(Fraction(0), yielded / scale - sheet.cost)
        for yielded, sheet in zip(yields, sheets, strict=True)
    ]
    spare = most - demand / scale
    spare += sum(rent * limit for rent, limit in zip(rents, limits, strict=True))
    return [
        ceil((sheet.cost + rent - spare) * scale) for sheet, rent in zip(sheets, rents, strict=True)
    ]


@dataclass(slots=True)
class _Shapes:
    """Sets in shapes, a row each, those that weigh most first."""

    sets: Words
    width: Whole
    height: Whole
    weight: Whole

    def __len__(self) -> int:
        return len(self.width)

    def taken(self, places: Whole) -> _Shapes:
        """Return the shapes at these places."""
        return _Shapes(
            self.sets[places], self.width[places], self.height[places], self.weight[places]
        )


class _Listing:
    """One listing of all sets that weigh enough by the first weights."""

    def __init__(
        self,
        parts: Sequence[NarrowPart],
        sheets: Sequence[NarrowSheet],
        asked: Sequence[int],
        pairs: int,
    ) -> None:
        self._parts = parts
        self._sheets = sheets
        self._asked = asked
        self._pairs = pairs
        self._fields: list[tuple[int, int, int]] = []
        word = at = 0
        for part in parts:
            bits = part.quantity.bit_length() + 1
            if at + bits > _WORD:
                word, at = word + 1, 0
            self._fields.append((word, at, bits))
            at += bits
        # A bit to spare in each field shows when a part is cut more often than it is wanted.
        self._more = np.zeros(word + 1, dtype=np.uint64)
        self._over = np.zeros(word + 1, dtype=np.uint64)
        for part, (word, at, bits) in zip(parts, self._fields, strict=True):
            self._more[word] |= np.uint64(((1 << (bits - 1)) - 1 - part.quantity) << at)
            self._over[word] |= np.uint64(1 << (at + bits - 1))
        longest = max(max(sheet.width, sheet.height) for sheet in sheets)
        if longest >= _LONGEST:
            raise TooManySets("a sheet is too long for weights of plans below a cost")
        self._step = -(-longest // _PLACES)
        if self._step > min(min(way) for part in parts for way in part.ways):
            raise TooManySets("a part is too thin for weights of plans below a cost")
        self._most = self._outside()

    def sets(self) -> list[Whole]:
        """Return for each sheet the sets it yields that weigh what is asked of it: copies."""
        levels = [self._alone()]
        # Sets of n parts are joined of those of fewer; none are left once half as many have none.
        while any(len(level) for level in levels[len(levels) // 2 :]):
            grown = [
                self._joined(levels[near], levels[len(levels) - 1 - near])
                for near in range((len(levels) + 1) // 2)
            ]
            levels.append(_least(_together(grown)))
        shapes = _together(levels)
        found = []
        for sheet, asked in zip(self._sheets, self._asked, strict=True):
            fits = (shapes.width <= sheet.width) & (shapes.height <= sheet.height)
            sets = np.unique(shapes.sets[fits & (shapes.weight >= asked)], axis=0)
            copies = np.zeros((len(sets), len(self._parts)), dtype=np.int64)
            for place, (word, at, bits) in enumerate(self._fields):
                field = sets[:, word] >> np.uint64(at)
                copies[:, place] = field & np.uint64((1 << (bits - 1)) - 1)
            found.append(copies)
        return found

    def _outside(self) -> Whole:
        """Work out the most weight outside a piece of each size, less what its sheet is asked for.

        Sizes are rounded down to steps, parts and sheets alike: what fitted still does.
        """
        widths = [sheet.width // self._step for sheet in self._sheets]
        heights = [sheet.height // self._step for sheet in self._sheets]
        across, along = max(widths) + 1, max(heights) + 1
        table = np.zeros((across, along), dtype=np.int64)
        for part in self._parts:
            for width, height in part.ways:
                i, j = width // self._step, height // self._step
                if i < across and j < along:
                    table[i, j] = max(int(table[i, j]), part.weights[0])
        if int(table.max()) * across * along >= _MOST:
            raise TooManySets("weights of plans below a cost are too large")
        if table.any():
            table = filled(table, np.arange(across), np.arange(along))
        # One row and one column more, for what is too large for every sheet.
        most = np.full((across + 1, along + 1), _NOTHING, dtype=np.int64)
        for i in reversed(range(across)):
            row = most[i, :along]
            for width, height, asked in zip(widths, heights, self._asked, strict=True):
                if i <= width:
                    np.maximum(row[: height + 1], -asked, out=row[: height + 1])
            if i + 1 < across:
                beside = most[i + 1 : across, :along] + table[1 : across - i]
                np.maximum(row, beside.max(axis=0), out=row)
            for j in reversed(range(along - 1)):
                row[j] = max(row[j], (row[j + 1 :] + table[i, 1 : along - j]).max())
        return most

    def _outer(self, width: Whole, height: Whole) -> Whole:
        rows, columns = self._most.shape
        i, j = width, height
        if self._step > 1:
            i, j = i // self._step, j // self._step
        places = np.minimum(i, rows - 1) * columns + np.minimum(j, columns - 1)
        most: Whole = self._most.ravel().take(places)
        return most

    def _alone(self) -> _Shapes:
        """Return each part by itself, in the ways in which it may be in a layout."""
        listed = [
            (place, *way)
            for place, part in enumerate(self._parts)
            for way in dict.fromkeys(part.ways)
        ]
        places, width, height = np.array(listed, dtype=np.int64).T.copy()
        sets = np.zeros((len(listed), len(self._more)), dtype=np.uint64)
        for row, (place, _, _) in enumerate(listed):
            word, at, _ = self._fields[place]
            sets[row, word] = np.uint64(1 << at)
        weights = np.array([part.weights[0] for part in self._parts], dtype=np.int64)[places]
        kept = np.flatnonzero(weights + self._outer(width, height) >= 0)
        # Half as many bytes take half the time; none is larger than the largest sheet.
        shapes = _Shapes(sets, width.astype(np.int32), height.astype(np.int32), weights)
        return _least(shapes.taken(kept))

    def _joined(self, near: _Shapes, far: _Shapes) -> _Shapes:
        """Lay each shape beside each of the others, and above it."""
        found = [near.taken(np.zeros(0, dtype=np.int64))]
        if not len(near) or not len(far):
            return found[0]
        # The best that any may bring: those that hope for most come first, and fewer at a time.
        beside = self._outer(near.width + far.width.min(), near.height)
        above = self._outer(near.width, near.height + far.height.min())
        hope = near.weight + np.maximum(beside, above)
        order = np.argsort(-hope, kind="stable")
        start = count = 0
        while start < len(order):
            some = int(np.searchsorted(-far.weight, hope[order[start]], "right"))
            if not some:
                break
            lot = order[start : start + max(1, _LOT // some)]
            start += len(lot)
            self._pairs -= len(lot) * some
            if self._pairs < 0:
                raise TooManySets("the order is too large for weights of plans below a cost")
            found += self._laid(near, lot, far, some)
            count += len(found[-1]) + len(found[-2])
            if count > _MOST_SHAPES:
                found = [_least(_together(found))]
                count = len(found[0])
                if count > _MOST_SHAPES // 2:
                    raise TooManySets("the order is too large for weights of plans below a cost")
        return _together(found)

    def _laid(self, near: _Shapes, lot: Whole, far: _Shapes, some: int) -> list[_Shapes]:
        """Lay some shapes beside the first of others, and above them; keep what may be used."""
        weight = near.weight[lot, None] + far.weight[None, :some]
        width, height = near.width[lot, None], near.height[lot, None]
        wide, high = far.width[None, :some], far.height[None, :some]
        laid = []
        for across, along in (
            (width + wide, np.maximum(height, high)),
            (np.maximum(width, wide), height + high),
        ):
            one, other = np.nonzero(weight + self._outer(across, along) >= 0)
            sets = near.sets[lot[one]] + far.sets[other]
            often = ((sets + self._more) & self._over).any(axis=1)
            one, other, sets = one[~often], other[~often], sets[~often]
            laid.append(_Shapes(sets, across[one, other], along[one, other], weight[one, other]))
        return laid


def _together(shapes: Sequence[_Shapes]) -> _Shapes:
    return _Shapes(
        np.concatenate([each.sets for each in shapes]),
        np.concatenate([each.width for each in shapes]),
        np.concatenate([each.height for each in shapes]),
        np.concatenate([each.weight for each in shapes]),
    )


def _least(shapes: _Shapes) -> _Shapes:
    """Leave out shapes that hold another of the same set; those that weigh most come first."""
    if not len(shapes):
        return shapes
    order = np.lexsort((shapes.height, shapes.width, *shapes.sets.T))
    sets, height = shapes.sets[order], shapes.height[order]
    first = np.ones(len(order), dtype=bool)
    first[1:] = (sets[1:] != sets[:-1]).any(axis=1)
    # Within a set shapes get wider: one is kept if it is lower than all before it. Each further
    # set starts lower than any height of the one before.
    lower = height - np.cumsum(first) * (int(height.max()) + 1)
    first[1:] |= lower[1:] < np.minimum.accumulate(lower)[:-1]
    kept = shapes.taken(order[first])
    return kept.taken(np.argsort(-kept.weight, kind="stable"))
