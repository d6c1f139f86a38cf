"""The compiled searches against their plain twins."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import numpy as np
import pytest

from optimiser.solvers.lengths.prepare import Ready, prepare
from optimiser.solvers.lengths.pricing import Pricer
from tests.solvers.lengths.builders import a_problem
from tests.solvers.lengths.plain import patterns

SCALE = 1 << 12


def a_ready_problem(seed: int) -> tuple[Ready, list[int]]:
    """Draw a prepared problem and a value for each type."""
    rng = Random(seed)
    sizes = rng.sample(range(8, 50), rng.randint(1, 6))
    stocks = [(rng.randint(40, 110), rng.randint(20, 60), None) for _ in range(rng.randint(1, 3))]
    ready = prepare(
        a_problem(
            {size: rng.randint(1, 3) for size in sizes},
            stocks,
            kerf=rng.randint(0, 3),
            keep=rng.choice([0, 10, 30]),
            credit=rng.choice([Fraction(0), Fraction(1, 3), Fraction(5, 7)]),
        )
    )
    return ready, [rng.randint(1, 40) * SCALE // 2 + rng.randint(0, 9) for _ in ready.weights]


def value_of(ready: Ready, values: list[int], kind: int, counts: tuple[int, ...]) -> int:
    fill = sum(n * w for n, w in zip(counts, ready.weights, strict=True))
    worth = sum(n * v for n, v in zip(counts, values, strict=True))
    return worth + SCALE * ready.earned(kind, fill)


@pytest.mark.parametrize("seed", range(60))
def test_branch_and_bound_and_table_both_find_the_best_pattern(seed: int) -> None:
    ready, values = a_ready_problem(seed)
    pricer = Pricer(ready)
    arrays = np.array(values, np.int64), np.array(ready.demands, np.int64)
    zeros = [0] * len(ready.kinds)

    searched = pricer.search(*arrays, SCALE, zeros)
    tabled = pricer.by_table(*arrays, SCALE, zeros)

    expected = [
        max(
            value_of(ready, values, k, counts)
            for counts in patterns(ready.weights, ready.demands, kind.capacity)
        )
        for k, kind in enumerate(ready.kinds)
    ]
    assert searched.best == tabled.best == expected


@pytest.mark.parametrize("seed", range(20))
def test_a_find_is_worth_what_it_says(seed: int) -> None:
    ready, values = a_ready_problem(seed)
    arrays = np.array(values, np.int64), np.array(ready.demands, np.int64)

    answer = Pricer(ready).search(*arrays, SCALE, [0] * len(ready.kinds))

    for find in answer.finds:
        counts = [0] * len(ready.weights)
        for t, n in find.items:
            counts[t] = n
        assert find.value == value_of(ready, values, find.kind, tuple(counts))
        assert ready.fill(find.items) <= ready.kinds[find.kind].capacity


@pytest.mark.parametrize("seed", range(40))
def test_collecting_lists_every_pattern_at_least_so_good(seed: int) -> None:
    ready, values = a_ready_problem(seed)
    arrays = np.array(values, np.int64), np.array(ready.demands, np.int64)
    least = [30 * SCALE] * len(ready.kinds)

    collected = Pricer(ready).collect(*arrays, SCALE, least, 5000)

    assert collected is not None
    expected = set()
    for k, kind in enumerate(ready.kinds):
        for counts in patterns(ready.weights, ready.demands, kind.capacity):
            room = kind.capacity - sum(n * w for n, w in zip(counts, ready.weights, strict=True))
            maximal = all(
                n == d or w > room
                for n, d, w in zip(counts, ready.demands, ready.weights, strict=True)
            )
            good = value_of(ready, values, k, counts) >= least[k]
            if good and (maximal or ready.credit):
                expected.add((k, tuple((t, n) for t, n in enumerate(counts) if n)))
    assert set(collected) == expected
    assert len(collected) == len(expected)
