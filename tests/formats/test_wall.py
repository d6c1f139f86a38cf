"""A wall as a fitter writes it, read or refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import End, ExistingWall, Glass, Wall
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.wall import read_wall, wall_from_document
from optimiser.framing.build import frame_wall
from optimiser.units import tenths
from tests.framing.builders import a_price_book

FULL = """
job = "A"
client = "Flat 2"
needed = "2026-12-01"

[site]
clear_width_mm = 3600
kind = "studs"
stud_positions_mm = [300, 900, 1500, 2100, 2700, 3300]
height_left_mm = 2400
height_middle_mm = 2402.5
height_right_mm = 2398
floor_fall_mm = -6

[wall]
offset_mm = 0
width_mm = 3600
depth_mm = 320
left = "abuts"
right = "abuts"

[fire]
body_width_mm = 1270
body_height_mm = 480
body_depth_mm = 200
opening_width_mm = 1250
opening_height_mm = 450
base_height_mm = 300
clearance_top_mm = 10
clearance_side_mm = 5
clearance_back_mm = 10
mass_kg = 28.5
glass = "front"

[tv]
diagonal_in = 65
depth_mm = 60
mass_kg = 24
above_fire_mm = 300
recess_depth_mm = 120
bracket_reach_mm = 500

[[tv.sockets]]
x_mm = 1150
z_mm = 1150
width_mm = 146
height_mm = 86

[[niches]]
name = "left niche"
x_mm = 200
z_mm = 900
width_mm = 350
height_mm = 900
depth_mm = 180
shelves = 2

[materials]
timber = "c16-38x63"
board = "plasterboard-12.5"
layers = 1
centres_mm = 400
skim = true
"""

SHORT = """
job = "B"
[site]
clear_width_mm = 3000
height_left_mm = 2400
[wall]
depth_mm = 300
"""


def problems_of(text: str) -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as caught:
        read_wall(text, name="wall.toml")
    return caught.value.problems


def test_a_full_wall_is_read_as_written() -> None:
    wall = read_wall(FULL, name="wall.toml")

    assert (wall.job, wall.client, wall.needed) == ("A", "Flat 2", "2026-12-01")
    assert wall.site.kind is ExistingWall.STUDS
    assert wall.site.height_middle == tenths(2_402.5)
    assert wall.site.floor_fall == -60
    assert wall.extent.left is End.ABUTS
    assert wall.fire is not None
    assert (wall.fire.mass, wall.fire.glass) == (28_500, Glass.FRONT)
    assert wall.tv is not None
    assert wall.tv.diagonal == Fraction(65)
    assert wall.tv.sockets[0].width == 1_460
    assert wall.niches[0].shelves == 2
    assert wall.materials.skim is True


def test_a_wall_as_read_is_framed() -> None:
    frame = frame_wall(read_wall(FULL, name="wall.toml"), a_price_book())

    assert [opening.name for opening in frame.openings] == ["fire", "tv", "left niche"]


def test_what_is_left_out_is_left_to_framing() -> None:
    wall = read_wall(SHORT, name="wall.toml")

    assert wall.extent.width is None
    assert wall.materials.timber is None
    frame = frame_wall(wall, a_price_book())
    assert frame.width == tenths(3_000)
    assert "wall.width" in {default.field for default in frame.defaults}


def test_a_document_gives_the_same_wall_as_its_text() -> None:
    document = {
        "job": "B",
        "site": {"clear_width_mm": 3000, "height_left_mm": 2400.0},
        "wall": {"depth_mm": 300},
    }

    wall: Wall = wall_from_document(document, name="body")

    assert wall == read_wall(SHORT, name="wall.toml")


def test_every_fault_of_a_text_is_told_at_once() -> None:
    text = SHORT.replace("3000", '"wide"').replace("2400", "0").replace("depth_mm", "deep_mm")

    fields = {problem.field for problem in problems_of(text)}

    assert fields == {
        "wall.toml: site.clear_width_mm",
        "wall.toml: site.height_left_mm",
        "wall.toml: wall.depth_mm",
        "wall.toml: wall.deep_mm",
    }


def test_text_that_is_not_toml_names_its_line() -> None:
    (problem,) = problems_of('job = "A"\n[site\n')

    assert problem.field == "wall.toml"
    assert "line 2" in problem.trouble


@pytest.mark.parametrize("size", ["2400.05", "-1", "true", "nan", "200000", '"2,5 miles"'])
def test_a_size_that_no_tape_gives_is_refused(size: str) -> None:
    (problem,) = problems_of(SHORT.replace("2400", size))

    assert problem.field == "wall.toml: site.height_left_mm"


@pytest.mark.parametrize("date", ["2026-13-01", "2026-02-30", "2025-02-29", "tomorrow", "1/12/26"])
def test_a_day_that_does_not_exist_is_refused(date: str) -> None:
    (problem,) = problems_of(f'needed = "{date}"\n{SHORT}')

    assert problem.field == "wall.toml: needed"


def test_a_date_of_toml_is_a_date() -> None:
    assert read_wall(f"needed = 2028-02-29\n{SHORT}", name="wall.toml").needed == "2028-02-29"


@pytest.mark.parametrize("name", ["fire", "tv", "front"])
def test_a_niche_may_not_take_the_name_of_something_else(name: str) -> None:
    niche = (
        f'[[niches]]\nname = "{name}"\nx_mm = 1\nz_mm = 1\nwidth_mm = 1\nheight_mm = 1\n'
        "depth_mm = 1\n"
    )

    (problem,) = problems_of(SHORT + niche)

    assert name in problem.trouble


@pytest.mark.parametrize(
    "tv",
    ["diagonal_in = 2000", "mass_kg = -3", "mass_kg = 0.00001", 'diagonal_in = "big"'],
)
def test_a_tv_that_cannot_be_is_refused(tv: str) -> None:
    (problem,) = problems_of(f"{SHORT}[tv]\n{tv}\n")

    assert problem.field.startswith("wall.toml: tv.")


def test_without_a_price_book_only_the_fields_are_told_and_with_one_the_framing_too() -> None:
    text = SHALLOW.replace("clear_width_mm", "colour = 'red'\nclear_width_mm")

    def fields(book: PriceBook | None) -> list[str]:
        with pytest.raises(InvalidInput) as refused:
            read_wall(text, name="w", book=book)
        return [problem.field for problem in refused.value.problems]

    assert fields(None) == ["w: site.colour"]
    assert fields(a_price_book()) == ["w: site.colour", "w: wall.depth"]


def test_what_cannot_be_read_is_not_framed() -> None:
    text = SHALLOW.replace("clear_width_mm = 3600", "colour = 'red'\nclear_width_mm = 'wide'")

    with pytest.raises(InvalidInput) as refused:
        read_wall(text, name="w", book=a_price_book())

    assert {one.field for one in refused.value.problems} == {
        "w: site.colour",
        "w: site.clear_width_mm",
    }


SHALLOW = """
job = "A"
[site]
clear_width_mm = 3600
height_left_mm = 2400
[wall]
depth_mm = 120
"""
