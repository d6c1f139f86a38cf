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
