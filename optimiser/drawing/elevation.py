"""The framed wall seen from the front: which timber stands where, to scale, with its mark.

What stands behind the front skeleton is dashed; where it hides wholly behind a front timber it is
left out, as on site it cannot be seen either.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from optimiser.domain.frame import Frame, Member
from optimiser.drawing.hatch import Fill
from optimiser.drawing.labels import Block, Placed, fit
from optimiser.drawing.letters import plain, shorten
from optimiser.drawing.page import fill_entry, line_entry, text_entry
from optimiser.drawing.places import Place, opening_places
from optimiser.drawing.scene import (
    GREY,
    INK,
    MEDIUM,
    THIN,
    TINT,
    Area,
    Entry,
    Item,
    Page,
    Paper,
    Pen,
    Polygon,
    Rect,
    View,
)
from optimiser.drawing.svg import svg_text
from optimiser.drawing.table import ROW, Cell, Row, paragraph
from optimiser.drawing.wall_page import (
    Sizes,
    ceiling_line,
    finding_rows,
    finish,
    front_tops,
    on_front,
    openings,
    outline,
    sizes,
    wall_page,
)
from optimiser.units import mm

_FRONT_PEN = Pen(INK, THIN)
_BEHIND_PEN = Pen(GREY, THIN, (1.2, 0.8))
_OPENING_PEN = Pen(INK, MEDIUM)


def draw_elevation(frame: Frame, *, title: str, lines: Sequence[str] = ()) -> str:
    """Return the front elevation as one page (A4, or A3 for a large wall), SVG in mm.

    See `elevation_page`.
    """
    return svg_text(elevation_page(frame, title=title, lines=lines))


def elevation_page(
    frame: Frame, *, title: str, lines: Sequence[str] = (), paper: Paper | None = None
) -> Page:
    """Return the front elevation on `paper`, or on A4 (A3 for a large wall) where it is None.

    `lines` are printed below the title. Below the wall run the left faces of the front uprights,
    above it the sides of the openings, both from its centre line. At the left stand the edges of
    the openings, at the right the rails that frame them, from the floor datum. Beside the wall
    each mark with its length, and findings that stop or warn.
    """
    front, behind = _front_and_behind(frame)
    page = wall_page(frame, lines, _legend(frame, behind), paper)
    view = page.view
    items: list[Item] = []
    for member in behind:
        items += _drawn(member, frame, view, "none", _BEHIND_PEN)
    for member in front:
        items += _drawn(member, frame, view, TINT, _FRONT_PEN)
    holes, taken, unlabelled = openings(frame, view)
    marks, missing = _marks(front, behind, view, taken)
    xs = [member.box.x for member in front if _is_upright(member)]
    sides = [x for o in frame.openings for x in (o.x, o.x + o.width)]
    edges = [0, *front_tops(frame), *(z for o in frame.openings for z in (o.z, o.z + o.height))]
    rails = [m.box.z + m.box.dz for m in front if m.kind == "sill"]
    rails += [m.box.z for m in front if m.kind == "head"]
    items += sizes(frame, view, Sizes(below=xs, above=sides, left=edges, right=rails, centred=True))
    items += (*outline(frame, view), *holes, *_passages(frame, view), *marks)
    small = sorted({*unlabelled, *missing})
    return finish(page, frame, title, items, _rows(frame, front, behind, small, page.side))


def elevation_places(frame: Frame) -> tuple[Place, ...]:
    """Return where the members and openings lie on the page that `draw_elevation` makes without
    lines below its title; what is in front comes last."""
    front, behind = _front_and_behind(frame)
    view = wall_page(frame, (), _legend(frame, behind)).view
    members = [Place(member.mark, _area(member, view)) for member in (*behind, *front)]
    return (*members, *opening_places(frame, view))


def _passages(frame: Frame, view: View) -> Iterator[Item]:
    """Yield each hole for cables as a circle, no smaller than can be seen."""
    for hole in frame.passages:
        r = max(view.size(hole.diameter) / 2, 0.6)
        x, y = view.x(hole.at.x), view.y(hole.at.z)
        turns = [2 * math.pi * i / 16 for i in range(16)]
        points = tuple((x + r * math.cos(t), y + r * math.sin(t)) for t in turns)
        yield Polygon(points, "none", _OPENING_PEN)


def _front_and_behind(frame: Frame) -> tuple[list[Member], list[Member]]:
    """Part the members into those that reach the front of their box, and the visible rest."""
    planes: list[tuple[int, int, int]] = [
        (face.box.x, face.box.x + face.box.dx, face.box.y - face.layers * face.thickness)
        for face in frame.faces
        if on_front(face.name)
    ]
    if not planes:
        planes = [
            (0, int(frame.width), max((m.box.y + m.box.dy for m in frame.members), default=0))
        ]
    front: list[Member] = []
    rest: list[Member] = []
    for m in frame.members:
        middle = m.box.x + m.box.dx // 2
        seen = any(x0 <= middle <= x1 and m.box.y + m.box.dy == y for x0, x1, y in planes)
        (front if seen else rest).append(m)
    return front, [m for m in rest if not any(_hides(other, m) for other in front)]


def _hides(front: Member, other: Member) -> bool:
    a, b = front.box, other.box
    return a.x <= b.x and b.x + b.dx <= a.x + a.dx and a.z <= b.z and b.z + b.dz <= a.z + a.dz


def _is_upright(member: Member) -> bool:
    return member.box.dz > member.box.dx and member.box.dz > member.box.dy


def _area(member: Member, view: View) -> Area:
    box = member.box
    return view.area(box.x, box.z, box.dx, box.dz)


def _drawn(member: Member, frame: Frame, view: View, fill: str, pen: Pen) -> tuple[Item, ...]:
    box = member.box
    if not member.follows_ceiling:
        return (Rect(_area(member, view), fill, pen),)
    top = ceiling_line(frame, box.x, box.x + box.dx)
    points = [(view.x(x), view.bottom - view.size(1) * z) for x, z in top]
    thick = view.size(box.dz)
    bottom = [(x, y + thick) for x, y in reversed(points)]
    return (Polygon((*points, *bottom), fill, pen),)


def _marks(
    front: Sequence[Member], behind: Sequence[Member], view: View, taken: Sequence[Area]
) -> tuple[tuple[Item, ...], list[str]]:
    """Return the marks on their members, front ones first, and those that stand nowhere."""
    occupied = list(taken)
    items: list[Item] = []
    missing: set[str] = set()
    shown: set[str] = set()
    longest_first = sorted(front, key=_shortness) + sorted(behind, key=_shortness)
    for member in longest_first:
        text = plain(member.mark) if member in front else f"({plain(member.mark)})"
        placed = _mark(text, member, view, occupied)
        if placed is None:
            missing.add(plain(member.mark))
        else:
            items += placed.items
            occupied.append(placed.area)
            shown.add(plain(member.mark))
    # One of several equal parts that has no room is known by the others.
    return tuple(items), sorted(missing - shown)


def _shortness(member: Member) -> tuple[int, str]:
    return -max(member.box.dx, member.box.dz), member.mark


def _mark(text: str, member: Member, view: View, occupied: Sequence[Area]) -> Placed | None:
    """Place a mark on its member, across its outline if the member is thinner than the text."""
    block = Block((text,), bold=(0,))
    area = _area(member, view)
    upright = area.height > area.width and area.height >= block.length
    wide, high = (block.depth, block.length) if upright else (block.length, block.depth)
    across, up = max(0.0, wide - area.width) / 2, max(0.0, high - area.height) / 2
    room = Area(area.x - across, area.y - up, area.width + 2 * across, area.height + 2 * up)
    return fit([block], room, occupied, upright=(upright,))


def _rows(
    frame: Frame,
    front: Sequence[Member],
    behind: Sequence[Member],
    small: Sequence[str],
    side: Area,
) -> list[Row]:
    rows: list[Row] = []
    if small:
        rows += [*paragraph("Marks without room: " + ", ".join(small), side.width), Row(())]
    rows.append(Row((Cell(0, "Timbers shown", bold=True), _LENGTH_HEAD), ruled=True))
    kinds = {(m.mark, m.kind, m.length) for m in (*front, *behind)}
    for mark, kind, length in sorted(kinds, key=lambda kind: (kind[0][:1], len(kind[0]), kind)):
        name = shorten(f"{plain(mark)}  {plain(kind)}", _LENGTH_AT - 12)
        rows.append(Row((Cell(0, name), Cell(_LENGTH_AT, mm(length), "end"))))
    left = side.height - ROW * (len(rows) + 1)
    return [*rows, Row(()), *finding_rows(frame.findings, side.width, left)]


_LENGTH_AT = 54.0
_LENGTH_HEAD = Cell(_LENGTH_AT, "length", "end", bold=True)


def _legend(frame: Frame, behind: Sequence[Member]) -> tuple[Entry, ...]:
    entries = [fill_entry("front timber", Fill.TINT, _FRONT_PEN)]
    if behind:
        entries.append(line_entry("timber behind, its mark in brackets", _BEHIND_PEN))
    if frame.openings:
        entries.append(line_entry("opening, clear size", _OPENING_PEN))
    if frame.passages:
        entries.append(text_entry("hole for cables through the back", "o", bold=False))
    entries.append(
        text_entry("below: left faces of uprights from the centre line", "−610", bold=False)
    )
    entries.append(text_entry("above: openings from the centre line", "+450", bold=False))
    heights = (
        "left: openings and tops, right: sill tops and head undersides, from the highest floor"
    )
    entries.append(text_entry(heights, "300", bold=False))
    return tuple(entries)
