"""Where two parts of a wall meet, their boards are taped, not beaded; and the inspector looks.

Flat joints and inside angles take tape, stop beads stand where skim ends at another surface:
published UK project specification 2014 and a clerk-of-works article on tape.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.frame import Frame, Tape
from optimiser.domain.wall import End, Projection, Step, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import tenths
from tests.framing.builders import (
    a_fire,
    a_price_book,
    a_site,
    a_tv,
    a_wall,
    an_extent,
    framed,
    materials,
)


def a_step(x: float, width: float, depth: float, z: float | None = None) -> Step:
    return Step(
        name="part",
        x=tenths(x),
        width=tenths(width),
        depth=tenths(depth),
        z=None if z is None else tenths(z),
    )


def runs(frame: Frame, kind: str, axis: str) -> list[tuple[int, int, int, int]]:
    """The runs of tape along an axis: the place they start from and how long they are."""

    def length(tape: Tape) -> int:
        return int(getattr(tape.end, axis) - getattr(tape.start, axis))

    return sorted(
        (int(t.start.x), int(t.start.y), int(t.start.z), length(t))
        for t in frame.tapes
        if t.kind == kind and length(t)
    )


def test_fronts_of_two_parts_in_one_plane_are_taped_where_they_meet() -> None:
    # Two piers 300 deep and a low part 300 deep between them, 900 high: two upright joints.
    frame = framed(steps=(a_step(900, 1_800, 0, z=900),))
    upright = [(x, y, length) for x, y, _, length in runs(frame, "joint-tape", "z")]

    assert (9_000, 3_000, 8_870) in upright
    assert (27_000, 3_000, 8_870) in upright


def test_the_inside_angle_of_a_step_is_taped_and_has_no_bead() -> None:
    frame = framed(steps=(a_step(900, 1_800, 420),))

    angles = [(x, y, length) for x, y, _, length in runs(frame, "angle-tape", "z")]
    assert angles == [(9_000, 3_000, 23_870), (27_000, 3_000, 23_870)]
    assert not [bead for bead in frame.beads if "beside" in bead.place]


@pytest.mark.parametrize("fall", [6, 20, 33])
def test_on_a_falling_floor_no_stub_of_bead_is_left_over_from_an_angles_tape(fall: int) -> None:
    site = a_site(floor_fall=tenths(fall))
    frame = framed(site=site, steps=(a_step(900, 1_800, 420),))

    # Uncovered, 0.1 to 11.8 of bead stood between the end of the tape and the floor.
    assert not [bead for bead in frame.beads if "beside" in bead.place]
    assert not inspect_frame(frame, a_wall(site=site, steps=(a_step(900, 1_800, 420),)))


def test_the_top_of_a_low_wall_ends_at_the_side_wall_in_a_stop_bead() -> None:
    low = an_extent(height=tenths(1_200), left=End.ABUTS, right=End.FREE, width=tenths(2_600))
    frame = framed(extent=low)
    of_top = {bead.place: int(bead.length) for bead in frame.beads if bead.place.startswith("top")}

    assert of_top["top, at the left side wall"] == 3_000
    assert of_top["top, right corner"] == 3_000
    # Between two fixed piers the top's ends lie in angles, and are taped.
    between = framed(steps=(a_step(900, 1_800, 0, z=900),))
    of_top_too = [run for run in runs(between, "angle-tape", "y") if run[2] == 9_000]
    assert of_top_too == [(9_000, 0, 9_000, 3_000), (27_000, 0, 9_000, 3_000)]


def test_joints_across_an_underside_are_taped() -> None:
    wide = a_site(clear_width=tenths(4_200))
    frame = framed(site=wide, steps=(a_step(0, 4_200, 450, z=1_000),))
    [joint] = runs(frame, "joint-tape", "y")

    assert joint[1:] == (3_000, 10_000, 1_375)


SPOILT: dict[str, Wall] = {
    "tops at one level": a_wall(
        extent=an_extent(height=tenths(1_200)), steps=(a_step(900, 1_800, 420),)
    ),
    "joints within a part": a_wall(),
    "parts beside each other": a_wall(steps=(a_step(900, 1_800, 0, z=900),)),
    "across an underside": a_wall(
        site=a_site(clear_width=tenths(4_200)), steps=(a_step(0, 4_200, 450, z=1_000),)
    ),
    "round a fire": a_wall(fire=a_fire(), tv=a_tv()),
}


@pytest.mark.parametrize("wall", SPOILT.values(), ids=SPOILT)
def test_the_inspector_misses_no_joint_without_its_tape(wall: Wall) -> None:
    frame = replace(frame_wall(wall, a_price_book()), alternatives=(), choices=())
    assert not inspect_frame(frame, wall)

    for tape in [one for one in frame.tapes if one.kind == "joint-tape"]:
        rest = tuple(one for one in frame.tapes if one is not tape)
        faults = inspect_frame(replace(frame, tapes=rest), wall)
        assert [one for one in faults if "not taped" in one.what], tape


@pytest.mark.parametrize("into", [2, 8, 14])
@pytest.mark.parametrize("ends", [End.ABUTS, End.FREE])
def test_a_front_that_ends_in_the_gap_of_a_kept_skirting_meets_the_deeper_parts_end(
    into: float, ends: End
) -> None:
    # The breast is 290 deep and the deeper part's timber begins 15 before it: its end is boarded
    # from the front beside it on.
    breast = Projection(x=tenths(1_000), width=tenths(1_600), depth=tenths(290))
    wall = a_wall(
        site=a_site(projections=(breast,), skirting=tenths(15)),
        steps=(a_step(1_000, 1_600, 560),),
        extent=an_extent(depth=tenths(290 + into), left=ends),
    )

    frame = frame_wall(wall, a_price_book())

    assert {(one.name, int(one.box.y)) for one in frame.faces if one.name.startswith("part.")} >= {
        ("part.left", tenths(290 + into)),
        ("part.right", tenths(290 + into)),
    }
    assert not inspect_frame(frame, wall)


def test_timber_in_the_plane_of_a_back_elsewhere_is_no_front() -> None:
    # 530 - 105 - 12 of backboard: 413, where an upright of the end, 350 + 63, ends too.
    breast = Projection(x=tenths(550), width=tenths(2_200), depth=tenths(180))
    wall = a_wall(
        site=a_site(clear_width=tenths(3_560), projections=(breast,)),
        extent=an_extent(depth=tenths(350), right=End.FREE, width=tenths(3_300)),
        steps=(a_step(550, 2_200, 530),),
        tv=a_tv(recess_depth=tenths(105), depth=tenths(50)),
        materials=materials(centres=tenths(600)),
    )
    assert not inspect_frame(frame_wall(wall, a_price_book()), wall)
