"""All that shows of a wall has a face to be boarded, by the wall's own figures.

What stands further out than the part beside it shows its end, top or underside: geometry.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.frame import Box, Face, Frame
from optimiser.domain.wall import End, Projection, Step, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.inspection.shown import faults_of_surfaces
from optimiser.units import Tenths, tenths
from tests.framing.builders import a_price_book, a_site, a_wall, an_extent

FREE = an_extent(
    depth=tenths(350), offset=tenths(300), width=tenths(3_000), left=End.FREE, right=End.FREE
)
UPPER = Step(name="upper", x=Tenths(0), width=tenths(3_000), z=tenths(1_000), depth=tenths(550))
BREAST = Projection(x=tenths(1_000), width=tenths(1_600), depth=tenths(300))
CENTRE = Step(name="centre", x=tenths(1_000), width=tenths(1_600), depth=tenths(650))
WALLS: dict[str, Wall] = {
    "free at both ends": a_wall(extent=FREE),
    "free before a skirting": a_wall(extent=FREE, site=a_site(skirting=tenths(18))),
    "low before a skirting": a_wall(
        extent=replace(FREE, height=tenths(1_200)), site=a_site(skirting=tenths(22))
    ),
    "low between walls that lean in": a_wall(
        extent=an_extent(height=tenths(1_200)),
        site=a_site(lean_left=tenths(12), lean_right=tenths(15)),
    ),
    "upper part built out": a_wall(extent=FREE, steps=(UPPER,)),
    "before a breast with a skirting": a_wall(
        extent=an_extent(depth=tenths(330)),
        site=a_site(projections=(BREAST,), skirting=tenths(18)),
        steps=(CENTRE,),
    ),
}
BOOK = a_price_book()


@pytest.mark.parametrize("name", WALLS)
def test_every_surface_that_shows_is_a_face(name: str) -> None:
    wall = WALLS[name]

    assert inspect_frame(frame_wall(wall, BOOK), wall) == ()


@pytest.mark.parametrize("name", WALLS)
def test_a_face_left_out_is_seen(name: str) -> None:
    wall = WALLS[name]
    frame = frame_wall(wall, BOOK)

    for face in frame.faces:
        left = replace(frame, faces=tuple(one for one in frame.faces if one is not face))
        assert list(faults_of_surfaces(left, wall)), face.name


def _shortened(frame: Frame, name: str, **sides: Tenths) -> Frame:
    faces: list[Face] = [
        replace(one, box=replace(one.box, **sides)) if one.name == name else one
        for one in frame.faces
    ]
    return replace(frame, faces=tuple(faces))


def test_an_end_that_stops_before_the_house_is_seen() -> None:
    """As it did before a skirting: 18 of gap beside the wall, from floor to ceiling."""
    wall = WALLS["free before a skirting"]
    frame = frame_wall(wall, BOOK)
    end: Box = next(face.box for face in frame.faces if face.name == "left")

    assert end.y == 0
    gap = _shortened(frame, "left", y=tenths(18), dy=Tenths(end.dy - tenths(18)))
    assert [fault.where for fault in faults_of_surfaces(gap, wall)] == ["left end at 0 along, 0 up"]


def test_a_top_that_stops_before_a_leaning_wall_is_seen() -> None:
    wall = WALLS["low between walls that lean in"]
    frame = frame_wall(wall, BOOK)
    top: Box = next(face.box for face in frame.faces if face.name == "top")

    assert (top.x, top.dx) == (0, frame.width)
    gap = _shortened(frame, "top", dx=Tenths(top.dx - tenths(15)))
    assert [fault.where for fault in faults_of_surfaces(gap, wall)] == [
        "top from 0 along at 1200 up"
    ]
