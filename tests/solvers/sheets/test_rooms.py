"""Weights of rooms against the checker's table, which shares nothing with the solver's."""

from __future__ import annotations

from random import Random

import pytest

from optimiser.solvers.sheets.rooms import weights_of_rooms
from optimiser.verify.filling import Rectangle, most_weights
from tests.solvers.sheets.shop import a_problem


@pytest.mark.parametrize("seed", range(25))
def test_a_room_never_weighs_more_than_its_best_layout(seed: int) -> None:
    luck = Random(seed)
    parts = [(luck.randint(5, 40), luck.randint(5, 40), 1) for _ in range(luck.randint(1, 5))]
    problem = a_problem(parts, [(100, 80, 9)], kerf=luck.randint(0, 3), turn=seed % 2 == 1)
    weights = [luck.randint(0, 1_000) for _ in parts]
    rooms = [(luck.randint(1, 100), luck.randint(1, 80)) for _ in range(12)]
    kerf = problem.kerf
    lying = [
        Rectangle(across + kerf, along + kerf, weight)
        for (width, height, _), weight, turn in zip(parts, weights, problem.turns, strict=True)
        for across, along in ((width, height), (height, width))[: 2 if turn else 1]
        if weight
    ]

    found = weights_of_rooms(problem, weights, rooms)

    most = most_weights(lying, rooms) if lying else [0] * len(rooms)
    # Sizes are so small here that all sums are points: nothing is lost.
    assert found == most


def test_a_part_weighs_what_it_weighs_in_a_room_of_its_size_and_nothing_in_a_smaller() -> None:
    problem = a_problem([(50, 30, 1), (20, 20, 2)], [(100, 80, 9)], kerf=2)

    found = weights_of_rooms(problem, (700, 0), [(52, 32), (51, 32), (104, 32), (104, 64)])

    assert found == [700, 0, 1_400, 2_800]


def test_weights_too_large_for_the_table_are_rounded_down() -> None:
    problem = a_problem([(50, 30, 1)], [(100, 90, 9)])
    heavy = 10**12 + 7

    (found,) = weights_of_rooms(problem, (heavy,), [(50, 30)])

    assert heavy * 0.999 < found <= heavy
