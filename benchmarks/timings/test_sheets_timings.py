"""How long the 2D solver's steps take; run with `pytest benchmarks/timings`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from benchmarks.sheets_sets import boards
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.bounds import prove
from optimiser.solvers.sheets.engine import Engine
from optimiser.solvers.sheets.table import kinds_of, new_table
from optimiser.solvers.sheets.warm import warm

if TYPE_CHECKING:
    from pytest_benchmark.fixture import BenchmarkFixture


@pytest.mark.parametrize("parts", [100, 600, 3000])
def test_a_first_plan_of_boards(benchmark: BenchmarkFixture, parts: int) -> None:
    """Time best insertion of all parts in one order."""
    warm()
    problem = boards(parts, 1)
    engine = Engine(new_table(problem, kinds_of(problem), 0))

    benchmark(engine.construct, 0)

    assert engine.unplaced == 0


@pytest.mark.parametrize("parts", [30, 300, 3000])
def test_one_slice_of_the_search(benchmark: BenchmarkFixture, parts: int) -> None:
    """Time one call of the kernel; `steps` in the extra figures is how many steps it took."""
    warm()
    problem = boards(parts, 1)
    engine = Engine(new_table(problem, kinds_of(problem), 0))
    engine.construct(0)
    engine.keep(engine.net_cost)
    # A cap out of reach, so that every call takes its full share of steps.
    engine.stride = 5 * engine.dearest

    run: Any = benchmark.pedantic  # Any: it carries no types
    run(engine.step, setup=engine.restore, rounds=40)

    steps = int(engine.table.head[c.STEPS])
    benchmark.extra_info["steps"] = steps // 40
    assert steps >= 40


@pytest.mark.parametrize("parts", [100, 600])
def test_the_proof_of_a_bound(benchmark: BenchmarkFixture, parts: int) -> None:
    """Time the quick proof."""
    warm()

    proof = benchmark(prove, boards(parts, 1))

    assert proof.bound > 0
