"""Yes or no is true or false in a document: a word or a number is not taken for either."""

from __future__ import annotations

import pytest

from optimiser.errors import InvalidInput
from optimiser.formats.request import request_from_document
from optimiser.formats.wall import wall_from_document


@pytest.mark.parametrize("answer", ["yes", "true", 1, 0, None])
def test_a_part_may_be_turned_or_not_and_nothing_else(answer: object) -> None:
    part = {"id": "b", "job": "j", "width_mm": 300, "height_mm": 500, "turn": answer}

    with pytest.raises(InvalidInput, match=r"sheets\[0\]\.parts\[0\]\.turn.*true or false"):
        request_from_document({"sheets": [{"material": "m", "parts": [part]}]})


@pytest.mark.parametrize(("field", "value"), [("skim", "no"), ("skim", 1), ("layers", "2")])
def test_a_choice_of_materials_is_not_guessed_from_a_word(field: str, value: object) -> None:
    wall = {
        "job": "A",
        "site": {"clear_width_mm": 3000, "height_left_mm": 2400},
        "wall": {"depth_mm": 300},
        "materials": {field: value},
    }

    with pytest.raises(InvalidInput, match=f"materials.{field}"):
        wall_from_document(wall, name="wall")
