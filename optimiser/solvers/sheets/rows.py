"""The most value of rows and of stacks of rows: what two or three stages take out of sheets.

A row holds parts of one height beside each other; a stack holds rows above one another, each as
wide as the stack; a row of stacks fills a sheet (Gilmore and Gomory 1965). Sizes are places in two
lists of points, each rounded down, so that what is found can be cut. A twin turned by a quarter
has the first cuts the other way.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from optimiser.solvers.compiled import Whole, compiled, lean

Places = NDArray[np.int32]


@compiled
def lesser(points: Whole, sizes: Whole) -> Places:
    """Return for each size and point the last point that the difference reaches; −1 if none."""
    found = np.full((sizes.shape[0], points.shape[0]), -1, dtype=np.int32)
    for s in range(sizes.shape[0]):
        last = 0
        for i in range(points.shape[0]):
            rest = points[i] - sizes[s]
            if rest < 0:
                continue
            while last + 1 < points.shape[0] and points[last + 1] <= rest:
                last += 1
            found[s, i] = last
    return found


@lean
def fill_rows(rows: Places, groups: Whole, left: Places, values: Whole) -> None:
    """Write the most value of a row of each height for each width.

    `groups` says of each way that a part lies which height it has, `left` what is left of a width
    beside it.
    """
    rows[:] = 0
    for i in range(1, rows.shape[1]):
        for g in range(rows.shape[0]):
            rows[g, i] = rows[g, i - 1]
        for way in range(groups.shape[0]):
            rest = left[way, i]
            if rest >= 0:
                g = groups[way]
                rows[g, i] = max(rows[g, i], np.int32(values[way] + rows[g, rest]))


@lean
def fill_stacks(stacks: Places, rows: Places, left: Places) -> None:
    """Write the most value of a stack of rows for each height, entry j, and each width."""
    stacks[:] = 0
    for j in range(1, stacks.shape[0]):
        copy_line(stacks[j], stacks[j - 1])
        for g in range(rows.shape[0]):
            rest = left[g, j]
            if rest >= 0:
                add_lines(stacks[j], rows[g], stacks[rest])


@lean
def copy_line(most: Places, one: Places) -> None:
    """Write one line over another."""
    for i in range(most.shape[0]):
        most[i] = one[i]


@lean
def add_lines(most: Places, one: Places, other: Places) -> None:
    """Raise `most` to the sums of two lines where they are more."""
    for i in range(most.shape[0]):
        both = np.int32(one[i] + other[i])
        most[i] = max(most[i], both)


@lean
def fill_line(line: Places, pieces: Places, left: Places) -> None:
    """Write the most value of pieces beside each other for each width.

    `pieces` is what one piece is worth for its width, `left` what a width leaves of another.
    """
    line[0] = 0
    for i in range(1, line.shape[0]):
        line[i] = line[i - 1]
        for near in range(1, i + 1):
            both = np.int32(pieces[near] + line[left[near, i]])
            line[i] = max(line[i], both)
