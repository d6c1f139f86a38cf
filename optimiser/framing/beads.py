"""Beads: corner bead along every outside corner, stop bead where the skim ends at another surface.

Runs longer than the longest stock are joined; all others are whole lengths with neat mitres.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optimiser.domain.frame import Bead, Point
from optimiser.domain.price_book import LengthItem
from optimiser.framing.boarding import level_surfaces
from optimiser.framing.fires import FireChoice
from optimiser.framing.layout import end_room, room
from optimiser.framing.neighbours import Run, inside_angles, level_edges
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings, longest_part
from optimiser.framing.uprights import without
from optimiser.units import Tenths

# A shorter end of a bead is hard to hold in line: common practice, no source. The length before it
# gives up what it lacks.
LEAST_PIECE = 3_000

# Where tape ends nearer than this to a floor or ceiling that falls, no bead is cut for what is
# left: common practice, no source.
LEAST_STOP = 150

Spot = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class _Line:
    """Where a bead runs: "corner" or "stop", what it is called, from where to where."""

    kind: str
    place: str
    start: Spot
    end: Spot

    @property
    def length(self) -> int:
        return sum(abs(b - a) for a, b in zip(self.start, self.end, strict=True))


def beads(
    settings: Settings,
    holes: list[Hole],
    fire: FireChoice | None,
    others: Sequence[Settings] = (),
) -> list[Bead]:
    """Return every length of bead of one box; without skim only the corners are beaded.

    `others` are the other boxes of the wall: in an angle with one of those the skim goes on, over
    tape.
    """
    made: list[Bead] = []
    for line in _lines(settings, holes, fire, others):
        if line.kind == "corner":
            made += _run(settings.corner_bead, "corner bead", "bead.corner", line)
        elif settings.skim:
            made += _run(settings.stop_bead, "stop bead", "bead.stop", line)
    return made


def _lines(
    settings: Settings,
    holes: list[Hole],
    fire: FireChoice | None,
    others: Sequence[Settings],
) -> Iterator[_Line]:
    taped = list(inside_angles(settings, others))
    for line in _ends(settings, next((hole for hole in holes if hole.kind == "fire"), None)):
        yield from _untaped(line, taped)
    yield from _levels(settings, others)
    for hole in holes:
        yield from _mouth(settings, hole) if hole.lined else _fire_stops(settings, hole, fire)


def _ends(settings: Settings, fire: Hole | None) -> Iterator[_Line]:
    front = settings.back + settings.depth
    named = f"{settings.name}, " if settings.name else ""
    for side, bare, free, x0, x1 in (
        ("left", settings.left_bare, settings.left_free, settings.start, settings.start),
        ("right", settings.right_bare, settings.right_free, settings.end, settings.end),
    ):
        skin = settings.skin
        edge = (x0, x0 + skin) if side == "left" else (x1 - skin, x1)
        bottom, top = room(settings, *edge)
        end = f"{named}{side} end"
        outer = x0 == (0 if side == "left" else settings.width)
        if not bare:
            # Where two boxes are flush their boards meet in a taped joint, without a bead.
            meets = "at the side wall" if outer and not free else "at the breast"
            if (outer and not free) or _at_breast(settings, side):
                yield _Line("stop", f"{end}, {meets}", (x0, front, bottom), (x0, front, top))
            continue
        returns = fire is not None and (fire.to_left if side == "left" else fire.to_right)
        for stretch in bare:
            z0, z1 = end_room(settings, side, stretch)
            runs = [("front corner", z0, z1)]
            if fire is not None and returns:
                runs = [
                    ("front corner below the fire", z0, fire.cut.z0),
                    ("front corner above the fire", fire.cut.z1, z1),
                ]
            for what, low, high in runs:
                yield _Line("corner", f"{end}, {what}", (x0, front, low), (x0, front, high))
            y = settings.back + stretch.y
            what = "at the existing wall" if stretch.y <= 0 else "at the face beside it"
            yield _Line("stop", f"{end}, {what}", (x0, y, z0), (x0, y, z1))


def _at_breast(settings: Settings, side: str) -> bool:
    """Return whether a box ends against the cheek of a breast that stands out as far as it."""
    front = settings.back + settings.depth
    return any(
        breast.depth >= front
        and (breast.x + breast.width if side == "left" else breast.x) - settings.offset
        == (settings.start if side == "left" else settings.end)
        for breast in settings.wall.site.projections
    )


def _untaped(line: _Line, taped: list[Run]) -> Iterator[_Line]:
    """Yield what of an upright bead stands in no angle that is taped."""
    gone = [(a[2], b[2]) for a, b in taped if a[:2] == line.start[:2]]
    if line.kind == "corner" or not gone:
        yield line
        return
    x, y, _ = line.start
    for z0, z1 in without((line.start[2], line.end[2]), gone):
        if z1 - z0 >= LEAST_STOP:
            yield _Line(line.kind, line.place, (x, y, z0), (x, y, z1))


def _levels(settings: Settings, others: Sequence[Settings]) -> Iterator[_Line]:
    front = settings.back + settings.depth
    named = f"{settings.name}, " if settings.name else ""
    for surface, place, _ in level_surfaces(settings):
        side = surface.name.rsplit(".", 1)[-1]
        z = settings.board_top if side == "top" else settings.board_base
        assert z is not None
        x0, x1 = settings.start, settings.end
        yield _Line("corner", f"{named}{side}, front corner", (x0, front, z), (x1, front, z))
        # Before another box its back edge lies in an angle, which is taped.
        if place.z1 >= settings.depth - settings.skin:
            back = surface.origin[1] - place.z1
            yield _Line("stop", f"{named}{side}, at its back", (x0, back, z), (x1, back, z))
    for edge in level_edges(settings, others):
        if edge.kind in ("corner", "stop"):
            what = f"{edge.end} corner" if edge.kind == "corner" else f"at the {edge.end} side wall"
            yield _Line(edge.kind, f"{named}{edge.side}, {what}", *edge.run)


def _mouth(settings: Settings, hole: Hole) -> Iterator[_Line]:
    y, cut = settings.back + settings.depth, hole.cut
    for side, x in (("left", cut.x0), ("right", cut.x1)):
        yield _Line("corner", f"{hole.name} mouth, {side}", (x, y, cut.z0), (x, y, cut.z1))
    for side, z in (("top", cut.z1), ("bottom", cut.z0)):
        yield _Line("corner", f"{hole.name} mouth, {side}", (cut.x0, y, z), (cut.x1, y, z))


def _fire_stops(settings: Settings, hole: Hole, fire: FireChoice | None) -> Iterator[_Line]:
    """Skim stops round the hole for the fire, at the end faces too where its glass returns."""
    y, cut = settings.back + settings.depth, hole.cut
    across = fire.return_depth if fire is not None else 0
    for side, to_end, x in (
        ("left", hole.to_left, cut.x0),
        ("right", hole.to_right, cut.x1),
    ):
        inner = y - across if to_end else y
        yield _Line("stop", f"fire opening, {side}", (x, inner, cut.z0), (x, inner, cut.z1))
        if to_end:
            for edge, z in (("top", cut.z1), ("bottom", cut.z0)):
                yield _Line("stop", f"fire opening, {side} end, {edge}", (x, inner, z), (x, y, z))
    for edge, z in (("top", cut.z1), ("bottom", cut.z0)):
        yield _Line("stop", f"fire opening, {edge}", (cut.x0, y, z), (cut.x1, y, z))


def _run(item: LengthItem, kind: str, rule: str, line: _Line) -> list[Bead]:
    length = line.length
    if not length:
        return []
    longest = max(longest_part(item), 0) or length
    ends = [*range(0, length, longest), length]
    least = min(LEAST_PIECE, longest // 2)
    if len(ends) > 2 and length - ends[-2] < least:
        ends[-2] = length - least
    made: list[Bead] = []
    parts = len(ends) - 1
    for i, (a, b) in enumerate(itertools.pairwise(ends), start=1):
        of = f" ({i} of {parts})" if parts > 1 else ""
        made.append(
            Bead(
                mark="",
                kind=kind,
                material=item.material,
                length=Tenths(b - a),
                place=line.place + of,
                rule=rule,
                start=_along(line, a),
                end=_along(line, b),
            )
        )
    return made


def _along(line: _Line, at: int) -> Point:
    x, y, z = (
        a + (at if b > a else -at if b < a else 0)
        for a, b in zip(line.start, line.end, strict=True)
    )
    return Point(x=Tenths(x), y=Tenths(y), z=Tenths(z))
