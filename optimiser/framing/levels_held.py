"""What holds a level board from above or below: a top, an underside, the lining over a fire.

Returns run beside most uprights already; where an opening cut an upright off, one is added, and
noggins close the back edge of a board that ends short of the existing wall.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import dataclass

from optimiser.domain.frame import Member
from optimiser.framing.horizontals import NARROWEST_BAY
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings
from optimiser.framing.uprights import BEARING, Skeleton, member


@dataclass(frozen=True, slots=True, kw_only=True)
class _Level:
    """A level board's plane at `z`, above or below its timber; its back edge at y."""

    z: int
    above: bool
    y: int

    def timber(self, high: int) -> int:
        """Return where a timber so high that lies against the board begins."""
        return self.z - high if self.above else self.z


def level_members(settings: Settings, front: Skeleton, made: list[Member]) -> list[Member]:
    """Return the returns and noggins that a bare top and underside still need."""
    top = settings.levels.flat_ceiling
    found: list[Member] = []
    if top is not None and settings.top_bare is not None:
        found += _held(settings, front, made, _Level(z=top, above=True, y=settings.top_bare))
    if settings.bottom_bare is not None:
        level = _Level(z=settings.base, above=False, y=settings.bottom_bare)
        found += _held(settings, front, made, level)
    return found


def lining_members(settings: Settings, made: list[Member], fire: Hole | None) -> list[Member]:
    """Return the noggins behind the back edge of the lining over a fire, between the returns.

    Where the fire reaches into the back frame, that frame's head is there already.
    """
    if fire is None or settings.fire_lining is None or fire.blocks_back(settings):
        return []
    level = _Level(z=fire.frame.z1, above=False, y=fire.back(settings))
    x0, x1 = fire.frame.x0 - settings.thick, fire.frame.x1
    beside = [one for one in made if x0 <= one.box.x <= x1 and one.kind == "return"]
    held: list[tuple[int, int]] = [
        (one.box.x, one.box.x + one.box.dx) for one in beside if _meets(one, level)
    ]
    found: list[Member] = []
    for x in (x0, x1 + settings.thick - settings.wide):
        # On the flat where there is no height for a return on edge under a top or another box.
        taken = any(x0 <= one < x + settings.wide and x < other for one, other in held)
        size = (settings.wide, settings.front - settings.wide, settings.thick)
        flat = member(settings, "return", "frame.return.level", (x, settings.wide, level.z), size)
        if not taken and not any(_share(flat, one) for one in beside):
            found.append(flat)
            held.append((x, x + settings.wide))
    edge = _edge(settings, level, sorted(held), settings.limit)
    # On edge it may find no room under what stands over the fire; then its lining is told of.
    behind = [one for one in made if one.kind == "strut"]
    return found + [one for one in edge if not any(_share(one, other) for other in behind)]


def lining_unheld(settings: Settings, made: Iterable[Member], fire: Hole) -> int:
    """Return how far the lining over a fire passes the timber at its back edge.

    0 where the returns over it stand so close that it needs none there.
    """
    made = list(made)
    held = sorted(
        (one.box.x, one.box.x + one.box.dx)
        for one in made
        if one.kind == "return" and one.box.z == fire.frame.z1
    )
    if all(x1 - x0 < settings.limit for (_, x0), (x1, _) in itertools.pairwise(held)):
        return 0
    y0 = settings.back + fire.back(settings)
    behind = [
        one.box.y
        for one in made
        if one.box.z == fire.frame.z1
        and one.kind in ("head", "noggin")
        and one.box.x < fire.frame.x1
        and fire.frame.x0 < one.box.x + one.box.dx
        and y0 < one.box.y + one.box.dy
    ]
    return max(min(behind, default=settings.back + settings.depth) - y0, 0)


def _share(one: Member, other: Member) -> bool:
    a, b = one.box, other.box
    if a.x >= b.x + b.dx or b.x >= a.x + a.dx or a.y >= b.y + b.dy or b.y >= a.y + a.dy:
        return False
    return a.z < b.z + b.dz and b.z < a.z + a.dz


def _held(settings: Settings, front: Skeleton, made: list[Member], level: _Level) -> list[Member]:
    thick, wide = settings.thick, settings.wide
    held: list[tuple[int, int]] = []
    found: list[Member] = []
    end = settings.left
    taken: set[int] = {one.box.x for one in made if _meets(one, level)}
    if front.lines[-1].x not in taken:
        # The last upright's comes first: others give way, or the board's end stays unheld.
        taken.add(settings.right - wide)
    for line in front.lines:
        x, across = line.x, thick
        if line.x not in taken:
            # Flat, so that it bears on both plates and leaves room for an opening beside it.
            across = wide
            beyond = min((other for other in taken if other > line.x), default=settings.right)
            x = min(line.x, beyond - across, settings.right - across)
            if x < end:
                continue
            at = (x, wide, level.timber(thick))
            size = (across, settings.front - wide, thick)
            found.append(member(settings, "return", "frame.return.level", at, size))
        held.append((x, x + across))
        end = x + across
    # At the existing wall the plates of the back frame are there already.
    at_wall = level.y <= wide - BEARING
    return found if at_wall else found + _edge(settings, level, held, NARROWEST_BAY)


def _meets(one: Member, level: _Level) -> bool:
    edge = one.box.z + one.box.dz if level.above else one.box.z
    return one.kind == "return" and edge == level.z


def _edge(
    settings: Settings, level: _Level, held: list[tuple[int, int]], least: int
) -> list[Member]:
    """Return noggins along the back edge, in each bay of at least that width.

    On the flat, or on edge where front and back frame leave too little between them for that.
    """
    thick, wide = settings.thick, settings.wide
    y, across, high = min(level.y, settings.front - wide), wide, thick
    if y < wide:
        y, across, high = min(max(level.y, wide), settings.front - thick), thick, wide
    if y < wide:
        return []
    z = level.timber(high)
    return [
        member(settings, "noggin", "frame.noggin.edge", (x0, y, z), (x1 - x0, across, high))
        for (_, x0), (x1, _) in itertools.pairwise(held)
        if x1 - x0 >= least
    ]
