"""The wall cut through: a plan at a chosen height, or upright at a chosen place along the wall.

What the cut meets is drawn, nothing beyond it: timber with a cross, as sawn ends are, board filled.
Sizes run from the centre line, from the existing wall and from the floor datum.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from optimiser.domain.frame import Board, Box, Frame, Member
from optimiser.drawing.dimensions import dimension_across, dimension_up, signed
from optimiser.drawing.flags import Flag, Side, flag_column, flag_row
from optimiser.drawing.hatch import Fill
from optimiser.drawing.labels import Block, fit
from optimiser.drawing.letters import plain
from optimiser.drawing.page import (
    HEADER,
    WALL_CAUTION,
    fill_entry,
    footer,
    header,
    inside,
    solid_entry,
)
from optimiser.drawing.scene import (
    BOLD,
    CENTRE,
    GREY,
    INK,
    THIN,
    TINT,
    Area,
    Item,
    Line,
    Page,
    Paper,
    Pen,
    Rect,
    Strokes,
    View,
    scale_for,
    scale_text,
)
from optimiser.drawing.svg import svg_text
from optimiser.units import mm

_PEN = Pen(INK, THIN)
# Room for sizes round the section, in mm of paper.
_AROUND = 26.0


@dataclass(frozen=True, slots=True)
class _Cut:
    """A rectangle in the plane of the cut, as drawn: right and up from the lower left corner."""

    x: int
    y: int
    width: int
    height: int


def draw_plan_section(frame: Frame, *, height: int, title: str) -> str:
    """Return the plan at a `height` in tenths above the floor datum as one A3 page, SVG in mm.

    See `plan_section_page`.
    """
    return svg_text(plan_section_page(frame, height=height, title=title))


def draw_upright_section(frame: Frame, *, place: int, title: str) -> str:
    """Return the section at a `place` in tenths from the left end as one A3 page, SVG in mm.

    See `upright_section_page`.
    """
    return svg_text(upright_section_page(frame, place=place, title=title))


def plan_section_page(frame: Frame, *, height: int, title: str, paper: Paper = Paper.A3) -> Page:
    """Return the plan at a `height` in tenths above the floor datum.

    The existing wall is at the top, the front below. Below run the left faces of the uprights from
    the centre line, at the left distances from the existing wall.
    """
    depth, half = int(frame.depth), int(frame.width) // 2
    size = int(frame.width), depth

    def flat(box: Box) -> _Cut:
        return _Cut(int(box.x), depth - box.y - box.dy, int(box.dx), int(box.dy))

    met = [m for m in frame.members if m.box.z <= height < m.box.z + m.box.dz]
    ups = [m for m in met if "upright" in m.kind]
    across = [(int(m.box.x), signed(m.box.x - half)) for m in ups]
    across += [(half, "0"), (0, signed(-half)), (size[0], signed(size[0] - half))]
    out = {0, depth, *(y for m in met for y in (m.box.y, m.box.y + m.box.dy))}
    upward = [(depth - y, mm(y)) for y in out]
    pieces = [flat(box) for board in frame.boards for box in _left_of(board, 2, height)]
    note = f"plan {mm(height)} above the floor datum, seen from above"
    timbers = [(m, flat(m.box)) for m in met]
    return _page(frame, title, note, size, timbers, pieces, across, upward, half, paper)


def upright_section_page(frame: Frame, *, place: int, title: str, paper: Paper = Paper.A3) -> Page:
    """Return the upright section at a `place` in tenths from the wall's left end.

    The existing wall is at the left, the front at the right. At the left run heights above the
    floor datum, below distances from the existing wall.
    """
    met = [m for m in frame.members if m.box.x <= place < m.box.x + m.box.dx]
    top = max((int(level.ceiling) for level in frame.levels), default=0)
    size = int(frame.depth), top

    def flat(box: Box) -> _Cut:
        low, high = max(int(box.z), 0), min(int(box.z + box.dz), top)
        return _Cut(int(box.y), low, int(box.dy), high - low)

    out = {0, size[0], *(y for m in met for y in (m.box.y, m.box.y + m.box.dy))}
    levels = {0, top, *(z for m in met for z in (m.box.z, m.box.z + m.box.dz))}
    pieces = [flat(box) for board in frame.boards for box in _left_of(board, 0, place)]
    off = place - int(frame.width) // 2
    note = f"upright section {signed(off)} from the centre line, seen from the right"
    return _page(
        frame,
        title,
        note,
        size,
        [(m, flat(m.box)) for m in met],
        pieces,
        [(y, mm(y)) for y in out],
        [(int(z), mm(z)) for z in levels],
        None,
        paper,
    )


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


def _page(
    frame: Frame,
    title: str,
    note: str,
    size: tuple[int, int],
    timbers: list[tuple[Member, _Cut]],
    boards: list[_Cut],
    across: Iterable[tuple[int, str]],
    upward: Iterable[tuple[int, str]],
    centre: int | None,
    paper: Paper,
) -> Page:
    margins = inside(*paper.level)
    entries = (
        fill_entry("timber, crossed where sawn through, its mark beside it", Fill.TINT, _PEN),
        solid_entry("board cut through", GREY),
    )
    foot, high = footer(entries, WALL_CAUTION, margins)
    room = Area(margins.x, margins.y + HEADER, margins.width, margins.height - HEADER - high)
    scale = scale_for(size, (room.width - 2 * _AROUND, room.height - 2 * _AROUND))
    wide, tall = size[0] / 10 / scale, size[1] / 10 / scale
    view = View(room.x + (room.width - wide) / 2, room.y + (room.height + tall) / 2, scale)
    items: list[Item] = [Rect(view.area(0, 0, *size), "none", Pen(GREY, THIN))]
    items += [Rect(view.area(b.x, b.y, b.width, b.height), GREY, _PEN) for b in boards]
    marks: list[Item] = []
    taken = [view.area(b.x, b.y, b.width, b.height) for b in boards]
    for member, cut in timbers:
        area = view.area(cut.x, cut.y, cut.width, cut.height)
        along = member.length in (cut.width, cut.height)
        items += _timber(area, sawn=not along)
        near = area.grown(6)
        label = fit([Block((plain(member.mark),), bold=(0,))], near, [*taken, area])
        if label:
            marks += label.items
            taken.append(label.area)
    left, low = view.x(0), view.y(0)
    row = flag_row(
        _flags((view.x(x), text) for x, text in across),
        edge=low,
        side=Side.BELOW,
        low=left - 12,
        high=left + wide + 12,
    )
    column = flag_column(
        _flags((view.y(y), text) for y, text in upward),
        edge=left,
        side=Side.LEFT,
        low=low - tall - 12,
        high=low + 12,
    )
    items += (*marks, *row.items, *column.items)
    items += dimension_across(left, left + wide, low - tall - 8, mm(size[0]))
    items += dimension_up(left + wide + 10, low - tall, low, mm(size[1]))
    if centre is not None:
        items.append(Line(view.x(centre), low - tall - 5, view.x(centre), low + 1, CENTRE))
    items.append(Line(left, low, left + wide, low, Pen(INK, BOLD)))
    facts = (f"job {plain(frame.job)}", note, f"scale {scale_text(scale)}", "mm")
    return Page(*paper.level, title, (*header(title, facts, margins), *items, *foot))


def _flags(points: Iterable[tuple[float, str]]) -> list[Flag]:
    """Return one flag for each place, in order; two at one place say the same."""
    return [Flag(at, (text,)) for at, text in sorted(dict(points).items())]


def _timber(area: Area, *, sawn: bool) -> list[Item]:
    """Return a timber: crossed where it is sawn through, plain where the cut runs along it."""
    cross = (
        (area.x, area.y, area.right, area.bottom),
        (area.x, area.bottom, area.right, area.y),
    )
    plainly: list[Item] = [Rect(area, TINT, _PEN)]
    return [*plainly, Strokes(cross, _PEN)] if sawn else plainly
