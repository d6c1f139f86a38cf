"""The most that a sheet yields in parts and in credit for offcuts: the checker's own table.

The plain bound credits all that is no part, kerf and scrap too. Here a piece left over earns credit
only if it is kept, whole pence, as a plan is credited. Pieces are looked at on an even grid, sizes
rounded down: pieces cut from one piece then never reach beyond it, so by induction over the cuts no
edge-to-edge layout yields more than the table says. A piece left over counts as the largest that
rounds down to its place.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from optimiser.verify.filling import Rectangle, TooHeavy, filled

if TYPE_CHECKING:
    from numpy.typing import NDArray

# Sums of two entries in one table at most: about a tenth of a second.
MOST_SUMS = 60_000_000
_NARROW = 2**30
_MOST = 2**62


# A plan is counted when it is made and again when it is checked: the same question twice.
@lru_cache(maxsize=64)
def most_with_credit(
    parts: tuple[Rectangle, ...],
    sheets: tuple[tuple[int, int], ...],
    kerf: int,
    keep: tuple[int, int],
    rate: Fraction,
    scale: int,
    sums: int = MOST_SUMS,
) -> tuple[int, ...]:
    """Return for each sheet a value that no layout exceeds: weights and `scale` times the credit.

    Parts (one for each way to lie) and sheets have one kerf added to their sizes; `keep` is the
    least width and height of what is kept, lying either way; `rate` is its credit in pence per unit
    of area, rounded down to pence for each piece. Raises TooHeavy when values could overflow 64
    bits.
    """
    useful = [part for part in parts if part.weight > 0]
    widest, highest = max(width for width, _ in sheets), max(height for _, height in sheets)
    densest = max([Fraction(part.weight, part.across * part.along) for part in useful], default=0)
    value = max(densest, scale * rate)
    if value * widest * highest >= _MOST:
        raise TooHeavy("a weight is too large to add up safely")
    step = _step(widest, highest, sums)
    if step > min([*(min(part.across, part.along) for part in useful), min(keep) + kerf]):
        # A part or what is kept would vanish: let all the area be worth as much as the best of it.
        return tuple(int(value * width * height) for width, height in sheets)
    across = np.arange(widest // step + 1, dtype=np.int64)
    along = np.arange(highest // step + 1, dtype=np.int64)
    # Rounding down makes things smaller by less than half, both ways.
    is_narrow = 4 * value * widest * highest < _NARROW
    kept = _kept(across, along, step, kerf, keep, rate, scale)
    table: NDArray[np.signedinteger] = kept.astype(np.int32) if is_narrow else kept
    for part in useful:
        i, j = part.across // step, part.along // step
        if i < len(across) and j < len(along):
            table[i, j] = max(int(table[i, j]), part.weight)
    if not table.any():
        return (0,) * len(sheets)
    most = filled(table, across, along)
    return tuple(int(most[width // step, height // step]) for width, height in sheets)


def _step(widest: int, highest: int, sums: int) -> int:
    """Return the finest step at which a table takes no more than so many sums."""
    step = 1
    while (widest // step) * (highest // step) * (widest // step + highest // step) // 4 > sums:
        step += max(1, step // 16)
    return step


def _kept(
    across: NDArray[np.int64],
    along: NDArray[np.int64],
    step: int,
    kerf: int,
    keep: tuple[int, int],
    rate: Fraction,
    scale: int,
) -> NDArray[np.int64]:
    """Return `scale` times the credit of the largest piece of each place, 0 where none is kept."""
    width = ((across + 1) * step - 1 - kerf)[:, None]
    height = ((along + 1) * step - 1 - kerf)[None, :]
    upright = (width >= keep[0]) & (height >= keep[1])
    lying = (height >= keep[0]) & (width >= keep[1])
    area = np.where(upright | lying, width * height, 0)
    largest = int(area.max(initial=0))
    exact = np.int64 if largest * rate.numerator < _MOST else object
    pence = area.astype(exact) * rate.numerator // rate.denominator
    return np.asarray(pence.astype(np.int64) * scale)
