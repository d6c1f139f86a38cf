"""Boards on the front, on bare ends, tops and undersides: openings cut out, not pieced round.

The front board laps all others; each board is lifted to the ceiling and ends short of the floor.
Where floor or ceiling is out of level a board is its largest height, to be trimmed on site.
"""

from __future__ import annotations

import itertools
from dataclasses import replace

from optimiser.domain.frame import Board, Edge, Edges, Face, Member, Toward
from optimiser.domain.parts import CutOut
from optimiser.domain.price_book import SheetItem
from optimiser.domain.request import Cutting
from optimiser.framing.changed import changed
from optimiser.framing.layout import Layer, end_room, room, row_joints, sheet_for
from optimiser.framing.openings import Hole
from optimiser.framing.setting_out import CORNER
from optimiser.framing.settings import FLOOR_GAP, Settings, usable_sheets
from optimiser.framing.surfaces import Rect, Surface
from optimiser.units import Tenths


def board(
    item: SheetItem,
    surface: Surface,
    rule: str,
    place: Rect,
    *,
    layer: int = 1,
    out: int = 0,
    cut_outs: tuple[CutOut, ...] = (),
) -> Board:
    """Make one board part whose back lies `out` from the timber.

    It may be turned on the sheet, as neither face nor edge shows.
    """
    return Board(
        mark="",
        face=surface.name,
        layer=layer,
        material=item.material,
        x=Tenths(place.x0),
        z=Tenths(place.z0),
        width=Tenths(place.width),
        height=Tenths(place.height),
        turn=True,
        cut_outs=cut_outs,
        rule=rule,
        box=surface.box(place, out, item.thickness),
        across=surface.across,
        up=surface.up,
        faces=surface.faces,
        edges=edges_of(item, place.width, place.height),
        reaction_to_fire=item.reaction_to_fire,
    )


def edges_of(item: SheetItem, width: int, height: int) -> Edges:
    """Return which edges of a part are bound wherever on a sheet it is cut.

    Only a part as wide as the sheet, and too long to lie across it, is sure to keep both; the
    ends of a knife-cut board are never bound, those of a sawn board count as cut too.
    """
    if item.cutting is not Cutting.KNIFE:
        return Edges()
    widths = {sheet for sheet, _ in usable_sheets(item)}
    if width in widths and height > max(widths):
        return Edges(left=Edge.FACTORY, right=Edge.FACTORY)
    if height in widths and width > max(widths):
        return Edges(bottom=Edge.FACTORY, top=Edge.FACTORY)
    return Edges()


def face_of(
    settings: Settings,
    surface: Surface,
    place: Rect,
    holes: list[Rect],
    *,
    layers: int,
    follows_ceiling: bool = False,
    item: SheetItem | None = None,
) -> Face:
    """Return the face that boards on a surface must cover, in the plane of its last layer."""
    thickness = item.thickness if item is not None else settings.board.thickness
    return Face(
        name=surface.name,
        box=surface.box(place, layers * thickness, 0),
        across=surface.across,
        up=surface.up,
        faces=surface.faces,
        layers=layers,
        thickness=Tenths(thickness),
        limit=Tenths(max(settings.limit, settings.centres)),
        holes=cut_outs_of(place, holes),
        follows_ceiling=follows_ceiling,
    )


def front_surface(settings: Settings) -> Surface:
    """Return the plane of the front timbers, in wall coordinates."""
    y = settings.back + settings.depth - settings.skin
    return Surface(
        name=settings.face("front"),
        origin=(0, y, 0),
        across=Toward.RIGHT,
        up=Toward.UP,
        faces=Toward.FRONT,
    )


def front(settings: Settings, holes: list[Hole], layers: tuple[Layer, ...]) -> list[Board]:
    """Return every board of the front: its places with the openings cut out."""
    surface = front_surface(settings)
    boards: list[Board] = []
    for layer in layers:
        rule = "board.front" if layer.number == 1 else "board.front.second"
        out = (layer.number - 1) * settings.board.thickness
        for place in layer.places:
            crossed = [hole.cut for hole in holes if hole.cut.meets(place)]
            for piece, cuts in _around(place, crossed):
                eased = settings.eased if piece.x1 == settings.end else 0
                cut = replace(piece, x1=piece.x1 - eased)
                made = board(
                    settings.board,
                    surface,
                    rule,
                    cut,
                    layer=layer.number,
                    out=out,
                    cut_outs=cut_outs_of(cut, cuts),
                )
                boards.append(changed(made, eased=Tenths(eased)) if eased else made)
    return boards


