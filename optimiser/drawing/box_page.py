"""One box of a wall on a page: in space, from the front and from above, and where it stands.

A box is made as a thing of its own and then set into the wall: its drawing has the sizes to make it
and those to set it out, and shows what it meets.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from optimiser.domain.frame import Box, Frame, Member
from optimiser.drawing.box_views import around, clipped, front_view, meeting, top_view
from optimiser.drawing.hatch import Fill, filled
from optimiser.drawing.isometric import (
    AROUND,
    PEN,
    SOLID,
    Look,
    marks_on,
    overlap,
    painting_order,
    reach,
    sides_of,
    standing,
)
from optimiser.drawing.letters import plain
from optimiser.drawing.page import (
    HEADER,
    WALL_CAUTION,
    fill_entry,
    footer,
    inside,
    line_entry,
    set_page,
    text_entry,
)
from optimiser.drawing.pictorial import LIST_WIDTH, part_rows
from optimiser.drawing.scene import (
    BOLD,
    CENTRE,
    GREY,
    INK,
    MEDIUM,
    PALE,
    PAPER,
    SCALES,
    THIN,
    Area,
    Entry,
    Item,
    Line,
    Page,
    Paper,
    Pen,
    Point,
    Polygon,
    Rect,
    Told,
    View,
    scale_for,
    scale_text,
)
from optimiser.drawing.section_page import Section, draw_section, section_blocks
from optimiser.drawing.svg import svg_text
from optimiser.drawing.table import ROW, Cell, Row, draw_rows, paragraph
from optimiser.drawing.wall_page import called, ceiling_line, height_at

_BESIDE = Pen(PALE, THIN)
# What stands behind the box hides what is behind itself; what stands before it must not hide it.
_BEHIND = Look((PAPER, PAPER, PAPER), _BESIDE)
_BEFORE = Look(("none", "none", "none"), _BESIDE)
# The share of the room that the view in space takes, beside the flat views or over them.
_SHARES = (0.3, 0.4, 0.5, 0.6, 0.7)
# Between the flat views, and over the two small views that show where the box stands, mm of paper.
_APART = 4.0
_KEY_GAP = 5.0


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where the views stand on the page: in space within `space`, the flat ones within `flat`."""

    space: Area
    space_scale: float
    flat: Area
    flat_scale: float


def draw_box(frame: Frame, group: str, *, title: str) -> str:
    """Return one box of a framed wall as one A3 page, SVG in mm; see `box_page`."""
    return svg_text(box_page(frame, group, title=title))


def box_page(frame: Frame, group: str, *, title: str, paper: Paper = Paper.A3) -> Page:
    """Return one box of a framed wall, its members of one `group`.

    Every part that shows has its mark; the parts of other boxes that it meets are outlined and
    named. Sizes run from the wall's centre line, the floor datum and the existing wall. Two small
    views mark the box's place in the wall.
    """
    members = [m for m in frame.members if m.group == group]
    met = meeting(frame, members)
    bounds = around([standing(frame, m) for m in members])
    beside = [part for m in met if (part := clipped(m, bounds))]
    views = [front_view(frame, members, beside), top_view(frame, members, beside)]
    margins = inside(*paper.level)
    entries = _legend()
    _, height = footer(entries, WALL_CAUTION, margins)
    deep = margins.height - HEADER - height - 2
    room = Area(margins.x, margins.y + HEADER, margins.width - LIST_WIDTH, deep)
    boxes = [standing(frame, m) for m in (*members, *beside)]
    layout = _best(boxes, views, room)
    solid, hidden = _in_space(frame, members, beside, layout)
    side = Area(margins.right - LIST_WIDTH + 4, margins.y + HEADER, LIST_WIDTH - 4, deep)
    key, below = _key(frame, members, side)
    rows = [*part_rows(members, hidden, side.width), Row(()), *_met_rows(met, side.width)]
    listed = Area(side.x, below, side.width, side.bottom - below)
    scales = (
        f"in space {scale_text(layout.space_scale)} along each axis",
        (f"from the front and above {scale_text(layout.flat_scale)}"),
    )
    flat = _flat_views(views, layout)
    told = Told(
        heading=title,
        facts=(f"job {plain(frame.job)}", *scales, "mm"),
        note="",
        entries=entries,
        caution=WALL_CAUTION,
        items=(
            *solid,
            *(item for _, items in flat for item in items),
            *key,
            *draw_rows(rows, listed, listed.width + 2),
        ),
        views=(side, layout.space, *(area for area, _ in flat)),
    )
    return set_page(paper.level, title, told)


