"""A face divided by lines: which of its cells lie under rectangles, and between which timbers.

Knows whole numbers only. Arrays are of shape (cells across, cells up).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Flat: TypeAlias = tuple[int, int, int, int]  # across from, up from, across to, up to


def grid(lines: Iterable[int]) -> NDArray[np.int64]:
    """Return the lines that divide a face, in order, each once."""
    return np.array(sorted(set(lines)), dtype=np.int64)


def marked(
    rectangles: Iterable[Flat], xs: NDArray[np.int64], us: NDArray[np.int64]
) -> NDArray[np.int64]:
    """Count, for each cell of a grid, the rectangles over it; their sides are lines of it."""
    counts = np.zeros((len(xs) - 1, len(us) - 1), dtype=np.int64)
    rectangles = list(rectangles)
    if not rectangles:
        return counts
    across, up = xs.tolist(), us.tolist()
    # Faces have few rectangles: one slice for each is quicker than any way over whole arrays.
    for x0, u0, x1, u1 in rectangles:
        counts[
            bisect_left(across, x0) : bisect_left(across, x1),
            bisect_left(up, u0) : bisect_left(up, u1),
        ] += 1
    return counts


def within(flat: Flat, whole: Flat, more: int) -> Flat:
    """Return what of a timber, and `more` each side of it, lies behind a face."""
    x0, u0 = max(flat[0] - more, whole[0]), max(flat[1] - more, whole[1])
    return x0, u0, max(min(flat[2] + more, whole[2]), x0), max(min(flat[3] + more, whole[3]), u0)


def beside_hole(hole: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Return the cells that share a side with a hole."""
    wide = np.pad(hole, 1)
    beside = wide[:-2, 1:-1] | wide[2:, 1:-1] | wide[1:-1, :-2] | wide[1:-1, 2:]
    return np.asarray(beside)


def carried(
    bare: NDArray[np.bool_],
    covered: NDArray[np.bool_],
    held: NDArray[np.bool_],
    lines: NDArray[np.int64],
    limit: int,
) -> NDArray[np.bool_]:
    """Return which bare cells lie between two timbers within the limit along the first axis."""
    loose = covered & ~held
    steps = np.arange(len(lines))
    # Where the run of loose cells that each cell lies in begins, and where it ends.
    begin = np.where(loose, 0, steps[1:, None])
    begin = np.maximum.accumulate(begin, axis=0)
    end = np.where(loose, steps[-1], steps[:-1, None])
    end = np.minimum.accumulate(end[::-1], axis=0)[::-1]
    padded = np.zeros((held.shape[0] + 2, held.shape[1]), dtype=np.int64)
    padded[1:-1] = held
    column = np.arange(held.shape[1])[None, :]
    between = (padded[begin, column] > 0) & (padded[end + 1, column] > 0)
    return np.asarray(bare & between & (lines[end] - lines[begin] <= limit))
