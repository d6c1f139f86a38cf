"""The board of an end with glass round it is held on all sides of the glass, on a low base too."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.domain.wall import Glass, Step, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import tenths
from tests.framing.builders import (
    a_fire,
    a_price_book,
    a_site,
    a_wall,
    an_extent,
    materials,
)

BOOK = a_price_book()


def a_part_built_out(
    *, base: float = 170, front: float = 560, high: float = 400, timber: str = "c24-38x89"
) -> Wall:
    """A part of 1600 before a wall of 265, glass round its left end."""
    return a_wall(
        extent=an_extent(depth=tenths(265), offset=tenths(200), width=tenths(3_000)),
        steps=(Step(name="centre", x=tenths(900), width=tenths(1_600), depth=tenths(front)),),
        fire=a_fire(
            glass=Glass.LEFT,
            base_height=tenths(base),
            body_height=tenths(high + 5),
            opening_height=tenths(high),
        ),
        materials=materials(timber=timber, board="plasterboard-9.5", centres=tenths(400)),
    )


def of_rule(frame: Frame, rule: str) -> list[int]:
    return [number for number, one in enumerate(frame.members) if one.rule == rule]


@pytest.mark.parametrize(
    ("base", "high", "front", "timber"),
    [*product((140, 170, 200), (400, 700), (560, 650), ("c16-38x63", "c24-38x89"))],
)
def test_glass_round_an_end_of_a_part_built_out_has_its_board_held(
    base: float, high: float, front: float, timber: str
) -> None:
    wall = a_part_built_out(base=base, high=high, front=front, timber=timber)

    frame = frame_wall(wall, BOOK)

    assert not any(found.severity is Severity.STOP for found in frame.findings)
    assert inspect_frame(frame, wall) == ()


def test_a_base_lower_than_two_timbers_has_a_return_flat_on_the_floor_under_its_glass() -> None:
    # 170 high: the return of 89 at the glass leaves 81 to the floor, no room for another on edge.
    frame = frame_wall(a_part_built_out(base=170), BOOK)

    flat = [frame.members[number].box for number in of_rule(frame, "frame.return.flat")]

    assert [(one.z, one.dx, one.dz) for one in flat] == [(0, tenths(89), tenths(38))]


def test_a_base_of_two_timbers_has_returns_on_edge_only() -> None:
    frame = frame_wall(a_part_built_out(base=180), BOOK)

    assert of_rule(frame, "frame.return.flat") == []


def test_an_end_that_both_frames_hold_needs_no_flat_return() -> None:
    wall = replace(
        a_part_built_out(base=170),
        extent=an_extent(depth=tenths(400), offset=tenths(200), width=tenths(1_600)),
        steps=(),
        site=a_site(),
    )

    frame = frame_wall(wall, BOOK)

    assert of_rule(frame, "frame.return.flat") == []
    assert inspect_frame(frame, wall) == ()


@pytest.mark.parametrize(
    ("rule", "wall"),
    [
        ("frame.return.flat", a_part_built_out(base=170)),
        ("frame.return.end-span", a_part_built_out(front=650, high=700)),
    ],
)
def test_without_what_holds_the_board_beside_glass_the_inspector_sees_it(
    rule: str, wall: Wall
) -> None:
    frame = replace(frame_wall(wall, BOOK), alternatives=())
    gone = of_rule(frame, rule)
    assert gone

    kept = tuple(one for number, one in enumerate(frame.members) if number not in gone)

    faults = inspect_frame(replace(frame, members=kept), wall)
    assert any("centre.left" in one.where and "spans more" in one.what for one in faults)


@pytest.mark.parametrize(
    ("skirting", "behind", "timber"),
    [*product((15, 22, 40), (45, 60, 75, 88), ("c16-38x63", "c24-38x89"))],
)
def test_the_board_of_an_end_beside_glass_is_held_before_a_kept_skirting(
    skirting: float, behind: float, timber: str
) -> None:
    # The fire leaves so much to the back, less than a frame or little more: one upright holds the
    # board at the glass and, past the skirting, at the wall.
    wall = a_wall(
        site=a_site(skirting=tenths(skirting)),
        extent=an_extent(
            depth=tenths(210 + behind + skirting), offset=tenths(300), width=tenths(3_000)
        ),
        fire=a_fire(glass=Glass.LEFT),
        materials=materials(timber=timber),
    )

    assert inspect_frame(frame_wall(wall, BOOK), wall) == ()


def test_a_return_beside_glass_says_which_fields_its_length_comes_from() -> None:
    frame = frame_wall(a_part_built_out(front=650, high=700), BOOK)

    beside = of_rule(frame, "frame.return.end-span")

    assert beside
    for number in beside:
        (one,) = frame.members[number].dimension_from
        assert set(one.fields) == {
            "steps.centre.depth",
            "fire.body_depth",
            "fire.clearance_back",
        }