def _best(boxes: Sequence[Box], views: Sequence[Section], room: Area) -> _Layout:
    """Return the layout in which both scales together are largest."""
    size = reach(boxes).size
    # The finest scale needs the most room: how much each needs is worked out once.
    needed = [(scale, *_needed(views, scale)) for scale in SCALES]
    found: list[_Layout] = []
    for space, flat in _splits(room):
        around_it = space.grown(-AROUND)
        scale = scale_for(size, (around_it.width, around_it.height))
        fitting = (s for s, wide, tall in needed if wide <= flat.width and tall <= flat.height)
        # A wall too large for the usual scales runs off the page rather than not being drawn.
        found.append(_Layout(space, scale, flat, next(fitting, SCALES[-1])))
    return min(found, key=lambda layout: layout.space_scale + layout.flat_scale)


def _splits(room: Area) -> Iterator[tuple[Area, Area]]:
    for share in _SHARES:
        wide, tall = room.width * share, room.height * share
        yield (
            Area(room.x, room.y, wide, room.height),
            Area(room.x + wide, room.y, room.width - wide, room.height),
        )
        yield (
            Area(room.x, room.y, room.width, tall),
            Area(room.x, room.y + tall, room.width, room.height - tall),
        )


def _needed(views: Sequence[Section], scale: float) -> tuple[float, float]:
    """Return width and height of paper that the flat views take under one another."""
    blocks = section_blocks(views, scale)
    column = max(block.column for block in blocks)
    wide = max(column + block.width - block.column for block in blocks)
    return wide, sum(block.height for block in blocks) + _APART * (len(blocks) - 1)


def _flat_views(views: Sequence[Section], layout: _Layout) -> list[tuple[Area, list[Item]]]:
    """Return the flat views and their paper, one under the other, their left ends in line."""
    blocks = section_blocks(views, layout.flat_scale)
    column = max(block.column for block in blocks)
    wide = max(column + block.width - block.column for block in blocks)
    free = layout.flat.height - sum(block.height for block in blocks)
    gap = free / (len(blocks) + 1)
    x = layout.flat.x + (layout.flat.width - wide) / 2 + column
    y = layout.flat.y + gap
    placed: list[tuple[Area, list[Item]]] = []
    for block in blocks:
        left = x - block.column
        area = Area(left, y, block.width, block.height)
        placed.append((area, draw_section(block, left, y)))
        y += block.height + gap
    return placed


def _in_space(
    frame: Frame, members: Sequence[Member], beside: Sequence[Member], layout: _Layout
) -> tuple[list[Item], list[str]]:
    """Return the box in space with what it meets in outline, and the marks that hide."""
    everything = [*members, *beside]
    boxes = [standing(frame, member) for member in everything]
    origin = reach(boxes).origin_in(layout.space, layout.space_scale)
    sides: list[Polygon] = []
    own: list[Member] = []
    drawn: list[list[Polygon]] = []
    painted: list[int] = []
    for index in painting_order(boxes):
        look = SOLID
        if index >= len(members):
            hides = any(overlap(boxes[index], boxes[other]) for other in painted)
            look = _BEFORE if hides else _BEHIND
        part = sides_of(frame, everything[index], origin, layout.space_scale, look=look)
        sides += part
        if index < len(members):
            own.append(members[index])
            drawn.append(part)
            painted.append(index)
    marks, hidden = marks_on(own, drawn, each=True)
    return [*sides, *marks], hidden


