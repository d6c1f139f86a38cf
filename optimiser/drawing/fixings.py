"""What holds the frame to the house: each screw and plug on the back skeleton, seen from the front.

Existing studs are shown where the survey found them, and hatched the bands in which cables may run
and no screw goes in.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from optimiser.domain.frame import Box, Frame, Member, WallFixing
from optimiser.drawing.hatch import Fill, filled
from optimiser.drawing.labels import Block, fit
from optimiser.drawing.letters import plain
from optimiser.drawing.page import fill_entry, line_entry, text_entry
from optimiser.drawing.scene import (
    GREY,
    INK,
    MEDIUM,
    THIN,
    TINT,
    Area,
    Entry,
    Item,
    Line,
    Page,
    Paper,
    Pen,
    Rect,
    Strokes,
    View,
)
from optimiser.drawing.table import Cell, Row, paragraph
from optimiser.drawing.wall_page import Sizes, finish, outline, sizes, wall_page

_STUD = Pen(INK, THIN, (3.0, 1.2))
_CROSS = Pen(INK, MEDIUM)
# Half of a cross, mm of paper, and how near on the wall heights share one flag, tenths.
_ARM, _NEAR = 1.2, 100
_COUNT_AT = 54.0
# What goes where, as a fitter says it.
_ITEMS = {
    "screw-70": "70 mm screws",
    "screw-80": "80 mm screws",
    "screw-100": "100 mm screws",
    "plug-fixing": "plugs",
    "hammer-fixing": "hammer fixings",
}
_WHERE = {"wall": "into the existing wall", "stud": "into existing studs"}


def fixings_page(frame: Frame, *, title: str, paper: Paper | None = None) -> Page:
    """Return the back skeleton with every screw into the house on `paper`; None: A4 or A3.

    Below run the fixings from the centre line, at the left their heights above the floor datum. Of
    heights within 10 mm the lowest and the highest are given.
    """
    page = wall_page(frame, (), _legend(frame), paper)
    view = page.view
    back = _back(frame)
    items: list[Item] = []
    for band in frame.bands:
        items += (*filled(_area(view, band.box), Fill.CROSSED),)
    for member in back:
        items.append(Rect(_area(view, member.box), TINT, Pen(INK, THIN)))
    high = max((int(level.ceiling) for level in frame.levels), default=0)
    items += [Line(view.x(x), view.y(0), view.x(x), view.y(high), _STUD) for x in frame.studs]
    shown = [one for one in frame.fixings if _holds(back, one)]
    items.append(Strokes(tuple(s for one in shown for s in _cross(view, one)), _CROSS))
    taken = [_around(view, one) for one in shown]
    for member in sorted(back, key=lambda m: -max(m.box.dx, m.box.dz)):
        area = _area(view, member.box)
        tall = area.height > area.width
        mark = fit(
            [Block((plain(member.mark),), bold=(0,))], area.grown(1.6), taken, upright=(tall,)
        )
        if mark:
            items += mark.items
            taken.append(mark.area)
    walled = [one for one in shown if one.into in ("wall", "stud")]
    xs = {one.at.x for one in walled} | set(frame.studs)
    items += sizes(
        frame,
        view,
        Sizes(below=xs, left={0, *(one.at.z for one in walled)}, near=_NEAR, centred=True),
    )
    items += outline(frame, view)
    return finish(page, frame, title, items, _rows(frame, page.side))


def _back(frame: Frame) -> list[Member]:
    """Return the members that are fixed to the existing wall, and the plates of their plane."""
    planes = {one.at.y for one in frame.fixings if one.into in ("wall", "stud")}
    kinds = ("upright", "short upright", "ledger", "sole plate", "head plate")
    return [m for m in frame.members if m.box.y in planes and m.kind in kinds]


def _holds(back: Sequence[Member], one: WallFixing) -> bool:
    return any(m.mark == one.member and m.box.y <= one.at.y <= m.box.y + m.box.dy for m in back)


def _area(view: View, box: Box) -> Area:
    return view.area(box.x, box.z, box.dx, box.dz)


def _around(view: View, one: WallFixing) -> Area:
    x, y = view.x(one.at.x), view.y(one.at.z)
    return Area(x - _ARM, y - _ARM, 2 * _ARM, 2 * _ARM)


def _cross(view: View, one: WallFixing) -> tuple[tuple[float, float, float, float], ...]:
    a = _around(view, one)
    return (a.x, a.y, a.right, a.bottom), (a.x, a.bottom, a.right, a.y)


def _rows(frame: Frame, side: Area) -> list[Row]:
    head = Cell(0, "Screws into the house", bold=True), Cell(_COUNT_AT, "screws", "end", bold=True)
    rows: list[Row] = [Row(head, ruled=True)]
    counts = Counter((one.into, one.item) for one in frame.fixings)
    for (into, item), count in sorted(counts.items()):
        where = f"{_ITEMS.get(item, item)} {_WHERE.get(into, f'into the {into}')}"
        *more, last = paragraph(plain(where), _COUNT_AT - 10)
        rows += [*more, Row((*last.cells, Cell(_COUNT_AT, str(count), "end")))]
    note = "Detect cables and pipes before drilling. Screw into timber or sound masonry, never into"
    return [*rows, Row(()), *paragraph(f"{note} board alone.", side.width)]


def _legend(frame: Frame) -> tuple[Entry, ...]:
    entries = [
        fill_entry("timber on the existing wall", Fill.TINT, Pen(INK, THIN)),
        text_entry("screw or plug", "×", bold=True),
    ]
    if frame.studs:
        entries.append(line_entry("middle of an existing stud", _STUD))
    if frame.bands:
        entries.append(fill_entry("no screws: a cable may run here", Fill.CROSSED, Pen(GREY, THIN)))
    entries.append(text_entry("below: fixings from the centre line", "−610", bold=False))
    entries.append(text_entry("left: their heights above the highest floor", "300", bold=False))
    return tuple(entries)
