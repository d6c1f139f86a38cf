"""Walls whose file contradicts itself, and whether the faults told of one say what they must."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import Projection, Step, Wall
from optimiser.errors import InvalidInput, Problem
from optimiser.framing.build import frame_wall
from optimiser.units import tenths
from tests.framing.builders import a_board, a_price_book

# A wall, the fields with their values that the one fault must name, and what its remedy says.
Contradiction = tuple[Wall, tuple[str, ...], str]

BOOK = a_price_book()
LINED = replace(BOOK, sheets=(*BOOK.sheets, a_board("silicate", 12, ((1_200, 2_400),), mass=9_000)))


def a_step(**changes: Any) -> Step:
    usual = Step(name="deep", x=tenths(900), width=tenths(1_800), depth=tenths(420))
    return replace(usual, **{name: _size(value) for name, value in changes.items()})


def _size(value: Any) -> Any:
    return tenths(value) if isinstance(value, int | float) else value


def breast(x: float, width: float, depth: float) -> tuple[Projection, ...]:
    return (Projection(x=tenths(x), width=tenths(width), depth=tenths(depth)),)


def refused(wall: Wall, book: PriceBook) -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as caught:
        frame_wall(wall, book)
    return caught.value.problems


def assert_told(wall: Wall, said: tuple[str, ...], remedy: str) -> None:
    """Assert that one fault of a wall names its fields, their values and a remedy."""
    problems = refused(wall, LINED)

    assert any(
        all(figure in p.trouble for figure in said)
        and remedy in p.remedy
        and any(figure.startswith(p.field) for figure in said)
        for p in problems
    ), list(map(str, problems))
