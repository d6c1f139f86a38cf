"""Headings, paragraphs, tables and figures that flow over as many pages as they need.

Made of the drawings' own marks, so that a page of text and a page of drawing leave by the same
writer. A table's heads stand again on each page; a heading never stands alone at the foot of one.
Nothing is cut short: a word too long for its column is broken.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from optimiser.drawing.letters import plain, text_width
from optimiser.drawing.page import HEADER, header, inside
from optimiser.drawing.scene import (
    GREY,
    INK,
    MEDIUM,
    PAPER,
    THIN,
    Area,
    Item,
    Line,
    Page,
    Paper,
    Pen,
    Rect,
    Text,
)
from optimiser.drawing.ticks import boxes_width, tick_boxes

TEXT = 3.0
_LINE = 1.32
_HEADING = 4.0
_CELL_GAP = 3.0
_BOX = 3.0
_FOOT = 7.0

Draw: TypeAlias = Callable[[float, float], tuple[Item, ...]]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; what follows begins on the same page."""

    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph; `mark` stands before its first line, "box" draws a box to tick there.

    One that is to `keep` begins on the page of what follows it.
    """

    text: str
    mark: str = ""
    bold: bool = False
    keep: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its head, its share of the width, and where its text stands."""

    head: str
    share: float
    anchor: str = "start"


@dataclass(frozen=True, slots=True)
class Table:
    """A table. A cell is text, or a number of boxes to tick; `feet` are rows in bold below.

    Rows named in `ruled` have a line beneath them.
    """

    columns: tuple[Column, ...]
    rows: Sequence[Sequence[str | int]]
    feet: Sequence[Sequence[str | int]] = ()
    ruled: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing of its own, `height` mm high, drawn into the area it is given."""

    height: float
    draw: Callable[[Area], tuple[Item, ...]]


@dataclass(frozen=True, slots=True)
class NewPage:
    """What follows begins on a new page."""


Block: TypeAlias = Heading | Paragraph | Table | Figure | NewPage


@dataclass(frozen=True, slots=True)
class _Strip:
    """A piece of a page that is not divided: its height, how it is drawn from its upper left.

    `again` stands first on a page that this strip begins; `keep` holds it with the next one;
    one that `breaks` is nothing but the end of a page.
    """

    height: float
    draw: Draw
    keep: bool = False
    again: _Strip | None = None
    breaks: bool = False


def flow(
    blocks: Iterable[Block],
    *,
    title: str,
    facts: Sequence[str],
    foot: str,
    paper: Paper = Paper.A4,
    level: bool = False,
) -> tuple[Page, ...]:
    """Return the blocks on pages of `paper`, numbered, each with title, facts and the foot line."""
    size = paper.level if level else paper.upright
    margins = inside(*size)
    room = Area(margins.x, margins.y + HEADER, margins.width, margins.height - HEADER - _FOOT)
    filled = _fill(list(_strips(blocks, room.width)), room)
    pages = []
    for number, items in enumerate(filled, start=1):
        note = f"page {number} of {len(filled)}" if len(filled) > 1 else ""
        top = header(title, facts, margins, note)
        pages.append(Page(*size, title, (*top, *items, *_foot(foot, margins))))
    return tuple(pages)


def broken(text: str, room: float, size: float = TEXT, *, bold: bool = False) -> list[str]:
    """Break `text` into lines of at most `room` mm, within words where they are longer."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, bold=bold) <= room:
            lines[-1] = longer
            continue
        lines += _pieces(word, room, size, bold=bold)
    return lines or [""]


def _pieces(word: str, room: float, size: float, *, bold: bool) -> list[str]:
    """Break a word that is longer than a line, behind a sign that parts it where there is one."""
    pieces: list[str] = []
    while text_width(word, size, bold=bold) > room and len(word) > 1:
        kept = len(word) - 1
        while kept > 1 and text_width(word[:kept], size, bold=bold) > room:
            kept -= 1
        signs = [at + 1 for at, sign in enumerate(word[:kept]) if sign in "-/_.,;:"]
        # Not so early that the line looks empty.
        if signs and signs[-1] > kept / 2:
            kept = signs[-1]
        pieces.append(word[:kept])
        word = word[kept:]
    return [*pieces, word]


def _foot(foot: str, margins: Area) -> tuple[Item, ...]:
    y = margins.bottom - 4.6
    lines = broken(foot, margins.width, 2.5)
    rule = Line(margins.x, y, margins.right, y, Pen(INK, THIN))
    texts = (Text(margins.x, y + 3.2 * (n + 1), line, 2.5) for n, line in enumerate(lines[:2]))
    return (rule, *texts)


def _fill(strips: Sequence[_Strip], room: Area) -> list[list[Item]]:
    pages: list[list[Item]] = [[]]
    y = room.y
    for index, strip in enumerate(strips):
        needed = _needed(strips, index)
        if strip.breaks:
            if y > room.y:
                pages.append([])
                y = room.y
            continue
        if y > room.y and y + needed > room.bottom + 1e-6:
            pages.append([])
            y = room.y
            if strip.again is not None:
                pages[-1] += strip.again.draw(room.x, y)
                y += strip.again.height
        pages[-1] += strip.draw(room.x, y)
        y += strip.height
    return pages


