"""Cutting diagram of a board: one page for each layout, the sheet to scale, the cuts in order.

The page is chosen to fit: upright or level, the table of cuts beside or below, whichever shows the
sheet largest.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from optimiser.domain.plan import SheetLayout
from optimiser.domain.request import Cutting, SheetMaterial
from optimiser.domain.stock import NO_EDGE_TRIM
from optimiser.drawing.flags import FlagRow
from optimiser.drawing.hatch import Fill, JobMark, job_marks
from optimiser.drawing.labels import turn_glyph
from optimiser.drawing.letters import plain
from optimiser.drawing.page import (
    HEADER,
    KNIFE_CAUTION,
    NO_NAMES,
    OFFCUT_PEN,
    SAW_CAUTION,
    SCRAP_PEN,
    facts_of,
    fill_entry,
    footer,
    inside,
    job_entry,
    set_page,
    solid_entry,
    text_entry,
)
from optimiser.drawing.scene import (
    BOLD,
    GREY,
    INK,
    PAPER,
    SCALES,
    Area,
    Entry,
    Item,
    Page,
    Paper,
    Pen,
    Rect,
    Told,
    View,
    scale_text,
)
from optimiser.drawing.sheet_cuts import (
    Bought,
    CutLine,
    Edges,
    cut_lines,
    draw_kerfs,
    edge_flags,
    inner_labels,
)
from optimiser.drawing.sheet_list import list_entries, trim_text, used_cut_outs
from optimiser.drawing.sheet_parts import Contents, contents, draw_cut_out, size_text
from optimiser.drawing.sheet_rows import column_width, sheet_rows
from optimiser.drawing.svg import svg_text
from optimiser.drawing.table import ROW, Cell, Row, columns_needed, draw_rows, rows_held
from optimiser.units import mm

_GAP = 5.0
# A sheet drawn smaller than this (mm of paper, its longer side) moves to a larger page.
_SMALLEST_DRAWING = 100.0


def draw_sheet_layout(
    layout: SheetLayout,
    material: SheetMaterial,
    *,
    number: int,
    of: int,
    title: str,
    names: Mapping[str, str] = NO_NAMES,
    jobs: Iterable[str] = (),
    layouts: Iterable[SheetLayout] = (),
) -> str:
    """Return one layout as an A4 page (A3 if it needs it), upright or level, as SVG in mm.

    Sizes are written as they lie on the sheet, across × up. A turned part lies a quarter turn
    anticlockwise, its cut-outs with it (see `sheet_parts.lying`). `number` and `of` count the
    layouts of the plan; `names` says what people call a part, by its id, where the request does
    not; `jobs` lists all jobs of the batch, so that a job has the same mark on every drawing;
    `layouts` are all of the board's, so that a part says which of its cut-outs are cut further.
    Raises KeyError if the layout cuts stock or parts that `material` does not list.
    """
    first, *_ = sheet_pages(
        layout,
        material,
        number=number,
        of=of,
        title=title,
        names=names,
        jobs=jobs,
        layouts=layouts,
    )
    return svg_text(first)


def sheet_pages(
    layout: SheetLayout,
    material: SheetMaterial,
    *,
    number: int,
    of: int,
    title: str,
    names: Mapping[str, str] = NO_NAMES,
    jobs: Iterable[str] = (),
    layouts: Iterable[SheetLayout] = (),
    paper: Paper | None = None,
) -> tuple[Page, ...]:
    """Return one layout on `paper`, or as `draw_sheet_layout` chooses where it is None.

    The table of cuts runs on over further pages where the first has no room for it.
    """
    bought = bought_sheet(layout, material)
    known = {part.id: part.name for part in material.parts if part.name}
    placed = {part.job for part in layout.parts}
    marks = job_marks({*jobs, *placed, *(part.job for part in material.parts)})
    lines = cut_lines(layout, bought)
    used = used_cut_outs(layout, layouts)
    sheet = _Sheet(layout, material, bought, lines, marks, {**known, **names}, used)
    fitted = _fit(sheet, paper)
    return _pages(sheet, fitted, title, f"layout {number} of {of} · × {layout.count}")


def bought_sheet(layout: SheetLayout, material: SheetMaterial) -> Bought:
    """Return the size and trim of what a layout cuts. Raises KeyError if it is not listed."""
    if layout.cut_out is not None:
        donor = {part.id: part for part in material.parts}[layout.stock]
        hole = donor.cut_outs[layout.cut_out]
        size, trim = (hole.width, hole.height), material.trim_of_cut_out(donor, hole)
    elif layout.offcut:
        offcut = {offcut.id: offcut for offcut in material.offcuts}[layout.stock]
        size, trim = (offcut.width, offcut.height), offcut.edge_trim
    else:
        stock = {stock.id: stock for stock in material.stock}[layout.stock]
        size, trim = (stock.width, stock.height), material.edge_trim
    return Bought(width=size[0], height=size[1], trim=trim, kerf=material.kerf)


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What is to be drawn."""

    layout: SheetLayout
    material: SheetMaterial
    bought: Bought
    lines: tuple[CutLine, ...]
    marks: Mapping[str, JobMark]
    names: Mapping[str, str]
    used: Mapping[tuple[str, int], int]


