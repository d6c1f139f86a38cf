"""The kernels' plain twins: slow, short, and written from the definition alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product


def patterns(
    weights: Sequence[int], limits: Sequence[int], capacity: int
) -> Iterator[tuple[int, ...]]:
    """Yield every count of items, the empty one apart, that fits."""
    for counts in product(*(range(limit + 1) for limit in limits)):
        if any(counts) and sum(n * w for n, w in zip(counts, weights, strict=True)) <= capacity:
            yield counts


def cheapest_cover(
    costs: Sequence[int], yields: Sequence[int], limits: Sequence[int], need: int
) -> int | None:
    """Return the least cost of whole counts that yield `need`."""
    totals = [
        sum(n * c for n, c in zip(counts, costs, strict=True))
        for counts in product(*(range(limit + 1) for limit in limits))
        if sum(n * y for n, y in zip(counts, yields, strict=True)) >= need
    ]
    return min(totals, default=None)
