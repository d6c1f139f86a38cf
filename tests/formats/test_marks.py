"""Marks on a plan from TOML: read whole, or refused with every fault by name."""

from __future__ import annotations

import pytest

from optimiser.domain.marks import Mark, State
from optimiser.errors import InvalidInput
from optimiser.formats.marks import read_marks

GOOD = """
[[marks]]
material = "mdf-12"
layout = 2
state = "started"
cuts = 3
spoiled = ["A/backboard"]
[[marks]]
material = "timber"
layout = 1
state = "cut"
pieces = 4
[[floor]]
id = "half"
material = "mdf-12"
width_mm = 600
height_mm = 1220.5
"""


def test_marks_are_read_as_they_are_written() -> None:
    marks = read_marks(GOOD, name="marks.toml")

    assert marks.marks == (
        Mark(material="mdf-12", layout=2, state=State.STARTED, cuts=3, spoiled=("A/backboard",)),
        Mark(material="timber", layout=1, state=State.CUT, pieces=4),
    )
    ((material, piece),) = marks.floor.sheets
    assert (material, piece.id, piece.width, piece.height) == ("mdf-12", "half", 6000, 12205)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"started"', '"begun"', "state"),
        ("layout = 2", "layout = 0", "layout"),
        ("pieces = 4", "pieces = 0", "pieces"),
        ("cuts = 3", "cuts = -1", "cuts"),
        ("height_mm = 1220.5", "", "has not either a length"),
        ("cuts = 3", "cut = 3", "is not a field here"),
        ("[[marks]]", "[[marks]", "is not TOML"),
    ],
)
def test_a_fault_is_named_with_its_field(old: str, new: str, said: str) -> None:
    with pytest.raises(InvalidInput, match=said):
        read_marks(GOOD.replace(old, new, 1), name="marks.toml")
