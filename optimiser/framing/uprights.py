"""Uprights: on every line, in front and at the back, cut where an opening stands in their way.

Each runs from the level sole plate to the ceiling as surveyed above it, so each may have its own
length, rounded down to a tenth.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from optimiser.domain.frame import Box, Edge, Member
from optimiser.framing.bearing import behind
from optimiser.framing.openings import Hole, behind_glass, side_uprights
from optimiser.framing.setting_out import Line
from optimiser.framing.settings import SHORTEST, Settings
from optimiser.units import Tenths

Span = tuple[int, int]

BEARING = behind(Edge.FACTORY)

_RULES = {
    "end": "frame.upright.end",
    "side": "frame.upright.opening-side",
    "joint": "frame.upright.joint",
    "centres": "frame.upright.centres",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Skeleton:
    """One of the two frames: its back face at `y`, the openings it frames, its uprights' spans."""

    y: int
    holes: tuple[Hole, ...]
    lines: tuple[Line, ...]
    spans: dict[int, list[Span]]


def member(
    settings: Settings,
    kind: str,
    rule: str,
    at: tuple[int, int, int],
    size: tuple[int, int, int],
    *,
    follows_ceiling: bool = False,
) -> Member:
    """Make one timber part whose longest way is its length; its mark is given later.

    `at` counts y from the back of its own box of the wall.
    """
    x, y, z = at[0], settings.back + at[1], at[2]
    dx, dy, dz = size
    length = dx + dy + dz - settings.thick - settings.wide
    if length not in size:
        raise ValueError(f"a {kind} of {size} is no {settings.thick} by {settings.wide}")
    return Member(
        mark="",
        kind=kind,
        material=settings.timber.material,
        length=Tenths(length),
        box=Box(x=Tenths(x), y=Tenths(y), z=Tenths(z), dx=Tenths(dx), dy=Tenths(dy), dz=Tenths(dz)),
        rule=rule,
        follows_ceiling=follows_ceiling,
    )


def without(span: Span, taken: list[Span]) -> list[Span]:
    """Return what is left of a span once others are taken out of it."""
    left = [span]
    for lo, hi in taken:
        left = [
            piece
            for start, end in left
            for piece in ((start, min(end, lo)), (max(start, hi), end))
            if piece[1] > piece[0]
        ]
    return left


def skeleton(
    settings: Settings, lines: tuple[Line, ...], holes: list[Hole], *, front: bool
) -> Skeleton:
    """Return one frame's uprights' spans; the back one frames only openings that reach it."""
    blocking = tuple(hole for hole in holes if front or hole.blocks_back(settings))
    thick = settings.thick
    spans: dict[int, list[Span]] = {}
    for line in lines:
        top = settings.levels.lowest_ceiling(line.x, line.x + thick) - thick - settings.fit
        taken = []
        for hole in blocking:
            outer = hole.outer(settings)
            if outer.x0 < line.x + thick and line.x < outer.x1:
                taken.append((outer.z0, outer.z1))
        left = without((settings.sole, top), taken)
        # Rails so near one another need no upright between; nobody cuts a stud of 5 mm.
        spans[line.x] = [(lo, hi) for lo, hi in left if hi - lo >= SHORTEST]
    return Skeleton(y=settings.front if front else 0, holes=blocking, lines=lines, spans=spans)


def upright_members(settings: Settings, frame: Skeleton) -> list[Member]:
    """Return the uprights of one frame, whole ones and those cut short by openings."""
    made: list[Member] = []
    for line in frame.lines:
        spans = frame.spans[line.x]
        thick = settings.thick
        top = settings.levels.lowest_ceiling(line.x, line.x + thick) - thick - settings.fit
        for lo, hi in spans:
            kind = "upright" if (lo, hi) == (settings.sole, top) else "short upright"
            made.append(
                member(
                    settings,
                    kind,
                    _RULES[line.role],
                    (line.x, frame.y, lo),
                    (thick, settings.wide, hi - lo),
                )
            )
    return made


def end_posts(settings: Settings, holes: list[Hole], x: int) -> Iterator[Box]:
    """Yield the uprights of both frames at an end of a box, which stand so in each way of it."""
    line = (Line(x, "end"),)
    for front in (True, False):
        for one in upright_members(settings, skeleton(settings, line, holes, front=front)):
            yield one.box


def timbers_below(settings: Settings, holes: list[Hole]) -> Iterator[Box]:
    """Yield the head plates of a box that stops at a level, and the returns between them that
    stand in each way of it: at its ends and beside its openings."""
    top = settings.levels.flat_ceiling
    if top is None:
        return
    thick, wide = settings.thick, settings.wide
    run = settings.right - settings.left
    for y in (0, settings.front):
        at, size = (settings.left, y, top - thick), (run, wide, thick)
        yield member(settings, "head plate", "frame.plate", at, size).box
    for x, _ in side_uprights(holes, settings):
        at, size = (x, wide, top - wide), (thick, settings.front - wide, wide)
        yield member(settings, "return", "frame.return.level", at, size).box


def return_edge_uprights(settings: Settings, fire: Hole | None) -> list[Member]:
    """Return the short upright behind the glass at each end that it returns round, if free."""
    upright = behind_glass(settings.depth - fire.depth, settings) if fire is not None else None
    if fire is None or upright is None or upright.in_back_frame:
        return []
    made = []
    for wanted, x in (
        (fire.to_left, settings.left),
        (fire.to_right, settings.right - upright.across),
    ):
        if wanted:
            made.append(
                member(
                    settings,
                    "short upright",
                    "frame.upright.return-edge",
                    (x, upright.y, fire.frame.z0),
                    (upright.across, upright.deep, fire.frame.height),
                )
            )
    return made


def end_uprights(settings: Settings, frame: Skeleton, made: list[Member]) -> list[Member]:
    """Return what holds a bare end's board between front and back: pieces between the returns.

    `made` are the members so far, whose returns beside the end are what the pieces stand between.
    """
    found: list[Member] = []
    for bare, x in (
        (settings.left_bare, settings.left),
        (settings.right_bare, settings.right - settings.thick),
    ):
        spans = frame.spans.get(x, [])
        held = sorted(
            (one.box.z, one.box.z + one.box.dz)
            for one in made
            if one.kind == "return"
            and one.box.x <= x
            and x + settings.thick <= one.box.x + one.box.dx
        )
        for stretch in bare:
            for y, rule in _end_places(settings, stretch.y):
                for (_, low), (high, _) in itertools.pairwise(held):
                    inside = any(
                        lo - settings.thick <= low and high <= hi + settings.thick + settings.fit
                        for lo, hi in spans
                    )
                    shown = stretch.z0 < high and low < stretch.z1
                    if inside and shown and high - low >= SHORTEST:
                        size = (settings.thick, settings.wide, high - low)
                        found.append(member(settings, "short upright", rule, (x, y, low), size))
    return found


def _end_places(settings: Settings, y0: int) -> list[tuple[int, str]]:
    """Return where uprights stand between back and front timber of a bare end, and why."""
    wide, front = settings.wide, settings.front
    places: list[tuple[int, str]] = []
    behind = 0
    if y0 > wide - BEARING:
        if y0 >= front:
            return []
        edge = min(y0, front - wide)
        # Nearer to the back the frame there holds it, but for less than a board may stand out.
        if edge >= wide:
            behind = edge
            places.append((behind, "frame.upright.end-edge"))
    parts = -(-(front - behind) // settings.limit)
    for part in range(1, parts):
        y = behind + (front - behind) * part // parts
        if y >= behind + wide and y + wide <= front:
            places.append((y, "frame.upright.end-span"))
    return places
