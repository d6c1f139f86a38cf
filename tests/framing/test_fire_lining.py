"""A lining that a fire's manual asks for does not burn: class A1 or A2 of EN 13501-1.

The classes are from memory; MDF without treatment is D-s2,d0 and gypsum board A2-s1,d0 by the
European Commission's decisions on classification without testing, from memory.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from optimiser.domain.finding import Severity
from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import End, Projection, Step, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import tenths
from tests.framing.builders import (
    a_fire,
    a_price_book,
    a_site,
    a_soundbar,
    a_tv,
    a_wall,
    an_extent,
    materials,
)

# With the lining overhead the facing board passes its timber by 47 where the opening is 455 high.
LINED = a_wall(fire=a_fire(lining="silicate-12", opening_height=tenths(455)))


def classed(material: str, burns: str) -> PriceBook:
    book = a_price_book()
    sheets = [
        replace(item, reaction_to_fire=burns) if item.material == material else item
        for item in book.sheets
    ]
    return replace(book, sheets=tuple(sheets))


def stops(book: PriceBook, lining: str) -> list[tuple[str, str, list[str]]]:
    frame = frame_wall(a_wall(fire=a_fire(lining=lining)), book)
    return [
        (one.trouble, one.remedy, [change.value for change in one.change])
        for one in frame.findings
        if one.rule == "check.fire.lining" and one.severity is Severity.STOP
    ]


@pytest.mark.parametrize("burns", ["A1", "A2-s1,d0", "A2-s3,d2"])
def test_a_board_of_class_a1_or_a2_may_line_the_fire(burns: str) -> None:
    assert stops(classed("silicate-12", burns), "silicate-12") == []


@pytest.mark.parametrize("burns", ["", "B-s1,d0", "D-s2,d0", "E", "F"])
def test_a_board_that_burns_or_does_not_say_stops_the_wall(burns: str) -> None:
    ((trouble, remedy, change),) = stops(classed("mdf-12", burns), "mdf-12")

    assert 'fire.lining "mdf-12"' in trouble
    assert (burns or "states no reaction_to_fire") in trouble
    assert remedy == 'set fire.lining to "silicate-12"'
    assert change == ["silicate-12"]


def test_without_a_board_that_serves_the_price_book_is_named_as_the_place() -> None:
    ((_, remedy, change),) = stops(classed("silicate-12", ""), "mdf-12")

    assert "add a board to the price book" in remedy
    assert "reaction_to_fire" in remedy
    assert change == []


def test_a_board_that_does_not_burn_is_never_taken_for_a_backboard() -> None:
    # Of two sawn boards of 12 the first by name would be taken, were it not for its class.
    book = a_price_book()
    sheets = [
        replace(item, material="a-silicate") if item.material == "silicate-12" else item
        for item in book.sheets
    ]
    frame = frame_wall(a_wall(), replace(book, sheets=tuple(sheets)))

    taken = {one.field: one.value for one in frame.defaults}
    assert taken["materials.backboard"] == "mdf-12"


def test_the_inspector_refuses_a_lining_that_burns() -> None:
    frame = replace(frame_wall(LINED, a_price_book()), alternatives=())
    lining = [one for one in frame.boards if one.face.startswith("fire.")]
    changed = [
        replace(one, reaction_to_fire="D-s2,d0") if one is lining[0] else one
        for one in frame.boards
    ]

    assert inspect_frame(frame, LINED) == ()
    faults = inspect_frame(replace(frame, boards=tuple(changed)), LINED)

    assert [fault.what for fault in faults] == ["burns, and lines the fire"]


@pytest.mark.parametrize("side", ["soffit", "left", "right"])
def test_the_inspector_misses_a_lining_that_is_not_there(side: str) -> None:
    frame = replace(frame_wall(LINED, a_price_book()), alternatives=())
    boards = tuple(one for one in frame.boards if one.face != f"fire.{side}")
    faces = tuple(one for one in frame.faces if one.name != f"fire.{side}")

    faults = inspect_frame(replace(frame, boards=boards, faces=faces), LINED)

    assert f"has no lining on its {side}, and the wall asks for one" in [f.what for f in faults]


def before_a_breast(**more: Any) -> Wall:
    """A fire 175 deep in a part 265 deep of 89 timber: 67 are left between the two skeletons."""
    breast = Projection(x=tenths(700), width=tenths(2_119), depth=tenths(340))
    return a_wall(
        site=a_site(clear_width=tenths(3_980), height_left=tenths(2_750), projections=(breast,)),
        extent=an_extent(depth=tenths(265), width=tenths(3_519), right=End.FREE),
        steps=(Step(name="centre", x=tenths(700), width=tenths(2_119), depth=tenths(605)),),
        fire=a_fire(
            body_width=tenths(1_630),
            body_height=tenths(380),
            body_depth=tenths(150),
            opening_width=None,
            opening_height=None,
            clearance_top=tenths(25),
            clearance_side=tenths(0),
            clearance_back=tenths(25),
            base_height=tenths(150),
            lining="silicate-12",
        ),
        materials=materials(
            timber="c24-38x89", board="plasterboard-9.5", layers=2, centres=tenths(450)
        ),
        **more,
    )


def test_a_lining_close_to_the_back_frame_is_held_by_noggins_on_edge() -> None:
    # A slot 100 over the fire's head leaves no upright between, and room for 89 on edge.
    wall = before_a_breast(soundbar=a_soundbar(x=tenths(1_300), z=tenths(680)))
    frame = frame_wall(wall, a_price_book())
    edge = [one.box for one in frame.members if one.rule == "frame.noggin.edge"]

    assert edge
    assert {(int(box.dy), int(box.dz)) for box in edge} == {(380, 890)}
    assert not inspect_frame(frame, wall)


def test_a_lining_that_finds_no_timber_at_its_back_stops_the_wall() -> None:
    # A slot hangs 76 over the fire's head: too low for 89 on edge.
    frame = frame_wall(
        before_a_breast(soundbar=a_soundbar(), tv=a_tv(recess_depth=tenths(100))), a_price_book()
    )
    stops = [one for one in frame.findings if one.severity is Severity.STOP]

    assert "passes its timber by 67" in next(
        one.trouble for one in stops if one.rule == "check.fire.overhang"
    )


def test_a_lining_over_close_returns_needs_no_timber_at_its_back() -> None:
    frame = frame_wall(before_a_breast(), a_price_book())

    assert not [one for one in frame.findings if one.rule == "check.fire.overhang"]
