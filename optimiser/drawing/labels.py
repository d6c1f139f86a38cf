"""Labels that keep clear of each other: blocks of text with a white ground, and where they fit.

A label is tried level first, then upright, from the middle of its room outwards, and never over
what already stands there. Whoever asks gets None when it fits nowhere, and then leads the label
out or turns it into a key number.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from optimiser.drawing.hatch import MARK_SIZE
from optimiser.drawing.letters import text_width
from optimiser.drawing.scene import (
    INK,
    PAPER,
    SMALLEST_TEXT,
    Area,
    Item,
    Pen,
    Polygon,
    Polyline,
    Rect,
    Text,
)

Glyph: TypeAlias = Callable[[float, float], tuple[Item, ...]]

LINE = 1.24  # distance between baselines, as a share of the text size
_PAD = 0.35
# Height of a line's letters, and from their middle down to the baseline, both as shares of size.
_TALL = 1.05
_RISE = 0.35
# Shares of the free room at which a label is tried, from the middle outwards.
_TRIES = (0.5, 0.4, 0.6, 0.25, 0.75, 0.1, 0.9, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of text under each other, with glyphs (such as a job mark) before the first."""

    lines: tuple[str, ...]
    glyphs: tuple[Glyph, ...] = ()
    bold: tuple[int, ...] = ()
    size: float = SMALLEST_TEXT

    @property
    def length(self) -> float:
        """Return the room it takes in the direction of reading."""
        texts = (
            text_width(line, self.size, bold=index in self.bold)
            for index, line in enumerate(self.lines)
        )
        return max(texts, default=0) + self._glyph_room + 2 * _PAD

    @property
    def depth(self) -> float:
        """Return the room it takes across the direction of reading."""
        text = ((len(self.lines) - 1) * LINE + _TALL) * self.size
        return max(text, MARK_SIZE if self.glyphs else 0) + 0.1

    @property
    def _glyph_room(self) -> float:
        return len(self.glyphs) * (MARK_SIZE + 0.6)


@dataclass(frozen=True, slots=True)
class Placed:
    """A label in its place."""

    area: Area
    items: tuple[Item, ...]


def room_of(block: Block, x: float, y: float, *, upright: bool = False) -> Area:
    """Return the room that `put` takes."""
    length, depth = block.length, block.depth
    size = (depth, length) if upright else (length, depth)
    return Area(x - size[0] / 2, y - size[1] / 2, *size)


def put(block: Block, x: float, y: float, *, upright: bool = False) -> Placed:
    """Return the block centred on (x, y), upright or level, on its white ground."""
    length = block.length
    area = room_of(block, x, y, upright=upright)
    items: list[Item] = [Rect(area, PAPER)]
    along = -length / 2 + _PAD
    for glyph in block.glyphs:
        centre = along + MARK_SIZE / 2
        items += glyph(x, y - centre) if upright else glyph(x + centre, y)
        along += MARK_SIZE + 0.6
    middle = (along + length / 2 - _PAD) / 2
    first = ((1 - len(block.lines)) * LINE / 2 + _RISE) * block.size
    for index, line in enumerate(block.lines):
        base = first + index * LINE * block.size
        at = (x + base, y - middle) if upright else (x + middle, y + base)
        bold = index in block.bold
        items.append(Text(*at, line, block.size, "middle", bold, INK, upright))
    return Placed(area, tuple(items))


def fit(
    blocks: Iterable[Block],
    room: Area,
    taken: Sequence[Area],
    *,
    upright: tuple[bool, ...] = (False, True),
    tries: tuple[float, ...] = _TRIES,
) -> Placed | None:
    """Return the first block that fits `room` clear of all that is `taken`, or None."""
    near = [other for other in taken if other.meets(room)]
    for block, turned in itertools.product(blocks, upright):
        size = (block.depth, block.length) if turned else (block.length, block.depth)
        free = room.width - size[0], room.height - size[1]
        if min(free) < 0:
            continue
        for across, down in _from_the_middle(tries):
            area = Area(room.x + free[0] * across, room.y + free[1] * down, *size)
            if not any(area.meets(other) for other in near):
                return put(block, *area.middle, upright=turned)
    return None


def turn_glyph(x: float, y: float) -> tuple[Item, ...]:
    """Return the sign of a quarter turn: a bent arrow, centred on (x, y)."""
    return (
        Polyline(((x - 1.4, y + 1.5), (x + 1.0, y + 1.5), (x + 1.0, y - 0.3)), Pen(INK, 0.3)),
        Polygon(((x + 1.0, y - 1.9), (x + 0.1, y - 0.2), (x + 1.9, y - 0.2)), INK),
    )


@lru_cache(maxsize=64)
def _from_the_middle(tries: tuple[float, ...]) -> list[tuple[float, float]]:
    pairs = itertools.product(tries, tries)
    return sorted(pairs, key=lambda pair: abs(pair[0] - 0.5) + abs(pair[1] - 0.5))
