"""Spaces that a frame must leave free or cannot enter, and what stands under it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from optimiser.domain.frame import Box, KeepOut, Member, Opening, Packing, Solid
from optimiser.framing.openings import Hole
from optimiser.framing.placing import Placed
from optimiser.framing.settings import Settings
from optimiser.units import Tenths


def _box(x: tuple[int, int], y: tuple[int, int], z: tuple[int, int]) -> Box:
    return Box(
        x=Tenths(x[0]),
        y=Tenths(y[0]),
        z=Tenths(z[0]),
        dx=Tenths(x[1] - x[0]),
        dy=Tenths(y[1] - y[0]),
        dz=Tenths(z[1] - z[0]),
    )


def opening_of(hole: Hole, settings: Settings) -> Opening:
    """Return an opening as the frame tells of it."""
    front = settings.back + settings.depth
    wanted = hole.wanted or hole.clear
    return Opening(
        name=hole.name,
        kind=hole.kind,
        x=Tenths(hole.clear.x0),
        z=Tenths(hole.clear.z0),
        width=Tenths(hole.clear.width),
        height=Tenths(hole.clear.height),
        depth=Tenths(hole.depth),
        front=Tenths(front),
        wanted=_box((wanted.x0, wanted.x1), (front - hole.depth, front), (wanted.z0, wanted.z1)),
        open_left=hole.to_left,
        open_right=hole.to_right,
    )


def keep_outs(placed: Placed) -> Iterator[KeepOut]:
    """Yield the room that fire and TV need in one box of the wall, behind its front board.

    The facing board slides under the fire's lip, so the fire's room begins behind it.
    """
    settings = placed.settings
    front = settings.back + settings.depth
    if placed.fire is not None:
        fire, hole = placed.fire, placed.hole("fire")
        assert hole is not None
        x0 = settings.start + settings.skin if hole.to_left else fire.body.x0 - fire.clearance_side
        x1 = settings.end - settings.skin if hole.to_right else fire.body.x1 + fire.clearance_side
        yield KeepOut(
            name="fire",
            box=_box(
                (x0, x1),
                (front - fire.reach, front - settings.skin),
                (fire.body.z0, fire.body.z1 + fire.clearance_top),
            ),
            reason="body and the maker's clearances",
        )
    if placed.tv is not None:
        tv, screen = placed.tv, placed.tv.screen
        yield KeepOut(
            name="tv",
            box=_box(
                (screen.x0, screen.x1),
                (front - tv.recess_depth, front),
                (screen.z0, screen.z1),
            ),
            reason="the TV, its folded bracket behind it",
        )


def solids(whole: Settings) -> tuple[Solid, ...]:
    """Return what of the house stands before the existing wall's face: breasts and piers.

    A kept skirting is none: how high it is nobody said, and each box begins before it.
    """
    high = whole.levels.highest_ceiling(0, whole.width)
    found = [
        Solid(
            name=f"projection {i}",
            box=_box(
                (
                    max(breast.x - whole.offset, 0),
                    min(breast.x + breast.width - whole.offset, whole.width),
                ),
                (0, breast.depth),
                (whole.levels.lowest_floor(0, whole.width), high),
            ),
        )
        for i, breast in enumerate(whole.wall.site.projections, start=1)
        if breast.x < whole.offset + whole.width and whole.offset < breast.x + breast.width
    ]
    return tuple(found)


def packing(settings: Settings, members: Iterable[Member]) -> tuple[Packing, ...]:
    """Return what goes under the sole plates at each upright that stands on them, where any."""
    levels = settings.levels
    found = []
    for one in members:
        if one.kind not in ("upright", "short upright") or one.box.z != settings.thick:
            continue
        x = one.box.x + one.box.dx // 2
        height = -levels.floor(x)
        if height > 0:
            y = one.box.y + one.box.dy // 2
            found.append(Packing(x=Tenths(x), y=Tenths(y), height=Tenths(height)))
    return tuple(found)