def front_face(settings: Settings, holes: list[Hole]) -> Face:
    """Return the front as it must be covered: from the highest floor's gap to the ceiling."""
    x0, x1 = settings.start, settings.end
    bottom, top = room(settings, x0, x1)
    if settings.board_base is None:
        bottom = FLOOR_GAP
    face = face_of(
        settings,
        front_surface(settings),
        Rect(x0, bottom, x1, top),
        [hole.cut for hole in holes],
        layers=settings.layers,
        follows_ceiling=settings.board_top is None,
    )
    return replace(face, eased=Tenths(settings.eased))


def _around(place: Rect, crossed: list[Rect]) -> list[tuple[Rect, list[Rect]]]:
    """Return the boards of one place: parted by openings as wide or as high as it, else whole."""
    pieces = [place]
    partial: list[Rect] = []
    for cut in crossed:
        across = cut.x0 <= place.x0 and cut.x1 >= place.x1
        along = cut.z0 <= place.z0 and cut.z1 >= place.z1
        if not across and not along:
            partial.append(cut)
            continue
        parted: list[Rect] = []
        for piece in pieces:
            if across:
                ends = ((piece.z0, min(piece.z1, cut.z0)), (max(piece.z0, cut.z1), piece.z1))
                parted += [Rect(piece.x0, lo, piece.x1, hi) for lo, hi in ends if hi > lo]
            else:
                ends = ((piece.x0, min(piece.x1, cut.x0)), (max(piece.x0, cut.x1), piece.x1))
                parted += [Rect(lo, piece.z0, hi, piece.z1) for lo, hi in ends if hi > lo]
        pieces = parted
    return [(piece, partial) for piece in pieces]


def cut_outs_of(piece: Rect, holes: list[Rect]) -> tuple[CutOut, ...]:
    """Return what holes take from a board, measured from its own lower left corner."""
    found = []
    for hole in holes:
        x0, x1 = max(hole.x0, piece.x0), min(hole.x1, piece.x1)
        z0, z1 = max(hole.z0, piece.z0), min(hole.z1, piece.z1)
        if x0 < x1 and z0 < z1:
            found.append(
                CutOut(
                    x=Tenths(x0 - piece.x0),
                    y=Tenths(z0 - piece.z0),
                    width=Tenths(x1 - x0),
                    height=Tenths(z1 - z0),
                )
            )
    return tuple(sorted(found, key=lambda cut: (cut.y, cut.x)))


def end_surface(settings: Settings, side: str) -> Surface:
    """Return the plane of an end's timbers.

    Seen from in front of its face, the existing wall is left of the left end, right of the right.
    """
    left = side == "left"
    y = settings.back + (0 if left else settings.depth - settings.skin)
    return Surface(
        name=settings.face(side),
        origin=(settings.left if left else settings.right, y, 0),
        across=Toward.FRONT if left else Toward.BACK,
        up=Toward.UP,
        faces=Toward.LEFT if left else Toward.RIGHT,
    )


def ends(
    settings: Settings, fire: Hole | None, return_depth: int, *, short: bool = False
) -> tuple[list[Board], list[Face], dict[int, list[int]]]:
    """Return boards and faces of the bare ends, and their horizontal joints by upright's x.

    `short`: boards come from the shortest sheet and are joined in height.
    """
    boards: list[Board] = []
    faces: list[Face] = []
    joints: dict[int, list[int]] = {}
    whole = settings.depth - settings.skin
    glass = return_depth - settings.skin
    for side, bare in (("left", settings.left_bare), ("right", settings.right_bare)):
        surface = end_surface(settings, side)
        upright = settings.left if side == "left" else settings.right - settings.thick
        for stretch in bare:
            bottom, top = end_room(settings, side, stretch)
            whole_top = room(settings, settings.start, settings.end)[1]
            # Where it begins or ends part of the way up, a return holds its edge.
            joints.setdefault(upright, []).extend(
                [bottom] * (stretch.z0 > settings.base) + [top] * (stretch.z1 < whole_top)
            )
            holes: list[Rect] = []
            near: list[int] = []
            returns = fire is not None and (fire.to_left if side == "left" else fire.to_right)
            if fire is not None and returns and glass > 0:
                at = whole - glass if side == "left" else 0
                holes.append(Rect(at, fire.cut.z0, at + glass, fire.cut.z1))
                # Returns lie flush with the fire's frame; the joint's own needs room beside them.
                # Beside the glass nothing runs from back to front that could hold a joint.
                near = [*range(fire.cut.z0, fire.cut.z1, CORNER), fire.cut.z1]
                near += [fire.frame.z0 - settings.wide, fire.frame.z1 + settings.wide]
            span = (stretch.y, whole) if side == "left" else (0, whole - stretch.y)
            place = Rect(span[0], bottom, span[1], top)
            made, splits = _end_boards(settings, surface, place, holes, near, short=short)
            boards += made
            joints.setdefault(upright, []).extend(splits)
            on_floor = settings.board_base is None and stretch.z0 <= 0
            low = FLOOR_GAP if on_floor else bottom
            faces.append(
                face_of(
                    settings,
                    surface,
                    Rect(span[0], low, span[1], top),
                    holes,
                    layers=settings.layers,
                    follows_ceiling=settings.board_top is None and stretch.z1 > top,
                )
            )
    return boards, faces, joints