@dataclass(frozen=True, slots=True)
class _Drawn:
    """The sheet at one scale with its upper left corner at the origin, and its labels around."""

    contents: Contents
    edges: Edges
    rows: tuple[Row, ...]

    @property
    def around(self) -> tuple[float, float]:
        """Return the paper that the labels take across and up, the sheet itself apart."""
        edges = self.edges
        return edges.left.depth + edges.right.depth, edges.above.depth + edges.below.depth


@dataclass(frozen=True, slots=True)
class _Fitted:
    """A choice of page, scale and places."""

    page: tuple[float, float]
    view: View
    table: Area


def _fit(sheet: _Sheet, paper: Paper | None) -> _Fitted:
    """Return the largest scale at which sheet, labels and tables fit, on the smallest page."""
    longer = max(sheet.bought.width, sheet.bought.height) / 10
    papers = tuple(Paper) if paper is None else (paper,)
    rooms = {
        size: {page: _free(sheet, page) for page in (size.upright, size.level)} for size in papers
    }
    for size in papers:
        for scale in SCALES:
            if longer / scale < _SMALLEST_DRAWING and size is not (paper or Paper.A3):
                break
            pages = [page for page in rooms[size] if _holds(sheet, rooms[size][page], scale)]
            if not pages:
                continue
            drawn = _draw(sheet, View(0, 0, scale))
            for page in pages:
                fitted = _on_page(sheet, drawn, page, rooms[size][page], scale)
                if fitted:
                    return fitted
    # Hundreds of cuts: the sheet as large as it goes; the table runs on.
    page = (paper or Paper.A3).level
    return _Fitted(page, *_squeezed(sheet, page))


def _holds(sheet: _Sheet, free: Area, scale: float) -> bool:
    """Return whether a page's free room holds the sheet with no label at all."""
    bought = sheet.bought
    return bought.width / 10 / scale <= free.width and bought.height / 10 / scale <= free.height


