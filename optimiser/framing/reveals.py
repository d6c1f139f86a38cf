"""Inside an opening: soffit, sill, cheeks, back and shelves.

Soffit and sill run the whole width between timbers, the cheeks stand between them; all reach from
the back of the front board, which laps their edges, to the front of the back panel.
"""

from __future__ import annotations

import itertools

from optimiser.domain.frame import Board, Face, Member, Toward
from optimiser.domain.price_book import SheetItem
from optimiser.framing.boarding import board, cut_outs_of, face_of, stretches
from optimiser.framing.openings import Hole
from optimiser.framing.returns import shelf_heights
from optimiser.framing.settings import Settings, usable_sheets
from optimiser.framing.surfaces import Rect, Surface

# A strip of light shines past a shelf's back through this: common practice, no source.
LIGHT_GAP = 150


def fits(item: SheetItem, width: int, height: int) -> bool:
    """Return whether some stock sheet gives a part of this size, either way round."""
    return any(
        (width <= w and height <= h) or (height <= w and width <= h) for w, h in usable_sheets(item)
    )


def panel_joints(hole: Hole, settings: Settings) -> list[int]:
    """Return the heights at which the back of a recess is joined, over struts: none if it fits."""
    if not hole.lined:
        return []
    item = panel_item(hole, settings)
    width = _column(hole.frame.width, item)
    for parts in range(1, 40):
        if fits(item, width, -(-hole.frame.height // parts)):
            return [hole.frame.z0 + hole.frame.height * i // parts for i in range(1, parts)]
    return []


def panel_item(hole: Hole, settings: Settings) -> SheetItem:
    """Return the board at the back of a recess: the backboard behind a TV, else plasterboard."""
    return settings.backboard if hole.kind == "tv" else settings.board


def _column(width: int, item: SheetItem) -> int:
    """Return the widest of the even columns that a width needs."""
    longest = max(max(sheet) for sheet in usable_sheets(item))
    return -(-width // -(-width // longest))


def columns(hole: Hole, settings: Settings) -> list[tuple[int, int]]:
    """Return from where to where the boards at the back of a recess run, along the wall."""
    width, start = hole.frame.width, hole.frame.x0
    stretches = _divided(width, _column(width, panel_item(hole, settings)))
    return [(start + a, start + b) for a, b in stretches]


def _divided(length: int, most: int) -> list[tuple[int, int]]:
    """Divide a length evenly into stretches of at most `most`."""
    parts = -(-length // most)
    edges = [length * i // parts for i in range(parts + 1)]
    return list(itertools.pairwise(edges))


def linings(settings: Settings, hole: Hole) -> tuple[list[Board], list[Face]]:
    """Return every board inside one lined opening; faces are named after the opening."""
    if not hole.lined:
        return [], []
    item = settings.board
    depth = hole.depth - settings.skin
    thick = item.thickness
    longest = max(max(sheet) for sheet in usable_sheets(item))
    made: list[Board] = []
    faces: list[Face] = []
    for part, z in (("soffit", hole.frame.z1), ("sill", hole.frame.z0)):
        surface = _level(settings, hole, part, z)
        place = Rect(hole.frame.x0, 0, hole.frame.x1, depth)
        for x0, x1 in _divided(hole.frame.width, longest):
            piece = Rect(hole.frame.x0 + x0, 0, hole.frame.x0 + x1, depth)
            made.append(board(item, surface, "board.reveal", piece))
        faces.append(face_of(settings, surface, place, [], layers=1))
    for part, more in (("left", hole.double_left), ("right", hole.double_right)):
        surface = _cheek(settings, hole, part, depth)
        bottom, top = hole.frame.z0 + thick, hole.frame.z1 - thick
        for layer in range(1, more + 2):
            rule = "board.reveal" if layer == 1 else "board.double-cheek"
            out = (layer - 1) * thick
            for z0, z1 in _divided(top - bottom, longest):
                piece = Rect(0, bottom + z0, depth, bottom + z1)
                made.append(board(item, surface, rule, piece, layer=layer, out=out))
        faces.append(face_of(settings, surface, Rect(0, bottom, depth, top), [], layers=more + 1))
    back, face = _back(settings, hole)
    return made + back + _shelves(settings, hole), [*faces, face]


def _level(settings: Settings, hole: Hole, part: str, z: int) -> Surface:
    return Surface(
        name=f"{hole.name}.{part}",
        origin=(0, settings.back + settings.depth - settings.skin, z),
        across=Toward.RIGHT,
        up=Toward.BACK,
        faces=Toward.DOWN if part == "soffit" else Toward.UP,
    )


def _cheek(settings: Settings, hole: Hole, part: str, depth: int) -> Surface:
    front = settings.back + settings.depth - settings.skin
    left = part == "left"
    return Surface(
        name=f"{hole.name}.{part}",
        origin=(hole.frame.x0 if left else hole.frame.x1, front if left else front - depth, 0),
        across=Toward.BACK if left else Toward.FRONT,
        up=Toward.UP,
        faces=Toward.RIGHT if left else Toward.LEFT,
    )


def _back(settings: Settings, hole: Hole) -> tuple[list[Board], Face]:
    item = panel_item(hole, settings)
    rule = "board.backboard" if hole.kind == "tv" else "board.back"
    surface = Surface(
        name=f"{hole.name}.back",
        origin=(0, settings.back + settings.depth - hole.depth - hole.panel, 0),
        across=Toward.RIGHT,
        up=Toward.UP,
        faces=Toward.FRONT,
    )
    levels = [hole.frame.z0, *panel_joints(hole, settings), hole.frame.z1]
    holes: list[Rect] = []
    if hole.kind == "tv" and settings.wall.tv is not None:
        holes = [
            Rect(socket.x, socket.z, socket.x + socket.width, socket.z + socket.height)
            for socket in settings.wall.tv.sockets
        ]
    made: list[Board] = []
    for x0, x1 in columns(hole, settings):
        for z0, z1 in itertools.pairwise(levels):
            place = Rect(x0, z0, x1, z1)
            cut_outs = cut_outs_of(place, holes)
            made.append(board(item, surface, rule, place, cut_outs=cut_outs))
    return made, face_of(settings, surface, hole.frame, holes, layers=1, item=item)


def _shelves(settings: Settings, hole: Hole) -> list[Board]:
    """Return the shelves of a niche; a lit one leaves a gap behind each for the strip's light."""
    gap = LIGHT_GAP if hole.lit else 0
    made: list[Board] = []
    for i, z in enumerate(shelf_heights(hole), start=1):
        surface = Surface(
            name=f"{hole.name}.shelf {i}",
            origin=(0, settings.back + settings.depth, z - settings.backboard.thickness // 2),
            across=Toward.RIGHT,
            up=Toward.BACK,
            faces=Toward.UP,
        )
        place = Rect(hole.clear.x0, 0, hole.clear.x1, hole.depth - gap)
        made.append(board(settings.backboard, surface, "board.shelf", place))
    return made


def fire_linings(
    settings: Settings, hole: Hole, members: list[Member]
) -> tuple[list[Board], list[Face]]:
    """Return the boards that line the timber over and beside a fire where its maker asks for it."""
    item = settings.fire_lining
    if item is None:
        return [], []
    depth = min(hole.depth, settings.depth) - settings.skin
    longest = max(max(sheet) for sheet in usable_sheets(item))
    made: list[Board] = []
    faces: list[Face] = []
    surface = _level(settings, hole, "soffit", hole.frame.z1)
    place = Rect(hole.frame.x0, 0, hole.frame.x1, depth)
    middles = [
        one.box.x + one.box.dx // 2
        for one in members
        if one.kind == "return" and one.box.z == hole.frame.z1
    ]
    for x0, x1 in stretches(hole.frame.x0, hole.frame.x1, longest, middles):
        piece = Rect(x0, 0, x1, depth)
        made.append(board(item, surface, "board.fire-lining", piece))
    faces.append(face_of(settings, surface, place, [], layers=1, item=item))
    for part, open_end in (("left", hole.to_left), ("right", hole.to_right)):
        if open_end:
            continue
        surface = _cheek(settings, hole, part, depth)
        place = Rect(0, hole.frame.z0, depth, hole.frame.z1 - item.thickness)
        made.append(board(item, surface, "board.fire-lining", place))
        faces.append(face_of(settings, surface, place, [], layers=1, item=item))
    return made, faces
