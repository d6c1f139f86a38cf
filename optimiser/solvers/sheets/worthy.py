"""Every set of parts that a plan below some cost may cut from one sheet, with a layout of each.

Prices of parts for which no layout is worth more than its sheet costs leave a plan below that cost
little to lose: a layout worth so much less than its sheet is not in it. That leaves few of all sets
that fit (the route enumeration of Baldacci, Christofides and Mingozzi 2008, for cuts). A set is
grown of two that lie beside each other or one above another, and dropped in a shape for which even
the most that could lie outside it, by a table over cuts, would not make up for what is missing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from optimiser.solvers.compiled import Small, Whole
from optimiser.solvers.sheets import fill, joining
from optimiser.solvers.sheets.columns import trimmed
from optimiser.solvers.sheets.joining import FAR, GONE, HEIGHT, HOW, NEAR, SET, WIDTH, Words
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind
from optimiser.solvers.sheets.tree import Block, divided, left_over

# Places along the longer side of the table that says what may lie outside a piece.
_PLACES = 300
# The most shapes of all sets together: 24 bytes each.
MOST_SHAPES = 300_000
_WORD = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthySets:
    """The sets listed, as copies of each kind in rows, and the shapes they were found in."""

    kinds: tuple[Kind, ...]
    counts: Whole
    values: Whole
    shapes: Small

    def on(self, room: tuple[int, int], need: int) -> Whole:
        """Return a shape of each set that fits a room (sizes plus kerf) and is worth the need."""
        fits = (self.shapes[:, WIDTH] <= room[0]) & (self.shapes[:, HEIGHT] <= room[1])
        held = np.flatnonzero(fits & (self.values[self.shapes[:, SET]] >= need))
        _, firsts = np.unique(self.shapes[held, SET], return_index=True)
        found: Whole = held[firsts]
        return found

    def of(self, shapes: Whole) -> Whole:
        """Return the copies of each kind in shapes, a row each."""
        found: Whole = self.counts[self.shapes[shapes, SET]]
        return found

    def block(self, shape: int, width: int, height: int) -> Block:
        """Build the layout of a shape in a piece that holds it."""
        entry = self.shapes[shape]
        across, along, how = int(entry[WIDTH]), int(entry[HEIGHT]), int(entry[HOW])
        if how not in (fill.RIP, fill.CROSS):
            place = int(entry[SET])
            kind = self.kinds[place]
            turned = (across, along) != (kind.width, kind.height)
            return trimmed(kind, place, width, height, turned=turned)
        pieces = []
        is_rip = how == fill.RIP
        left = width if is_rip else height
        for half in (int(entry[NEAR]), int(entry[FAR])):
            size = int(self.shapes[half][WIDTH if is_rip else HEIGHT])
            piece = (size, height) if is_rip else (width, size)
            pieces.append(self.block(half, *piece))
            left -= size
        if left:
            pieces.append(left_over(left, height) if is_rip else left_over(width, left))
        return divided(pieces, width, height, rip=is_rip)


def worthy_sets(
    problem: SheetsProblem,
    kinds: tuple[Kind, ...],
    prices: Whole,
    needs: Sequence[int],
    most_pairs: int,
) -> WorthySets | None:
    """List the sets that some sheet yields and that are worth its need; None beyond the limits.

    `prices` are whole, one a kind, and small enough for sums on a sheet to stay below 2³¹.
    """
    lister = _Lister.on(problem, kinds, prices, needs, most_pairs)
    return lister.listed() if lister is not None else None


@dataclass(slots=True)
class _Lister:
    """The arrays of one listing."""

    kinds: tuple[Kind, ...]
    sets: Words
    values: Whole
    entries: Small
    chains: Small
    slots: Small
    spare: tuple[Words, Words]
    outer: Whole
    step: int
    counters: Whole
    fields: list[tuple[int, int, int]]

    @classmethod
    def on(
        cls,
        problem: SheetsProblem,
        kinds: tuple[Kind, ...],
        prices: Whole,
        needs: Sequence[int],
        most_pairs: int,
    ) -> _Lister | None:
        """Make room, and work out what may lie outside; None where a part is too thin for it."""
        kerf = problem.kerf
        widths = np.array([sheet.width + kerf for sheet in problem.sheets], dtype=np.int64)
        heights = np.array([sheet.height + kerf for sheet in problem.sheets], dtype=np.int64)
        step = -(-int(max(widths.max(), heights.max())) // _PLACES)
        if step > min(min(kind.width, kind.height) for kind in kinds):
            return None
        fields, words = _fields(kinds)
        spare = np.zeros((2, words), dtype=np.uint64)
        for kind, (word, at, bits) in zip(kinds, fields, strict=True):
            spare[0, word] |= np.uint64(((1 << (bits - 1)) - 1 - kind.demand) << at)
            spare[1, word] |= np.uint64(1 << (at + bits - 1))
        most = MOST_SHAPES
        lister = cls(
            kinds=kinds,
            sets=np.zeros((most, words), dtype=np.uint64),
            values=np.zeros(most, dtype=np.int64),
            entries=np.zeros((most, joining.FIELDS), dtype=np.int32),
            chains=np.full(2 * most, -1, dtype=np.int32),
            slots=np.full(1 << (2 * most).bit_length(), -1, dtype=np.int32),
            spare=(spare[0], spare[1]),
            outer=_outside(kinds, prices, widths // step, heights // step, needs, step),
            step=step,
            counters=np.array([0, 0, most_pairs], dtype=np.int64),
            fields=fields,
        )
        lister.begin(prices)
        return lister

    def begin(self, prices: Whole) -> None:
        """Enter each part alone, in the ways in which it may be in a layout."""
        for place, (kind, (word, at, _)) in enumerate(zip(self.kinds, self.fields, strict=True)):
            self.sets[place, word] = np.uint64(1 << at)
            self.values[place] = prices[place]
            self.slots[joining.slot_of(self.sets, place, self.slots)] = place
            ways = ((kind.width, kind.height), (kind.height, kind.width))[: 2 if kind.turns else 1]
            for width, height in ways:
                i, j = width // self.step, height // self.step
                if i >= self.outer.shape[0] or j >= self.outer.shape[1]:
                    continue
                if prices[place] + self.outer[i, j] >= 0:
                    entry = (place, width, height, -1, -1, fill.PART)
                    self.entries[self.counters[joining.ENTRIES]] = entry
                    self.counters[joining.ENTRIES] += 1
        self.counters[joining.SETS] = len(self.kinds)

    def listed(self) -> WorthySets | None:
        """Join sets into larger ones until there are none."""
        levels = [(0, self._in_order(0))]
        # Sets of n parts are joined of those of fewer; none are left once half as many have none.
        while any(start < stop for start, stop in levels[len(levels) // 2 :]):
            start = int(self.counters[joining.ENTRIES])
            for near in range((len(levels) + 1) // 2):
                if not self._join(levels[near], levels[len(levels) - 1 - near]):
                    return None
            levels.append((start, self._in_order(start)))
        sets, shapes = self.counters[: joining.PAIRS].tolist()
        counts = np.zeros((sets, len(self.kinds)), dtype=np.int64)
        for place, (word, at, bits) in enumerate(self.fields):
            field = self.sets[:sets, word] >> np.uint64(at)
            counts[:, place] = field & np.uint64((1 << (bits - 1)) - 1)
        return WorthySets(
            kinds=self.kinds,
            counts=counts,
            values=self.values[:sets].copy(),
            shapes=self.entries[:shapes].copy(),
        )

    def _join(self, near: tuple[int, int], far: tuple[int, int]) -> bool:
        if near[0] == near[1] or far[0] == far[1]:
            return True
        least = self.entries[far[0] : far[1], WIDTH : HEIGHT + 1].min(axis=0)
        said = joining.join(
            self.sets,
            self.values,
            self.entries,
            self.chains,
            self.slots,
            near,
            far,
            self.spare,
            (int(least[0]), int(least[1])),
            self.outer,
            self.step,
            self.counters,
        )
        return bool(said == joining.DONE)

    def _in_order(self, start: int) -> int:
        """Put the shapes from `start` on in order, worth most first; drop those that are gone."""
        stop = int(self.counters[joining.ENTRIES])
        level = self.entries[start:stop]
        level = level[level[:, WIDTH] < GONE]
        order = np.argsort(-self.values[level[:, SET]], kind="stable")
        self.entries[start : start + len(level)] = level[order]
        self.counters[joining.ENTRIES] = start + len(level)
        return start + len(level)


def _fields(kinds: tuple[Kind, ...]) -> tuple[list[tuple[int, int, int]], int]:
    """Return for each kind the word, the first bit and the bits of its field, and all words."""
    fields = []
    word = at = 0
    for kind in kinds:
        bits = kind.demand.bit_length() + 1
        if at + bits > _WORD:
            word, at = word + 1, 0
        fields.append((word, at, bits))
        at += bits
    return fields, word + 1


def _outside(
    kinds: tuple[Kind, ...],
    prices: Whole,
    widths: Whole,
    heights: Whole,
    needs: Sequence[int],
    step: int,
) -> Whole:
    """Fill the table over cuts, sizes rounded down to steps, and turn it inside out."""
    xs, ys = (np.arange(int(sizes.max()) + 1, dtype=np.int64) for sizes in (widths, heights))
    ways = [(place, kind.width // step, kind.height // step) for place, kind in enumerate(kinds)]
    ways += [(p, k.height // step, k.width // step) for p, k in enumerate(kinds) if k.turns]
    held = [way for way in ways if way[1] < len(xs) and way[2] < len(ys)]
    table = np.zeros((len(xs), len(ys)), dtype=np.int32)
    places, columns, rows = np.array(held, dtype=np.int64).T.copy()
    fill.fill(table, xs, ys, columns, rows, prices[places], fill.remainders(ys))
    return joining.outside(table, widths, heights, np.array(needs, dtype=np.int64))
