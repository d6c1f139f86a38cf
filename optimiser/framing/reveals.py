"""Inside an opening: soffit, sill, cheeks, back and shelves.

Soffit and sill run the whole width between timbers, the cheeks stand between them; all reach from
the back of the front board, which laps their edges, to the front of the back panel.
"""

from __future__ import annotations

import itertools

from optimiser.domain.frame import Board
from optimiser.domain.price_book import SheetItem
from optimiser.framing.boarding import board, cut_outs_of
from optimiser.framing.openings import Hole, Rect
from optimiser.framing.returns import shelf_heights
from optimiser.framing.settings import Settings, usable_sheets


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


def _divided(length: int, most: int) -> list[tuple[int, int]]:
    """Divide a length evenly into stretches of at most `most`."""
    parts = -(-length // most)
    edges = [length * i // parts for i in range(parts + 1)]
    return list(itertools.pairwise(edges))


def linings(settings: Settings, hole: Hole) -> list[Board]:
    """Return every board inside one lined opening; faces are named after the opening."""
    if not hole.lined:
        return []
    item = settings.board
    depth = hole.depth - settings.skin
    thick = item.thickness
    longest = max(max(sheet) for sheet in usable_sheets(item))
    made: list[Board] = []
    for part in ("soffit", "sill"):
        for x0, x1 in _divided(hole.frame.width, longest):
            place = Rect(hole.frame.x0 + x0, 0, hole.frame.x0 + x1, depth)
            made.append(board(item, f"{hole.name}.{part}", "board.reveal", place))
    for part in ("left", "right"):
        for z0, z1 in _divided(hole.frame.height - 2 * thick, longest):
            bottom = hole.frame.z0 + thick
            place = Rect(0, bottom + z0, depth, bottom + z1)
            made.append(board(item, f"{hole.name}.{part}", "board.reveal", place))
    return made + _back(settings, hole) + _shelves(settings, hole)


def _back(settings: Settings, hole: Hole) -> list[Board]:
    item = panel_item(hole, settings)
    rule = "board.backboard" if hole.kind == "tv" else "board.back"
    levels = [hole.frame.z0, *panel_joints(hole, settings), hole.frame.z1]
    holes: list[Rect] = []
    if hole.kind == "tv" and settings.wall.tv is not None:
        holes = [
            Rect(socket.x, socket.z, socket.x + socket.width, socket.z + socket.height)
            for socket in settings.wall.tv.sockets
        ]
    made: list[Board] = []
    for x0, x1 in _divided(hole.frame.width, _column(hole.frame.width, item)):
        for z0, z1 in itertools.pairwise(levels):
            place = Rect(hole.frame.x0 + x0, z0, hole.frame.x0 + x1, z1)
            cut_outs = cut_outs_of(place, holes)
            made.append(board(item, f"{hole.name}.back", rule, place, cut_outs=cut_outs))
    return made


def _shelves(settings: Settings, hole: Hole) -> list[Board]:
    return [
        board(
            settings.backboard,
            f"{hole.name}.shelf {i}",
            "board.shelf",
            Rect(hole.clear.x0, 0, hole.clear.x1, hole.depth),
        )
        for i, _ in enumerate(shelf_heights(hole), start=1)
    ]
