"""Ways for cables: between the two skeletons, and through the back of what is fed.

Front and back skeleton leave room between them over the whole wall, and returns stand one above
the other with room between, so that a cable needs no notch and no hole in a timber. What it has to
pass is the back of a recess, a slot or a lit niche: there a hole is drilled between the struts.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Passage, Point
from optimiser.framing.openings import Hole
from optimiser.framing.placing import Placed
from optimiser.framing.returns import shelf_heights, strut_levels
from optimiser.framing.reveals import columns, panel_joints
from optimiser.framing.rules import finding
from optimiser.framing.settings import Settings
from optimiser.units import Tenths, mm

# A hole that takes a plug, or else a lead and a flat connector, and the room from its edge to a
# strut, a shelf, a bracket's plate or a board's edge: common practice, no source.
HOLES = ((500, 100), (250, 50))
# Two parts of a wall side by side share so much room for a cable at the least: common practice.
LEAST_WAY = 250
_STEP = 50


def is_fed(hole: Hole, placed: Placed) -> bool:
    """Return whether a cable passes the back of an opening: sockets are holes of their own."""
    if hole.kind == "tv":
        return placed.tv is not None and not placed.tv.tv.sockets
    return hole.kind == "soundbar" or hole.lit


def passages(placed: Placed) -> Iterator[Passage]:
    """Yield the hole through the back of each opening of a box that is fed, where it has room."""
    settings = placed.settings
    for hole in placed.holes:
        spot = _spot(hole, placed) if is_fed(hole, placed) else None
        if spot is not None:
            x, z, diameter = spot
            y = settings.back + settings.depth - hole.depth
            yield Passage(
                name=hole.name,
                face=f"{hole.name}.back",
                at=Point(x=Tenths(x), y=Tenths(y), z=Tenths(z)),
                diameter=Tenths(diameter),
            )


def _spot(hole: Hole, placed: Placed) -> tuple[int, int, int] | None:
    """Return middle and diameter of a hole clear of all that is behind and before the back."""
    settings, clear = placed.settings, hole.clear
    struts = strut_levels(hole, panel_joints(hole, settings), placed.tv, settings)
    closed = [(z, z + settings.wide) for z, _ in struts]
    thick = settings.backboard.thickness
    closed += [(z - thick // 2, z - thick // 2 + thick) for z in shelf_heights(hole)]
    joints = [x for _, x in columns(hole, settings)[:-1]]
    plate = placed.tv.bracket if hole.kind == "tv" and placed.tv is not None else None
    wanted = clear.z1 if hole.lit else (clear.z0 + clear.z1) // 2
    for diameter, round_it in HOLES:
        room = diameter // 2 + round_it
        heights = sorted(
            (
                z
                for low, high in _open(closed, clear.z0, clear.z1)
                for z in (*range(_whole(low + room), high - room + 1, _STEP), high - room)
                if low + room <= z <= high - room
            ),
            key=lambda z: (abs(z - wanted), z),
        )
        across = [_whole(clear.x0 + clear.width * part // 8) for part in (4, 2, 6, 1, 7, 3, 5)]
        for z, x in itertools.product(heights, across):
            if plate is not None and (
                plate.x0 - room < x < plate.x1 + room and plate.z0 - room < z < plate.z1 + room
            ):
                continue
            inside = clear.x0 + room <= x <= clear.x1 - room
            if inside and all(abs(x - joint) >= room for joint in joints):
                return x, z, diameter
    return None


def _whole(place: int) -> int:
    """Round a place up to a whole mm, as it is marked on the board."""
    return -(-place // 10) * 10


def _open(closed: Sequence[tuple[int, int]], low: int, high: int) -> Iterator[tuple[int, int]]:
    """Yield what is open between two heights."""
    reached = low
    for start, end in sorted(closed):
        if start > reached:
            yield reached, min(start, high)
        reached = max(reached, end)
    if reached < high:
        yield reached, high


def cable_findings(placed: Sequence[Placed]) -> Iterator[Finding]:
    """Yield where cables run, and where they have no way."""
    fed = [(box, hole) for box in placed for hole in box.holes if is_fed(hole, box)]
    if not fed and not any(hole.kind in ("fire", "tv") for box in placed for hole in box.holes):
        return
    for box, hole in fed:
        if _spot(hole, box) is None:
            yield finding(
                "check.cable.passage",
                Severity.WARNING,
                f"{hole.name}: between the struts behind its back no hole of {mm(HOLES[-1][0])}"
                f" finds {mm(HOLES[-1][1])} of room round it",
                f"make {hole.name} higher, or lead its cable round the front edge of a cheek",
            )
    ways = dict.fromkeys(_way(box.settings) for box in placed)
    yield finding(
        "check.cable.route",
        Severity.NOTE,
        "cables run between the skeletons, "
        + ", ".join(f"{mm(low)} to {mm(high)} out" for low, high in ways)
        + ": past the returns, through no timber",
        "notch no timber; where one must be passed, drill the middle of its width, a quarter of"
        " that at most, and no nearer to a screw than 25",
    )
    for one, other in itertools.combinations(placed, 2):
        shared = _shared(one.settings, other.settings)
        if shared is not None and shared < LEAST_WAY:
            names = f"{one.settings.name} and {other.settings.name}"
            yield finding(
                "check.cable.route",
                Severity.WARNING,
                f"{names} share {mm(max(shared, 0))} of room between their skeletons; a cable from"
                f" one to the other wants {mm(LEAST_WAY)}",
                "lead no cable across there, or let both stand deeper before the wall",
            )


def _way(settings: Settings) -> tuple[int, int]:
    """Return from where to where a box is open between its skeletons, out from the wall."""
    return settings.back + settings.wide, settings.back + settings.front


def _shared(one: Settings, other: Settings) -> int | None:
    """Return how much of that two boxes side by side share; None where they do not meet."""
    left, right = (one, other) if one.start <= other.start else (other, one)
    beside = abs(left.end - right.start) <= left.skin + right.skin
    low = max(one.base, other.base)
    high = min(box.levels.highest_ceiling(box.start, box.end) for box in (one, other))
    if not beside or low >= high:
        return None
    a, b = _way(one), _way(other)
    return min(a[1], b[1]) - max(a[0], b[0])
