"""Tape: on each flat joint of the last layer, and in each inside angle under skim."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence

from optimiser.domain.frame import Board, Point, Tape, Toward
from optimiser.framing.boarding import level_surfaces
from optimiser.framing.layout import Layer, room
from optimiser.framing.neighbours import flush_joints, inside_angles, level_edges
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings
from optimiser.framing.uprights import without
from optimiser.units import Tenths

Spot = tuple[int, int, int]

_ACROSS = ("board.top", "board.underside", "board.reveal", "board.double-cheek")


def tapes(
    settings: Settings,
    holes: list[Hole],
    last: Layer,
    boards: Iterable[Board],
    others: Sequence[Settings] = (),
) -> list[Tape]:
    """Return every run of tape of one box of the wall, `boards` being all of its boards.

    `others` are the other boxes: a joint in one plane with one at the right or below is taped with
    this box, an angle that an end makes with another's front too.
    """
    found = [*_flat(settings, holes, last), *_ends(settings, boards)]
    found += _across(boards)
    found += (_tape("joint-tape", *run) for run in flush_joints(settings, others))
    edges = list(level_edges(settings, others))
    found += (_tape("joint-tape", *edge.run) for edge in edges if edge.kind == "joint")
    if settings.skim:
        found += _angles(settings, holes)
        found += (_tape("angle-tape", *run) for run in inside_angles(settings, others))
        found += (_tape("angle-tape", *edge.run) for edge in edges if edge.kind == "angle")
    return found


def _flat(settings: Settings, holes: list[Hole], last: Layer) -> Iterator[Tape]:
    y = settings.back + settings.depth
    for x, z0, z1 in last.seams:
        gone = [(h.cut.z0, h.cut.z1) for h in holes if h.cut.x0 < x < h.cut.x1]
        for lo, hi in without((z0, z1), gone):
            yield _tape("joint-tape", (x, y, lo), (x, y, hi))
    for x0, x1, z in last.rows:
        gone = [(h.cut.x0, h.cut.x1) for h in holes if h.cut.z0 < z < h.cut.z1]
        for lo, hi in without((x0, x1), gone):
            yield _tape("joint-tape", (lo, y, z), (hi, y, z))


def _ends(settings: Settings, boards: Iterable[Board]) -> Iterator[Tape]:
    """Yield the joints across bare ends, in their last layer: each board's top but the highest."""
    for side, x in (("left", settings.start), ("right", settings.end)):
        of_end = [
            one
            for one in boards
            if one.face == settings.face(side) and one.layer == settings.layers
        ]
        bottoms = {one.box.z for one in of_end}
        for one in of_end:
            z = one.box.z + one.box.dz
            if z in bottoms:
                yield _tape("joint-tape", (x, one.box.y, z), (x, one.box.y + one.box.dy, z))


def _across(boards: Iterable[Board]) -> Iterator[Tape]:
    """Yield the joints across tops, undersides and linings, which run out from the wall."""
    visible: dict[str, list[Board]] = {}
    for one in boards:
        if one.rule in _ACROSS:
            visible.setdefault(one.face, []).append(one)
    for of_face in visible.values():
        layer = max(one.layer for one in of_face)
        last = [one for one in of_face if one.layer == layer]
        for one, other in itertools.permutations(last, 2):
            a, b = one.box, other.box
            at = {Toward.UP: a.z + a.dz, Toward.DOWN: a.z}.get(one.faces)
            if at is not None and a.x + a.dx == b.x:
                yield _tape("joint-tape", (b.x, a.y, at), (b.x, a.y + a.dy, at))
            elif at is None and a.z + a.dz == b.z:
                x = a.x + a.dx if one.faces is Toward.RIGHT else a.x
                yield _tape("joint-tape", (x, a.y, b.z), (x, a.y + a.dy, b.z))


def _angles(settings: Settings, holes: list[Hole]) -> Iterator[Tape]:
    back, front = settings.back, settings.back + settings.depth
    x0, x1 = settings.start, settings.end
    if not settings.flat_top:
        top = settings.levels.highest_ceiling(x0, x1)
        yield _tape("angle-tape", (x0, front, top), (x1, front, top))
        for x, bare in ((x0, settings.left_bare), (x1, settings.right_bare)):
            for stretch in bare[-1:]:
                z = room(settings, x, x)[1]
                yield _tape("angle-tape", (x, back + stretch.y, z), (x, front, z))
    for surface, place, _ in level_surfaces(settings):
        if place.z1 < settings.depth - settings.skin:
            y = surface.origin[1] - place.z1
            at = settings.board_top if surface.faces is Toward.UP else settings.board_base
            assert at is not None
            yield _tape("angle-tape", (place.x0, y, at), (place.x1, y, at))
    for hole in holes:
        if not hole.lined:
            continue
        clear, inner = hole.clear, front - hole.depth
        corners = [(x, z) for x in (clear.x0, clear.x1) for z in (clear.z0, clear.z1)]
        for x, z in corners:
            yield _tape("angle-tape", (x, inner, z), (x, front, z))
        if hole.kind != "tv":
            for x in (clear.x0, clear.x1):
                yield _tape("angle-tape", (x, inner, clear.z0), (x, inner, clear.z1))
            for z in (clear.z0, clear.z1):
                yield _tape("angle-tape", (clear.x0, inner, z), (clear.x1, inner, z))


def _tape(kind: str, start: Spot, end: Spot) -> Tape:
    return Tape(kind=kind, start=_point(start), end=_point(end), rule=f"quantity.{kind}")


def _point(spot: Spot) -> Point:
    return Point(x=Tenths(spot[0]), y=Tenths(spot[1]), z=Tenths(spot[2]))


def length_of(tape: Tape) -> int:
    """Return how long a run of tape is."""
    a, b = tape.start, tape.end
    return abs(b.x - a.x) + abs(b.y - a.y) + abs(b.z - a.z)
