"""The only module that knows svgwrite: a page in, SVG text out.

Writes rect, line, polyline, polygon, path and text with plain attributes and nothing else, so that
every converter gives the same picture. Coordinates are rounded to a thousandth of a millimetre of
paper, which keeps the text short and the same on every machine.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeAlias

import svgwrite
import svgwrite.base
import svgwrite.container

from optimiser.drawing.scene import (
    Area,
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

_Attributes: TypeAlias = dict[str, str]
# What the windows of a drawing show: the name is used within its own file only.
_SHOWN = "d"


def svg_text(page: Page) -> str:
    """Return the page as SVG text, sized in mm; every text in it is escaped."""
    size = f"{page.width:g}mm", f"{page.height:g}mm"
    drawing = _drawing(size, (page.width, page.height), page.title)
    # It would stand there empty.
    drawing.elements.remove(drawing.defs)
    _add(drawing, drawing, page.items)
    return str(drawing.tostring())


def windows_text(
    title: str,
    pixels: tuple[int, int],
    paper: tuple[float, float],
    shown: Iterable[Item],
    windows: Sequence[tuple[Area, Area]],
    items: Sequence[Item],
) -> str:
    """Return SVG text that holds the marks `shown` once and looks at them through `windows`.

    It is `pixels` wide and high and holds `paper` mm. A window is where it stands on that paper and
    the area of the marks that it shows. The first of `items` lies below the windows, the others on
    top of them.
    """
    drawing = _drawing((str(pixels[0]), str(pixels[1])), paper, title)
    _add(drawing, drawing.defs.add(drawing.g(id=_SHOWN)), shown)
    _add(drawing, drawing, items[:1])
    for at, of in windows:
        view = " ".join(map(_n, (of.x, of.y, of.width, of.height)))
        place, size = (_n(at.x), _n(at.y)), (_n(at.width), _n(at.height))
        window = drawing.svg(place, size, viewBox=view)
        window.elements.remove(window.defs)
        window.add(drawing.use(f"#{_SHOWN}"))
        drawing.add(window)
    _add(drawing, drawing, items[1:])
    return str(drawing.tostring())


def _drawing(size: tuple[str, str], paper: tuple[float, float], title: str) -> svgwrite.Drawing:
    # Attributes are not looked up in the standard's tables here: the tests do that for each kind of
    # mark, as it would take longer than all the rest.
    view = f"0 0 {paper[0]:.7g} {paper[1]:.7g}"
    drawing = svgwrite.Drawing(size=size, viewBox=view, debug=False)
    drawing["role"] = "img"
    drawing["aria-label"] = title
    return drawing


def _add(drawing: svgwrite.Drawing, onto: svgwrite.base.BaseElement, items: Iterable[Item]) -> None:
    for item in items:
        onto.add(_element(drawing, item))


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
            steps = (f"M{_n(a)} {_n(b)}L{_n(c)} {_n(d)}" for a, b, c, d in lines)
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
        more["transform"] = f"rotate(-90 {x} {y})"
    return drawing.text(text.text, insert=(x, y), fill=text.colour, **more)


def _outline(pen: Pen | None) -> _Attributes:
    if pen is None:
        return {"stroke": "none"}
    outline = {"stroke": pen.colour, "stroke_width": f"{pen.weight:g}"}
    if pen.dashes:
        outline["stroke_dasharray"] = " ".join(f"{dash:g}" for dash in pen.dashes)
    return outline


def _points(points: tuple[Point, ...]) -> list[tuple[str, str]]:
    return [(_n(x), _n(y)) for x, y in points]


def _n(value: float) -> str:
    # Adding 0.0 turns minus nought, which differs in text only, into nought.
    return f"{round(float(value), 3) + 0.0:.7g}"
