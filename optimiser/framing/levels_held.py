"""What holds a level board from above or below: a top, an underside, the lining over a fire.

Returns run beside most uprights already; where an opening cut an upright off, one is added, and
noggins close the back edge of a board that ends short of the existing wall.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from optimiser.domain.frame import Member
from optimiser.framing.horizontals import NARROWEST_BAY
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings
from optimiser.framing.uprights import BEARING, Skeleton, member


@dataclass(frozen=True, slots=True, kw_only=True)
class _Level:
    """A level board's plane at `z`, above or below its timber, from x to x; its back edge at y."""

    z: int
    above: bool
    x0: int
    x1: int
    y: int


def level_members(settings: Settings, front: Skeleton, made: list[Member]) -> list[Member]:
    """Return the returns and noggins that a bare top and underside still need."""
    top = settings.levels.flat_ceiling
    found: list[Member] = []
    x0, x1 = settings.left, settings.right
    if top is not None and settings.top_bare is not None:
        level = _Level(z=top, above=True, x0=x0, x1=x1, y=settings.top_bare)
        found += _held(settings, front, made, level, "frame.return.level")
    if settings.bottom_bare is not None:
        level = _Level(z=settings.base, above=False, x0=x0, x1=x1, y=settings.bottom_bare)
        found += _held(settings, front, made, level, "frame.return.level")
    return found


def lining_members(
    settings: Settings, front: Skeleton, made: list[Member], fire: Hole | None
) -> list[Member]:
    """Return the returns that the lining over a fire still needs between its sides."""
    if fire is None or settings.fire_lining is None:
        return []
    level = _Level(z=fire.frame.z1, above=False, x0=fire.frame.x0, x1=fire.frame.x1, y=0)
    return _held(settings, front, made, level, "frame.return.lining")


def _held(
    settings: Settings, front: Skeleton, made: list[Member], level: _Level, rule: str
) -> list[Member]:
    thick, wide = settings.thick, settings.wide
    high = _room(settings, front, level)
    held: list[tuple[int, int]] = []
    found: list[Member] = []
    end = 0
    for line in front.lines:
        if line.x < level.x0 or line.x + thick > level.x1:
            continue
        there = next((one for one in made if one.box.x == line.x and _meets(one, level)), None)
        if there is not None:
            held.append((line.x, line.x + thick))
            end = line.x + thick
            continue
        across, up = (thick, wide) if high >= wide else (wide, thick)
        # A pair of uprights needs one return, and a flat one room beside its neighbour.
        x = min(line.x, level.x1 - across)
        if x < end or settings.front - wide <= 0:
            continue
        z = level.z - up if level.above else level.z
        size = (across, settings.front - wide, up)
        found.append(member(settings, "return", rule, (x, wide, z), size))
        held.append((x, x + across))
        end = x + across
    return found + _edge(settings, level, held, high)


def _meets(one: Member, level: _Level) -> bool:
    edge = one.box.z + one.box.dz if level.above else one.box.z
    return one.kind == "return" and edge == level.z


def _room(settings: Settings, front: Skeleton, level: _Level) -> int:
    """Return how high a timber may stand on the level before it meets an opening."""
    room = settings.wide
    for hole in front.holes:
        outer = hole.outer(settings)
        if outer.x1 <= level.x0 or level.x1 <= outer.x0:
            continue
        if level.above and outer.z1 <= level.z:
            room = min(room, level.z - outer.z1)
        elif not level.above and outer.z0 >= level.z:
            room = min(room, max(outer.z0, settings.sole) - level.z)
    return room


def _edge(
    settings: Settings, level: _Level, held: list[tuple[int, int]], high: int
) -> list[Member]:
    thick, wide = settings.thick, settings.wide
    back, up = (thick, wide) if high >= wide else (wide, thick)
    at = min(level.y, settings.front - back)
    # At the existing wall the plates of the back frame are there already.
    if level.y <= wide - BEARING or at < wide:
        return []
    z = level.z - up if level.above else level.z
    return [
        member(settings, "noggin", "frame.noggin.edge", (x0, at, z), (x1 - x0, back, up))
        for (_, x0), (x1, _) in itertools.pairwise(held)
        if x1 - x0 >= NARROWEST_BAY
    ]
