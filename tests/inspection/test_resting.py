"""A fire stands on timber at its front and at its back, however narrow it is and low its base."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import product

import pytest

from optimiser.domain.frame import Frame, Member
from optimiser.domain.wall import Glass, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import tenths
from tests.framing.builders import a_fire, a_price_book, a_wall, an_extent, materials

BOOK = a_price_book()


def a_fire_wall(
    *, base: float = 300, width: float = 1_270, glass: Glass = Glass.FRONT, centres: float = 400
) -> Wall:
    return a_wall(
        extent=an_extent(depth=tenths(400), offset=tenths(300), width=tenths(3_000)),
        fire=a_fire(
            base_height=tenths(base),
            body_width=tenths(width),
            opening_width=tenths(width),
            glass=glass,
        ),
        materials=materials(centres=tenths(centres)),
    )


@pytest.mark.parametrize(
    ("base", "width", "glass", "centres"),
    [*product((38, 140, 300), (150, 500, 1_270), (Glass.FRONT, Glass.LEFT), (400, 600))],
)
def test_a_fire_of_any_width_over_any_base_stands_on_timber(
    base: float, width: float, glass: Glass, centres: float
) -> None:
    wall = a_fire_wall(base=base, width=width, glass=glass, centres=centres)

    assert inspect_frame(frame_wall(wall, BOOK), wall) == ()


def test_a_fire_on_the_sole_plates_has_a_length_laid_flat_between_them() -> None:
    frame = frame_wall(a_fire_wall(base=38), BOOK)

    flat = [one for one in frame.members if one.rule == "frame.return.flat"]

    assert [(one.box.z, one.box.dz) for one in flat] == [(0, tenths(38))]


def without(frame: Frame, is_gone: Callable[[Member], bool]) -> Frame:
    kept = tuple(one for one in frame.members if not is_gone(one))
    assert len(kept) < len(frame.members)
    return replace(frame, members=kept, alternatives=())


@pytest.mark.parametrize("wall", [a_fire_wall(), a_fire_wall(width=380), a_fire_wall(base=38)])
def test_a_fire_with_nothing_under_its_back_is_a_fault(wall: Wall) -> None:
    frame = frame_wall(wall, BOOK)
    hole = frame.openings[0]
    spoilt = without(
        frame,
        lambda one: one.kind == "return" and one.box.z + one.box.dz == hole.z,
    )

    assert any("stands on no timber at its back" in one.what for one in inspect_frame(spoilt, wall))


def test_a_fire_with_no_rail_at_its_front_is_a_fault() -> None:
    wall = a_fire_wall()
    spoilt = without(frame_wall(wall, BOOK), lambda one: one.kind == "sill")

    assert any(
        "stands on no rail along its front" in one.what for one in inspect_frame(spoilt, wall)
    )
