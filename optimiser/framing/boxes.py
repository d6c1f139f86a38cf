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
from optimiser.framing.notes import Notes
from optimiser.framing.settings import SHORTEST, Bare, Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# Above any ceiling: a box that reaches it has no top of its own.
CEILING = 10_000_000
# Two faces closer in depth leave no room for a board and its bead between: common practice.
LEAST_STEP = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """A rectangle of the front at one depth from the existing wall."""

    place: Rect
    depth: int
    name: str
    back: int = 0


@dataclass(frozen=True, slots=True)
class _Solid:
    x0: int
    x1: int
    depth: int


def boxes(whole: Settings, notes: Notes) -> list[Settings]:
    """Return the settings of each box of the wall; records a problem for what cannot stand."""
    solids = [
        _Solid(p.x - whole.offset, p.x + p.width - whole.offset, p.depth)
        for p in whole.wall.site.projections
        if p.x < whole.offset + whole.width and whole.offset < p.x + p.width
    ]
    skirting = whole.wall.site.skirting or 0
    pieces = [
        replace(piece, back=piece.back + skirting)
        for piece in _behind(_pieces(whole, notes), solids)
        if piece.depth > 0
    ]
    if not pieces:
        notes.problem("steps", "leave nothing to build", "give one a depth")
    for piece in pieces:
        _check(piece, whole, notes)
    if notes.problems:
        return []
    ends = {
        (id(piece), side): _bare(piece, side, pieces, solids, whole, notes)
        for piece in pieces
        for side in ("left", "right")
    }
    found = [_box(piece, pieces, ends, solids, whole, notes) for piece in pieces]
    for one in found:
        _check_ends(one, notes)
    return found


def _check_ends(box: Settings, notes: Notes) -> None:
    """Refuse a bare end whose back edge falls where no upright can stand behind it."""
    wide, front = box.wide, box.front
    for stretch in (*box.left_bare, *box.right_bare):
        between = wide <= stretch.y < front - MOST_OVERHANG
        if between and min(stretch.y, front - wide) < wide:
            notes.problem(
                f"steps: {box.name or 'wall'}",
                f"its end shows from {mm(box.back + stretch.y)} on, and between its back and front"
                f" timbers {mm(front - wide)} is left for an upright of {mm(wide)} there",
                f"make it {mm(2 * wide - front)} deeper, or choose a narrower timber",
            )
            return


def _pieces(whole: Settings, notes: Notes) -> list[_Piece]:
    top = whole.wall.extent.height
    high = top if top is not None else CEILING
    pieces = [_Piece(place=Rect(0, 0, whole.width, high), depth=whole.depth, name="")]
    for step in whole.wall.steps:
        z0 = step.z or 0
        z1 = z0 + step.height if step.height is not None else high
        place = Rect(step.x, z0, step.x + step.width, z1)
        if place.x1 > whole.width or place.z1 > high:
            notes.problem(
                f"step {step.name}",
                f"x {mm(place.x0)}-{mm(place.x1)}, z from {mm(z0)} reaches beyond wall.width"
                f" {mm(whole.width)} or the wall's top",
                "make it smaller, or move it",
            )
            continue
        pieces = [left for piece in pieces for left in _without(piece, place)]
        pieces.append(_Piece(place=place, depth=step.depth, name=step.name))
    return _named(sorted(pieces, key=lambda p: (p.place.x0, p.place.z0)))


def _without(piece: _Piece, cut: Rect) -> Iterator[_Piece]:
    """Yield what a step leaves of a piece: columns beside it, then what lies below and above."""
    one = piece.place
    x0, x1 = max(one.x0, cut.x0), min(one.x1, cut.x1)
    if x0 >= x1 or one.z1 <= cut.z0 or cut.z1 <= one.z0:
        yield piece
        return
    for place in (
        Rect(one.x0, one.z0, x0, one.z1),
        Rect(x1, one.z0, one.x1, one.z1),
        Rect(x0, one.z0, x1, cut.z0),
        Rect(x0, cut.z1, x1, one.z1),
    ):
        if place.width > 0 and place.height > 0:
            yield replace(piece, place=place)


def _named(pieces: list[_Piece]) -> list[_Piece]:
    """Number the boxes that no step names, unless there is only one."""
    if len(pieces) == 1:
        return [replace(pieces[0], name="")]
    unnamed = [i for i, piece in enumerate(pieces) if not piece.name]
    return [
        replace(piece, name=piece.name or f"box {unnamed.index(i) + 1}")
        for i, piece in enumerate(pieces)
    ]


def _behind(pieces: list[_Piece], solids: list[_Solid]) -> list[_Piece]:
    """Divide the pieces where the existing wall projects behind them."""
    for solid in solids:
        divided: list[_Piece] = []
        for piece in pieces:
            place = piece.place
            x0, x1 = max(place.x0, solid.x0), min(place.x1, solid.x1)
            if x0 >= x1 or piece.depth == 0:
                divided.append(piece)
                continue
            for part, a, b in (("left", place.x0, x0), ("", x0, x1), ("right", x1, place.x1)):
                if a >= b:
                    continue
                name = f"{piece.name or 'wall'} {part or 'breast'}"
                if (a, b) == (place.x0, place.x1):
                    name = piece.name
                back = solid.depth if not part else piece.back
                divided.append(
                    replace(piece, place=Rect(a, place.z0, b, place.z1), name=name, back=back)
                )
        pieces = divided
    return pieces


