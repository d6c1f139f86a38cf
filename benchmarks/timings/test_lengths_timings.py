"""Timings of cutting lengths: pricing, the first plan, column generation. No time is judged."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchmarks.lengths_sets import batch
from optimiser.solvers.lengths import greedy
from optimiser.solvers.lengths.bounds import dual_weights, least_counts, material_weights, weigh
from optimiser.solvers.lengths.master import Master, Root, generate
from optimiser.solvers.lengths.plans import settle
from optimiser.solvers.lengths.prepare import Ready, prepare
from optimiser.solvers.lengths.pricing import Pricer
from optimiser.solvers.lengths.solve import warm
from optimiser.solvers.protocol import Budget

Arrays = tuple[Any, Any, int, list[int]]


@pytest.fixture(scope="module")
def ready() -> Ready:
    """Prepare a batch of three jobs, with the kernels compiled."""
    warm()
    return prepare(batch(3, 0))


@pytest.fixture(scope="module")
def root(ready: Ready) -> Root:
    """Generate the batch's columns."""
    return _generate(ready)


def test_the_first_plan(benchmark: BenchmarkFixture, ready: Ready) -> None:
    """Time best fit and settling."""
    plan, missing = benchmark(lambda: settle(ready, greedy.best_fit(ready)))

    assert plan
    assert not any(missing)


def test_pricing_every_stock_by_search(
    benchmark: BenchmarkFixture, ready: Ready, root: Root
) -> None:
    """Time branch and bound at the final prices."""
    values, limits, scale, costs = _question(ready, root)

    answer = benchmark(Pricer(ready).search, values, limits, scale, costs)

    assert len(answer.best) == len(ready.kinds)


def test_pricing_every_stock_by_table(
    benchmark: BenchmarkFixture, ready: Ready, root: Root
) -> None:
    """Time the table at the final prices."""
    values, limits, scale, costs = _question(ready, root)

    answer = benchmark(Pricer(ready).by_table, values, limits, scale, costs)

    assert answer.best == Pricer(ready).search(values, limits, scale, costs).best


def test_column_generation(benchmark: BenchmarkFixture, ready: Ready) -> None:
    """Time the linear program from best fit to its end."""
    found = benchmark(_generate, ready)

    assert found.converged


def test_proving_a_row_of_prices(benchmark: BenchmarkFixture, ready: Ready, root: Root) -> None:
    """Time the exact bounds of the final prices."""
    pricer = Pricer(ready)
    weights, scale = dual_weights(pricer, root.prices)

    row = benchmark(weigh, ready, pricer, weights, scale)

    assert least_counts(ready, [row], None).bound is not None


def test_proving_the_row_of_lengths(benchmark: BenchmarkFixture, ready: Ready) -> None:
    """Time the exact bounds of the lengths."""
    weights, scale = material_weights(ready)

    row = weigh(ready, Pricer(ready), weights, scale)

    least = benchmark(least_counts, ready, [row], None)

    assert least.bound is not None


def _question(ready: Ready, root: Root) -> Arrays:
    scale = 1 << 24
    values = np.floor(root.prices * scale).astype(np.int64)
    costs = [scale * kind.cost for kind in ready.kinds]
    return values, np.array(ready.demands, np.int64), scale, costs


def _generate(ready: Ready) -> Root:
    pricer = Pricer(ready)
    master = Master(ready, pricer)
    plan = greedy.best_fit(ready)
    master.add(plan)
    used = sum(plan.values())
    bars = [min(2 * used, ready.most(k)) for k in range(len(ready.kinds))]
    root = generate(master, bars, Budget.of(30.0))
    assert root is not None
    return root
