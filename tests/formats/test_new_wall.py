"""The wall file to start from names every field, and frames as it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import get_args

import pytest
from pydantic import BaseModel

from optimiser.domain.finding import Severity
from optimiser.formats.new_wall import new_wall
from optimiser.formats.wall import read_wall
from optimiser.formats.wall_document import WallModel
from optimiser.planning.walls import frame_wall
from tests.framing.builders import a_price_book


def fields(model: type[BaseModel]) -> Iterator[str]:
    for name, field in model.model_fields.items():
        yield name
        for part in (field.annotation, *get_args(field.annotation)):
            if isinstance(part, type) and issubclass(part, BaseModel):
                yield from fields(part)


def test_the_starting_wall_frames_as_it_stands() -> None:
    wall = read_wall(new_wall(), name="new.toml")

    frame = frame_wall(wall, a_price_book())

    assert [f for f in frame.findings if f.severity is Severity.STOP] == []


@pytest.mark.parametrize("field", sorted(set(fields(WallModel))))
def test_the_starting_wall_names_every_field(field: str) -> None:
    assert re.search(rf"(^|[\[{{ ]){field}( =|\]|\])", new_wall(), re.MULTILINE)