def _check(piece: _Piece, whole: Settings, notes: Notes) -> None:
    named = f"step {piece.name}" if piece.name else "wall"
    thick, wide, skin = whole.thick, whole.wide, whole.skin
    least = piece.back + skin + 2 * wide + SHORTEST
    if piece.depth < least:
        before = f" + {mm(piece.back)} of breast or skirting behind" if piece.back else ""
        notes.problem(
            f"{named}.depth" if not piece.name else named,
            f"depth {mm(piece.depth)} is less than boards {mm(skin)} + two timbers of {mm(wide)}"
            f" + a return of {mm(SHORTEST)}{before}",
            f"make it at least {mm(least)} deep, or choose a narrower timber",
        )
    if piece.place.width < 6 * thick + 2 * skin:
        notes.problem(
            f"{named}.width" if not piece.name else named,
            f"{mm(piece.place.width)} wide leaves no room for uprights",
            f"make it at least {mm(6 * thick + 2 * skin)} wide",
        )
    if piece.place.height < 10 * SHORTEST + 2 * skin:
        notes.problem(
            named,
            f"{mm(piece.place.height)} high leaves no room for plates and uprights",
            f"make it at least {mm(10 * SHORTEST + 2 * skin)} high",
        )


def _facing(piece: _Piece, side: str, pieces: list[_Piece]) -> list[_Piece]:
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
    piece: _Piece,
    side: str,
    pieces: list[_Piece],
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
    piece: _Piece,
    pieces: list[_Piece],
    bare_ends: dict[tuple[int, str], list[Bare]],
    solids: list[_Solid],
    whole: Settings,
    notes: Notes,
) -> Settings:
    place, skin = piece.place, whole.skin
    stops = {x for solid in solids for x in (solid.x0, solid.x1)}
    bare = {side: bare_ends[id(piece), side] for side in ("left", "right")}
    edges = {side: _edge(piece, side, pieces, bare_ends, skin, stops) for side in ("left", "right")}
    over, under = _vertical(piece, pieces, whole, notes)
    base = place.z0
    board_base: int | None = None
    bottom_bare: int | None = None
    if place.z0 > 0 and under is not None:
        if under < piece.depth:
            base, bottom_bare, board_base = place.z0 + skin, under - piece.back, place.z0
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
            top, top_bare = place.z1 - skin, max((over or 0) - piece.back, 0)
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
        start=edges["left"].x,
        end=edges["right"].x,
        base=base,
        left_bare=tuple(_within(bare["left"], place, low, high, piece.back)),
        right_bare=tuple(_within(bare["right"], place, low, high, piece.back)),
        top_bare=top_bare,
        bottom_bare=bottom_bare,
        board_base=board_base,
        board_top=board_top,
        inset_left=whole.inset_left if place.x0 == 0 else edges["left"].inset,
        inset_right=(whole.inset_right if place.x1 == whole.width else edges["right"].inset),
        fit=whole.fit if place.z1 == CEILING else 0,
    )


def _within(bare: list[Bare], place: Rect, low: int, high: int, back: int) -> Iterator[Bare]:
    for stretch in bare:
        z0 = low if stretch.z0 == place.z0 else stretch.z0
        z1 = high if stretch.z1 == place.z1 else stretch.z1
        yield Bare(z0, z1, max(stretch.y - back, 0))


def _bare(
    piece: _Piece,
    side: str,
    pieces: list[_Piece],
    solids: list[_Solid],
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
    named = piece.name or "wall"
    if found and any(other.depth > piece.depth for other in beside):
        notes.problem(
            f"steps: {named}",
            f"its {side} end shows over a part of its height and meets a deeper box elsewhere",
            "let the boxes beside it have one depth",
        )
    for stretch in found:
        if piece.depth - stretch.y < whole.skin + LEAST_STEP:
            notes.problem(
                f"steps: {named}",
                f"its front at {mm(piece.depth)} stands {mm(piece.depth - stretch.y)} before what"
                f" is beside it; at least {mm(whole.skin + LEAST_STEP)}",
                "make the step deeper, or bring both fronts in line",
            )
    return found


def _vertical(
    piece: _Piece, pieces: list[_Piece], whole: Settings, notes: Notes
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
        if len(depths) > 1 or not spans or len({o.back for o in near} | {piece.back}) > 1:
            notes.problem(
                f"steps: {piece.name or 'wall'}",
                f"what stands {'over' if over else 'under'} it differs along its width",
                "give the boxes one above the other the same sides",
            )
        if not over and place.z0 > 0 and not near:
            notes.problem(
                f"steps: {piece.name or 'wall'}",
                f"nothing stands under it at {mm(place.z0)}",
                "let it reach the floor, or build a box below it",
            )
        depth = max(depths, default=None)
        if depth is not None and 0 < abs(depth - piece.depth) < whole.skin + LEAST_STEP:
            notes.problem(
                f"steps: {piece.name or 'wall'}",
                f"its front at {mm(piece.depth)} and the one {'over' if over else 'under'} it at"
                f" {mm(depth)} are less than {mm(whole.skin + LEAST_STEP)} apart",
                "make the step deeper, or bring both fronts in line",
            )
        found.append(depth)
    return found[0], found[1]
