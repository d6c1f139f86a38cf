"""Flags: labels that stand in a row beside an edge, each led to its point on that edge.

Points on an edge may lie closer than their labels are wide. The labels then step aside just as far
as they must, in the order of their points, so that no two leaders cross.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from optimiser.drawing.letters import shorten, text_width
from optimiser.drawing.scene import (
    FINE,
    GREY,
    SMALLEST_TEXT,
    Item,
    Pen,
    Polyline,
    Text,
)

_LINE = 3.1  # room of one line of the smallest text across its direction
_GAP = 0.5
_LEADER = 3.4
# A leader that slants far gets more height, so that neighbours stay apart.
_LONGEST_LEADER = 9.0
# Common sense: a level label further than this from its point is harder to follow than upright.
_MOST_ASIDE = 9.0
_LONGEST = 34.0


class Side(Enum):
    """The side of the edge on which the flags stand."""

    ABOVE = "above"
    BELOW = "below"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Flag:
    """A label for the point `at` of an edge. `lines`: one or two; the first may be bold."""

    at: float
    lines: tuple[str, ...]
    bold: bool = False

    @property
    def joined(self) -> str:
        """Return the lines as one."""
        return " | ".join(self.lines)


@dataclass(frozen=True, slots=True)
class FlagRow:
    """Flags in their places, the depth of paper they take beside the edge, and how many show."""

    items: tuple[Item, ...]
    depth: float
    shown_every: int


def spread(
    wanted: Sequence[float], widths: Sequence[float], low: float, high: float
) -> tuple[float, ...] | None:
    """Return centres in the order of `wanted` (ascending), clear of each other, within low–high.

    The sum of squared shifts is the least possible (pool adjacent violators: Ayer et al. 1955).
    None if the widths and gaps exceed the room.
    """
    if not wanted:
        return ()
    offsets = [0.0]
    for left, right in pairwise(widths):
        offsets.append(offsets[-1] + (left + right) / 2 + _GAP)
    least, most = low + widths[0] / 2, high - widths[-1] / 2 - offsets[-1]
    if least > most + 1e-9:
        return None
    pools: list[tuple[float, int]] = []
    for want, offset in zip(wanted, offsets, strict=True):
        total, count = want - offset, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            before = pools.pop()
            total, count = total + before[0], count + before[1]
        pools.append((total, count))
    starts = [min(max(total / count, least), most) for total, count in pools for _ in range(count)]
    return tuple(start + offset for start, offset in zip(starts, offsets, strict=True))


def flag_row(flags: Sequence[Flag], *, edge: float, side: Side, low: float, high: float) -> FlagRow:
    """Return flags above or below a level edge at y = `edge`, between x = `low` and `high`.

    Level if all fit near their points, else upright; if even that is too many, every second (third
    …) with the first and the last.
    """
    ordered = sorted(flags, key=lambda flag: (flag.at, flag.lines))
    if not ordered:
        return FlagRow((), 0, 1)
    # Figures nearer than a digit is wide read as one: −44 and 0 as −440.
    apart = text_width("0") - _GAP
    widths = [
        max(text_width(line, bold=flag.bold) for line in flag.lines) + apart for flag in ordered
    ]
    centres = spread([flag.at for flag in ordered], widths, low, high)
    if centres is not None and _near(ordered, centres):
        return _level_row(ordered, centres, edge, side)
    for every in range(1, len(ordered) + 1):
        some = _every(ordered, every)
        centres = spread([flag.at for flag in some], [_LINE] * len(some), low, high)
        if centres is not None:
            return _upright_row(some, centres, edge, side, every)
    return FlagRow((), 0, len(ordered))


def flag_column(
    flags: Sequence[Flag], *, edge: float, side: Side, low: float, high: float
) -> FlagRow:
    """Return flags left or right of an upright edge at x = `edge`, between y = `low` and `high`."""
    ordered = sorted(flags, key=lambda flag: (flag.at, flag.lines))
    for every in range(1, len(ordered) + 1):
        some = _every(ordered, every)
        centres = spread([flag.at for flag in some], [_LINE] * len(some), low, high)
        if centres is not None:
            return _column(some, centres, edge, side, every)
    return FlagRow((), 0, max(1, len(ordered)))


def _level_row(flags: Sequence[Flag], centres: Sequence[float], edge: float, side: Side) -> FlagRow:
    away = -1 if side is Side.ABOVE else 1
    lines = max(len(flag.lines) for flag in flags)
    items: list[Item] = []
    for flag, centre in zip(flags, centres, strict=True):
        items.append(_leader((flag.at, edge), (centre, edge + away * _LEADER), level=False))
        first = edge + away * (_LEADER + 0.4)
        for index, line in enumerate(flag.lines):
            above = first - (len(flag.lines) - 1 - index) * _LINE - 0.3
            below = first + index * _LINE + 2.1
            y = above if away < 0 else below
            bold = flag.bold and index == 0
            items.append(Text(centre, y, line, SMALLEST_TEXT, "middle", bold))
    return FlagRow(tuple(items), _LEADER + 0.6 + lines * _LINE, 1)


def _upright_row(
    flags: Sequence[Flag], centres: Sequence[float], edge: float, side: Side, every: int
) -> FlagRow:
    away = -1 if side is Side.ABOVE else 1
    anchor = "start" if side is Side.ABOVE else "end"
    texts = [shorten(flag.joined, _LONGEST, bold=flag.bold) for flag in flags]
    reach = _reach(flags, centres)
    items: list[Item] = []
    for flag, text, centre in zip(flags, texts, centres, strict=True):
        items.append(_leader((flag.at, edge), (centre, edge + away * reach), level=False))
        y = edge + away * (reach + 0.5)
        items.append(Text(centre + 0.9, y, text, anchor=anchor, bold=flag.bold, upright=True))
    return FlagRow(tuple(items), reach + 1 + _longest(flags, texts), every)


def _column(
    flags: Sequence[Flag], centres: Sequence[float], edge: float, side: Side, every: int
) -> FlagRow:
    away = -1 if side is Side.LEFT else 1
    anchor = "end" if side is Side.LEFT else "start"
    texts = [shorten(flag.joined, _LONGEST, bold=flag.bold) for flag in flags]
    reach = _reach(flags, centres)
    items: list[Item] = []
    for flag, text, centre in zip(flags, texts, centres, strict=True):
        items.append(_leader((edge, flag.at), (edge + away * reach, centre), level=True))
        x = edge + away * (reach + 0.5)
        items.append(Text(x, centre + 0.9, text, anchor=anchor, bold=flag.bold))
    return FlagRow(tuple(items), reach + 1 + _longest(flags, texts), every)


def _reach(flags: Sequence[Flag], centres: Sequence[float]) -> float:
    aside = max(abs(flag.at - centre) for flag, centre in zip(flags, centres, strict=True))
    return min(_LONGEST_LEADER, max(_LEADER, aside / 4))


def _longest(flags: Sequence[Flag], texts: Sequence[str]) -> float:
    return max(text_width(t, bold=f.bold) for t, f in zip(texts, flags, strict=True))


def _leader(start: tuple[float, float], end: tuple[float, float], *, level: bool) -> Polyline:
    # A short straight piece at the edge shows the exact point even where the leader slants.
    stub = 0.3
    if level:
        bend = (start[0] + stub * (end[0] - start[0]), start[1])
    else:
        bend = (start[0], start[1] + stub * (end[1] - start[1]))
    return Polyline((start, bend, end), Pen(GREY, FINE))


def _near(flags: Sequence[Flag], centres: Sequence[float]) -> bool:
    pairs = zip(flags, centres, strict=True)
    return all(abs(flag.at - centre) <= _MOST_ASIDE for flag, centre in pairs)


def _every(flags: Sequence[Flag], every: int) -> list[Flag]:
    some = list(flags[::every])
    if some[-1] is not flags[-1]:
        some.append(flags[-1])
    return some
