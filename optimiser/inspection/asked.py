"""Whether openings lie where the wall asks for them, read from the wall's own figures.

How large they are and what stands in them is looked at elsewhere; a hole of the right size in the
wrong place is as useless to the fitter.
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Box, Face, Frame, Opening, Toward
from optimiser.domain.wall import Fire, Glass, Tv, Wall

# Where the wall does not say: a raised base, common practice, no source.
_BASE = 3_000
# Half a size in whole tenths, twice over.
_ROUNDING = 2


def faults_of_places(frame: Frame, wall: Wall) -> Iterator[Fault]:
    """Yield each opening, and what is to stand in it, that lies elsewhere than the wall asks."""
    openings = {one.name: one for one in frame.openings}
    kept = {one.name: one.box for one in frame.keep_outs}
    for niche in wall.niches:
        yield from _off(niche.name, openings.get(niche.name), niche.x, niche.z)
    if wall.soundbar is not None:
        bar = wall.soundbar
        yield from _off("soundbar", openings.get("soundbar"), bar.x, bar.z)
    if wall.fire is not None and "fire" in openings and "fire" in kept:
        yield from _fire(wall.fire, openings["fire"], kept["fire"], frame)
    if wall.tv is not None and "tv" in kept:
        yield from _tv(wall.tv, kept["tv"], openings.get("fire"))
        yield from _sockets(wall.tv, frame)


def _off(name: str, one: Opening | None, x: int | None, z: int | None) -> Iterator[Fault]:
    """Yield an opening whose wanted space does not begin where the wall says."""
    if one is None or one.wanted is None:
        return
    for what, asked, at in (("along", x, one.wanted.x), ("up", z, one.wanted.z)):
        if asked is not None and at != asked:
            yield Fault(name, f"begins {at / 10:g} {what}; {asked / 10:g} was asked for")


def _fire(fire: Fire, hole: Opening, body: Box, frame: Frame) -> Iterator[Fault]:
    """Yield a hole that the fire's lip does not cover, and a body that stands elsewhere."""
    base = int(fire.base_height if fire.base_height is not None else _BASE)
    high = int(fire.opening_height or fire.body_height)
    wide = int(fire.opening_width or fire.body_width)
    for what, z in (("its hole", hole.z), ("its body", body.z)):
        if z != base:
            yield Fault("fire", f"{what} begins {z / 10:g} up; {base / 10:g} was asked for")
    if hole.height != high:
        yield Fault("fire", f"its hole is {hole.height / 10:g} high, not {high / 10:g}")
    if hole.width != wide and fire.glass is not Glass.BOTH:
        yield Fault("fire", f"its hole is {hole.width / 10:g} wide, not {wide / 10:g}")
    glass = fire.glass or Glass.FRONT
    if glass is Glass.FRONT and fire.centre is not None:
        for what, x, width in (("hole", hole.x, hole.width), ("body", body.x, body.dx)):
            if abs(2 * x + width - 2 * fire.centre) > _ROUNDING:
                yield Fault("fire", f"the middle of its {what} is not at {fire.centre / 10:g}")
    deep = int(fire.return_depth or fire.body_depth)
    for side, glazed, toward in (
        ("left", glass in (Glass.LEFT, Glass.BOTH), Toward.LEFT),
        ("right", glass in (Glass.RIGHT, Glass.BOTH), Toward.RIGHT),
    ):
        at = hole.x if side == "left" else hole.x + hole.width
        found = [f for f in frame.faces if f.faces is toward and f.box.x == at and f.holes]
        if glazed and not any(_left_open(one, deep, hole) for one in found):
            yield Fault("fire", f"its glass finds no hole {deep / 10:g} deep in the {side} end")


def _left_open(face: Face, deep: int, hole: Opening) -> bool:
    """Return whether an end is left open for glass so deep, its front board included."""
    front = int(hole.front or 0)
    lapped = front - int(face.box.y + face.box.dy)
    return any(
        (cut.width, cut.height) == (deep - lapped, hole.height)
        and face.box.z + cut.y == hole.z
        and (cut.x == 0 or cut.x + cut.width == face.box.dy)
        for cut in face.holes
    )


def _tv(tv: Tv, screen: Box, fire: Opening | None) -> Iterator[Fault]:
    if tv.centre is not None and abs(2 * screen.x + screen.dx - 2 * tv.centre) > _ROUNDING:
        yield Fault("tv", f"its middle is not at {tv.centre / 10:g} along")
    if tv.centre_height is not None:
        if abs(2 * screen.z + screen.dz - 2 * tv.centre_height) > _ROUNDING:
            yield Fault("tv", f"its middle is not {tv.centre_height / 10:g} up")
    elif tv.above_fire is not None and fire is not None:
        over = screen.z - fire.z - fire.height
        if over != tv.above_fire:
            yield Fault("tv", f"hangs {over / 10:g} above the fire, not {tv.above_fire / 10:g}")


def _sockets(tv: Tv, frame: Frame) -> Iterator[Fault]:
    """Yield a socket with no hole in the backboard, unless a finding says why."""
    told = {
        found.trouble.partition(".x")[0].partition(".z")[0]
        for found in frame.findings
        if found.rule == "check.tv.socket"
    }
    holes = {
        (face.box.x + cut.x, face.box.z + cut.y, cut.width, cut.height)
        for face in frame.faces
        if face.name == "tv.back"
        for cut in face.holes
    }
    for i, one in enumerate(tv.sockets):
        named = f"tv.sockets[{i}]"
        if (one.x, one.z, one.width, one.height) not in holes and named not in told:
            yield Fault(named, "has no hole in the backboard")
