"""A page of sections: several cuts through a wall on one sheet, all to one scale, each with sizes.

Knows rectangles of a cut and what is written beside them, not how a wall is cut.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from optimiser.drawing.dimensions import dimension_across, dimension_up
from optimiser.drawing.flags import Flag, FlagRow, Side, flag_column, flag_row
from optimiser.drawing.hatch import Fill, filled
from optimiser.drawing.labels import Block, fit, put
from optimiser.drawing.letters import plain, text_width
from optimiser.drawing.page import (
    HEADER,
    WALL_CAUTION,
    fill_entry,
    footer,
    inside,
    line_entry,
    set_page,
    solid_entry,
)
from optimiser.drawing.scene import (
    BOLD,
    CENTRE,
    GREY,
    INK,
    MEDIUM,
    PALE,
    SCALES,
    THIN,
    TINT,
    Area,
    Item,
    Line,
    Page,
    Paper,
    Pen,
    Polygon,
    Rect,
    Strokes,
    Text,
    Told,
    View,
    scale_text,
)
from optimiser.units import mm

_PEN = Pen(INK, THIN)
_KEPT = Pen(INK, THIN, (1.6, 0.9))
_STUD = Pen(INK, MEDIUM)
_BEYOND = Pen(PALE, THIN)
_HEADING = 3.2
# Paper round each section for its overall sizes and for marks that stand outside it, mm.
_ABOVE, _RIGHT, _MARKS = 17.0, 17.0, 4.0
_APART = 6.0


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle in the plane of the cut, tenths, right and up from the lower left corner.

    A timber has a `mark`, and is `sawn` where the cut goes across its length. What is no rectangle
    has its `outline` too, as places x, y of its corners.
    """

    x: int
    y: int
    width: int
    height: int
    mark: str = ""
    sawn: bool = False
    outline: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One cut through a wall, its `size` in tenths, and the sizes at its lower and left edges.

    `across` and `upward` are places with their texts; `centre` is the x of the wall's centre line.
    `house` is hatched, and may reach beyond the section; `studs` are middles of existing studs, x
    with the heights between which they are drawn; `kept` is space with its name that stays empty;
    `edges` are lines where the house begins: x, y to x, y. `beyond` is drawn in outline only: what
    belongs to another drawing. `whole` is what the overall sizes measure, the section itself unless
    said: its left, right, lower and upper edges.
    """

    name: str
    size: tuple[int, int]
    timbers: tuple[Piece, ...]
    boards: tuple[Piece, ...]
    across: tuple[tuple[int, str], ...]
    upward: tuple[tuple[int, str], ...]
    house: tuple[Piece, ...] = ()
    studs: tuple[tuple[int, int, int], ...] = ()
    kept: tuple[Piece, ...] = ()
    edges: tuple[tuple[int, int, int, int], ...] = ()
    centre: int | None = None
    beyond: tuple[Piece, ...] = ()
    whole: tuple[int, int, int, int] | None = None

    @property
    def aside(self) -> int:
        """Return how far the house reaches beyond the left edge, in tenths."""
        return max((-piece.x for piece in self.house), default=0)


@dataclass(frozen=True, slots=True)
class SectionBlock:
    """A section with all that stands round it: the paper it takes, the section's corner in it."""

    section: Section
    scale: float
    row: float
    column: float

    @property
    def width(self) -> float:
        """Return the width of the whole block, no less than its heading's."""
        heading = text_width(self.section.name, _HEADING, bold=True)
        return max(self.column + self.section.size[0] / 10 / self.scale + _RIGHT, heading)

    @property
    def height(self) -> float:
        """Return the height of the whole block."""
        return _ABOVE + self.section.size[1] / 10 / self.scale + self.row

    def view(self, x: float, y: float) -> View:
        """Return where the section lies when the block's upper left corner is at x, y."""
        tall = self.section.size[1] / 10 / self.scale
        return View(x + self.column, y + _ABOVE + tall, self.scale)


