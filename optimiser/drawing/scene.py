"""What a drawing is made of: a few plain marks on a page, in millimetres of paper.

Only what every reader of SVG and every PDF route draws alike: rectangles, lines, polygons, one
path of straight strokes (hatching) and text. Real sizes become paper here through a `View`, which
is the one place where a tenth turns into a fraction of a millimetre. x runs right, y runs down.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

# About 7 point: common practice, no source, for the least that reads well at arm's length.
SMALLEST_TEXT = 2.5

INK = "#1c1c1c"
GREY = "#6e6e6e"
PALE = "#a8a8a8"
TINT = "#e4e4e4"
PAPER = "#ffffff"

FINE = 0.13
THIN = 0.18
MEDIUM = 0.3
BOLD = 0.5

Point: TypeAlias = tuple[float, float]
Stroke: TypeAlias = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Area:
    """An upright rectangle of paper: its upper left corner and its size."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Return the x of the right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """Return the y of the lower edge."""
        return self.y + self.height

    @property
    def middle(self) -> Point:
        """Return the centre."""
        return self.x + self.width / 2, self.y + self.height / 2

    def grown(self, by: float) -> Area:
        """Return the area with `by` more on each side."""
        return Area(self.x - by, self.y - by, self.width + 2 * by, self.height + 2 * by)

    def meets(self, other: Area) -> bool:
        """Return whether the two areas share more than an edge."""
        return (
            self.x < other.x + other.width
            and other.x < self.x + self.width
            and self.y < other.y + other.height
            and other.y < self.y + self.height
        )

    def holds(self, other: Area, slack: float = 1e-6) -> bool:
        """Return whether `other` lies wholly inside."""
        return (
            self.x - slack <= other.x
            and self.y - slack <= other.y
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )


@dataclass(frozen=True, slots=True)
class Pen:
    """How an outline is drawn; `dashes` empty means a whole line."""

    colour: str = INK
    weight: float = THIN
    dashes: tuple[float, ...] = ()


# The line about which a wall is set out: long and short dashes, as on any drawing.
CENTRE = Pen(GREY, THIN, (4.0, 1.0, 1.0, 1.0))


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle, filled, outlined, or both."""

    area: Area
    fill: str = "none"
    pen: Pen | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    pen: Pen = Pen()


@dataclass(frozen=True, slots=True)
class Polyline:
    """An open run of straight lines."""

    points: tuple[Point, ...]
    pen: Pen = Pen()


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed outline, filled, outlined, or both."""

    points: tuple[Point, ...]
    fill: str = "none"
    pen: Pen | None = None


@dataclass(frozen=True, slots=True)
class Strokes:
    """Many separate straight lines that belong together: a hatch."""

    lines: tuple[Stroke, ...]
    pen: Pen = Pen()


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text on its baseline; `upright` text reads from below to above."""

    x: float
    y: float
    text: str
    size: float = SMALLEST_TEXT
    anchor: str = "start"
    bold: bool = False
    colour: str = INK
    upright: bool = False


Item: TypeAlias = Rect | Line | Polyline | Polygon | Strokes | Text


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the legend: what a swatch looks like and what it means."""

    text: str
    swatch: Callable[[Area], tuple[Item, ...]]
    width: float = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a page is made of, for whoever sets it anew on paper of another width.

    `heading`, `facts` and `note` stand at its head, `entries` and `caution` at its foot; `items`
    are all the rest, and `views` the areas in which they lie, in the order of reading.
    """

    heading: str
    facts: tuple[str, ...]
    note: str
    entries: tuple[Entry, ...]
    caution: str
    items: tuple[Item, ...]
    views: tuple[Area, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """One page of `width` × `height` mm and what is on it; `title` is what a screen reader says."""

    width: float
    height: float
    title: str
    items: tuple[Item, ...]
    told: Told | None = None


class Paper(Enum):
    """The sizes of paper (ISO 216) that drawings are made for: shorter and longer side in mm."""

    A4 = (210.0, 297.0)
    A3 = (297.0, 420.0)

    @property
    def upright(self) -> tuple[float, float]:
        """Return width and height of the page held upright."""
        return self.value

    @property
    def level(self) -> tuple[float, float]:
        """Return width and height of the page held level."""
        short, long = self.value
        return long, short


@dataclass(frozen=True, slots=True)
class View:
    """Where real sizes in tenths land on paper: 1 : `scale`, the real origin at `left`, `bottom`.

    Real y (or z) runs up, paper y runs down.
    """

    left: float
    bottom: float
    scale: float

    def size(self, tenths: int) -> float:
        """Return a real size in mm of paper."""
        return tenths / 10 / self.scale

    def x(self, tenths: int) -> float:
        """Return where a real x lies on paper."""
        return self.left + self.size(tenths)

    def y(self, tenths: int) -> float:
        """Return where a real height lies on paper."""
        return self.bottom - self.size(tenths)

    def area(self, x: int, y: int, width: int, height: int) -> Area:
        """Return the paper of a real rectangle given by its lower left corner."""
        return Area(self.x(x), self.y(y + height), self.size(width), self.size(height))


# Common practice, no source: reduction scales of drawings, with steps between to fill the page.
SCALES = (1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5, 8, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100)


def scale_for(sizes: Sequence[int], rooms: Sequence[float]) -> float:
    """Return the largest usual scale at which every size (tenths) fits its room (mm of paper)."""
    needed = max(size / 10 / room for size, room in zip(sizes, rooms, strict=True))
    return next((scale for scale in SCALES if scale >= needed), math.ceil(needed / 100) * 100.0)


def scale_text(scale: float) -> str:
    """Write a scale as drawings do."""
    return f"1:{scale:g}"