def _needed(strips: Sequence[_Strip], index: int) -> float:
    """Return the height of a strip with all those that it must stand with."""
    height = strips[index].height
    while strips[index].keep and index + 1 < len(strips):
        index += 1
        height += strips[index].height
    return height


def _strips(blocks: Iterable[Block], width: float) -> Iterator[_Strip]:
    for block in blocks:
        match block:
            case Heading(text):
                yield _heading(text)
            case Paragraph():
                yield from _paragraph(block, width)
            case Table():
                yield from _table(block, width)
            case Figure(height, draw):
                yield _figure(height, draw, width)
            case NewPage():
                yield _Strip(0, lambda _x, _y: (), breaks=True)


def _heading(text: str) -> _Strip:
    def draw(x: float, y: float) -> tuple[Item, ...]:
        return (Text(x, y + 6.2, plain(text), _HEADING, bold=True),)

    return _Strip(8.6, draw, keep=True)


def _figure(height: float, draw: Callable[[Area], tuple[Item, ...]], width: float) -> _Strip:
    return _Strip(height, lambda x, y: draw(Area(x, y, width, height)))


def _paragraph(block: Paragraph, width: float) -> Iterator[_Strip]:
    indent = 5.0 if block.mark else 0.0
    lines = broken(plain(block.text), width - indent, bold=block.bold)
    step = TEXT * _LINE
    for index, line in enumerate(lines):
        is_last = index == len(lines) - 1

        def draw(
            x: float, y: float, line: str = line, mark: str = "" if index else block.mark
        ) -> tuple[Item, ...]:
            text = Text(x + indent, y + TEXT, line, TEXT, bold=block.bold)
            return (*_mark(mark, x, y), text)

        # Two lines stay together; a paragraph is rarely longer than a few.
        keep = block.keep or (index == 0 and not is_last)
        yield _Strip(step + (1.2 if is_last else 0), draw, keep=keep)


def _mark(mark: str, x: float, y: float) -> tuple[Item, ...]:
    if mark == "box":
        return (Rect(Area(x, y + 0.3, _BOX, _BOX), PAPER, Pen(INK, THIN)),)
    return (Text(x + 0.8, y + TEXT, mark, TEXT),) if mark else ()


def _table(table: Table, width: float) -> Iterator[_Strip]:
    shares = sum(column.share for column in table.columns)
    free = width - _CELL_GAP * (len(table.columns) - 1)
    wide = [free * column.share / shares for column in table.columns]
    heads = _row([column.head for column in table.columns], table.columns, wide, bold=True)
    heads = _ruled(heads, width, Pen(INK, MEDIUM))
    yield _Strip(heads.height, heads.draw, keep=True)
    for number, cells in enumerate(table.rows):
        row = _row(cells, table.columns, wide, bold=False)
        pen = Pen(INK, THIN) if number in table.ruled else Pen(GREY, 0.08)
        ruled = _ruled(row, width, pen)
        yield _Strip(ruled.height, ruled.draw, again=heads)
    for cells in table.feet:
        foot = _row(cells, table.columns, wide, bold=True)
        yield _Strip(foot.height, foot.draw, again=heads)
    yield _Strip(2.5, lambda _x, _y: ())


def _ruled(strip: _Strip, width: float, pen: Pen) -> _Strip:
    def draw(x: float, y: float) -> tuple[Item, ...]:
        base = y + strip.height + 0.1
        return (*strip.draw(x, y), Line(x, base, x + width, base, pen))

    return _Strip(strip.height + 0.7, draw)


def _row(
    cells: Sequence[str | int], columns: Sequence[Column], wide: Sequence[float], *, bold: bool
) -> _Strip:
    lines = [
        broken(plain(cell), room, bold=bold) if isinstance(cell, str) else []
        for cell, room in zip(cells, wide, strict=True)
    ]
    high = max(1, *(len(cell) for cell in lines)) * TEXT * _LINE + 0.6

    def draw(x: float, y: float) -> tuple[Item, ...]:
        items: list[Item] = []
        left = x
        for cell, texts, column, room in zip(cells, lines, columns, wide, strict=True):
            at = {"start": left, "middle": left + room / 2, "end": left + room}[column.anchor]
            for index, text in enumerate(texts):
                base = y + 0.6 + TEXT + index * TEXT * _LINE
                items.append(Text(at, base, text, TEXT, column.anchor, bold))
            if isinstance(cell, int) and cell:
                start = at - boxes_width(cell) if column.anchor == "end" else left
                for place, box in tick_boxes(cell, start):
                    items.append(Rect(Area(place, y + 0.9, box, 2.6), PAPER, Pen(INK, THIN)))
            left += room + _CELL_GAP
        return tuple(items)

    return _Strip(high, draw)