def _key(frame: Frame, members: Sequence[Member], side: Area) -> tuple[list[Item], float]:
    """Return the whole wall small, from the front and from above, with this box black."""
    heads = draw_rows([Row((Cell(0, "Where it stands in the wall", bold=True),))], side, side.width)
    tops = [z for _, z in ceiling_line(frame, 0, int(frame.width))]
    floors = [height_at(frame, level.x, ceiling=False) for level in frame.levels]
    high, low = round(max(tops)), round(min(floors))
    scale = frame.width / 10 / (side.width - 2)
    view = View(side.x + 1, side.y + ROW + 2 + (high - low) / 10 / scale, scale)
    base = View(view.left, view.bottom + low / 10 / scale, scale)
    line: list[Point] = [
        (base.x(x), base.bottom - z / 10 / scale)
        for x, z in ceiling_line(frame, 0, int(frame.width))
    ]
    ground = [(base.x(int(frame.width)), base.y(low)), (base.x(0), base.y(low))]
    items: list[Item] = [*heads, Polygon((*line, *ground), "none", Pen(GREY, MEDIUM))]
    for opening in frame.openings:
        area = base.area(opening.x, opening.z, opening.width, opening.height)
        items.append(Rect(area, "none", Pen(GREY, THIN)))
    for m in members:
        if m.follows_ceiling:
            run = ceiling_line(frame, m.box.x, m.box.x + m.box.dx)
            shape = (*run, *((x, z - m.box.dz) for x, z in reversed(run)))
            items.append(Polygon(tuple((base.x(x), base.y(round(z))) for x, z in shape), INK))
        else:
            items.append(Rect(base.area(m.box.x, m.box.z, m.box.dx, m.box.dz), INK))
    middle = base.x(int(frame.width) // 2)
    items.append(Line(middle, view.y(high - low), middle, view.bottom, CENTRE))
    # From above: the existing wall hatched, the front below it.
    top = view.bottom + _KEY_GAP
    house = Area(view.left, top, view.size(int(frame.width)), 1.6)
    depth = view.size(int(frame.depth))
    items += filled(house, Fill.RISING)
    items.append(Line(house.x, house.bottom, house.right, house.bottom, Pen(INK, BOLD)))
    items.append(Rect(Area(house.x, house.bottom, house.width, depth), "none", Pen(GREY, MEDIUM)))
    for m in members:
        across, out = view.size(m.box.dx), view.size(m.box.dy)
        place = view.x(m.box.x), house.bottom + view.size(m.box.y)
        items.append(Rect(Area(*place, across, out), INK))
    return items, house.bottom + depth + _KEY_GAP


def _met_rows(met: Sequence[Member], width: float) -> Iterable[Row]:
    """Return the parts of other boxes that this one meets, box by box."""
    groups = dict.fromkeys(m.group for m in met)
    rows: list[Row] = [Row((Cell(0, "What it meets", bold=True),), ruled=True)]
    for group in groups:
        marks = dict.fromkeys(plain(m.mark) for m in met if m.group == group)
        rows += paragraph(f"{called(group) or 'other parts'}: {', '.join(marks)}", width)
    return rows if groups else [*rows, *paragraph("nothing but the house", width)]


def _legend() -> tuple[Entry, ...]:
    return (
        fill_entry("timber of this box; boards left off", Fill.TINT, PEN),
        text_entry("mark of a part", "U1"),
        line_entry("part of another box", _BESIDE),
        line_entry("centre line of the wall", CENTRE),
        text_entry("below: left faces of uprights and ends, from it", "−610", bold=False),
        text_entry("left: undersides above the floor datum", "300", bold=False),
        text_entry("from above: distances from the existing wall", "63", bold=False),
    )
