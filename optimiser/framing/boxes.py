"""From one wall to its boxes: steps in the front and projections behind divide it.

Each box has one depth and one back, and is framed like a wall of its own. What of its ends, top
and underside shows follows from its neighbours alone; so does which of two boxes gives way where
the board of a bare end needs room.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace

from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.figures import (
    Figure,
    box_depth,
    box_width,
    face_at,
    listed,
    wall_width,
)
from optimiser.framing.notes import Notes
from optimiser.framing.pieces import (
    CEILING,
    Piece,
    Solid,
    as_box,
    behind,
    check_ends,
    check_piece,
    heights_of,
    pieces_of,
)
from optimiser.framing.settings import Bare, Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# Two faces closer in depth leave no room for a board and its bead between: common practice.
LEAST_STEP = 300


def boxes(whole: Settings, notes: Notes) -> tuple[list[Settings], set[str]]:
    """Return the settings of each box of the wall, and the names of those that cannot stand.

    Records a problem for each of these.
    """
    if whole.width <= 0:
        return [], set()
    solids = [
        Solid(p.x - whole.offset, p.x + p.width - whole.offset, p.depth)
        for p in whole.wall.site.projections
        if p.x < whole.offset + whole.width and whole.offset < p.x + p.width
    ]
    skirting = whole.wall.site.skirting or 0
    if skirting > MOST_OVERHANG:
        notes.problem(
            "site.skirting",
            f"site.skirting {mm(skirting)} keeps the timber further off the house than boards may"
            f" stand out past it, {mm(MOST_OVERHANG)}",
            "check the figure, or take the skirting off and leave it out",
        )
    pieces = [
        replace(piece, back=piece.back + skirting)
        for piece in behind(pieces_of(whole, notes), solids)
        if piece.depth > 0
    ]
    if not pieces:
        open_steps = [Figure(f"steps.{step.name}.depth", "0") for step in whole.wall.steps]
        notes.problem(
            open_steps[0].field,
            f"{listed(open_steps)} leave nothing of {wall_width(whole)} to build",
            "give one a depth",
        )
    faulty: set[str] = set()
    ends: dict[tuple[int, str], list[Bare]] = {}
    for piece in pieces:
        so_far = len(notes.problems)
        check_piece(piece, whole, notes)
        for side in ("left", "right"):
            ends[id(piece), side] = _bare(piece, side, pieces, solids, whole, notes)
        faulty |= {piece.name} if len(notes.problems) > so_far else set()
    found: list[Settings] = []
    for piece in pieces:
        so_far = len(notes.problems)
        found.append(_box(piece, pieces, ends, solids, whole, notes))
        check_ends(found[-1], notes)
        faulty |= {piece.name} if len(notes.problems) > so_far else set()
    return found, faulty


def _facing(piece: Piece, side: str, pieces: list[Piece]) -> list[Piece]:
    """Return the boxes that meet one end of a box."""
    place = piece.place
    return [
        other
        for other in pieces
        if (other.place.x1 == place.x0 if side == "left" else other.place.x0 == place.x1)
        and other.place.z0 < place.z1
        and place.z0 < other.place.z1
    ]


@dataclass(frozen=True, slots=True)
class _Edge:
    """One end of a box: where its board ends, and how far in from there its timber does."""

    x: int
    inset: int = 0


def _edge(
    piece: Piece,
    side: str,
    pieces: list[Piece],
    bare: dict[tuple[int, str], list[Bare]],
    skin: int,
    stops: set[int],
) -> _Edge:
    """Return how one end gives way to the boxes beside it.

    Where a deeper one shows its end, the shallower reaches under that end's board, to its timber.
    A box flush with such a shallower one follows it; a box flush with one that shows its end
    elsewhere keeps its board, and its timber reaches to the other's. Nothing reaches into a breast,
    whose sides are `stops`.
    """
    outward = -1 if side == "left" else 1
    x = piece.place.x0 if side == "left" else piece.place.x1
    if bare[id(piece), side] or x in stops:
        return _Edge(x)
    other_side = "right" if side == "left" else "left"
    facing = _facing(piece, side, pieces)
    if any(other.depth > piece.depth for other in facing):
        return _Edge(x + outward * skin)
    flush = [other for other in facing if other.depth == piece.depth]
    if any(
        over.depth > other.depth for other in flush for over in _facing(other, other_side, pieces)
    ):
        return _Edge(x - outward * skin)
    if any(bare[id(other), other_side] for other in flush):
        return _Edge(x, -skin)
    return _Edge(x)


def _box(
    piece: Piece,
    pieces: list[Piece],
    bare_ends: dict[tuple[int, str], list[Bare]],
    solids: list[Solid],
    whole: Settings,
    notes: Notes,
) -> Settings:
    place, skin = piece.place, whole.skin
    stops = {x for solid in solids for x in (solid.x0, solid.x1)}
    bare = {side: bare_ends[id(piece), side] for side in ("left", "right")}
    edges = {side: _edge(piece, side, pieces, bare_ends, skin, stops) for side in ("left", "right")}
    over, under = _vertical(piece, pieces, whole, notes)
    # Boards run on to the house, over a skirting that keeps the timber off it.
    house = piece.back - (whole.wall.site.skirting or 0)
    base = place.z0
    board_base: int | None = None
    bottom_bare: int | None = None
    if place.z0 > 0 and under is not None:
        if under < piece.depth:
            shown = max(under, house) - piece.back
            base, bottom_bare, board_base = place.z0 + skin, shown, place.z0
        elif under > piece.depth:
            base, board_base = place.z0 - skin, place.z0
        else:
            board_base = place.z0
    levels = whole.levels
    board_top: int | None = None
    top_bare: int | None = None
    if place.z1 < CEILING:
        top = place.z1
        if over is None or over < piece.depth:
            top, top_bare = place.z1 - skin, max(over or 0, house) - piece.back
        elif over > piece.depth:
            top = place.z1 + skin
        board_top = place.z1
        levels = replace(levels, flat_ceiling=top)
    if base > 0:
        levels = replace(levels, flat_floor=base)
    low, high = board_base or 0, board_top if board_top is not None else CEILING
    return replace(
        whole,
        levels=levels,
        depth=piece.depth - piece.back,
        back=piece.back,
        name=piece.name,
        step=piece.step,
        start=edges["left"].x,
        end=edges["right"].x,
        base=base,
        left_bare=tuple(_within(bare["left"], place, (low, high), piece.back, house)),
        right_bare=tuple(_within(bare["right"], place, (low, high), piece.back, house)),
        top_bare=top_bare,
        bottom_bare=bottom_bare,
        board_base=board_base,
        board_top=board_top,
        inset_left=whole.inset_left if place.x0 == 0 else edges["left"].inset,
        inset_right=(whole.inset_right if place.x1 == whole.width else edges["right"].inset),
        fit=whole.fit if place.z1 == CEILING else 0,
        closes=_closes(piece, pieces, solids, whole),
    )


def _closes(piece: Piece, pieces: list[Piece], solids: list[Solid], whole: Settings) -> bool:
    """Return whether the last board of a box's front goes in between two fixed ends.

    Boards go up from a fixed end; where the other end of their run is free they run past it and are
    cut flush, and none has to go in between. Parts flush with one another are one run.
    """

    def fixed(one: Piece, side: str) -> bool:
        """Whether one end meets a side wall, a deeper part or a breast."""
        left = side == "left"
        x = one.place.x0 if left else one.place.x1
        if x == (0 if left else whole.width):
            return not (whole.left_free if left else whole.right_free)
        return any(other.depth > one.depth for other in _facing(one, side, pieces)) or any(
            x == (solid.x1 if left else solid.x0) and solid.depth >= one.depth for solid in solids
        )

    def begins_fixed(one: Piece) -> bool:
        return fixed(one, "left") or any(
            begins_fixed(other)
            for other in _facing(one, "left", pieces)
            if other.depth == one.depth
        )

    return fixed(piece, "right") and begins_fixed(piece)


def _within(
    bare: list[Bare], place: Rect, span: tuple[int, int], back: int, house: int
) -> Iterator[Bare]:
    for stretch in bare:
        z0 = span[0] if stretch.z0 == place.z0 else stretch.z0
        z1 = span[1] if stretch.z1 == place.z1 else stretch.z1
        yield Bare(z0, z1, max(stretch.y, house) - back)


def _bare(
    piece: Piece,
    side: str,
    pieces: list[Piece],
    solids: list[Solid],
    whole: Settings,
    notes: Notes,
) -> list[Bare]:
    """Return what shows of one end, y from the existing wall; empty where nothing does."""
    place = piece.place
    x = place.x0 if side == "left" else place.x1
    if x == (0 if side == "left" else whole.width):
        free = whole.left_free if side == "left" else whole.right_free
        if not free:
            return []
    beside = _facing(piece, side, pieces)
    solid = max((s.depth for s in solids if (s.x1 if side == "left" else s.x0) == x), default=0)
    cuts = {place.z0, place.z1}
    for other in beside:
        cuts |= {z for z in (other.place.z0, other.place.z1) if place.z0 < z < place.z1}
    levels = sorted(cuts)
    found: list[Bare] = []
    for z0, z1 in itertools.pairwise(levels):
        covered = max(
            (o.depth for o in beside if o.place.z0 <= z0 and z1 <= o.place.z1), default=solid
        )
        covered = max(covered, solid)
        if covered < piece.depth:
            if found and found[-1].y == covered and found[-1].z1 == z0:
                found[-1] = Bare(found[-1].z0, z1, covered)
            else:
                found.append(Bare(z0, z1, covered))
    deeper = [other for other in beside if other.depth > piece.depth]
    own = box_depth(as_box(piece, whole))
    if found and deeper:
        others = listed(box_depth(as_box(deeper[0], whole)), heights_of(deeper[0], whole))
        notes.problem(
            own.field,
            f"{own}: its {side} end shows over a part of its height and meets a deeper part"
            f" elsewhere, {others}",
            "let the parts beside it have one depth",
        )
    for stretch in found:
        if piece.depth - stretch.y < whole.skin + LEAST_STEP:
            least = stretch.y + whole.skin + LEAST_STEP
            notes.problem(
                own.field,
                f"{own} stands {mm(piece.depth - stretch.y)} before what is beside it,"
                f" {face_at(stretch.y, whole)}; at least {mm(whole.skin + LEAST_STEP)}",
                f"make {own.field} {mm(least)}, or bring both fronts in line",
            )
    return found


def _vertical(
    piece: Piece, pieces: list[Piece], whole: Settings, notes: Notes
) -> tuple[int | None, int | None]:
    """Return the depths of what stands over and under a box, None where nothing does."""
    place = piece.place
    found: list[int | None] = []
    for over in (True, False):
        near = [
            other
            for other in pieces
            if (other.place.z0 == place.z1 if over else other.place.z1 == place.z0)
            and other.place.x0 < place.x1
            and place.x0 < other.place.x1
        ]
        depths = {other.depth for other in near}
        spans = min((o.place.x0 for o in near), default=place.x0) <= place.x0 and (
            max((o.place.x1 for o in near), default=place.x1) >= place.x1
        )
        own = box_depth(as_box(piece, whole))
        others = [box_depth(as_box(other, whole)) for other in near]
        if len(depths) > 1 or not spans or len({o.back for o in near} | {piece.back}) > 1:
            sides = [box_width(as_box(one, whole)) for one in (piece, *near)]
            notes.problem(
                own.field,
                f"what stands {'over' if over else 'under'} {own} differs along its width:"
                f" {listed(others, *sides)}",
                "give the parts one above the other the same sides",
            )
        if not over and place.z0 > 0 and not near:
            height = heights_of(piece, whole)
            notes.problem(
                height[0].field,
                f"nothing stands under {listed(height, own)}",
                "let it reach the floor, or build a part below it",
            )
        depth = max(depths, default=None)
        if depth is not None and 0 < abs(depth - piece.depth) < whole.skin + LEAST_STEP:
            least = min(depth, piece.depth) + whole.skin + LEAST_STEP
            deeper = own if piece.depth > depth else others[0]
            notes.problem(
                own.field,
                f"{own} and {listed(others)} {'over' if over else 'under'} it are"
                f" {mm(abs(depth - piece.depth))} apart; at least {mm(whole.skin + LEAST_STEP)}",
                f"make {deeper.field} {mm(least)}, or bring both fronts in line",
            )
        found.append(depth)
    return found[0], found[1]
