"""The only module that knows SVG: a page in, its text out.

Writes rect, line, polyline, polygon, path and text with plain attributes and nothing else, so that
every converter gives the same picture. Coordinates are rounded to a thousandth of a millimetre of
paper, which keeps the text short and the same on every machine.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from optimiser.drawing.scene import (
    Item,
    Line,
    Page,
    Pen,
    Point,
    Polygon,
    Polyline,
    Rect,
    Strokes,
    Text,
)

NAMESPACE = "http://www.w3.org/2000/svg"


def svg_text(page: Page) -> str:
    """Return the page as SVG text, sized in mm; every text in it is escaped."""
    size = f'width="{page.width:g}mm" height="{page.height:g}mm"'
    return (
        f'<svg xmlns="{NAMESPACE}" {size} viewBox="0 0 {page.width:g} {page.height:g}" '
        f'role="img" aria-label={quoteattr(page.title)}>{svg_items(page.items)}</svg>'
    )


def svg_items(items: Iterable[Item]) -> str:
    """Return the marks of a page as SVG elements, in their order."""
    return "".join(map(_element, items))


def _element(item: Item) -> str:
    match item:
        case Rect(area, fill, pen):
            place = f'x="{_n(area.x)}" y="{_n(area.y)}"'
            size = f'width="{_n(area.width)}" height="{_n(area.height)}"'
            return f'<rect {place} {size} fill="{fill}"{_outline(pen)}/>'
        case Line(x1, y1, x2, y2, pen):
            ends = f'x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"'
            return f"<line {ends}{_outline(pen)}/>"
        case Polyline(points, pen):
            return f'<polyline points="{_points(points)}" fill="none"{_outline(pen)}/>'
        case Polygon(points, fill, pen):
            return f'<polygon points="{_points(points)}" fill="{fill}"{_outline(pen)}/>'
        case Strokes(lines, pen):
            steps = (f"M{_n(a)} {_n(b)}L{_n(c)} {_n(d)}" for a, b, c, d in lines)
            return f'<path d="{"".join(steps)}" fill="none"{_outline(pen)}/>'
        case Text():
            return _text(item)


def _text(text: Text) -> str:
    x, y = _n(text.x), _n(text.y)
    more = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    more += ' font-weight="bold"' if text.bold else ""
    more += f' transform="rotate(-90 {x} {y})"' if text.upright else ""
    face = f'fill="{text.colour}" font-size="{_n(text.size)}" font-family="sans-serif"'
    return f'<text x="{x}" y="{y}" {face}{more}>{escape(text.text)}</text>'


def _outline(pen: Pen | None) -> str:
    if pen is None:
        return ' stroke="none"'
    dashes = " ".join(f"{dash:g}" for dash in pen.dashes)
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f' stroke="{pen.colour}" stroke-width="{pen.weight:g}"{dashed}'


def _points(points: tuple[Point, ...]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(value: float) -> str:
    # Adding 0.0 turns minus nought, which differs in text only, into nought.
    return f"{round(float(value), 3) + 0.0:.7g}"
