"""Boards on the front and on the free ends: as large as the sheets, openings cut out of them.

The front board laps the end boards; each board is lifted to the ceiling and ends short of the
floor. Where floor or ceiling is out of level a board is its largest height, to be trimmed on site.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from optimiser.domain.frame import Board
from optimiser.domain.parts import CutOut
from optimiser.domain.price_book import SheetItem
from optimiser.framing.horizontals import Row
from optimiser.framing.openings import Hole, Rect
from optimiser.framing.setting_out import CORNER, STRIP
from optimiser.framing.settings import FLOOR_GAP, Settings, usable_sheets
from optimiser.units import Tenths

_STEP = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Boarding:
    """The boards of one face, and the horizontal joints that timber must lie behind."""

    boards: tuple[Board, ...]
    rows: tuple[Row, ...]


def room(settings: Settings, x0: int, x1: int) -> tuple[int, int]:
    """Return the lowest and highest level that a board from x0 to x1 reaches."""
    bottom = settings.levels.lowest_floor(x0, x1) + FLOOR_GAP
    return bottom, settings.levels.highest_ceiling(x0, x1)


def sheet_for(item: SheetItem, height: int) -> tuple[int, int]:
    """Return width and height of the sheet to board with: wide, and high enough if any is."""
    sheets = usable_sheets(item)
    high_enough = [sheet for sheet in sheets if sheet[1] >= height]
    if high_enough:
        return max(high_enough, key=lambda sheet: (sheet[0], -sheet[1]))
    return max(sheets, key=lambda sheet: (sheet[1], sheet[0]))


def board(
    item: SheetItem,
    face: str,
    rule: str,
    place: Rect,
    *,
    layer: int = 1,
    cut_outs: tuple[CutOut, ...] = (),
) -> Board:
    """Make one board part; it may be turned on the sheet, as neither face nor edge shows."""
    return Board(
        mark="",
        face=face,
        layer=layer,
        material=item.material,
        x=Tenths(place.x0),
        z=Tenths(place.z0),
        width=Tenths(place.width),
        height=Tenths(place.height),
        turn=True,
        cut_outs=cut_outs,
        rule=rule,
    )


def front(
    settings: Settings,
    holes: list[Hole],
    joints: tuple[int, ...],
    sheet_height: int,
    *,
    layer: int = 1,
    under: tuple[Row, ...] = (),
) -> Boarding:
    """Return one layer of the front between its vertical joints.

    `under` are the first layer's horizontal joints, which the second keeps clear of.
    """
    edges = [0, *joints, settings.width]
    boards: list[Board] = []
    rows: list[Row] = []
    rule = "board.front" if layer == 1 else "board.front.second"
    for i, (x0, x1) in enumerate(itertools.pairwise(edges)):
        bottom, top = room(settings, x0, x1)
        crossed = [hole.cut for hole in holes if hole.cut.x0 < x1 and x0 < hole.cut.x1]
        # Neighbours start from floor and ceiling in turn, so that no four corners meet.
        rows_under = [z for from_x, to_x, z in under if from_x < x1 and x0 < to_x]
        near = [edge for cut in crossed for edge in (cut.z0, cut.z1)] + rows_under
        low = settings.levels.lowest_ceiling(x0, x1)
        span = bottom, low, top
        splits = row_joints(span, sheet_height, near, from_floor=(i + layer) % 2 == 1)
        rows += [(x0, x1, z) for z in splits]
        levels = [bottom, *splits, top]
        for z0, z1 in itertools.pairwise(levels):
            boards += _around(settings, Rect(x0, z0, x1, z1), crossed, layer, rule)
    return Boarding(boards=tuple(boards), rows=tuple(rows))


def row_joints(
    span: tuple[int, int, int], sheet_height: int, near: list[int], *, from_floor: bool
) -> list[int]:
    """Return the heights of horizontal joints: few, and none close to the heights in `near`.

    `span` is where the boards begin, the lowest ceiling over them and the highest.
    """
    bottom, low, top = span
    found: list[int] = []
    start = bottom
    while top - start > sheet_height:
        pieces = -(-(top - start) // sheet_height)
        most = start + sheet_height
        least = max(top - (pieces - 1) * sheet_height, start + STRIP)
        most = min(most, max(low - STRIP, least))
        tried = [*list(range(least, most, _STEP)), most]
        if from_floor:
            tried.reverse()
        clear = [z for z in tried if all(abs(z - other) >= CORNER for other in near)]
        start = clear[0] if clear else tried[0]
        found.append(start)
    return found


def _around(
    settings: Settings, place: Rect, crossed: list[Rect], layer: int, rule: str
) -> list[Board]:
    """Return the boards of one stretch: parted by openings as wide as it, cut out round others."""
    pieces = [place]
    partial: list[Rect] = []
    for cut in crossed:
        if cut.x0 <= place.x0 and cut.x1 >= place.x1:
            pieces = [
                Rect(place.x0, lo, place.x1, hi)
                for piece in pieces
                for lo, hi in (
                    (piece.z0, min(piece.z1, cut.z0)),
                    (max(piece.z0, cut.z1), piece.z1),
                )
                if hi > lo
            ]
        else:
            partial.append(cut)
    return [
        board(
            settings.board, "front", rule, piece, layer=layer, cut_outs=cut_outs_of(piece, partial)
        )
        for piece in pieces
    ]


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


def ends(
    settings: Settings, fire: Hole | None, return_depth: int
) -> tuple[list[Board], dict[int, list[int]]]:
    """Return the boards of the free ends, and their horizontal joints by the end upright's x.

    Seen from in front of its face, the existing wall is left of the left end, right of the right.
    """
    boards: list[Board] = []
    joints: dict[int, list[int]] = {}
    width = settings.depth - settings.skin
    glass = return_depth - settings.skin
    for face, free, x0, x1 in (
        ("left", settings.left_free, 0, settings.skin),
        ("right", settings.right_free, settings.width - settings.skin, settings.width),
    ):
        if not free:
            continue
        holes: list[Rect] = []
        if fire is not None and (fire.to_left if face == "left" else fire.to_right) and glass > 0:
            at = width - glass if face == "left" else 0
            holes.append(Rect(at, fire.cut.z0, at + glass, fire.cut.z1))
        bottom, top = room(settings, x0, x1)
        height = sheet_for(settings.board, top - bottom)[1]
        near = [edge for hole in holes for edge in (hole.z0, hole.z1)]
        if holes and fire is not None:
            # Returns lie flush with the fire's frame; the joint's own needs room beside them.
            near += [fire.frame.z0 - settings.wide, fire.frame.z1 + settings.wide]
        for layer in range(1, settings.layers + 1):
            splits = row_joints((bottom, top, top), height, near, from_floor=layer == 1)
            near += splits
            upright = settings.left if face == "left" else settings.right - settings.thick
            joints.setdefault(upright, []).extend(splits)
            levels = [bottom, *splits, top]
            for z0, z1 in itertools.pairwise(levels):
                place = Rect(0, z0, width, z1)
                cut = cut_outs_of(place, holes)
                boards.append(
                    board(settings.board, face, "board.end", place, layer=layer, cut_outs=cut)
                )
    return boards, joints
