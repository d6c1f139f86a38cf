"""The closing board of a front goes in, and only that is narrower than its place.

3 to 5 off a closing piece: common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.frame import Board, Frame
from optimiser.domain.wall import End, Projection, Step, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import a_price_book, a_site, a_wall, an_extent, materials

BREAST = a_site(projections=(Projection(x=tenths(1_000), width=tenths(1_600), depth=tenths(350)),))
OPEN = Step(name="open", x=tenths(1_000), width=tenths(1_600), depth=Tenths(0))
DEEPER = Step(name="centre", x=tenths(1_000), width=tenths(1_600), depth=tenths(450))
SHALLOWER = Step(name="centre", x=tenths(1_000), width=tenths(1_600), depth=tenths(300))

# Each with the faces whose last board goes in between two fixed ends.
WALLS: dict[str, tuple[Wall, set[str]]] = {
    "between two side walls": (a_wall(), {"front"}),
    "in two layers": (a_wall(materials=materials(layers=2)), {"front"}),
    "with a free right end": (
        a_wall(extent=an_extent(width=tenths(3_000), right=End.FREE)),
        set(),
    ),
    "with a free left end": (
        a_wall(extent=an_extent(offset=tenths(600), left=End.FREE)),
        set(),
    ),
    "a deeper centre": (a_wall(steps=(DEEPER,)), {"box 1.front", "box 2.front"}),
    "a shallower centre": (
        a_wall(steps=(SHALLOWER,), extent=an_extent(depth=tenths(450))),
        {"centre.front"},
    ),
    "flush before a breast": (
        a_wall(site=BREAST, extent=an_extent(depth=tenths(550))),
        {"wall right.front"},
    ),
    "flush before a breast, a free left end": (
        a_wall(
            site=BREAST,
            extent=an_extent(depth=tenths(550), offset=tenths(300), left=End.FREE),
        ),
        set(),
    ),
    "alcoves beside a breast": (
        a_wall(site=BREAST, steps=(OPEN,)),
        {"box 1.front", "box 2.front"},
    ),
}


def of(name: str) -> tuple[Wall, Frame]:
    wall = WALLS[name][0]
    return wall, replace(frame_wall(wall, a_price_book()), alternatives=())


@pytest.mark.parametrize("name", WALLS)
def test_only_the_last_boards_between_two_fixed_ends_are_narrower(name: str) -> None:
    wall, frame = of(name)

    assert {one.face for one in frame.boards if one.eased} == WALLS[name][1]
    for one in frame.boards:
        face = next(face for face in frame.faces if face.name == one.face)
        gap = face.box.x + face.box.dx - one.box.x - one.box.dx
        if one.eased:
            assert one.eased == gap == 30
    assert inspect_frame(frame, wall) == ()


def eased_by(frame: Frame, by: int, *, face_too: bool) -> Frame:
    """Ease the closing board of the front by so much instead."""

    def changed(one: Board) -> Board:
        if not one.eased:
            return one
        wide = Tenths(one.width + one.eased - by)
        return replace(one, width=wide, box=replace(one.box, dx=wide), eased=Tenths(by))

    faces = [
        replace(face, eased=Tenths(by)) if face_too and face.eased else face for face in frame.faces
    ]
    return replace(frame, boards=tuple(map(changed, frame.boards)), faces=tuple(faces))


@pytest.mark.parametrize("by", [0, 20, 29, 31, 60])
def test_a_closing_board_of_any_other_width_is_a_fault(by: int) -> None:
    wall, frame = of("between two side walls")

    faults = inspect_frame(eased_by(frame, by, face_too=False), wall)

    assert any(" instead of " in fault.what for fault in faults)


@pytest.mark.parametrize(
    ("by", "said"),
    [
        (0, "its last board does not go in"),
        (29, "is eased by 2.9; a closing board is by 3 to 5"),
        (51, "is eased by 5.1; a closing board is by 3 to 5"),
    ],
)
def test_a_face_that_eases_too_little_or_too_much_is_a_fault(by: int, said: str) -> None:
    wall, frame = of("between two side walls")

    faults = inspect_frame(eased_by(frame, by, face_too=True), wall)

    assert any(said in fault.what for fault in faults)


@pytest.mark.parametrize(
    ("name", "closing"),
    [("a deeper centre", 2), ("alcoves beside a breast", 2), ("flush before a breast", 1)],
)
def test_a_box_between_a_side_wall_and_something_deeper_closes_too(name: str, closing: int) -> None:
    wall, frame = of(name)

    faults = inspect_frame(eased_by(frame, 0, face_too=True), wall)

    assert sum("its last board does not go in" in fault.what for fault in faults) == closing


@pytest.mark.parametrize(
    ("name", "last", "said"),
    [
        ("with a free right end", "front", "is eased where nothing stands at its end"),
        ("with a free left end", "front", "though its boards run out at a free end"),
        (
            "flush before a breast, a free left end",
            "wall right.front",
            "though its boards run out at a free end",
        ),
        ("flush before a breast", "wall left.front", "is eased where nothing stands at its end"),
    ],
)
def test_a_board_eased_though_a_free_end_lets_it_in_is_a_fault(
    name: str, last: str, said: str
) -> None:
    wall, frame = of(name)
    faces = [replace(face, eased=Tenths(30)) if face.name == last else face for face in frame.faces]

    faults = inspect_frame(replace(frame, faces=tuple(faces)), wall)

    assert any(said in fault.what for fault in faults)
