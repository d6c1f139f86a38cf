"""Figures as faults and findings name them: a field of the wall's file by its path, and its value.

A fault that names only one of two figures that contradict each other sends the fitter looking for
the other. What he left out is named too, with what was taken for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from optimiser.domain.wall import Step
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


def step_of(settings: Settings) -> Step | None:
    """Return the step that one box of the wall is part of, None where it is of none."""
    return next((one for one in settings.wall.steps if one.name == settings.step), None)


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


def face_at(depth: int, settings: Settings) -> str:
    """Name the face of the wall that stands at a depth: another box's front, or a breast's."""
    wall = settings.wall
    found = [Figure(f"steps.{step.name}.depth", mm(step.depth)) for step in wall.steps]
    found.append(Figure("wall.depth", mm(wall.extent.depth)))
    found += [
        Figure(f"site.projections[{i}].depth", mm(breast.depth))
        for i, breast in enumerate(wall.site.projections)
    ]
    return next((str(one) for one in found if one.value == mm(depth)), mm(depth))


def ceiling(settings: Settings) -> Figures:
    """Return what sets how high one box of the wall is: its own top, or the ceiling where it is
    lowest over the box."""
    wall = settings.wall
    step = step_of(settings)
    if settings.flat_top:
        if step is not None and step.height is not None:
            z = size(f"steps.{step.name}.z", step.z, step.z or 0)
            return (z, size(f"steps.{step.name}.height", step.height, step.height))
        over = [
            one
            for one in wall.steps
            if one.z
            and one.z == settings.board_top
            and one.x < settings.end
            and settings.start < one.x + one.width
        ]
        if over:
            return (size(f"steps.{over[0].name}.z", over[0].z, over[0].z or 0),)
        return (Figure("wall.height", mm(wall.extent.height or 0)),)
    return _surveyed(settings)


def _surveyed(settings: Settings) -> Figures:
    """Return the survey's figures at the lowest place of the ceiling over a box: of one surveyed
    place, or of the two that it lies between."""
    site, levels = settings.wall.site, settings.levels
    inside = [at // 2 for at in levels.places if 2 * settings.start < at < 2 * settings.end]
    lowest = min((settings.start, settings.end, *inside), key=levels.ceiling)
    near = sorted(levels.places, key=lambda at: abs(at - 2 * lowest))
    taken = [at for at in near[:1] if at == 2 * lowest] or [
        *([at for at in near if at < 2 * lowest][:1]),
        *([at for at in near if at > 2 * lowest][:1]),
    ]
    found: list[Figure] = []
    if site.levels:
        for i, point in enumerate(site.levels):
            if 2 * (point.x - settings.offset) in taken:
                found.append(Figure(f"site.levels[{i}].height", mm(point.height)))
                if point.floor:
                    found.append(Figure(f"site.levels[{i}].floor", mm(point.floor)))
        return tuple(found)
    left, middle, right = levels.places
    heights = {"left": site.height_left, "middle": site.height_middle, "right": site.height_right}
    # A height left out is as at the left, the middle's between both.
    at_right = ["right"] if site.height_right is not None else ["left"]
    at_middle = ["middle"] if site.height_middle is not None else ["left", *at_right]
    named = {left: ["left"], middle: at_middle, right: at_right}
    sides = dict.fromkeys(side for at in sorted(taken) for side in named[at])
    found = [Figure(f"site.height_{side}", mm(heights[side] or 0)) for side in sides]
    if site.floor_fall and taken != [left]:
        found.append(Figure("site.floor_fall", mm(site.floor_fall)))
    return tuple(found)
