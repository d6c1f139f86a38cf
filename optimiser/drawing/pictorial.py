"""The frame in three dimensions: every timber as a box, nearer ones over those behind, to scale.

An isometric view from before the wall, its right and above. Boards are left off; they would hide
the frame.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from optimiser.domain.frame import Frame, Member
from optimiser.drawing.hatch import Fill
from optimiser.drawing.isometric import (
    AROUND,
    PEN,
    marks_on,
    painting_order,
    reach,
    sides_of,
    standing,
)
from optimiser.drawing.letters import plain, shorten
from optimiser.drawing.page import (
    HEADER,
    WALL_CAUTION,
    fill_entry,
    footer,
    inside,
    set_page,
    text_entry,
)
from optimiser.drawing.scene import Area, Page, Paper, Told, scale_for, scale_text
from optimiser.drawing.svg import svg_text
from optimiser.drawing.table import Cell, Row, draw_rows, paragraph
from optimiser.units import mm

# The list of parts at the right, in mm of paper, and its columns.
LIST_WIDTH = 64.0
_COUNT_AT, _LENGTH_AT = 42.0, 56.0


def draw_pictorial(frame: Frame, *, title: str) -> str:
    """Return an isometric view of a framed wall as one A3 page, SVG in mm; see `pictorial_page`."""
    return svg_text(pictorial_page(frame, title=title))


def pictorial_page(frame: Frame, *, title: str, paper: Paper = Paper.A3) -> Page:
    """Return an isometric view of a framed wall.

    x runs down to the right, out runs down to the left, up runs up; all three to one scale. Each
    mark stands once, on the part of it that shows most; those that hide are listed.
    """
    boxes = [standing(frame, member) for member in frame.members]
    margins = inside(*paper.level)
    entries = (
        fill_entry("timber; boards left off", Fill.TINT, PEN),
        text_entry("mark of a part, each once", "U1"),
    )
    _, height = footer(entries, WALL_CAUTION, margins)
    deep = margins.height - HEADER - height - 4
    room = Area(margins.x, margins.y + HEADER, margins.width - LIST_WIDTH, deep).grown(-AROUND)
    view = reach(boxes)
    scale = scale_for(view.size, (room.width, room.height))
    origin = view.origin_in(room, scale)
    seen = [frame.members[index] for index in painting_order(boxes)]
    drawn = [sides_of(frame, member, origin, scale) for member in seen]
    marks, hidden = marks_on(seen, drawn, each=False)
    side = Area(margins.right - LIST_WIDTH + 4, margins.y + HEADER, LIST_WIDTH - 4, deep)
    facts = (f"job {plain(frame.job)}", f"isometric, scale {scale_text(scale)} along each axis")
    items = (
        *(polygon for sides in drawn for polygon in sides),
        *marks,
        *draw_rows(part_rows(frame.members, hidden, side.width), side, side.width + 2),
    )
    told = Told(
        heading=title,
        facts=facts,
        note="",
        entries=entries,
        caution=WALL_CAUTION,
        items=items,
        views=(room.grown(AROUND), side),
    )
    return set_page(paper.level, title, told)


def part_rows(members: Sequence[Member], hidden: Sequence[str], width: float) -> list[Row]:
    """Return the list of parts: mark, kind, how many, how long."""
    rows: list[Row] = []
    if hidden:
        names = ", ".join(plain(mark) for mark in hidden)
        rows += [*paragraph(f"Marks hidden in this view: {names}", width), Row(())]
    heads = (Cell(0, "Timbers", bold=True), Cell(_COUNT_AT, "pieces", "end", bold=True))
    rows.append(Row((*heads, Cell(_LENGTH_AT, "length", "end", bold=True)), ruled=True))
    counts = Counter((m.mark, m.kind, m.length) for m in members)
    for mark, kind, length in sorted(counts, key=lambda part: (part[0][:1], len(part[0]), part)):
        name = shorten(f"{plain(mark)}  {plain(kind)}", _COUNT_AT - 12)
        count = Cell(_COUNT_AT, str(counts[mark, kind, length]), "end")
        rows.append(Row((Cell(0, name), count, Cell(_LENGTH_AT, mm(length), "end"))))
    return rows