def _end_boards(
    settings: Settings,
    surface: Surface,
    place: Rect,
    holes: list[Rect],
    near: list[int],
    *,
    short: bool,
) -> tuple[list[Board], list[int]]:
    height = sheet_for(settings.board, place.height, short=short)[1]
    boards: list[Board] = []
    joints: list[int] = []
    for layer in range(1, settings.layers + 1):
        span = place.z0, place.z1, place.z1
        splits = row_joints(span, height, near + joints, from_floor=layer == 1)
        joints += splits
        for z0, z1 in itertools.pairwise([place.z0, *splits, place.z1]):
            piece = Rect(place.x0, z0, place.x1, z1)
            out = (layer - 1) * settings.board.thickness
            boards.append(
                board(
                    settings.board,
                    surface,
                    "board.end",
                    piece,
                    layer=layer,
                    out=out,
                    cut_outs=cut_outs_of(piece, holes),
                )
            )
    return boards, joints


def level_surfaces(settings: Settings) -> list[tuple[Surface, Rect, str]]:
    """Return the bare top and underside of a box, what of each shows, and the rule of its boards.

    Their coordinates run from the front timbers' face backwards.
    """
    whole = settings.depth - settings.skin
    found: list[tuple[Surface, Rect, str]] = []
    # Beside a wall that leans in the timber stands off it; the board is scribed to the wall.
    x0 = settings.start if settings.inset_left > 0 and not settings.left_bare else settings.left
    x1 = settings.end if settings.inset_right > 0 and not settings.right_bare else settings.right
    top = settings.levels.flat_ceiling
    for bare, z, side, faces in (
        (settings.top_bare, top or 0, "top", Toward.UP),
        (settings.bottom_bare, settings.base, "underside", Toward.DOWN),
    ):
        if bare is None or whole <= bare:
            continue
        surface = Surface(
            name=settings.face(side),
            origin=(0, settings.back + whole, z),
            across=Toward.RIGHT,
            up=Toward.BACK,
            faces=faces,
        )
        place = Rect(x0, 0, x1, whole - bare)
        found.append((surface, place, f"board.{side}"))
    return found


def levels_boarded(settings: Settings, members: list[Member]) -> tuple[list[Board], list[Face]]:
    """Return boards and faces of a bare top and underside, joined over the middles of returns."""
    boards: list[Board] = []
    faces: list[Face] = []
    longest = max(max(sheet) for sheet in usable_sheets(settings.board))
    for surface, place, rule in level_surfaces(settings):
        z, above = surface.origin[2], surface.faces is Toward.UP
        middles = [
            one.box.x + one.box.dx // 2
            for one in members
            if one.kind == "return" and one.box.z + (one.box.dz if above else 0) == z
        ]
        for layer in range(1, settings.layers + 1):
            reach = longest if layer == 1 else longest * 2 // 3
            for x0, x1 in stretches(place.x0, place.x1, reach, middles):
                piece = Rect(x0, place.z0, x1, place.z1)
                out = (layer - 1) * settings.board.thickness
                boards.append(board(settings.board, surface, rule, piece, layer=layer, out=out))
        faces.append(face_of(settings, surface, place, [], layers=settings.layers))
    return boards, faces


def stretches(start: int, end: int, reach: int, middles: list[int]) -> list[tuple[int, int]]:
    """Divide a run into boards of at most `reach`, joined over the middles of timbers."""
    edges = [start]
    while end - edges[-1] > reach:
        ahead = [m for m in middles if edges[-1] < m <= edges[-1] + reach and m < end]
        edges.append(max(ahead, default=edges[-1] + reach))
    return list(itertools.pairwise([*edges, end]))
