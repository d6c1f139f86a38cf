"""Read a drawing back as a reader would see it: its rectangles, texts and their places on paper."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass
from xml.etree import ElementTree

from optimiser.drawing.letters import text_width
from optimiser.drawing.scene import Area

ALLOWED = {"rect", "line", "polyline", "polygon", "path", "text"}
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e-?\d+)?")


@dataclass(frozen=True)
class Written:
    """A text with the paper that its letters take."""

    text: str
    size: float
    area: Area


class Drawing:
    """A parsed drawing."""

    def __init__(self, svg: str) -> None:
        self.root = ElementTree.fromstring(svg)
        self.tags = {_tag(element) for element in self.root}
        box = [float(n) for n in self.root.attrib["viewBox"].split()]
        self.page = Area(*box)
        self.texts = [_written(e) for e in self.root if _tag(e) == "text"]
        self.rects = [e.attrib for e in self.root if _tag(e) == "rect"]

    @property
    def words(self) -> str:
        return "\n".join(written.text for written in self.texts)

    def has_rect(self, width: float, height: float) -> bool:
        """Return whether a rectangle of this size (mm of paper) is drawn."""
        return any(
            abs(float(rect["width"]) - width) < 0.002
            and abs(float(rect["height"]) - height) < 0.002
            for rect in self.rects
        )

    def outside(self) -> list[str]:
        """List what reaches past the edge of the page."""
        spilt = [w.text for w in self.texts if not self.page.holds(w.area)]
        for element in self.root:
            if _tag(element) != "text":
                xs, ys = _extent(element)
                area = Area(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
                if not self.page.holds(area):
                    spilt.append(str(element.attrib))
        return spilt

    def collisions(self) -> list[tuple[str, str]]:
        """List pairs of texts that stand on each other."""
        return [
            (one.text, other.text)
            for one, other in itertools.combinations(self.texts, 2)
            if one.area.grown(-0.05).meets(other.area.grown(-0.05))
        ]


def _tag(element: ElementTree.Element) -> str:
    return element.tag.split("}")[1]


def _written(element: ElementTree.Element) -> Written:
    attributes = element.attrib
    text, size = element.text or "", float(attributes["font-size"])
    length = text_width(text, size, bold=attributes.get("font-weight") == "bold")
    x, y = float(attributes["x"]), float(attributes["y"])
    shift = {"start": 0.0, "middle": length / 2, "end": length}
    start = shift[attributes.get("text-anchor", "start")]
    # Capital letters reach about three quarters of the size above the baseline.
    above, below = 0.74 * size, 0.1 * size
    if "transform" in attributes:
        assert attributes["transform"] == f"rotate(-90 {x:g} {y:g})"
        area = Area(x - above, y + start - length, above + below, length)
    else:
        area = Area(x - start, y - above, length, above + below)
    return Written(text, size, area)


def _extent(element: ElementTree.Element) -> tuple[list[float], list[float]]:
    a = element.attrib
    match _tag(element):
        case "rect":
            x, y = float(a["x"]), float(a["y"])
            return [x, x + float(a["width"])], [y, y + float(a["height"])]
        case "line":
            return [float(a["x1"]), float(a["x2"])], [float(a["y1"]), float(a["y2"])]
        case "path":
            numbers = [float(n) for n in _NUMBER.findall(a["d"])]
        case _:
            numbers = [float(n) for n in _NUMBER.findall(a["points"])]
    return numbers[0::2], numbers[1::2]
