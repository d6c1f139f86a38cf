"""Every corner bead and every tape of an inside angle that is left out is missed, and no other is
asked for.

Corner beads: published UK project specification 2014; tape in angles: clerk-of-works article.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.frame import Bead, Point, Tape
from optimiser.domain.wall import End, Glass, Projection, Step, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_price_book,
    a_site,
    a_soundbar,
    a_tv,
    a_wall,
    an_extent,
    materials,
)

BOOK = a_price_book()
FREE = an_extent(depth=tenths(400), offset=tenths(300), width=tenths(3_000), right=End.FREE)


def a_step(depth: float, *, z: float | None = None, height: float | None = None) -> Step:
    return Step(
        name="centre",
        x=tenths(700),
        width=tenths(1_600),
        depth=tenths(depth),
        z=None if z is None else tenths(z),
        height=None if height is None else tenths(height),
    )


WALLS: dict[str, Wall] = {
    "between side walls": a_wall(),
    "fire and TV": a_wall(fire=a_fire(), tv=a_tv(), soundbar=a_soundbar()),
    "both ends free": a_wall(extent=FREE, tv=a_tv()),
    "glass at the right end": a_wall(extent=FREE, fire=a_fire(glass=Glass.RIGHT)),
    "a lit niche in two layers": a_wall(niches=(a_niche(lit=True),), materials=materials(layers=2)),
    "short of the ceiling": a_wall(extent=replace(FREE, height=tenths(1_200))),
    "a part built out": a_wall(extent=FREE, steps=(a_step(600),)),
    "a low part built out": a_wall(extent=FREE, steps=(a_step(600, height=900),)),
    "a part built out above": a_wall(extent=FREE, steps=(a_step(600, z=1_100),)),
    "a part set back": a_wall(extent=FREE, steps=(a_step(200),)),
    "before a breast that stands out from its neighbours": a_wall(
        site=a_site(
            projections=(Projection(x=tenths(1_000), width=tenths(1_600), depth=tenths(420)),)
        ),
        extent=FREE,
        steps=(a_step(650),),
    ),
    "boards left bare": a_wall(extent=FREE, tv=a_tv(), materials=materials(skim=False)),
    "timber round the fire lined": a_wall(
        fire=a_fire(lining="silicate-12", opening_height=tenths(455))
    ),
}
FRAMES = {name: replace(frame_wall(wall, BOOK), alternatives=()) for name, wall in WALLS.items()}


def long_enough(one: Bead | Tape) -> bool:
    a, b = one.start, one.end
    return abs(b.x - a.x) + abs(b.y - a.y) + abs(b.z - a.z) > 400


@pytest.mark.parametrize("name", WALLS)
def test_a_wall_that_is_finished_has_no_fault(name: str) -> None:
    assert inspect_frame(FRAMES[name], WALLS[name]) == ()


@pytest.mark.parametrize("name", WALLS)
def test_each_corner_bead_that_is_left_out_is_missed(name: str) -> None:
    frame = FRAMES[name]

    for number, bead in enumerate(frame.beads):
        if bead.kind == "corner bead":
            kept = frame.beads[:number] + frame.beads[number + 1 :]
            faults = inspect_frame(replace(frame, beads=kept), WALLS[name])
            assert any("has no bead over" in one.what for one in faults), bead.place


@pytest.mark.parametrize("name", WALLS)
def test_each_tape_of_an_inside_angle_that_is_left_out_is_missed(name: str) -> None:
    frame = FRAMES[name]

    for number, tape in enumerate(frame.tapes):
        if tape.kind == "angle-tape" and long_enough(tape):
            kept = frame.tapes[:number] + frame.tapes[number + 1 :]
            faults = inspect_frame(replace(frame, tapes=kept), WALLS[name])
            assert any("is not taped" in one.what for one in faults), tape


def moved(at: Point, by: int) -> Point:
    return replace(at, y=Tenths(at.y + by))


@pytest.mark.parametrize("name", ["both ends free", "a low part built out"])
def test_beads_and_tape_that_lie_beside_their_corner_do_not_count(name: str) -> None:
    frame = FRAMES[name]
    beads = tuple(
        replace(one, start=moved(one.start, 400), end=moved(one.end, 400)) for one in frame.beads
    )
    tapes = tuple(
        replace(one, start=moved(one.start, 400), end=moved(one.end, 400)) for one in frame.tapes
    )

    unbeaded = inspect_frame(replace(frame, beads=beads), WALLS[name])
    untaped = inspect_frame(replace(frame, tapes=tapes), WALLS[name])

    assert any("corner of" in one.where and "has no bead" in one.what for one in unbeaded)
    assert any("at the ceiling" in one.what for one in untaped)
    assert any("inside angle of" in one.where for one in untaped)


def test_without_skim_no_angle_is_taped_and_none_is_asked_for() -> None:
    frame = FRAMES["boards left bare"]

    assert not any(tape.kind == "angle-tape" for tape in frame.tapes)
    assert any(bead.kind == "corner bead" for bead in frame.beads)


def test_a_wall_between_side_walls_asks_for_no_corner() -> None:
    assert not any(bead.kind == "corner bead" for bead in FRAMES["between side walls"].beads)