def section_page(
    job: str, title: str, sections: Sequence[Section], seen: str, paper: Paper, *, stacked: bool
) -> Page:
    """Return sections on one page of `paper` to the largest usual scale at which all fit.

    `stacked`: one under the other, else side by side. `seen` says from where one looks.
    """
    margins = inside(*paper.level)
    entries = [
        fill_entry("timber, crossed where sawn through, its mark beside it", Fill.TINT, _PEN),
        solid_entry("board cut through", GREY),
        fill_entry("existing wall", Fill.RISING, _PEN),
    ]
    if any(section.studs for section in sections):
        entries.append(line_entry("middle of an existing stud", _STUD))
    if any(section.kept for section in sections):
        entries.append(line_entry("space that stays empty", _KEPT))
    _, high = footer(entries, WALL_CAUTION, margins)
    room = Area(margins.x, margins.y + HEADER, margins.width, margins.height - HEADER - high)
    every = (section_blocks(sections, scale) for scale in SCALES)
    blocks = next((made for made in every if _fits(made, room, stacked=stacked)), None)
    # A wall too large for the usual scales runs off the page rather than not being drawn.
    blocks = blocks or section_blocks(sections, SCALES[-1])
    items: list[Item] = []
    views: list[Area] = []
    for block, (x, y) in zip(blocks, _corners(blocks, room, stacked=stacked), strict=True):
        items += draw_section(block, x, y)
        views.append(Area(x, y, block.width, block.height))
    facts = (f"job {plain(job)}", seen, f"scale {scale_text(blocks[0].scale)}", "mm")
    told = Told(
        heading=title,
        facts=facts,
        note="",
        entries=tuple(entries),
        caution=WALL_CAUTION,
        items=tuple(items),
        views=tuple(views),
    )
    return set_page(paper.level, title, told)


def section_blocks(sections: Sequence[Section], scale: float) -> list[SectionBlock]:
    """Return what each section takes of paper at `scale`, all that stands round it included."""
    blocks: list[SectionBlock] = []
    for section in sections:
        view = View(0, 0, scale)
        row, column = _sizes(section, view)
        aside = column.depth + view.size(section.aside) + _MARKS
        blocks.append(SectionBlock(section, scale, row.depth + 1, aside))
    return blocks


def _fits(blocks: Sequence[SectionBlock], room: Area, *, stacked: bool) -> bool:
    wide, tall = [block.width for block in blocks], [block.height for block in blocks]
    gaps = _APART * (len(blocks) - 1)
    if stacked:
        return max(wide) <= room.width and sum(tall) + gaps <= room.height
    return sum(wide) + gaps <= room.width and max(tall) <= room.height


def _corners(
    blocks: Sequence[SectionBlock], room: Area, *, stacked: bool
) -> list[tuple[float, float]]:
    """Return the upper left corner of each block, what is left of the room shared between them."""
    sizes = [block.height if stacked else block.width for block in blocks]
    gap = ((room.height if stacked else room.width) - sum(sizes)) / (len(blocks) + 1)
    corners: list[tuple[float, float]] = []
    at = gap
    # Stacked plans stand with their centre lines under one another.
    column = max(block.column for block in blocks)
    left = (room.width - max(block.width for block in blocks)) / 2
    for block, size in zip(blocks, sizes, strict=True):
        if stacked:
            corners.append((room.x + left + column - block.column, room.y + at))
        else:
            corners.append((room.x + at, room.y + (room.height - block.height) / 2))
        at += size + gap
    return corners


def _sizes(section: Section, view: View) -> tuple[FlagRow, FlagRow]:
    """Return the sizes below a section and those at its left."""
    left, low = view.x(0), view.y(0)
    wide, tall = view.size(section.size[0]), view.size(section.size[1])
    row = flag_row(
        _flags((view.x(x), text) for x, text in section.across),
        edge=low,
        side=Side.BELOW,
        low=left - 12,
        high=left + wide + 12,
    )
    column = flag_column(
        _flags((view.y(y), text) for y, text in section.upward),
        edge=left - view.size(section.aside),
        side=Side.LEFT,
        low=low - tall - 8,
        high=low + 1,
    )
    return row, column


