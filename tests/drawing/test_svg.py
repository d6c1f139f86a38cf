"""The text of a drawing: elements and attributes that the standard knows, texts escaped."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest
from svgwrite.validator2 import get_validator

from optimiser.drawing.phone import phone_svg
from optimiser.drawing.scene import (
    INK,
    Area,
    Line,
    Page,
    Pen,
    Polygon,
    Polyline,
    Rect,
    Strokes,
    Text,
)
from optimiser.drawing.svg import svg_text
from optimiser.drawing.wall_set import wall_set
from tests.framing.builders import a_fire, a_tv, framed

SVG = "{http://www.w3.org/2000/svg}"
# Of WAI-ARIA, which SVG 1.1's tables, of 2011, do not know.
ARIA = {"role", "aria-label"}


def check(text: str) -> int:
    """Look up every element and attribute in SVG 1.1's tables, and return how many were read."""
    validator = get_validator("full", debug=True)
    seen = 0
    for element in ET.fromstring(text).iter():
        name = element.tag.removeprefix(SVG)
        known = {
            key.replace("{http://www.w3.org/1999/xlink}", "xlink:"): value
            for key, value in element.attrib.items()
            if key not in ARIA
        }
        validator.check_all_svg_attribute_values(name, known)
        seen += 1
    return seen


def test_every_attribute_of_a_wall_is_one_of_the_standard() -> None:
    """W3C, Scalable Vector Graphics (SVG) 1.1, second edition, 2011, as its tables in svgwrite."""
    for drawing in wall_set(framed(fire=a_fire(), tv=a_tv())):
        assert check(svg_text(drawing.page)) > 50
        assert check(phone_svg(drawing.page)) > 50


def test_the_tables_refuse_what_is_not_in_them() -> None:
    with pytest.raises(ValueError, match="thick"):
        check('<svg xmlns="http://www.w3.org/2000/svg"><line thick="2"/></svg>')


def test_each_kind_of_mark_is_written_with_plain_attributes() -> None:
    pen = Pen("#123456", 0.5, (2.0, 1.0))
    marks = (
        Rect(Area(1, 2, 3, 4.00049), "#ffffff", None),
        Line(0, -0.0, 5, 6, pen),
        Polyline(((0, 0), (1, 1)), pen),
        Polygon(((0, 0), (1, 0), (0, 1)), "none", pen),
        Strokes(((0, 1, 2, 3),), pen),
        Text(7, 8, 'a < b & "c"', 2.5, anchor="end", bold=True, upright=True),
    )

    root = ET.fromstring(svg_text(Page(210, 297, 'Wall "A" & B', marks)))

    assert root.attrib["viewBox"] == "0 0 210 297"
    assert (root.attrib["width"], root.attrib["height"]) == ("210mm", "297mm")
    assert root.attrib["aria-label"] == 'Wall "A" & B'
    line = {"stroke": "#123456", "stroke-width": "0.5", "stroke-dasharray": "2 1"}
    assert [(one.tag.removeprefix(SVG), one.attrib, one.text) for one in root] == [
        ("rect", {"x": "1", "y": "2", "width": "3", "height": "4", "fill": "#ffffff",
                  "stroke": "none"}, None),
        ("line", {"x1": "0", "y1": "0", "x2": "5", "y2": "6", **line}, None),
        ("polyline", {"points": "0,0 1,1", "fill": "none", **line}, None),
        ("polygon", {"points": "0,0 1,0 0,1", "fill": "none", **line}, None),
        ("path", {"d": "M0 1L2 3", "fill": "none", **line}, None),
        ("text", {"x": "7", "y": "8", "fill": INK, "font-size": "2.5",
                  "font-family": "sans-serif", "text-anchor": "end", "font-weight": "bold",
                  "transform": "rotate(-90 7 8)"}, 'a < b & "c"'),
    ]  # fmt: skip
