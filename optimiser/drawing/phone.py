"""A drawing set anew for a phone: one view under the other, in text that can be read on it.

A page made for paper is far wider than a phone: shrunk to it, a figure would be 3 px high. Here
head, legend and lists are set for the narrow width, each view stands below the one before, and a
view wider than the phone is first shown whole, then in parts from left to right that overlap. The
drawing itself is the one on paper, to its scale and with its marks.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from optimiser.drawing.letters import plain, text_width, wrap
from optimiser.drawing.page import footer
from optimiser.drawing.scene import (
    GREY,
    INK,
    MEDIUM,
    PAPER,
    SMALLEST_TEXT,
    THIN,
    Area,
    Item,
    Line,
    Page,
    Pen,
    Polygon,
    Polyline,
    Rect,
    Strokes,
    Text,
    Told,
)
from optimiser.drawing.svg import windows_text

# A common phone's width in CSS pixels, and the least text that reads well on it: common practice,
# no source. Both together say how much paper the screen shows.
PIXELS, _LEAST_PIXELS = 390, 10
WIDTH = PIXELS * SMALLEST_TEXT / _LEAST_PIXELS
_MARGIN = 3.0
_ROOM = WIDTH - 2 * _MARGIN
_TITLE_SIZE, _LINE = 4.2, 3.4
# Parts of a view share so much of it at the least, and a part may begin so much sooner if that
# cuts through fewer words, mm of paper.
_SHARED, _SOONER = 8.0, 14.0
# A view lower than this is read without a small one of the whole.
_NO_WHOLE = 60.0
_GAP = 4.0
_EDGE = Pen(GREY, THIN, (1.6, 0.9))


@dataclass(slots=True)
class _Column:
    """What stands on the phone so far: its own marks, and windows onto the drawing."""

    y: float = _MARGIN
    items: list[Item] = field(default_factory=list)
    windows: list[tuple[Area, Area]] = field(default_factory=list)

    def write(self, text: str, size: float = SMALLEST_TEXT, *, bold: bool = False) -> None:
        """Add a text, broken into as many lines as it needs."""
        for line in wrap(plain(text), _ROOM, size, bold=bold):
            self.y += size * 1.3
            self.items.append(Text(_MARGIN, self.y, line, size, bold=bold))

    def show(self, part: Area, width: float) -> Area:
        """Add a window onto `part` of the drawing, `width` mm wide, and return where it is."""
        shown = Area(_MARGIN, self.y, width, part.height * width / part.width)
        self.windows.append((shown, part))
        self.y = shown.bottom
        return shown


def phone_svg(page: Page) -> str:
    """Return a page for a phone as SVG text: 390 px wide, as high as it needs, its text 10 px.

    Raises ValueError for a page that was made in one piece.
    """
    told = page.told
    if told is None:
        raise ValueError("only a page that says what it is made of can be set anew")
    column = _Column()
    column.write(told.heading, _TITLE_SIZE, bold=True)
    column.y += 1
    column.write(" · ".join((*told.facts, *([told.note] if told.note else []))))
    column.y += 2
    column.items.append(Line(_MARGIN, column.y, WIDTH - _MARGIN, column.y, Pen(INK, MEDIUM)))
    bounds = [(_bounds(item), isinstance(item, Text)) for item in told.items]
    for view in told.views:
        column.y += _GAP
        _show(column, view, bounds)
    column.y += _GAP
    _legend(column, told)
    return _written(page, told, column)


def _show(column: _Column, view: Area, bounds: Sequence[tuple[Area, bool]]) -> None:
    """Show a view, in parts where it is wider than the phone."""
    inside = [(area, word) for area, word in bounds if view.meets(area.grown(0.01))]
    if not inside:
        return
    drawn = _around([area for area, _ in inside], view)
    if drawn.width <= _ROOM:
        column.show(drawn, drawn.width)
        return
    words = [area for area, word in inside if word]
    parts: list[Area] = []
    for part in _parts(drawn, words):
        held = [area for area, _ in inside if part.meets(area)]
        if held:
            # Cut in height only: the parts are to overlap as said, whatever stands at their edges.
            cropped = _around(held, part)
            parts.append(Area(part.x, cropped.y, part.width, cropped.height))
    if drawn.height > _NO_WHOLE:
        _show_whole(column, drawn, parts)
    for number, part in enumerate(parts, start=1):
        column.y += _GAP / 2
        column.write(f"{number} of {len(parts)}, from the left", bold=True)
        column.y += 1.5
        shown = column.show(part, part.width)
        column.items.append(Rect(shown, "none", _EDGE))
        column.y += 1


def _show_whole(column: _Column, drawn: Area, parts: Sequence[Area]) -> None:
    """Show a view as a whole, too small to read, with the parts that follow and their numbers."""
    column.write("the whole, and its parts below", bold=True)
    column.y += 1.5 + 1.3 * SMALLEST_TEXT
    whole = column.show(drawn, _ROOM)
    scale = _ROOM / drawn.width
    for number, part in enumerate(parts, start=1):
        left = whole.x + (part.x - drawn.x) * scale
        edge = Area(left, whole.y - 1, part.width * scale, whole.height + 2)
        column.items.append(Rect(edge, "none", _EDGE))
        middle = edge.middle[0]
        column.items.append(Text(middle, edge.y - 0.8, str(number), anchor="middle", bold=True))
    column.y += 2


def _parts(drawn: Area, words: Sequence[Area]) -> Iterator[Area]:
    """Yield parts of a view as wide as the phone, from the left, that cut few words at their edges.

    What is cut at an edge of one stands whole in its neighbour wherever the overlap is as wide.
    """
    count = math.ceil((drawn.width - _SHARED) / (_ROOM - _SHARED))
    step = (drawn.width - _ROOM) / max(1, count - 1)
    left = drawn.x
    for number in range(count):
        wanted = drawn.x + number * step
        if 0 < number < count - 1:
            # Never further than leaves the shared strip on the left.
            latest = min(wanted, left + _ROOM - _SHARED)
            # Nor so soon that the parts after it cannot reach the right end with theirs.
            after = count - 1 - number
            earliest = drawn.right - _ROOM - after * (_ROOM - _SHARED)
            sooner = max(0.0, min(_SOONER, latest - left, latest - earliest))
            tries = [latest - shift for shift in range(int(sooner) + 1)]
            left = min(tries, key=lambda x: (_cut(words, x), -x))
        else:
            left = wanted
        yield Area(left, drawn.y, _ROOM, drawn.height)


def _cut(words: Sequence[Area], x: float) -> int:
    """Return how many words an upright edge at `x` cuts, and one a phone's width further on."""
    edges = x, x + _ROOM
    return sum(word.x < edge < word.right for word in words for edge in edges)