def draw_section(block: SectionBlock, x: float, y: float) -> list[Item]:
    """Return a section with its sizes, the upper left corner of its block at x, y of the paper."""
    section, view = block.section, block.view(x, y)
    left, low = view.x(0), view.y(0)
    wide, tall = view.size(section.size[0]), view.size(section.size[1])
    row, column = _sizes(section, view)
    items: list[Item] = [
        Text(x, y + 3.5, section.name, _HEADING, bold=True),
        Rect(view.area(0, 0, *section.size), "none", Pen(GREY, THIN)),
    ]
    house = [_area(piece, view) for piece in section.house]
    for area in house:
        items += (*filled(area, Fill.RISING), Rect(area, "none", Pen(GREY, THIN)))
    items += [Line(view.x(a), view.y(b), view.x(a), view.y(c), _STUD) for a, b, c in section.studs]
    boards = [_area(piece, view) for piece in section.boards]
    items += [Rect(area, GREY, _PEN) for area in boards]
    items += [Rect(_area(piece, view), "none", _KEPT) for piece in section.kept]
    # Sizes stand round the section, where no mark may run into them or be taken for another's.
    below = Area(left - 15, low + 0.2, wide + 30, row.depth + 1)
    above = Area(left - 15, low - tall - _ABOVE, wide + 30, _ABOVE - 4)
    taken = [*boards, *house, below, above]
    edge = left - view.size(section.aside)
    taken.append(Area(edge - column.depth, low - tall - 8, column.depth, tall + 12))
    if section.centre is not None:
        middle = view.x(section.centre)
        items.append(Line(middle, low - tall - 5, middle, low + 1, CENTRE))
    items += [
        Line(view.x(a), view.y(b), view.x(c), view.y(d), Pen(INK, BOLD))
        for a, b, c, d in section.edges
    ]
    for piece in section.beyond:
        items.append(_shape(piece, view, "none", _BEYOND))
    for piece in section.timbers:
        items += _timber(piece, view)
    items += _marks(section, view, taken)
    items += (*row.items, *column.items)
    x0, x1, y0, y1 = section.whole or (0, section.size[0], 0, section.size[1])
    items += dimension_across(view.x(x0), view.x(x1), low - tall - 8, mm(x1 - x0))
    items += dimension_up(left + wide + 10, view.y(y1), view.y(y0), mm(y1 - y0))
    return items


def _marks(section: Section, view: View, taken: list[Area]) -> list[Item]:
    """Return the marks of the timbers, each beside its own, and the names of what stays empty.

    A mark for which no room is near stands on its timber.
    """
    items: list[Item] = []
    areas = [_area(piece, view) for piece in section.timbers]
    for piece, area in zip(section.timbers, areas, strict=True):
        mark = Block((plain(piece.mark),), bold=(0,))
        near = (fit([mark], area.grown(by), [*taken, *areas]) for by in (4, 6, 9))
        label = next(filter(None, near), None) or put(mark, *area.middle)
        items += label.items
        taken.append(label.area)
    for piece in section.kept:
        name = fit([Block((plain(piece.mark),))], _area(piece, view), [*taken, *areas])
        if name:
            items += name.items
            taken.append(name.area)
    return items


def _area(piece: Piece, view: View) -> Area:
    return view.area(piece.x, piece.y, piece.width, piece.height)


def _flags(points: Iterable[tuple[float, str]]) -> list[Flag]:
    """Return one flag for each place, in order; two at one place say the same."""
    return [Flag(at, (text,)) for at, text in sorted(dict(points).items())]


def _timber(piece: Piece, view: View) -> list[Item]:
    """Return a timber: crossed where it is sawn through, plain where the cut runs along it."""
    area = _area(piece, view)
    cross = (
        (area.x, area.y, area.right, area.bottom),
        (area.x, area.bottom, area.right, area.y),
    )
    plainly: list[Item] = [_shape(piece, view, TINT, _PEN)]
    return [*plainly, Strokes(cross, _PEN)] if piece.sawn else plainly


def _shape(piece: Piece, view: View, fill: str, pen: Pen) -> Item:
    if not piece.outline:
        return Rect(_area(piece, view), fill, pen)
    return Polygon(tuple((view.x(x), view.y(y)) for x, y in piece.outline), fill, pen)
