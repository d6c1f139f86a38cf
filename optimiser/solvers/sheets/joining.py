"""Compiled loops that list sets of parts: what may lie outside a piece, and pairs of sets joined.

An entry is a set in one shape, a row of six numbers: its set, width, height, the two entries it was
joined of and how: RIP beside each other, CROSS one above another. Sets are rows of words in which
each kind has a field with a bit to spare, so that two are added word by word and a part cut more
often than it is wanted shows in that bit.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from optimiser.solvers.compiled import Small, Whole, compiled, lean
from optimiser.solvers.sheets.fill import CROSS, RIP

Words = NDArray[np.uint64]

SET, WIDTH, HEIGHT, NEAR, FAR, HOW = range(6)
FIELDS = 6
# What joining says: all pairs looked at, or no room for more.
DONE, FULL = 0, 1
# What `counters` hold.
SETS, ENTRIES, PAIRS = range(3)
_NOTHING = -(1 << 60)
GONE = 1 << 28


@compiled
def outside(table: Small, widths: Whole, heights: Whole, needs: Whole) -> Whole:
    """Return the most value outside a piece of each size, less what its sheet needs.

    `table` holds the most value of a piece of each size; a piece lies on any of the sheets. A set
    in a shape for which this and its own value are below 0 is in no layout that its sheet needs.
    """
    across, along = table.shape
    most = np.full((across, along), _NOTHING, dtype=np.int64)
    for i in range(across - 1, -1, -1):
        for j in range(along - 1, -1, -1):
            best = _NOTHING
            for k in range(len(needs)):
                if i <= widths[k] and j <= heights[k]:
                    best = max(best, -needs[k])
            if i + 1 < across:
                best = max(best, most[i + 1, j])
            if j + 1 < along:
                best = max(best, most[i, j + 1])
            for beside in range(1, across - i):
                best = max(best, most[i + beside, j] + table[beside, j])
            for above in range(1, along - j):
                best = max(best, most[i, j + above] + table[i, above])
            most[i, j] = best
    return most


@lean
def slot_of(sets: Words, row: int, slots: Small) -> int:
    """Return the place of a set in the hash table: where it stands, or the free one it would take.

    `row` of `sets` holds the set looked for.
    """
    key = np.uint64(1469598103934665603)
    for q in range(sets.shape[1]):
        key ^= sets[row, q]
        key *= np.uint64(0x9E3779B97F4A7C15)
        key ^= key >> np.uint64(29)
    mask = slots.shape[0] - 1
    place = np.int64(key & np.uint64(mask))
    while slots[place] >= 0:
        same = True
        for q in range(sets.shape[1]):
            if sets[slots[place], q] != sets[row, q]:
                same = False
        if same:
            break
        place = (place + 1) & mask
    return int(place)


@lean
def join(
    sets: Words,
    values: Whole,
    entries: Small,
    chains: Small,
    slots: Small,
    near: tuple[int, int],
    far: tuple[int, int],
    spare: tuple[Words, Words],
    least: tuple[int, int],
    outer: Whole,
    step: int,
    counters: Whole,
) -> int:
    """Join each entry of `near` with each of `far` (ranges, worth most first); say DONE or FULL.

    `least` are the least width and height in `far`; `spare` what is added to a set and which bits
    then tell that a part is cut too often; `outer` what `outside` says, for sizes in steps;
    `chains` the last entry of each set, then the one before each entry. `counters` go on.
    """
    heads = sets.shape[0]
    for a in range(near[0], near[1]):
        width, height = entries[a, WIDTH], entries[a, HEIGHT]
        value = values[entries[a, SET]]
        # The best that any set may bring that lies beside this one or above it.
        beside = _outer(outer, width + least[0], height, step)
        hope = value + max(beside, _outer(outer, width, height + least[1], step))
        for b in range(a if near[0] == far[0] else far[0], far[1]):
            more = values[entries[b, SET]]
            if hope + more < 0:
                break
            counters[PAIRS] -= 1
            if counters[PAIRS] < 0:
                return FULL
            wide, high = width + entries[b, WIDTH], max(height, entries[b, HEIGHT])
            is_rip = value + more + _outer(outer, wide, high, step) >= 0
            broad, tall = max(width, entries[b, WIDTH]), height + entries[b, HEIGHT]
            is_cross = value + more + _outer(outer, broad, tall, step) >= 0
            if not (is_rip or is_cross) or not _add(sets, entries[a], entries[b], spare, counters):
                continue
            place = slot_of(sets, counters[SETS], slots)
            if slots[place] < 0:
                if counters[SETS] + 2 >= sets.shape[0]:
                    return FULL
                slots[place] = counters[SETS]
                values[counters[SETS]] = value + more
                chains[counters[SETS]] = -1
                counters[SETS] += 1
            whole = slots[place]
            if counters[ENTRIES] + 2 >= entries.shape[0]:
                return FULL
            if is_rip:
                _enter(entries, chains, heads, whole, (wide, high), (a, b, RIP), counters)
            if is_cross:
                _enter(entries, chains, heads, whole, (broad, tall), (a, b, CROSS), counters)
    return DONE


@lean
def _outer(outer: Whole, width: int, height: int, step: int) -> int:
    """Look up what may lie outside a shape; one too large for every sheet lies on none."""
    i, j = width // step, height // step
    if i >= outer.shape[0] or j >= outer.shape[1]:
        return _NOTHING
    return int(outer[i, j])


@lean
def _add(sets: Words, near: Small, far: Small, spare: tuple[Words, Words], counters: Whole) -> bool:
    """Write the sum of two sets into the first free row; False if a part would be cut too often."""
    new = counters[SETS]
    for q in range(sets.shape[1]):
        both = sets[near[SET], q] + sets[far[SET], q]
        if (both + spare[0][q]) & spare[1][q]:
            return False
        sets[new, q] = both
    return True


@lean
def _enter(
    entries: Small,
    chains: Small,
    heads: int,
    whole: int,
    shape: tuple[int, int],
    joined: tuple[int, int, int],
    counters: Whole,
) -> None:
    """Add a shape of a set unless one there is as small; shapes that are no smaller go."""
    width, height = shape
    entry = chains[whole]
    while entry >= 0:
        if entries[entry, WIDTH] <= width and entries[entry, HEIGHT] <= height:
            return
        entry = chains[heads + entry]
    entry = chains[whole]
    while entry >= 0:
        if entries[entry, WIDTH] >= width and entries[entry, HEIGHT] >= height:
            entries[entry, WIDTH] = entries[entry, HEIGHT] = GONE
        entry = chains[heads + entry]
    new = counters[ENTRIES]
    entries[new, SET], entries[new, WIDTH], entries[new, HEIGHT] = whole, width, height
    entries[new, NEAR], entries[new, FAR], entries[new, HOW] = joined
    chains[heads + new] = chains[whole]
    chains[whole] = new
    counters[ENTRIES] += 1
