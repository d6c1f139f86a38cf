"""The wall cut through: plans at chosen heights, or upright at chosen places along the wall.

What a cut meets is drawn, nothing beyond it: timber with a cross, as sawn ends are, board filled.
Sizes run from the centre line, from the existing wall and from the floor datum.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from optimiser.domain.frame import Board, Box, Frame, Member
from optimiser.drawing.dimensions import signed
from optimiser.drawing.scene import Page, Paper
from optimiser.drawing.section_page import Piece, Section, section_page
from optimiser.drawing.svg import svg_text
from optimiser.units import mm


def draw_plan_sections(frame: Frame, *, heights: Sequence[int], title: str) -> str:
    """Return plans at `heights` in tenths above the floor datum as one A3 page, SVG in mm.

    See `plan_sections_page`.
    """
    return svg_text(plan_sections_page(frame, heights=heights, title=title))


def draw_upright_sections(frame: Frame, *, places: Sequence[int], title: str) -> str:
    """Return sections at `places` in tenths from the left end as one A3 page, SVG in mm.

    See `upright_sections_page`.
    """
    return svg_text(upright_sections_page(frame, places=places, title=title))


def plan_sections_page(
    frame: Frame, *, heights: Sequence[int], title: str, paper: Paper = Paper.A3
) -> Page:
    """Return plans at `heights` in tenths above the floor datum, one over the other.

    All are to one scale. The existing wall is at the top of each, the front below. Below
    run the left faces of the uprights from the centre line, at the left distances from the
    existing wall.
    """
    plans = [_plan(frame, height) for height in sorted(set(heights), reverse=True)]
    return section_page(frame.job, title, plans, "plans seen from above", paper, stacked=True)


def upright_sections_page(
    frame: Frame, *, places: Sequence[int], title: str, paper: Paper = Paper.A3
) -> Page:
    """Return upright sections at `places` in tenths from the wall's left end, side by side.

    All are to one scale. The existing wall is at the left of each, the front
    at the right. At the left run heights above the floor datum, below distances from the existing
    wall.
    """
    cuts = [_upright(frame, place) for place in sorted(set(places))]
    return section_page(
        frame.job, title, cuts, "sections seen from the right", paper, stacked=False
    )


def _plan(frame: Frame, height: int) -> Section:
    depth, half = int(frame.depth), int(frame.width) // 2
    size = int(frame.width), depth

    def flat(box: Box) -> Piece:
        return Piece(int(box.x), depth - box.y - box.dy, int(box.dx), int(box.dy))

    met = [m for m in frame.members if m.box.z <= height < m.box.z + m.box.dz]
    ups = [m for m in met if "upright" in m.kind]
    across = [(int(m.box.x), signed(m.box.x - half)) for m in ups]
    across += [(half, "0"), (0, signed(-half)), (size[0], signed(size[0] - half))]
    out = {0, depth, *(y for m in met for y in (m.box.y, m.box.y + m.box.dy))}
    return Section(
        name=f"{mm(height)} above the floor datum",
        size=size,
        timbers=tuple(_timber(m, flat(m.box)) for m in met),
        boards=tuple(flat(box) for board in frame.boards for box in _left_of(board, 2, height)),
        across=tuple(across),
        upward=tuple((depth - y, mm(y)) for y in out),
        centre=half,
    )


def _upright(frame: Frame, place: int) -> Section:
    met = [m for m in frame.members if m.box.x <= place < m.box.x + m.box.dx]
    top = max((int(level.ceiling) for level in frame.levels), default=0)
    size = int(frame.depth), top

    def flat(box: Box) -> Piece:
        low, high = max(int(box.z), 0), min(int(box.z + box.dz), top)
        return Piece(int(box.y), low, int(box.dy), high - low)

    out = {0, size[0], *(y for m in met for y in (m.box.y, m.box.y + m.box.dy))}
    levels = {0, top, *(z for m in met for z in (m.box.z, m.box.z + m.box.dz))}
    return Section(
        name=f"{signed(place - int(frame.width) // 2)} from the centre line",
        size=size,
        timbers=tuple(_timber(m, flat(m.box)) for m in met),
        boards=tuple(flat(box) for board in frame.boards for box in _left_of(board, 0, place)),
        across=tuple((int(y), mm(y)) for y in out),
        upward=tuple((int(z), mm(z)) for z in levels),
    )


def _timber(member: Member, piece: Piece) -> Piece:
    """Return what the cut meets of a timber: sawn unless its length lies in the cut."""
    sawn = member.length not in (piece.width, piece.height)
    return replace(piece, mark=member.mark, sawn=sawn)


def _left_of(board: Board, axis: int, at: int) -> Iterator[Box]:
    """Yield what a cut through a board meets: all of it, or what its cut-outs leave."""
    box = board.box
    low = int(getattr(box, "xyz"[axis]))
    if not low <= at < low + getattr(box, f"d{'xyz'[axis]}"):
        return
    across, up = board.across.value, board.up.value
    if "xyz"[axis] not in (across[1], up[1]):
        yield box
        return
    along, other = (up, across) if up[1] == "xyz"[axis] else (across, up)
    gaps = []
    for cut in board.cut_outs:
        start, size = (cut.y, cut.height) if along == up else (cut.x, cut.width)
        side, wide = (cut.x, cut.width) if along == up else (cut.y, cut.height)
        if start <= _measured(box, along, at) < start + size:
            gaps.append((_placed(box, other, side, wide), wide))
    yield from _rest(box, other[1], sorted(gaps))


def _measured(box: Box, toward: str, at: int) -> int:
    low = int(getattr(box, toward[1]))
    size = int(getattr(box, f"d{toward[1]}"))
    return at - low if toward[0] == "+" else low + size - at - 1


def _placed(box: Box, toward: str, start: int, size: int) -> int:
    low, whole = int(getattr(box, toward[1])), int(getattr(box, f"d{toward[1]}"))
    return low + start if toward[0] == "+" else low + whole - start - size


def _rest(box: Box, axis: str, gaps: Iterable[tuple[int, int]]) -> Iterator[Box]:
    start = int(getattr(box, axis))
    end = start + int(getattr(box, f"d{axis}"))
    for low, size in [*gaps, (end, 0)]:
        if low > start:
            place = {name: getattr(box, name) for name in ("x", "y", "z", "dx", "dy", "dz")}
            yield Box(**{**place, axis: start, f"d{axis}": low - start})
        start = max(start, low + size)
