"""The only module that knows fpdf2: pages of the drawings in, one PDF out, as vectors.

Takes the same scenes as the SVG writer and draws the same marks in the same places. Both faces are
embedded as subsets. A character that cannot be shown rightly is printed as � (see `shown`).
The same pages give the same bytes: the file carries a fixed date, since the library reads no clock.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Container, Iterator, Sequence
from itertools import cycle
from typing import TYPE_CHECKING

from optimiser.documents.fonts import bold, regular
from optimiser.documents.made import MADE
from optimiser.drawing.scene import (
    Item,
    Line,
    Page,
    Pen,
    Polygon,
    Polyline,
    Rect,
    Stroke,
    Strokes,
    Text,
)

if TYPE_CHECKING:
    from fpdf import FPDF
    from fpdf.enums import RenderStyle
    from fpdf.fonts import TTFFont

_FACE = "DejaVu Sans"
_POINT = 72 / 25.4
MISSING = "�"
# Letters that are written from right to left, or change with their neighbours: Unicode's classes
# (UAX 9) for Hebrew, Arabic and the digits that go with it. The writer sets letter beside letter.
_RIGHT_TO_LEFT = frozenset({"R", "AL", "AN"})


def pdf_bytes(pages: Sequence[Page], *, title: str) -> bytes:
    """Return the pages as one PDF file, each at its own size, with a bookmark for each title.

    `title` names the file in a viewer. Raises ValueError without a page.
    """
    if not pages:
        raise ValueError("a document needs a page")
    writer = _Writer(title)
    last = None
    for page in pages:
        writer.add(page, bookmark=page.title != last)
        last = page.title
    return writer.content()


def shown(text: str, glyphs: Container[int]) -> str:
    """Return `text` with � for each character that the face has no glyph for or cannot set.

    Not set are letters written from right to left, and marks that combine with the letter before
    where the two have no glyph in one.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(
        letter if _is_set(letter, glyphs) else MISSING
        for letter in unicodedata.normalize("NFC", text)
    )


def _is_set(letter: str, glyphs: Container[int]) -> bool:
    if ord(letter) not in glyphs or unicodedata.combining(letter):
        return False
    return unicodedata.bidirectional(letter) not in _RIGHT_TO_LEFT


def dashed(line: Stroke, dashes: tuple[float, ...]) -> Iterator[Stroke]:
    """Yield the strokes of a line whose pattern has more than one dash, else the line itself.

    The library's own dash pattern is one dash and one gap; the centre line of a drawing has more.
    """
    x1, y1, x2, y2 = line
    length = math.dist((x1, y1), (x2, y2))
    if len(dashes) <= 2 or length == 0:
        yield line
        return
    along, steps = 0.0, cycle(enumerate(dashes))
    while along < length:
        place, step = next(steps)
        end = min(along + step, length)
        if place % 2 == 0:
            first, last = along / length, end / length
            dx, dy = x2 - x1, y2 - y1
            yield x1 + dx * first, y1 + dy * first, x1 + dx * last, y1 + dy * last
        along = end


class _Writer:
    """One PDF under way; remembers pen and colours, so that the file repeats none of them."""

    def __init__(self, title: str) -> None:
        from fpdf import FPDF
        from fpdf.enums import RenderStyle

        # Given as text, each rectangle would look its style up anew.
        self._styles = {
            (True, False): RenderStyle.D,
            (False, True): RenderStyle.F,
            (True, True): RenderStyle.DF,
        }
        self._pdf: FPDF = FPDF(unit="mm")
        self._pdf.set_auto_page_break(auto=False)
        self._pdf.set_creation_date(MADE)
        self._pdf.set_title(title)
        self._pdf.set_lang("en-GB")
        self._pdf.set_creator("Scantling")
        self._pdf.set_display_mode("fullpage")
        for style, face in (("", regular()), ("B", bold())):
            self._pdf.add_font(_FACE, style, face)
        self._glyphs = {
            is_bold: frozenset(self._face(is_bold=is_bold).cmap) for is_bold in (False, True)
        }
        self._state: dict[str, object] = {}

    def _face(self, *, is_bold: bool) -> TTFFont:
        self._pdf.set_font(_FACE, "B" if is_bold else "", 10)
        face = self._pdf.current_font
        from fpdf.fonts import TTFFont

        assert isinstance(face, TTFFont)
        return face

    def content(self) -> bytes:
        return bytes(self._pdf.output())

    def add(self, page: Page, *, bookmark: bool) -> None:
        self._pdf.add_page(format=(page.width, page.height))
        self._state.clear()
        if bookmark:
            self._pdf.start_section(shown(page.title, self._glyphs[False]))
        for item in page.items:
            self._draw(item)

    def _draw(self, item: Item) -> None:
        pdf = self._pdf
        match item:
            case Rect(area, fill, pen):
                style = self._style(fill, pen)
                if style:
                    pdf.rect(area.x, area.y, area.width, area.height, style=style)
            case Line(x1, y1, x2, y2, pen):
                self._take(pen)
                for stroke in dashed((x1, y1, x2, y2), pen.dashes):
                    pdf.line(*stroke)
            case Polyline(points, pen):
                self._take(pen)
                pdf.polyline(points)
            case Polygon(points, fill, pen):
                style = self._style(fill, pen)
                if style:
                    pdf.polygon(points, style=style)
            case Strokes(lines, pen):
                self._take(pen)
                for x1, y1, x2, y2 in lines:
                    pdf.line(x1, y1, x2, y2)
            case Text():
                self._write(item)

    def _style(self, fill: str, pen: Pen | None) -> RenderStyle | None:
        """Take pen and fill; return how to draw with them, None where there is nothing to draw."""
        if pen is not None:
            self._take(pen)
        if fill != "none" and self._changed("fill", fill):
            self._pdf.set_fill_color(fill)
        return self._styles.get((pen is not None, fill != "none"))

    def _take(self, pen: Pen) -> None:
        if self._changed("colour", pen.colour):
            self._pdf.set_draw_color(pen.colour)
        if self._changed("weight", pen.weight):
            self._pdf.set_line_width(pen.weight)
        if self._changed("dashes", pen.dashes):
            dash, gap = pen.dashes if len(pen.dashes) == 2 else (0, 0)
            self._pdf.set_dash_pattern(dash=dash, gap=gap)

    def _write(self, text: Text) -> None:
        pdf = self._pdf
        words = shown(text.text, self._glyphs[text.bold])
        if not words:
            return
        pdf.set_font(_FACE, "B" if text.bold else "", text.size * _POINT)
        if self._changed("ink", text.colour):
            pdf.set_text_color(text.colour)
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
        back = share * pdf.get_string_width(words) if share else 0.0
        if text.upright:
            with pdf.rotation(90, text.x, text.y):
                pdf.text(text.x - back, text.y, words)
            # The state of the page is again what it was before the turn.
            self._state.clear()
        else:
            pdf.text(text.x - back, text.y, words)

    def _changed(self, what: str, value: object) -> bool:
        if self._state.get(what) == value:
            return False
        self._state[what] = value
        return True
