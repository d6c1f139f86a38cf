"""The only module that knows svgwrite: a page in, SVG text out.

Writes rect, line, polyline, polygon, path and text with plain attributes and nothing else, so that
every converter gives the same picture. Coordinates are rounded to a thousandth of a millimetre of
paper, which keeps the text short and the same on every machine.
"""

from __future__ import annotations

from typing import TypeAlias

import svgwrite

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

_Attributes: TypeAlias = dict[str, str | float]


def svg_text(page: Page) -> str:
    """Return the page as SVG text, sized in mm; every text in it is escaped."""
    drawing = svgwrite.Drawing(
        size=(f"{page.width:g}mm", f"{page.height:g}mm"),
        viewBox=f"0 0 {page.width:g} {page.height:g}",
        debug=False,
    )
    drawing["role"] = "img"
    drawing["aria-label"] = page.title
    drawing.elements.remove(drawing.defs)
    for item in page.items:
        drawing.add(_element(drawing, item))
    return str(drawing.tostring())


def _element(drawing: svgwrite.Drawing, item: Item) -> svgwrite.base.BaseElement:
    match item:
        case Rect(area, fill, pen):
            corner, size = (_n(area.x), _n(area.y)), (_n(area.width), _n(area.height))
            return drawing.rect(corner, size, fill=fill, **_outline(pen))
        case Line(x1, y1, x2, y2, pen):
            return drawing.line((_n(x1), _n(y1)), (_n(x2), _n(y2)), **_outline(pen))
        case Polyline(points, pen):
            return drawing.polyline(_points(points), fill="none", **_outline(pen))
        case Polygon(points, fill, pen):
            return drawing.polygon(_points(points), fill=fill, **_outline(pen))
        case Strokes(lines, pen):
            steps = (f"M{_n(a):g} {_n(b):g}L{_n(c):g} {_n(d):g}" for a, b, c, d in lines)
            return drawing.path(d="".join(steps), fill="none", **_outline(pen))
        case Text():
            return _text(drawing, item)


def _text(drawing: svgwrite.Drawing, text: Text) -> svgwrite.base.BaseElement:
    x, y = _n(text.x), _n(text.y)
    more: _Attributes = {"font_size": _n(text.size), "font_family": "sans-serif"}
    if text.anchor != "start":
        more["text_anchor"] = text.anchor
    if text.bold:
        more["font_weight"] = "bold"
    if text.upright:
        more["transform"] = f"rotate(-90 {x:g} {y:g})"
    return drawing.text(text.text, insert=(x, y), fill=text.colour, **more)


def _outline(pen: Pen | None) -> _Attributes:
    if pen is None:
        return {"stroke": "none"}
    outline: _Attributes = {"stroke": pen.colour, "stroke_width": pen.weight}
    if pen.dashes:
        outline["stroke_dasharray"] = " ".join(f"{dash:g}" for dash in pen.dashes)
    return outline


def _points(points: tuple[Point, ...]) -> list[Point]:
    return [(_n(x), _n(y)) for x, y in points]


def _n(value: float) -> float:
    # Adding 0.0 turns minus nought, which differs in text only, into nought.
    return round(float(value), 3) + 0.0
