"""Figures as faults and findings name them: a field of the wall's file by its path, and its value.

A fault that names only one of two figures that contradict each other sends the fitter looking for
the other. What he left out is named too, with what was taken for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from optimiser.units import Tenths, mm

if TYPE_CHECKING:
    from optimiser.framing.settings import Settings


@dataclass(frozen=True, slots=True)
class Figure:
    """A field of the wall's file, what it says, and whether the fitter `given` it so."""

    field: str
    value: str
    given: bool = True

    def __str__(self) -> str:
        return f"{self.field} {self.value}" + ("" if self.given else " (default)")


Figures = tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """The figures that set where an opening lies along the wall, how high, and how deep it is."""

    along: Figures = ()
    up: Figures = ()
    deep: Figures = ()


UNTOLD = Told()


def size(field: str, given: Tenths | None, used: int) -> Figure:
    """Return the figure of a size: as given, or what was taken for it."""
    return Figure(field, mm(used), given is not None)


def listed(*figures: Figure | Iterable[Figure]) -> str:
    """Name figures one after the other."""
    return ", ".join(dict.fromkeys(map(str, _flat(figures))))


def summed(*figures: Figure | Iterable[Figure]) -> str:
    """Name figures as a sum."""
    return " + ".join(dict.fromkeys(map(str, _flat(figures))))


def _flat(figures: Iterable[Figure | Iterable[Figure]]) -> list[Figure]:
    return [one for entry in figures for one in ([entry] if isinstance(entry, Figure) else entry)]


def numbers(sizes: Iterable[int]) -> str:
    """Write a list of sizes, "none" where there are none."""
    return ", ".join(map(mm, sizes)) or "none"


def timber(settings: Settings) -> Figure:
    """Return the timber chosen, with its section."""
    item = settings.timber
    given = settings.wall.materials.timber is not None
    section = f'"{item.material}" ({mm(item.thickness)} × {mm(item.width)})'
    return Figure("materials.timber", section, given)


def board(settings: Settings) -> Figure:
    """Return the board chosen, with its thickness."""
    item = settings.board
    given = settings.wall.materials.board is not None
    return Figure("materials.board", f'"{item.material}" ({mm(item.thickness)})', given)


def layers(settings: Settings) -> Figure:
    """Return how many layers of board there are."""
    return Figure(
        "materials.layers", str(settings.layers), settings.wall.materials.layers is not None
    )


def wall_width(settings: Settings) -> Figure:
    """Return the wall's width, or what it follows from."""
    if settings.wall.extent.width is None:
        return Figure("site.clear_width", mm(settings.wall.site.clear_width))
    return Figure("wall.width", mm(settings.width))


def box_width(settings: Settings) -> Figures:
    """Return what sets where one box of the wall begins and ends."""
    wall = settings.wall
    found = [wall_width(settings)] if not settings.step else []
    for step in wall.steps:
        if step.name == settings.step or {step.x, step.x + step.width} & set(_near(settings)):
            found += [size(f"steps.{step.name}.x", step.x, step.x)]
            found += [size(f"steps.{step.name}.width", step.width, step.width)]
    for i, breast in enumerate(wall.site.projections):
        x = breast.x - settings.offset
        if {x, x + breast.width} & set(_near(settings)):
            found += [size(f"site.projections[{i}].x", breast.x, breast.x)]
            found += [size(f"site.projections[{i}].width", breast.width, breast.width)]
    return tuple(found)


def _near(settings: Settings) -> tuple[int, ...]:
    """Return where a box begins and ends, before its boards gave way to those beside it."""
    skin = settings.skin
    return tuple(edge + by for edge in (settings.start, settings.end) for by in (-skin, 0, skin))


def box_depth(settings: Settings) -> Figure:
    """Return the depth of one box of the wall, from the existing wall."""
    field = f"steps.{settings.step}.depth" if settings.step else "wall.depth"
    return Figure(field, mm(settings.back + settings.depth))


def before_it(settings: Settings) -> Figures:
    """Return what of the house stands behind one box: a breast, a skirting that is kept."""
    site = settings.wall.site
    kept = site.skirting or 0
    found = [
        Figure(f"site.projections[{i}].depth", mm(breast.depth))
        for i, breast in enumerate(site.projections)
        if breast.depth == settings.back - kept > 0
    ]
    return (*found[:1], *([Figure("site.skirting", mm(kept))] if kept else []))


def ceiling(settings: Settings) -> Figures:
    """Return what sets how high one box of the wall is."""
    wall, site = settings.wall, settings.wall.site
    step = next((one for one in wall.steps if one.name == settings.step), None)
    if settings.flat_top:
        if step is not None and step.height is not None:
            z = size(f"steps.{step.name}.z", step.z, step.z or 0)
            return (z, size(f"steps.{step.name}.height", step.height, step.height))
        over = [one for one in wall.steps if one.z and one.z == settings.board_top]
        if over:
            return (size(f"steps.{over[0].name}.z", over[0].z, over[0].z or 0),)
        return (Figure("wall.height", mm(wall.extent.height or 0)),)
    if site.levels:
        i, lowest = min(enumerate(site.levels), key=lambda entry: entry[1].floor + entry[1].height)
        return (Figure(f"site.levels[{i}].height", mm(lowest.height)),)
    heights = (
        ("left", site.height_left),
        ("middle", site.height_middle),
        ("right", site.height_right),
    )
    given = [(side, height) for side, height in heights if height is not None]
    side, lowest_height = min(given, key=lambda entry: entry[1])
    return (Figure(f"site.height_{side}", mm(lowest_height)),)
