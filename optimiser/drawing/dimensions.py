"""Overall dimensions: a line from point to point with an arrow head at each end and its text."""

from __future__ import annotations

from optimiser.drawing.labels import Block, put
from optimiser.drawing.scene import FINE, INK, Item, Line, Pen, Polygon
from optimiser.units import mm

_HEAD = (1.8, 0.5)


def signed(size: int) -> str:
    """Write a distance in tenths from the centre line: right of it plus, left of it minus."""
    return f"{'+' if size > 0 else '−' if size < 0 else ''}{mm(abs(size))}"


def dimension_across(x1: float, x2: float, y: float, text: str) -> tuple[Item, ...]:
    """Return a level dimension from `x1` to `x2` at height `y` of the paper."""
    long, half = _HEAD
    return (
        Line(x1, y, x2, y, Pen(INK, FINE)),
        *(Line(x, y - 1.2, x, y + 1.2, Pen(INK, FINE)) for x in (x1, x2)),
        Polygon(((x1, y), (x1 + long, y - half), (x1 + long, y + half)), INK),
        Polygon(((x2, y), (x2 - long, y - half), (x2 - long, y + half)), INK),
        *put(Block((text,), bold=(0,)), (x1 + x2) / 2, y).items,
    )


def dimension_up(x: float, y1: float, y2: float, text: str) -> tuple[Item, ...]:
    """Return an upright dimension from `y1` (upper) to `y2` (lower) at `x` of the paper."""
    long, half = _HEAD
    return (
        Line(x, y1, x, y2, Pen(INK, FINE)),
        *(Line(x - 1.2, y, x + 1.2, y, Pen(INK, FINE)) for y in (y1, y2)),
        Polygon(((x, y1), (x - half, y1 + long), (x + half, y1 + long)), INK),
        Polygon(((x, y2), (x - half, y2 - long), (x + half, y2 - long)), INK),
        *put(Block((text,), bold=(0,)), x, (y1 + y2) / 2, upright=True).items,
    )
