"""How long framing takes: one usual wall, and a hundred of every shape."""

from __future__ import annotations

from random import Random

from pytest_benchmark.fixture import BenchmarkFixture

from benchmarks.random_walls import price_book, random_wall
from benchmarks.walls import measure
from optimiser.framing.build import frame_wall


def test_framing_one_wall(benchmark: BenchmarkFixture) -> None:
    """Time one wall with fire and TV."""
    wall, book = random_wall(Random(4)), price_book()

    frame = benchmark(frame_wall, wall, book)

    assert frame.members


def test_framing_a_hundred_walls(benchmark: BenchmarkFixture) -> None:
    """Time a hundred walls of every shape, those refused included."""
    row = benchmark(measure, 100, 1)

    assert row["crashed"] == 0
