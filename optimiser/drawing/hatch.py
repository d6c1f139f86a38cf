"""Fills that survive a black-and-white printer: hatching drawn as explicit lines, and job marks.

Each job gets a letter, a shape around it and a fill, so that no drawing tells jobs apart by colour.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum

from optimiser.drawing.letters import plain
from optimiser.drawing.scene import (
    FINE,
    GREY,
    INK,
    PALE,
    PAPER,
    THIN,
    TINT,
    Area,
    Item,
    Pen,
    Point,
    Polygon,
    Rect,
    Stroke,
    Strokes,
    Text,
)


class Fill(Enum):
    """What the inside of an area looks like; RISING leans like /, FALLING like its mirror."""

    NONE = "none"
    TINT = "tint"
    RISING = "rising"
    FALLING = "falling"
    LEVEL = "level"
    PLUMB = "plumb"
    CROSSED = "crossed"


_JOB_FILLS = (Fill.NONE, Fill.TINT, Fill.RISING, Fill.LEVEL, Fill.FALLING, Fill.PLUMB)
# Number of corners of the shape around the letter, and the angle of its first corner in degrees.
_SHAPES = ((4, 45), (24, 0), (4, 0), (6, 0), (8, 22.5))
_JOB_PITCH = 2.2
_SCRAP_PITCH = 1.3
MARK_SIZE = 4.4


@dataclass(frozen=True, slots=True)
class JobMark:
    """How the parts of one job look: letter, shape around it, fill."""

    job: str
    letter: str
    corners: int
    turn: float
    fill: Fill


def job_marks(jobs: Iterable[str]) -> Mapping[str, JobMark]:
    """Return a mark for each job, the same for the same set of jobs in any order.

    A job whose name is one or two characters long keeps it as its letter; the others take the
    letters A, B, C … that are left, in the order of their names.
    """
    names = sorted(set(jobs))
    own = {name for name in names if 0 < len(name) <= 2 and plain(name) == name}
    free = (letter for letter in map(_letter, itertools.count()) if letter not in own)
    marks = {}
    for index, name in enumerate(names):
        corners, turn = _SHAPES[index % len(_SHAPES)]
        letter = name if name in own else next(free)
        fill = _JOB_FILLS[index % len(_JOB_FILLS)]
        marks[name] = JobMark(name, letter, corners, turn, fill)
    return marks


def part_tag(part: str, mark: JobMark) -> str:
    """Return the id of a part, made ready to draw, with its job's letter for the job's name."""
    own = part.removeprefix(f"{mark.job}/")
    return plain(f"{mark.letter} {part}" if own == part else f"{mark.letter}/{own}")


def filled(area: Area, fill: Fill) -> tuple[Item, ...]:
    """Return the fill of an area, drawn in grey so that text on it stays readable."""
    if fill is Fill.NONE:
        return (Rect(area, PAPER),)
    if fill is Fill.TINT:
        return (Rect(area, TINT),)
    paper = Rect(area, PAPER)
    if fill is Fill.CROSSED:
        lines = slanted(area, _SCRAP_PITCH, rising=True) + slanted(area, _SCRAP_PITCH, rising=False)
        return (paper, Strokes(lines, Pen(GREY, FINE)))
    lines = _JOB_HATCHES[fill](area)
    return (paper, Strokes(lines, Pen(PALE, FINE))) if lines else (paper,)


def job_symbol(mark: JobMark, x: float, y: float) -> tuple[Item, ...]:
    """Return the letter in its shape, centred on (x, y), `MARK_SIZE` mm across."""
    radius = MARK_SIZE / 2
    return (
        Polygon(_corners(mark, x, y, radius), PAPER, Pen(INK, THIN)),
        Text(x, y + 0.9, mark.letter, anchor="middle", bold=True),
    )


def slanted(area: Area, pitch: float, *, rising: bool) -> tuple[Stroke, ...]:
    """Return lines at 45°, `pitch` apart, cut off at the edges of the area.

    Lines of neighbouring areas run on from one another, as they are counted from the paper's edge.
    """
    step = pitch * math.sqrt(2)
    low = area.x + area.y if rising else area.x - area.bottom
    high = area.right + area.bottom if rising else area.right - area.y
    lines = []
    for count in range(math.floor(low / step) + 1, math.ceil(high / step)):
        at = count * step
        if rising:
            left, right = max(area.x, at - area.bottom), min(area.right, at - area.y)
            lines.append((left, at - left, right, at - right))
        else:
            left, right = max(area.x, at + area.y), min(area.right, at + area.bottom)
            lines.append((left, left - at, right, right - at))
    return tuple(lines)


def _level(area: Area) -> tuple[Stroke, ...]:
    ys = _steps(area.y, area.bottom)
    return tuple((area.x, y, area.right, y) for y in ys)


def _plumb(area: Area) -> tuple[Stroke, ...]:
    xs = _steps(area.x, area.right)
    return tuple((x, area.y, x, area.bottom) for x in xs)


_JOB_HATCHES = {
    Fill.RISING: lambda area: slanted(area, _JOB_PITCH, rising=True),
    Fill.FALLING: lambda area: slanted(area, _JOB_PITCH, rising=False),
    Fill.LEVEL: _level,
    Fill.PLUMB: _plumb,
}


def _steps(low: float, high: float) -> list[float]:
    first, last = math.floor(low / _JOB_PITCH) + 1, math.ceil(high / _JOB_PITCH)
    return [count * _JOB_PITCH for count in range(first, last)]


def _corners(mark: JobMark, x: float, y: float, radius: float) -> tuple[Point, ...]:
    # A square stands on its side as large as the circle that others are drawn in.
    reach = radius * (math.sqrt(2) * 0.85 if (mark.corners, mark.turn) == (4, 45) else 1)
    reach *= 1.25 if (mark.corners, mark.turn) == (4, 0) else 1
    angles = (math.radians(mark.turn + 360 * n / mark.corners) for n in range(mark.corners))
    return tuple((x + reach * math.cos(a), y + reach * math.sin(a)) for a in angles)


def _letter(index: int) -> str:
    tens, ones = divmod(index, 26)
    return (chr(64 + tens) if tens else "") + chr(65 + ones)
