"""The wall cut through: plans at chosen heights, or upright at chosen places along the wall.

What a cut meets is drawn, nothing beyond it: timber with a cross, as sawn ends are, board filled,
the house hatched, and dashed the space that a fire or a TV needs. Sizes run from the centre line,
from the existing wall and from the floor datum.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from optimiser.domain.frame import Board, Box, Frame, Member
from optimiser.drawing.dimensions import signed
from optimiser.drawing.scene import Page, Paper
from optimiser.drawing.section_page import Piece, Section, section_page
from optimiser.drawing.svg import svg_text
from optimiser.drawing.wall_page import called, height_at, on_front
from optimiser.units import Tenths, mm

# How much of the existing wall is drawn behind the frame, in tenths: enough to be seen as a wall.
_BEHIND = 400


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
    cuts = [upright_section(frame, place) for place in sorted(set(places))]
    return section_page(
        frame.job, title, cuts, "sections seen from the right", paper, stacked=False
    )


def _plan(frame: Frame, height: int) -> Section:
    depth, half = int(frame.depth), int(frame.width) // 2
    size = int(frame.width), depth

    def flat(box: Box) -> Piece:
        return Piece(int(box.x), depth - box.y - box.dy, int(box.dx), int(box.dy))

    met = [m for m in frame.members if m.box.z <= height < m.box.z + m.box.dz]
    boards = [(board, box) for board in frame.boards for box in _left_of(board, 2, height)]
    ups = [m for m in met if "upright" in m.kind]
    across = [(int(m.box.x), signed(m.box.x - half)) for m in ups]
    across += [(half, "0"), (0, signed(-half)), (size[0], signed(size[0] - half))]
    out = {0, depth, *(y for m in met for y in (m.box.y, m.box.y + m.box.dy))}
    out |= {box.y + box.dy for board, box in boards if on_front(board.face)}
    solids = [flat(box) for box in _met(frame, "z", height)]
    wall = Piece(0, depth, size[0], _BEHIND)
    edges = [(0, depth, size[0], depth)]
    edges += [] if frame.left_free else [(0, 0, 0, depth)]
    edges += [] if frame.right_free else [(size[0], 0, size[0], depth)]
    return Section(
        name=f"{mm(height)} mm above the floor datum",
        size=size,
        timbers=tuple(_timber(m, flat(m.box)) for m in met),
        boards=tuple(flat(box) for _, box in boards),
        across=tuple(across),
        upward=tuple((depth - y, mm(y)) for y in out),
        house=(wall, *solids),
        studs=tuple((int(x), depth, depth + _BEHIND) for x in frame.studs),
        kept=tuple(
            _kept(flat(k.box), k.name) for k in frame.keep_outs if _meets(k.box, "z", height)
        ),
        edges=tuple(edges),
        centre=half,
    )


def upright_section(frame: Frame, place: int) -> Section:
    """Return what a cut at `place`, in tenths from the left end, meets, ready to draw."""
    met = [m for m in frame.members if m.box.x <= place < m.box.x + m.box.dx]
    top, floor = (round(height_at(frame, place, ceiling=up)) for up in (True, False))
    size = int(frame.depth), top

    def flat(box: Box) -> Piece:
        low, high = max(int(box.z), floor), min(int(box.z + box.dz), top)
        return Piece(int(box.y), low, int(box.dy), high - low)

    def timber(member: Member) -> Piece:
        piece = flat(member.box)
        # Its box lies at the lowest point of its run: here it is as high as the ceiling is.
        rise = top - piece.y - piece.height if member.follows_ceiling else 0
        return _timber(member, replace(piece, y=piece.y + rise))

    timbers = [timber(m) for m in met]
    boards = [flat(box) for board in frame.boards for box in _left_of(board, 0, place)]
    out = {0, size[0], *(y for m in met for y in (m.box.y, m.box.y + m.box.dy))}
    levels = {0, top, *(z for one in timbers for z in (one.y, one.y + one.height))}
    levels |= {max((one.y + one.height for one in boards), default=0), floor}
    half = int(frame.width) // 2
    where = (
        f"{signed(place - half)} from the centre line" if place != half else "on the centre line"
    )
    return Section(
        name=where,
        size=size,
        timbers=tuple(timbers),
        boards=tuple(boards),
        across=tuple((int(y), mm(y)) for y in out),
        upward=tuple((int(z), signed(int(z)).removeprefix("+")) for z in levels),
        house=(
            Piece(-_BEHIND, floor, _BEHIND, top - floor),
            *(flat(box) for box in _met(frame, "x", place)),
        ),
        kept=tuple(
            _kept(flat(k.box), k.name) for k in frame.keep_outs if _meets(k.box, "x", place)
        ),
        edges=((0, floor, size[0], floor), (0, top, size[0], top), (0, floor, 0, top)),
    )


def _met(frame: Frame, axis: str, at: int) -> Iterator[Box]:
    """Yield what of the house stands within the frame's space where the cut goes."""
    depth = frame.depth
    for solid in frame.solids:
        box = solid.box
        if _meets(box, axis, at) and box.y < depth:
            x0, x1 = max(int(box.x), 0), min(box.x + box.dx, int(frame.width))
            if axis == "x" or x0 < x1:
                yield replace(
                    box, x=Tenths(x0), dx=Tenths(x1 - x0), dy=Tenths(min(box.dy, depth - box.y))
                )


def _meets(box: Box, axis: str, at: int) -> bool:
    low = int(getattr(box, axis))
    return low <= at < low + int(getattr(box, f"d{axis}"))


def _kept(piece: Piece, name: str) -> Piece:
    return replace(piece, mark=called(name))


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