def _on_page(
    sheet: _Sheet, drawn: _Drawn, page: tuple[float, float], free: Area, scale: float
) -> _Fitted | None:
    around = drawn.around
    width = sheet.bought.width / 10 / scale + around[0]
    height = sheet.bought.height / 10 / scale + around[1]
    if width > free.width or height > free.height:
        return None
    view = View(
        free.x + drawn.edges.left.depth,
        free.y + height - drawn.edges.below.depth,
        scale,
    )
    beside = Area(free.x + width + _GAP, free.y, free.width - width - _GAP, free.height)
    columns = columns_needed(len(drawn.rows), beside.height)
    column = column_width(sheet.layout)
    if columns * column - 4 <= beside.width:
        return _Fitted(page, view, beside)
    below = Area(free.x, free.y + height + _GAP, free.width, free.height - height - _GAP)
    wide = int((below.width + 4) / column)
    rows = -(-len(drawn.rows) // wide)
    if rows * ROW > below.height:
        return None
    return _Fitted(page, view, below)


def _squeezed(sheet: _Sheet, page: tuple[float, float]) -> tuple[View, Area]:
    free = _free(sheet, page)
    for scale in SCALES:
        drawn = _draw(sheet, View(0, 0, scale))
        width = sheet.bought.width / 10 / scale + drawn.around[0]
        height = sheet.bought.height / 10 / scale + drawn.around[1]
        if width <= free.width / 2 and height <= free.height:
            break
    view = View(free.x + drawn.edges.left.depth, free.y + height - drawn.edges.below.depth, scale)
    return view, Area(free.x + width + _GAP, free.y, free.width - width - _GAP, free.height)


def _free(sheet: _Sheet, page: tuple[float, float]) -> Area:
    margins = inside(*page)
    _, foot = footer(_legend(sheet), _caution(sheet), margins)
    return Area(margins.x, margins.y + HEADER, margins.width, margins.height - HEADER - foot)


def _draw(sheet: _Sheet, view: View) -> _Drawn:
    parts = {part.id: part for part in sheet.material.parts}
    found = contents(sheet.layout, parts, sheet.marks, sheet.names, view, width=sheet.bought.width)
    edges = edge_flags(sheet.lines, sheet.bought, view, found.led_out)
    rows = sheet_rows(sheet.layout, sheet.material, sheet.bought, sheet.used, found)
    return _Drawn(found, edges, tuple(rows))


def _pages(sheet: _Sheet, fitted: _Fitted, title: str, note: str) -> tuple[Page, ...]:
    view, bought = fitted.view, sheet.bought
    drawn = _draw(sheet, view)
    whole = view.area(0, 0, bought.width, bought.height)
    edges = drawn.edges
    rows: tuple[FlagRow, ...] = (edges.above, edges.below, edges.left, edges.right)
    here, later = _shared_out(drawn.rows, fitted.table, column_width(sheet.layout))
    items = (
        Rect(whole, PAPER),
        *_trims(bought, view),
        *drawn.contents.grounds,
        *draw_kerfs(sheet.lines, view),
        Rect(whole, "none", Pen(INK, BOLD)),
        *drawn.contents.labels,
        *inner_labels(sheet.lines, bought, view, drawn.contents.taken),
        *(item for row in rows for item in row.items),
        *draw_rows(here, fitted.table, column_width(sheet.layout)),
    )
    flags = Area(
        whole.x - edges.left.depth,
        whole.y - edges.above.depth,
        whole.width + edges.left.depth + edges.right.depth,
        whole.height + edges.above.depth + edges.below.depth,
    )
    told = Told(
        heading=title,
        facts=_facts(sheet, view.scale),
        note=note,
        entries=_legend(sheet),
        caution=_caution(sheet),
        items=items,
        views=(flags, fitted.table),
    )
    first = set_page(fitted.page, f"{title}, {note}", told)
    return first, *_continued(sheet, fitted, later, told)


def _shared_out(
    rows: Sequence[Row], area: Area, column: float
) -> tuple[Sequence[Row], Sequence[Row]]:
    """Part the rows into those for which the first page has room, and the rest."""
    room = rows_held(area, column)
    if len(rows) <= room:
        return rows, ()
    kept = room - 1
    more = Row((Cell(0, f"… {len(rows) - kept} lines more on the next page", bold=True),))
    return [*rows[:kept], more], rows[kept:]


def _continued(sheet: _Sheet, fitted: _Fitted, rows: Sequence[Row], first: Told) -> Iterator[Page]:
    area, column = _free(sheet, fitted.page), column_width(sheet.layout)
    room = rows_held(area, column)
    for start in range(0, len(rows), room):
        shown = draw_rows(rows[start : start + room], area, column)
        told = replace(first, items=shown, views=(area,))
        yield set_page(fitted.page, f"{first.heading}, {first.note}, continued", told)


def _trims(bought: Bought, view: View) -> Sequence[Item]:
    width, height, trim = bought.width, bought.height, bought.trim
    inner = height - trim.along
    edges = (
        (0, 0, width, trim.bottom),
        (0, height - trim.top, width, trim.top),
        (0, trim.bottom, trim.left, inner),
        (width - trim.right, trim.bottom, trim.right, inner),
    )
    return [Rect(view.area(*edge), GREY) for edge in edges if min(edge[2:]) > 0]


def _facts(sheet: _Sheet, scale: float) -> tuple[str, ...]:
    layout, bought = sheet.layout, sheet.bought
    jobs = sorted({part.job for part in layout.parts})
    size = size_text(bought.width, bought.height)
    stock = f"offcut {layout.stock} from the rack" if layout.offcut else layout.stock
    if layout.cut_out is not None:
        stock = f"from cut-out {layout.cut_out + 1} of {plain(layout.stock)}, cut that part first"
    return facts_of(sheet.material.material, jobs, scale_text(scale), stock, size, "mm")


def _caution(sheet: _Sheet) -> str:
    return SAW_CAUTION if sheet.material.cutting is Cutting.SAW else KNIFE_CAUTION


def _legend(sheet: _Sheet) -> tuple[Entry, ...]:
    """List the symbols that this layout uses, and no others."""
    layout, bought = sheet.layout, sheet.bought
    parts = {part.id: part for part in sheet.material.parts}
    entries = [job_entry(sheet.marks[job]) for job in sorted({part.job for part in layout.parts})]
    if any(part.turned for part in layout.parts):
        entries.append(Entry("quarter turn (sizes as it lies)", _turn_swatch, 4.4))
    if any(parts[part.part].cut_outs for part in layout.parts):
        entries.append(Entry("cut-out, from the part's lower left corner", draw_cut_out))
    if layout.offcuts:
        entries.append(fill_entry("offcut, keep", Fill.NONE, OFFCUT_PEN))
    if layout.scrap:
        entries.append(fill_entry("scrap", Fill.CROSSED, SCRAP_PEN))
    if bought.trim != NO_EDGE_TRIM:
        entries.append(solid_entry(f"edge trim {trim_text(bought.trim)}", GREY))
    if sheet.lines:
        if bought.kerf:
            entries.append(solid_entry(f"kerf {mm(bought.kerf)}", INK))
        entries += list_entries(layout, sheet.material)
        corner = "as bought" if layout.cut_out is None else "of the cut-out"
        entries.append(
            text_entry(f"running dimension from the lower left corner {corner}", "610", bold=False)
        )
    return tuple(entries)


def _turn_swatch(area: Area) -> tuple[Item, ...]:
    return turn_glyph(*area.middle)
