"""A fault of a wall's file quotes the line that it is about."""

from __future__ import annotations

import pytest

from optimiser.errors import InvalidInput, Problem
from optimiser.formats.toml_lines import lines_of, quote_lines
from optimiser.formats.wall import read_wall

TEXT = """\
job = "A"  # the client's own number

[site]
clear_width_mm = 3600
height_left_mm = -2400

[wall]
depth_mm = 300

[[niches]]
name = "left"
x_mm = 200
[[niches]]
name = "right"
x_mm = "far"
"""


def test_fields_are_found_in_tables_and_in_arrays_of_tables() -> None:
    found = lines_of(TEXT)

    assert found["job"] == 1
    assert found["site.height_left_mm"] == 5
    assert found["niches[0].x_mm"] == 12
    assert found["niches[1].x_mm"] == 15
    assert found["niches[1]"] == 13


def test_every_fault_of_a_file_quotes_its_line() -> None:
    with pytest.raises(InvalidInput) as refused:
        read_wall(TEXT, name="wall.toml")

    said = {problem.field: problem.trouble for problem in refused.value.problems}
    assert "line 5: height_left_mm = -2400" in said["wall.toml: site.height_left_mm"]
    assert 'line 15: x_mm = "far"' in said["wall.toml: niches[1].x_mm"]


def test_a_field_that_is_left_out_quotes_nothing() -> None:
    with pytest.raises(InvalidInput) as refused:
        read_wall(TEXT, name="wall.toml")

    left_out = [p for p in refused.value.problems if p.field == "wall.toml: niches[0].z_mm"]
    assert [p.trouble for p in left_out] == ["is left out"]


def test_text_that_is_not_toml_quotes_the_line_at_fault() -> None:
    with pytest.raises(InvalidInput) as refused:
        read_wall('job = "A"\n[site\n', name="wall.toml")

    (problem,) = refused.value.problems
    assert problem.trouble.endswith("line 2: [site")


def test_a_field_named_without_its_unit_is_found_too() -> None:
    (problem,) = quote_lines((Problem("wall.depth", "is too little", "make it deeper"),), TEXT)

    assert problem.trouble == "is too little; line 8: depth_mm = 300"


def test_a_niche_is_found_under_its_name_too() -> None:
    problems = (
        Problem("niches.right.x", "is too far", "move it"),
        Problem("niches.left", "overlaps", "move it"),
        Problem("wall.toml: niches.left.x", "contradicts wall.depth", "choose one"),
    )

    said = [problem.trouble for problem in quote_lines(problems, TEXT)]

    assert said[0].endswith('line 15: x_mm = "far"')
    assert said[1].endswith("line 10: [[niches]]")
    assert said[2].endswith("line 12: x_mm = 200")
