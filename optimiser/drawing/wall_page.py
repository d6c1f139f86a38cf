"""What the drawings of a wall share: the page, the outline, the openings, sizes and findings.

The wall is seen from the front: x runs right, z runs up, whatever the floor and ceiling do.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Frame
from optimiser.drawing.dimensions import dimension_across, dimension_up, signed
from optimiser.drawing.flags import Flag, Side, flag_column, flag_row
from optimiser.drawing.hatch import Fill, filled
from optimiser.drawing.labels import Block, Placed, fit
from optimiser.drawing.letters import plain, shorten
from optimiser.drawing.page import HEADER, WALL_CAUTION, footer, inside, set_page
from optimiser.drawing.scene import (
    BOLD,
    CENTRE,
    GREY,
    INK,
    MEDIUM,
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
from optimiser.drawing.table import ROW, Row, draw_rows, paragraph
from optimiser.units import mm

# Room for the labels around the wall, in mm of paper.
_LEFT, _RIGHT, _ABOVE, _BELOW = 21.0, 21.0, 20.0, 24.0
_SIDE = 60.0
_PAST = 5.0
# A timber 38 wide is then drawn at least 1.9 mm wide: less cannot be told from a line.
_COARSEST_ON_A4 = 20.0
# A front that begins lower than this stands on the floor, in tenths.
_OFF_FLOOR = 500


@dataclass(frozen=True, slots=True)
class WallPage:
    """A page with room for a wall: where the wall lies, and where text beside it goes."""

    size: tuple[float, float]
    view: View
    side: Area
    text: tuple[str, ...]
    entries: tuple[Entry, ...]


def wall_page(
    frame: Frame, text: Sequence[str], entries: Sequence[Entry], paper: Paper | None = None
) -> WallPage:
    """Return the page for a wall, held level; `paper` None: A4, or A3 if its timbers were too thin.

    `text` stands below the title; a column at the right is left for findings and lists.
    """
    left, right = _ends(frame)
    low, high = _reach(frame)
    pages = []
    for size in (Paper.A4.level, Paper.A3.level) if paper is None else (paper.level,):
        margins = inside(*size)
        _, foot = footer(entries, WALL_CAUTION, margins)
        top = margins.y + HEADER + ROW * len(text)
        room = Area(margins.x, top, margins.width - _SIDE, margins.bottom - foot - top)
        rooms = room.width - _LEFT - _RIGHT, room.height - _ABOVE - _BELOW
        scale = scale_for((right - left, high - low), rooms)
        view = View(room.x + _LEFT - left / 10 / scale, room.y + _ABOVE + high / 10 / scale, scale)
        column = Area(room.right + 4, top, _SIDE - 4, room.height)
        pages.append(WallPage(size, view, column, tuple(text), tuple(entries)))
    return pages[0] if pages[0].view.scale <= _COARSEST_ON_A4 else pages[-1]


def finish(
    page: WallPage, frame: Frame, title: str, items: Iterable[Item], rows: Sequence[Row]
) -> Page:
    """Return the page with title, text, wall, side column, legend and caution."""
    margins = inside(*page.size)
    facts = (f"job {frame.job}", f"scale {scale_text(page.view.scale)}", "mm")
    lines = [shorten(plain(line), margins.width) for line in page.text]
    text = [row for line in lines for row in paragraph(line, margins.width)]
    top = Area(margins.x, margins.y + HEADER - 2, margins.width, ROW * max(1, len(text)))
    wall = Area(margins.x, page.side.y, page.side.x - margins.x, margins.bottom - page.side.y)
    told = Told(
        heading=title,
        facts=facts,
        note="",
        entries=page.entries,
        caution=WALL_CAUTION,
        items=(
            *draw_rows(text, top, margins.width),
            *items,
            *draw_rows(rows, page.side, page.side.width + 2),
        ),
        views=(*((top,) if text else ()), wall, page.side),
    )
    return set_page(page.size, title, told)


def on_front(face: str) -> bool:
    """Return whether a face is the front of the wall, or that of one of its boxes."""
    return face.rpartition(".")[2] == "front"


def ceiling_line(frame: Frame, x1: int, x2: int) -> list[tuple[int, float]]:
    """Return the ceiling from `x1` to `x2` as points (x, height), its bends included."""
    bends = [level.x for level in frame.levels if x1 < level.x < x2]
    return [(x, height_at(frame, x, ceiling=True)) for x in (x1, *bends, x2)]


def height_at(frame: Frame, x: int, *, ceiling: bool) -> float:
    """Return the height of floor or ceiling above the datum at `x`.

    It runs straight between the levels, and level beyond them.
    """
    levels = [(point.x, point.ceiling if ceiling else point.floor) for point in frame.levels]
    levels.sort()
    if x <= levels[0][0]:
        return levels[0][1]
    for (x1, z1), (x2, z2) in pairwise(levels):
        if x1 < x <= x2:
            return z1 + (z2 - z1) * (x - x1) / (x2 - x1)
    return levels[-1][1]


def outline(frame: Frame, view: View) -> tuple[Item, ...]:
    """Return floor, ends and ceiling as one outline, thin where no front reaches it.

    Each front of the wall is outlined where they do not all reach from floor to ceiling at one
    depth; a chimney breast is hatched where no front stands before it.
    """
    left, right = _ends(frame)
    above = ceiling_line(frame, left, right)
    below = [(x, height_at(frame, x, ceiling=False)) for x, _ in reversed(above)]
    points = tuple(_point(view, x, z) for x, z in (*above, *below))
    fronts = [face for face in frame.faces if on_front(face.name)]
    if len(fronts) <= 1 and all(face.follows_ceiling for face in fronts):
        return (Polygon(points, "none", Pen(INK, BOLD)),)
    items: list[Item] = [Polygon(points, "none", Pen(GREY, THIN))]
    for solid in frame.solids:
        box = solid.box
        before = any(f.box.x < box.x + box.dx and box.x < f.box.x + f.box.dx for f in fronts)
        x0, x1 = max(int(box.x), left), min(box.x + box.dx, right)
        if not before and x0 < x1:
            area = view.area(x0, int(box.z), x1 - x0, int(box.dz))
            items += (*filled(area, Fill.RISING), Rect(area, "none", Pen(GREY, THIN)))
            label = fit([Block(("existing wall",))], area, ())
            items += label.items if label else ()
    for face in fronts:
        box = face.box
        line = ceiling_line(frame, box.x, box.x + box.dx)
        if not face.follows_ceiling:
            line = [(x, box.z + box.dz) for x in (int(box.x), int(box.x + box.dx))]
        # Boards stand off the floor by a little: a front that begins there reaches it.
        low = [
            (x, height_at(frame, x, ceiling=False) if box.z < _OFF_FLOOR else float(box.z))
            for x in (box.x + box.dx, box.x)
        ]
        corners = (*line, *low)
        items.append(Polygon(tuple(_point(view, x, z) for x, z in corners), "none", Pen(INK, BOLD)))
    return tuple(items)


def front_tops(frame: Frame) -> list[int]:
    """Return the heights at which fronts begin and end, but for the floor and the ceiling."""
    fronts = [face for face in frame.faces if on_front(face.name)]
    tops = [face.box.z + face.box.dz for face in fronts if not face.follows_ceiling]
    return tops + [int(face.box.z) for face in fronts if face.box.z >= _OFF_FLOOR]


def openings(frame: Frame, view: View) -> tuple[list[Item], list[Area], list[str]]:
    """Return the openings and their labels, the room the labels take, and labels too long."""
    items: list[Item] = []
    taken: list[Area] = []
    unlabelled: list[str] = []
    for opening in frame.openings:
        area = view.area(opening.x, opening.z, opening.width, opening.height)
        items.append(Rect(area, "none", Pen(INK, MEDIUM)))
        label = _opening_label(
            called(opening.name), f"{mm(opening.width)} × {mm(opening.height)}", area, taken
        )
        if label:
            items += label.items
            taken.append(label.area)
        else:
            size = f"{mm(opening.width)} × {mm(opening.height)}"
            unlabelled.append(f"{called(opening.name)}: {size} clear")
    return items, taken, unlabelled


@dataclass(frozen=True, slots=True)
class Sizes:
    """What is written round a wall, in tenths: `below` and `above` places along it from its left
    end, those above written from its centre line, those below too where `centred`; `left` and
    `right` heights above the datum.

    Of heights within `near` of the lowest of them only that and the highest are written; the datum
    itself stands alone.
    """

    below: Iterable[int] = ()
    above: Iterable[int] = ()
    left: Iterable[int] = ()
    right: Iterable[int] = ()
    near: int = 0
    centred: bool = False


def sizes(frame: Frame, view: View, wanted: Sizes) -> tuple[Item, ...]:
    """Return the sizes round a wall with its overall sizes outside them, and its centre line."""
    left, right = _ends(frame)
    low, high = _reach(frame)
    floor, ceiling, half = view.y(low), view.y(high), (left + right) // 2
    along = {left, right, *wanted.below}
    across = [Flag(view.x(x), (signed(x - half) if wanted.centred else mm(x),)) for x in along]
    over = [Flag(view.x(x), (signed(x - half),)) for x in {half, *wanted.above}]
    edges = view.x(left), view.x(right)
    wide = edges[0] - _PAST, edges[1] + _PAST
    # Heights keep below the row above the wall, whose first text reaches past its end.
    tall = ceiling - 1.5, floor + _PAST
    row = flag_row(across, edge=floor, side=Side.BELOW, low=wide[0], high=wide[1])
    top = flag_row(over, edge=ceiling, side=Side.ABOVE, low=wide[0], high=wide[1])
    column, beyond = (
        flag_column(
            _heights(heights, wanted.near, view),
            edge=edge,
            side=side,
            low=tall[0],
            high=tall[1],
        )
        for heights, edge, side in (
            (wanted.left, edges[0], Side.LEFT),
            (wanted.right, edges[1], Side.RIGHT),
        )
    )
    items: list[Item] = [Line(view.x(half), ceiling - 2, view.x(half), floor + 2, CENTRE)]
    items += (*row.items, *top.items, *column.items, *beyond.items)
    items += dimension_across(*edges, ceiling - top.depth - 3, mm(right - left))
    for x, at in ((left, edges[0] - column.depth - 3), (right, edges[1] + beyond.depth + 4)):
        below, above = height_at(frame, x, ceiling=False), height_at(frame, x, ceiling=True)
        ends = view.bottom - view.size(1) * above, view.bottom - view.size(1) * below
        items += dimension_up(at, *ends, mm(round(above - below)))
    return tuple(items)


def _heights(heights: Iterable[int], near: int, view: View) -> list[Flag]:
    groups: list[list[int]] = []
    for z in sorted(set(heights)):
        if groups and groups[-1][0] != 0 and z - groups[-1][0] <= near:
            groups[-1].append(z)
        else:
            groups.append([z])
    ends = {z for group in groups for z in (group[0], group[-1])}
    return [Flag(view.y(z), (mm(z),)) for z in ends]


def finding_rows(findings: Sequence[Finding], width: float, height: float) -> list[Row]:
    """Return stops, then warnings as rows; as many as fit `height`, the rest counted.

    Notes stand in the list of findings: on a drawing they would take the room of the timbers.
    """
    order = (Severity.STOP, Severity.WARNING)
    ranked = sorted(
        (finding for finding in findings if finding.severity in order),
        key=lambda finding: order.index(finding.severity),
    )
    rows: list[Row] = []
    for index, finding in enumerate(ranked):
        head = f"{finding.severity.value}: {plain(finding.rule)}"
        block = [
            *paragraph(head, width, bold=True),
            *paragraph(plain(f"{finding.trouble}. {sentence(finding.remedy)}"), width),
            Row(()),
        ]
        if (len(rows) + len(block) + 1) * ROW > height:
            return [*rows, *paragraph(f"… and {len(ranked) - index} more findings", width)]
        rows += block
    return rows


def called(name: str) -> str:
    """Return what an opening, an appliance's space or a box of the wall is called on a drawing."""
    return re.sub(r"\btv\b", "TV", plain(name))


def sentence(text: str) -> str:
    """Return `text` with its first letter as at the start of a sentence."""
    return text[:1].upper() + text[1:]


def _opening_label(name: str, size: str, area: Area, taken: Sequence[Area]) -> Placed | None:
    short = shorten(name, max(12.0, area.width - 2), bold=True)
    blocks = [
        Block((name, f"{size} clear"), bold=(0,)),
        Block((short, size), bold=(0,)),
        Block((f"{name} {size}",)),
        Block((f"{short} {size}",)),
    ]
    return fit(blocks, area.grown(-0.3), taken)


def _point(view: View, x: int, z: float) -> Point:
    return view.x(x), view.bottom - view.size(1) * z


def _ends(frame: Frame) -> tuple[int, int]:
    return 0, frame.width


def _reach(frame: Frame) -> tuple[int, int]:
    """Return the lowest floor and the highest ceiling of the wall."""
    left, right = _ends(frame)
    xs = [left, right, *(level.x for level in frame.levels if left < level.x < right)]
    low = min(height_at(frame, x, ceiling=False) for x in xs)
    high = max(height_at(frame, x, ceiling=True) for x in xs)
    return round(low), round(high)
