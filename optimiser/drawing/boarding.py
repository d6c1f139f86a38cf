"""The boarding seen from the front: which board goes where, its joints, cut-outs and size."""

from __future__ import annotations

from collections.abc import Sequence

from optimiser.domain.frame import Board, Frame
from optimiser.drawing.hatch import Fill
from optimiser.drawing.labels import Block, fit
from optimiser.drawing.letters import plain, shorten
from optimiser.drawing.page import fill_entry, line_entry, text_entry
from optimiser.drawing.places import Place, opening_places
from optimiser.drawing.scene import (
    INK,
    MEDIUM,
    PAPER,
    TINT,
    Area,
    Entry,
    Item,
    Page,
    Paper,
    Pen,
    Rect,
    View,
)
from optimiser.drawing.sheet_parts import size_text
from optimiser.drawing.svg import svg_text
from optimiser.drawing.table import Cell, Row, paragraph
from optimiser.drawing.wall_page import (
    Sizes,
    WallPage,
    finish,
    on_front,
    openings,
    outline,
    sizes,
    wall_page,
)
from optimiser.units import mm

_BOARD_PEN = Pen(INK, MEDIUM)
_SIZE_AT = 55.0
# Edges cut to a floor or ceiling out of level differ by less than a millimetre of paper: crowded,
# and each board's own height is written on it.
_NEAR = 100


def draw_boarding(frame: Frame, *, title: str, layer: int = 1) -> str:
    """Return the front boards of one layer as one page (A4, or A3 for a large wall), SVG in mm.

    See `boarding_page`.
    """
    return svg_text(boarding_page(frame, title=title, layer=layer))


def boarding_page(frame: Frame, *, title: str, layer: int = 1, paper: Paper | None = None) -> Page:
    """Return the front boards of one layer on `paper`, or on A4 (A3 for a large wall) where None.

    Layer 1 lies on the timber. Below the wall run the upright board edges from its left end, at the
    left the level ones from the highest point of the floor, above it the upright ones from the
    centre line. Of level edges within 10 mm the lowest and the highest are given. Boards of other
    faces are listed.
    """
    front = _front(frame, layer)
    others = [board for board in frame.boards if not on_front(board.face)]
    page = _page(frame, front, layer, paper)
    view = page.view
    items: list[Item] = []
    # The openings' labels go first: they are fewer, and their room is fixed.
    holes, taken, small = openings(frame, view)
    for board in front:
        items += _drawn(board, view)
    items += _cut_away(frame, view)
    xs = {x for board in front for x in (board.x, board.x + board.width)}
    zs = {z for board in front for z in (board.z, board.z + board.height)}
    items += sizes(frame, view, Sizes(below=xs, above=xs, left={0, *zs}, near=_NEAR))
    items += holes
    for board in sorted(front, key=lambda board: (board.width * board.height, board.mark)):
        label = fit(_blocks(board), _area(board, view).grown(-0.1), [*taken, *_gaps(frame, view)])
        if label:
            items += label.items
            taken.append(label.area)
        else:
            small.append(f"{plain(board.mark)} {size_text(board.width, board.height)}")
    items += outline(frame, view)
    return finish(page, frame, title, items, _rows(front, others, small, page.side))


def boarding_places(frame: Frame, *, layer: int = 1) -> tuple[Place, ...]:
    """Return where the boards and openings lie on the page that `draw_boarding` makes."""
    front = _front(frame, layer)
    view = _page(frame, front, layer, None).view
    return (
        *(Place(board.mark, _area(board, view)) for board in front),
        *opening_places(frame, view),
    )


def _front(frame: Frame, layer: int) -> list[Board]:
    return [board for board in frame.boards if on_front(board.face) and board.layer == layer]


def _page(frame: Frame, front: Sequence[Board], layer: int, paper: Paper | None) -> WallPage:
    return wall_page(frame, (f"front boards, layer {layer}",), _legend(front), paper)


def front_layers(frame: Frame) -> tuple[int, ...]:
    """Return the layers in which a wall's fronts are boarded, from the timber outwards."""
    return tuple(sorted({board.layer for board in frame.boards if on_front(board.face)}))


def _area(board: Board, view: View) -> Area:
    return view.area(board.x, board.z, board.width, board.height)


def _drawn(board: Board, view: View) -> tuple[Item, ...]:
    items: list[Item] = [Rect(_area(board, view), TINT, _BOARD_PEN)]
    for cut_out in board.cut_outs:
        place = board.x + cut_out.x, board.z + cut_out.y
        items.append(Rect(view.area(*place, cut_out.width, cut_out.height), PAPER, _BOARD_PEN))
    return tuple(items)


def _cut_away(frame: Frame, view: View) -> tuple[Item, ...]:
    """Return the holes of the fronts in one piece each, over the joints that end at them."""
    items: list[Item] = []
    for face in frame.faces:
        if on_front(face.name):
            for hole in face.holes:
                place = face.box.x + hole.x, face.box.z + hole.y
                items.append(Rect(view.area(*place, hole.width, hole.height), PAPER, _BOARD_PEN))
    return tuple(items)


def _gaps(frame: Frame, view: View) -> list[Area]:
    """Return the openings, where no board label may stand."""
    return [view.area(o.x, o.z, o.width, o.height) for o in frame.openings]


def _blocks(board: Board) -> list[Block]:
    mark = plain(board.mark)
    size = size_text(board.width, board.height)
    return [Block((mark, size), bold=(0,)), Block((f"{mark} {size}",)), Block((mark,), bold=(0,))]


def _rows(
    front: Sequence[Board], others: Sequence[Board], small: Sequence[str], side: Area
) -> list[Row]:
    rows: list[Row] = []
    if small:
        rows += [*paragraph("Marks without room: " + ", ".join(small), side.width), Row(())]
    for head, boards in (("Front boards", front), ("Boards of other faces", others)):
        if not boards:
            continue
        rows.append(
            Row((Cell(0, head, bold=True), Cell(_SIZE_AT, "w × h", "end", bold=True)), ruled=True)
        )
        for board in sorted(boards, key=lambda board: (board.face, board.layer, board.mark)):
            place = "" if on_front(board.face) else f"  {plain(board.face)} {board.layer}"
            name = shorten(f"{plain(board.mark)}{place}", _SIZE_AT - 25)
            size = f"{mm(board.width)} × {mm(board.height)}"
            rows.append(Row((Cell(0, name), Cell(_SIZE_AT, size, "end"))))
        rows.append(Row(()))
    return rows


def _legend(front: Sequence[Board]) -> tuple[Entry, ...]:
    entries = [fill_entry("board", Fill.TINT, _BOARD_PEN)] if front else []
    entries.append(line_entry("opening, clear size", _BOARD_PEN))
    entries.append(text_entry("below: board edges from the left end", "610", bold=False))
    entries.append(text_entry("above: from the centre line", "+450", bold=False))
    entries.append(text_entry("left: heights above the highest floor", "300", bold=False))
    return tuple(entries)
