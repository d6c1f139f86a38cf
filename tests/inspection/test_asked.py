"""Openings lie where the wall asks for them, whatever the generator made of its figures."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from optimiser.domain.frame import Box, Face, Frame, Opening
from optimiser.domain.parts import CutOut
from optimiser.domain.wall import End, Glass, Socket, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.asked import faults_of_places
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_price_book,
    a_soundbar,
    a_tv,
    a_wall,
    an_extent,
)

BOOK = a_price_book()
SOCKET = Socket(x=tenths(1_300), z=tenths(1_290), width=tenths(90), height=tenths(90))
FREE = an_extent(
    depth=tenths(400), offset=tenths(300), width=tenths(3_000), left=End.FREE, right=End.FREE
)
WALLS: dict[str, Wall] = {
    "fire, TV with a socket, slot and niche": a_wall(
        fire=a_fire(centre=tenths(2_000)),
        tv=a_tv(centre=tenths(2_000), centre_height=tenths(1_560), sockets=(SOCKET,)),
        soundbar=a_soundbar(x=tenths(1_600), z=tenths(900)),
        niches=(a_niche(),),
    ),
    "glass at the left end": a_wall(
        extent=FREE,
        fire=a_fire(glass=Glass.LEFT, return_depth=tenths(190)),
        tv=a_tv(above_fire=tenths(320)),
    ),
}


def moved(name: str, **by: int) -> Callable[[Frame], Frame]:
    """Move an opening."""

    def change(one: Opening) -> Opening:
        wanted = one.wanted
        assert wanted is not None
        sides = {side: Tenths(getattr(wanted, side) + more) for side, more in by.items()}
        at = {"x": one.x, "z": one.z} | {s: Tenths(getattr(one, s) + m) for s, m in by.items()}
        return replace(one, wanted=replace(wanted, **sides), x=at["x"], z=at["z"])

    return lambda frame: replace(
        frame,
        openings=tuple(change(one) if one.name == name else one for one in frame.openings),
    )


def kept(name: str, **by: int) -> Callable[[Frame], Frame]:
    """Move the space kept for a fire or a TV."""

    def change(box: Box) -> Box:
        return replace(
            box, **{side: Tenths(getattr(box, side) + more) for side, more in by.items()}
        )

    return lambda frame: replace(
        frame,
        keep_outs=tuple(
            replace(one, box=change(one.box)) if one.name == name else one
            for one in frame.keep_outs
        ),
    )


def with_holes(name: str, change: Callable[[CutOut], CutOut]) -> Callable[[Frame], Frame]:
    def spoilt(face: Face) -> Face:
        return replace(face, holes=tuple(change(cut) for cut in face.holes))

    return lambda frame: replace(
        frame, faces=tuple(spoilt(one) if one.name == name else one for one in frame.faces)
    )


def widened(frame: Frame) -> Frame:
    return replace(
        frame,
        openings=tuple(
            replace(one, width=Tenths(one.width + 100)) if one.kind == "fire" else one
            for one in frame.openings
        ),
    )


FIRST, GLASS = WALLS
MUTANTS: dict[str, tuple[str, Callable[[Frame], Frame], str]] = {
    "a niche too far right": (FIRST, moved("niche", x=10), "niche"),
    "a niche too high": (FIRST, moved("niche", z=10), "niche"),
    "a slot too far left": (FIRST, moved("soundbar", x=-10), "soundbar"),
    "a fire's hole off its centre": (FIRST, moved("fire", x=50), "fire"),
    "a fire's hole too high": (FIRST, moved("fire", z=50), "fire"),
    "a fire's body off its centre": (FIRST, kept("fire", x=50), "fire"),
    "a fire's body too low": (FIRST, kept("fire", z=-50), "fire"),
    "a hole wider than the fire's lip covers": (FIRST, widened, "fire"),
    "a TV off its centre": (FIRST, kept("tv", x=50), "tv"),
    "a TV too high": (FIRST, kept("tv", z=50), "tv"),
    "a socket's hole elsewhere": (
        FIRST,
        with_holes("tv.back", lambda cut: replace(cut, x=Tenths(cut.x + 10))),
        "tv.sockets[0]",
    ),
    "a hole wider than asked where glass returns": (GLASS, widened, "fire"),
    "glass that reaches less far back": (
        GLASS,
        with_holes("left", lambda cut: replace(cut, width=Tenths(cut.width - 10))),
        "fire",
    ),
    "a TV nearer to the fire": (GLASS, kept("tv", z=-50), "tv"),
}


@pytest.mark.parametrize("name", WALLS)
def test_a_sound_frame_has_its_openings_where_they_were_asked_for(name: str) -> None:
    frame = frame_wall(WALLS[name], BOOK)

    assert inspect_frame(frame, WALLS[name]) == ()


@pytest.mark.parametrize("name", MUTANTS)
def test_an_opening_elsewhere_is_seen(name: str) -> None:
    wall, spoil, where = MUTANTS[name]
    spoilt = spoil(frame_wall(WALLS[wall], BOOK))

    assert where in {fault.where for fault in faults_of_places(spoilt, WALLS[wall])}
