"""What is taken for a survey that leaves things open is named, and what cannot be taken refused."""

from __future__ import annotations

import pytest

from optimiser.domain.frame import Frame
from optimiser.domain.wall import ExistingWall, Floor
from optimiser.errors import InvalidInput
from optimiser.units import tenths
from tests.framing.builders import a_site, framed

STUDS = tuple(tenths(x) for x in range(300, 3_600, 600))


def named(frame: Frame) -> dict[str, str]:
    return {default.field: default.value for default in frame.defaults}


def test_what_a_survey_leaves_open_is_named() -> None:
    taken = named(framed())

    assert taken["site.kind"] == "solid"
    assert taken["site.height_right"] == taken["site.height_middle"] == "2400 mm"
    assert taken["site.plug_spacing"] == "600 mm"
    assert taken["site.skirting"] == "taken off"
    assert taken["site.floor_fall"] == taken["site.lean_left"] == "0 mm"


def test_what_a_survey_says_is_not_named() -> None:
    site = a_site(
        kind=ExistingWall.STUDS,
        floor=Floor.SOLID,
        stud_positions=STUDS,
        height_middle=tenths(2_401),
        height_right=tenths(2_402),
        floor_fall=60,
        skirting=tenths(18),
        lean_left=20,
        lean_right=-30,
    )

    assert not any(field.startswith("site.") for field in named(framed(site=site)))


def test_a_middle_left_out_lies_between_the_sides() -> None:
    assert named(framed(site=a_site(height_right=tenths(2_420))))["site.height_middle"] == "2410 mm"


def test_studs_without_the_kind_of_wall_are_not_passed_over() -> None:
    with pytest.raises(InvalidInput) as refused:
        framed(site=a_site(stud_positions=STUDS))

    (problem,) = refused.value.problems
    assert problem.field == "site.kind"
    assert "site.stud_positions gives 300, 900" in problem.trouble
    assert 'kind = "studs"' in problem.remedy
