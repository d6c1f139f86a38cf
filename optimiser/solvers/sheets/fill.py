"""The most value that edge-to-edge cuts take out of a piece, for every piece of a grid at once.

An exact integer dynamic programme with unlimited copies (Gilmore and Gomory 1965; Beasley 1985).
Only values are kept: the cuts of a layout are found again by looking for what adds up. A piece
that is worth no more than its own cuts need not be tried as the first piece of a larger one.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from optimiser.solvers.compiled import Whole, compiled, lean

# What a trace says of a piece: left over, a part, or cut.
LEFT = 0
PART = 1
RIP = 2
CROSS = 3

# Rows of the table that are filled together, so that the processor adds them side by side.
BLOCK = 32

# The most steps of one trace; a layout of more pieces is not traced, and generation finds no other.
# A part of 3 × 1 takes some 10,000 on a sheet of 100 × 100.
MOST_STEPS = 1 << 15


@compiled
def fill(
    table: NDArray[np.int32],
    xs: Whole,
    ys: Whole,
    columns: Whole,
    rows: Whole,
    values: Whole,
    left: NDArray[np.int32],
) -> None:
    """Write the most value for each pair of points into `table`.

    `left` is what `remainders` says of `ys`. Values must be small enough for sums on the largest
    piece to stay below 2³¹.
    """
    across = xs.shape[0]
    lowest = put_parts(table, columns, rows, values)
    firsts = np.zeros(across, dtype=np.int64)
    count = 0
    block = np.zeros((ys.shape[0], BLOCK), dtype=np.int32)
    beside = np.zeros((ys.shape[0], BLOCK), dtype=np.int32)
    line = np.zeros(ys.shape[0], dtype=np.int32)
    start = lowest
    while start < across:
        # What is left beside the narrowest part lies before the block: its rows wait for no other.
        stop = start + 1
        while stop < across and stop < start + BLOCK and xs[stop] - xs[lowest] < xs[start]:
            stop += 1
        for i in range(start, stop):
            line[:] = table[start - 1]
            lay_beside(line, table, xs, firsts[:count], i, start - 1)
            enter(block, beside, line, table[i], i - start)
        stack_rows(block, left, ys, stop - start)
        for i in range(start, stop):
            if leave(block, beside, table[i], i - start):
                firsts[count] = i
                count += 1
        start = stop


@lean
def put_parts(table: NDArray[np.int32], columns: Whole, rows: Whole, values: Whole) -> int:
    """Empty the table, write what one part is worth where it just fits; return the first row."""
    table[:] = 0
    lowest = table.shape[0]
    for place in range(values.shape[0]):
        i = columns[place]
        j = rows[place]
        table[i, j] = max(table[i, j], np.int32(values[place]))
        lowest = min(lowest, i)
    return int(lowest)


@lean
def lay_beside(
    line: NDArray[np.int32], table: NDArray[np.int32], xs: Whole, firsts: Whole, i: int, last: int
) -> None:
    """Raise `line` to what two pieces beside each other are worth in a piece as wide as row i."""
    far = last
    for place in range(firsts.shape[0]):
        near = firsts[place]
        if 2 * xs[near] > xs[i]:
            return
        while far > 0 and xs[far] > xs[i] - xs[near]:
            far -= 1
        add_rows(line, table[near], table[far])


@lean
def enter(
    block: NDArray[np.int32],
    beside: NDArray[np.int32],
    line: NDArray[np.int32],
    row: NDArray[np.int32],
    r: int,
) -> None:
    """Write row r of a block: at least the row before it, pieces beside each other, one part."""
    for j in range(line.shape[0]):
        beside[j, r] = line[j]
        block[j, r] = max(line[j], row[j])
        if r > 0:
            beside[j, r] = max(line[j], beside[j, r - 1])
            block[j, r] = max(block[j, r], block[j, r - 1])


@lean
def leave(
    block: NDArray[np.int32], beside: NDArray[np.int32], row: NDArray[np.int32], r: int
) -> bool:
    """Copy row r of a block into the table; say if it is worth more than rows beside each other."""
    better = False
    for j in range(row.shape[0]):
        row[j] = block[j, r]
        known = beside[j, r]
        if r > 0:
            known = max(known, block[j, r - 1])
        if row[j] > known:
            better = True
    return better


@compiled
def remainders(points: Whole) -> NDArray[np.int32]:
    """Return for each point and each one below it the last point that the difference reaches."""
    count = points.shape[0]
    left = np.zeros((count, count), dtype=np.int32)
    for near in range(1, count):
        far = 0
        for whole in range(near, count):
            while far + 1 < count and points[far + 1] <= points[whole] - points[near]:
                far += 1
            left[whole, near] = far
    return left


@compiled
def stack_rows(block: NDArray[np.int32], left: NDArray[np.int32], ys: Whole, used: int) -> None:
    """Close a block of rows under stacking: entry j of each holds any two whose sizes fit it."""
    along = block.shape[0]
    firsts = np.zeros(along, dtype=np.int64)
    count = 0
    most = np.zeros(BLOCK, dtype=np.int32)
    for j in range(1, along):
        most[:] = block[j - 1]
        for place in range(count):
            near = firsts[place]
            if 2 * ys[near] > ys[j]:
                break
            add_rows(most, block[near], block[left[j, near]])
        better = False
        for r in range(used):
            if block[j, r] > most[r]:
                better = True
            block[j, r] = max(block[j, r], most[r])
        if better:
            firsts[count] = j
            count += 1


@lean
def add_rows(most: NDArray[np.int32], near: NDArray[np.int32], far: NDArray[np.int32]) -> None:
    """Raise `most` to the sums of two rows where they are more."""
    for j in range(most.shape[0]):
        both = np.int32(near[j] + far[j])
        most[j] = max(most[j], both)


@compiled
def trace(
    table: NDArray[np.int32],
    xs: Whole,
    ys: Whole,
    columns: Whole,
    rows: Whole,
    values: Whole,
    start: Whole,
    steps: Whole,
) -> int:
    """Write how the piece at a pair of points is cut, near pieces first; return how many steps.

    `start` is (i, j, first): `first` 0 lets the trace choose; otherwise the first cut is the one
    at point `first` across, or at point −`first` along. A step is (what, entry or size of the near
    piece). 0 if the layout has too many pieces.
    """
    stack = np.zeros((MOST_STEPS, 2), dtype=np.int64)
    stack[0, 0] = start[0]
    stack[0, 1] = start[1]
    depth = 1
    count = 0
    forced = start[2]
    while depth > 0:
        if count + 1 >= steps.shape[0] or depth + 2 >= stack.shape[0]:
            return 0
        depth -= 1
        i = stack[depth, 0]
        j = stack[depth, 1]
        what = 0
        first = 0
        if forced > 0:
            what, first = RIP, forced
        elif forced < 0:
            what, first = CROSS, -forced
        else:
            what, first, i, j = first_cut(table, xs, ys, columns, rows, values, i, j)
        forced = 0
        steps[count, 0] = what
        steps[count, 1] = first
        if what == RIP:
            steps[count, 1] = xs[first]
            stack[depth, 0] = last_within(xs, xs[i] - xs[first])
            stack[depth, 1] = j
            stack[depth + 1, 0] = first
            stack[depth + 1, 1] = j
            depth += 2
        elif what == CROSS:
            steps[count, 1] = ys[first]
            stack[depth, 0] = i
            stack[depth, 1] = last_within(ys, ys[j] - ys[first])
            stack[depth + 1, 0] = i
            stack[depth + 1, 1] = first
            depth += 2
        count += 1
    return count


@lean
def first_cut(
    table: NDArray[np.int32],
    xs: Whole,
    ys: Whole,
    columns: Whole,
    rows: Whole,
    values: Whole,
    i: int,
    j: int,
) -> tuple[int, int, int, int]:
    """Return what is done with a piece: (what, entry or point of the near piece, i, j)."""
    value = table[i, j]
    if value == 0:
        return LEFT, 0, i, j
    while i > 0 and table[i - 1, j] == value:
        i -= 1
    while j > 0 and table[i, j - 1] == value:
        j -= 1
    for place in range(values.shape[0]):
        if values[place] == value and columns[place] <= i and rows[place] <= j:
            return PART, place, i, j
    near = splits(table[:, j], xs, i, value)
    if near > 0:
        return RIP, near, i, j
    near = splits(table[i], ys, j, value)
    if near > 0:
        return CROSS, near, i, j
    return LEFT, 0, i, j


@lean
def splits(line: NDArray[np.int32], points: Whole, whole: int, value: int) -> int:
    """Return the first near piece that with what is left makes up a value; 0 if none does."""
    far = whole
    for near in range(1, whole):
        if 2 * points[near] > points[whole]:
            return 0
        while points[far] > points[whole] - points[near]:
            far -= 1
        if np.int64(line[near]) + line[far] == value:
            return int(near)
    return 0


@lean
def last_within(points: Whole, size: int) -> int:
    """Return the place of the last point that is not above a size."""
    return int(np.searchsorted(points, size, side="right")) - 1