def _around(areas: Sequence[Area], view: Area) -> Area:
    """Return the least area that holds what lies in `view`, no more than that."""
    left = max(view.x, min(area.x for area in areas) - 0.5)
    right = min(view.right, max(area.right for area in areas) + 0.5)
    top = max(view.y, min(area.y for area in areas) - 0.5)
    bottom = min(view.bottom, max(area.bottom for area in areas) + 0.5)
    return Area(left, top, max(right - left, 1.0), max(bottom - top, 1.0))


def _bounds(item: Item) -> Area:
    """Return the paper that a mark takes."""
    match item:
        case Rect(area):
            return area
        case Line(x1, y1, x2, y2):
            points = [(x1, y1), (x2, y2)]
        case Polyline(points_of) | Polygon(points_of):
            points = list(points_of)
        case Strokes(lines):
            points = [point for a, b, c, d in lines for point in ((a, b), (c, d))]
        case Text():
            return _word(item)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Area(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def _word(text: Text) -> Area:
    long = text_width(text.text, text.size, bold=text.bold)
    back = {"start": 0.0, "middle": long / 2, "end": long}[text.anchor]
    if text.upright:
        return Area(text.x - text.size, text.y - long + back, text.size * 1.2, long)
    return Area(text.x - back, text.y - text.size, long, text.size * 1.2)


def _legend(column: _Column, told: Told) -> None:
    """Set the legend at the foot: as on paper, in as many rows as the phone asks for."""
    _, height = footer(told.entries, told.caution, Area(_MARGIN, 0, _ROOM, 1000))
    foot, _ = footer(told.entries, told.caution, Area(_MARGIN, column.y, _ROOM, height))
    column.items += foot
    column.y += height


def _written(page: Page, told: Told, column: _Column) -> str:
    high = column.y + _MARGIN
    ground = Rect(Area(0, 0, WIDTH, high), PAPER)
    return windows_text(
        page.title,
        pixels=(PIXELS, round(high * PIXELS / WIDTH)),
        paper=(WIDTH, high),
        shown=told.items,
        windows=column.windows,
        items=[ground, *column.items],
    )
