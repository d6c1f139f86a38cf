"""What every page shares: the title line, the legend of the symbols used, and the caution."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from optimiser.drawing.hatch import Fill, JobMark, filled, job_symbol
from optimiser.drawing.letters import plain, shorten, text_width, wrap
from optimiser.drawing.scene import (
    GREY,
    INK,
    MEDIUM,
    SMALLEST_TEXT,
    THIN,
    Area,
    Entry,
    Item,
    Line,
    Page,
    Pen,
    Rect,
    Text,
    Told,
)

NO_NAMES: Mapping[str, str] = MappingProxyType({})
MARGIN = 10.0
HEADER = 14.0
_TITLE_SIZE = 4.2
_ROW = 5.6
_SWATCH = 3.6

SAW_CAUTION = "Guards on, eyes and lungs protected; follow the saw maker's instructions."
KNIFE_CAUTION = "Cut away from hands and legs; follow the board maker's instructions."
WALL_CAUTION = (
    "Not a structural design: local codes, makers' instructions and qualified people come first."
)


def set_page(size: tuple[float, float], title: str, told: Told) -> Page:
    """Return the page of `size` with head and foot round what lies between them."""
    margins = inside(*size)
    foot, _ = footer(told.entries, told.caution, margins)
    head = header(told.heading, told.facts, margins, told.note)
    return Page(*size, title, (*head, *told.items, *foot), told)


def header(title: str, facts: Sequence[str], page: Area, note: str = "") -> tuple[Item, ...]:
    """Return the title block within the top `HEADER` mm of `page`, the area inside the margins."""
    noted = text_width(note, bold=True) + 4 if note else 0
    name = shorten(plain(title), page.width - noted, _TITLE_SIZE, bold=True)
    line = shorten(" · ".join(plain(fact) for fact in facts), page.width)
    items: list[Item] = [
        Text(page.x, page.y + 4.2, name, _TITLE_SIZE, bold=True),
        Text(page.x, page.y + 9.0, line, colour=INK),
        Line(page.x, page.y + 10.8, page.right, page.y + 10.8, Pen(INK, MEDIUM)),
    ]
    if note:
        items.append(Text(page.right, page.y + 4.2, note, anchor="end", bold=True))
    return tuple(items)


def footer(entries: Sequence[Entry], caution: str, page: Area) -> tuple[tuple[Item, ...], float]:
    """Return legend and caution at the bottom of `page`, and the height that they take."""
    rows = _rows(entries, page.width)
    lines = wrap(caution, page.width)
    height = len(rows) * _ROW + len(lines) * 3.4 + 3.0
    top = page.bottom - height
    items: list[Item] = [Line(page.x, top, page.right, top, Pen(INK, THIN))]
    y = top + 1.6
    for row in rows:
        x = page.x
        for entry in row:
            items += entry.swatch(Area(x, y, entry.width, _SWATCH))
            text = shorten(entry.text, page.width - entry.width - 2)
            items.append(Text(x + entry.width + 1.2, y + 2.7, text))
            x += _entry_width(entry)
        y += _ROW
    for index, text in enumerate(lines):
        items.append(Text(page.x, page.bottom - 0.9 - 3.4 * (len(lines) - 1 - index), text))
    return tuple(items), height + 1.5


def facts_of(material: str, jobs: Sequence[str], scale: str, *more: str) -> tuple[str, ...]:
    """Return the facts of the title block in their order; a long list of jobs is counted."""
    named = ", ".join(sorted(set(jobs)))
    if text_width(named) > 70:
        named = f"{len(set(jobs))} jobs: {named}"
        named = shorten(named, 90)
    label = "job" if len(set(jobs)) == 1 else "jobs"
    return (f"{label} {named}" if named else "no jobs", material, f"scale {scale}", *more)


def inside(width: float, height: float) -> Area:
    """Return the area inside the margins of a page."""
    return Area(MARGIN, MARGIN, width - 2 * MARGIN, height - 2 * MARGIN)


def job_entry(mark: JobMark) -> Entry:
    """Return the legend of one job: its fill and its mark."""

    def swatch(area: Area) -> tuple[Item, ...]:
        ground = filled(area, mark.fill)
        outline = Rect(area, "none", Pen(INK, THIN))
        return (*ground, outline, *job_symbol(mark, *area.middle))

    return Entry(f"job {shorten(plain(mark.job), 60)}", swatch)


def fill_entry(text: str, fill: Fill, pen: Pen) -> Entry:
    """Return the legend of a filled area."""
    return Entry(text, lambda area: (*filled(area, fill), Rect(area, "none", pen)))


def solid_entry(text: str, colour: str) -> Entry:
    """Return the legend of an area of one colour, drawn as narrow as it is on the sheet."""

    def swatch(area: Area) -> tuple[Item, ...]:
        return (Rect(Area(area.middle[0] - 0.6, area.y, 1.2, area.height), colour),)

    return Entry(text, swatch, 3.0)


def line_entry(text: str, pen: Pen) -> Entry:
    """Return the legend of a kind of line."""
    return Entry(
        text, lambda area: (Line(area.x, area.middle[1], area.right, area.middle[1], pen),)
    )


def text_entry(text: str, sample: str, *, bold: bool = True) -> Entry:
    """Return the legend of a way of writing."""
    return Entry(
        text,
        lambda area: (
            Text(area.middle[0], area.middle[1] + 0.9, sample, SMALLEST_TEXT, "middle", bold),
        ),
        text_width(sample, bold=bold),
    )


OFFCUT_PEN = Pen(INK, MEDIUM, (1.6, 0.9))
SCRAP_PEN = Pen(GREY, THIN)


def _rows(entries: Sequence[Entry], width: float) -> list[list[Entry]]:
    rows: list[list[Entry]] = []
    used = width + 1
    for entry in entries:
        room = _entry_width(entry)
        if used + room > width + 5:
            rows.append([])
            used = 0
        rows[-1].append(entry)
        used += room
    return rows


def _entry_width(entry: Entry) -> float:
    return entry.width + 1.2 + text_width(entry.text) + 5
