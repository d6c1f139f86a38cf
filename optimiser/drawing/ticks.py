"""Boxes to tick at the saw.

A cut that is made on several equal pieces has a box for each, up to three; for more it has one
wide box for tally strokes.
"""

from __future__ import annotations

from collections.abc import Sequence

from optimiser.drawing.letters import text_width
from optimiser.drawing.scene import INK, PAPER, THIN, Area, Item, Pen, Rect, Text
from optimiser.drawing.table import BOX

_MOST_BOXES = 3
_BETWEEN = 0.8
_TALLY = _MOST_BOXES * BOX + (_MOST_BOXES - 1) * _BETWEEN
# Text follows its boxes at this distance, the next cut at that one, in mm of paper.
_AFTER, _APART = 1.0, 4.5
LINE = 4.0


def tick_boxes(count: int, at: float = 0.0) -> tuple[tuple[float, float], ...]:
    """Return place and width (mm) of the boxes of a cut that is made on `count` pieces."""
    if count > _MOST_BOXES:
        return ((at, _TALLY),)
    return tuple((at + number * (BOX + _BETWEEN), BOX) for number in range(count))


def boxes_width(count: int) -> float:
    """Return the width of paper that the boxes of such a cut take, in mm."""
    at, wide = tick_boxes(count)[-1]
    return at + wide


def tick_line(
    cuts: Sequence[str], count: int, *, left: float, right: float, top: float
) -> tuple[tuple[Item, ...], float]:
    """Return cuts in their order, each behind its boxes, from `left` to `right`, and their height.

    Where they are more than one line holds, they run on in the next.
    """
    items: list[Item] = []
    x, y = left, top
    boxes = boxes_width(count)
    for cut in cuts:
        wide = boxes + _AFTER + text_width(cut)
        if x > left and x + wide > right:
            x, y = left, y + LINE
        for at, box in tick_boxes(count, x):
            items.append(Rect(Area(at, y, box, BOX), PAPER, Pen(INK, THIN)))
        items.append(Text(x + boxes + _AFTER, y + BOX - 0.3, cut))
        x += wide + _APART
    return tuple(items), (y + LINE - top if cuts else 0.0)
