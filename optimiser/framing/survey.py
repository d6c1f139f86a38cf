"""Checks of the survey itself: places, heights and things on the existing wall that cannot be."""

from __future__ import annotations

from optimiser.domain.frame import Default
from optimiser.domain.wall import ExistingWall, Floor, Site, Wall
from optimiser.framing.notes import Notes
from optimiser.units import mm

# A side wall further out of plumb is a slip, or needs more than packing: common practice, no source
MOST_LEAN = 600
# Frame fixings into masonry stand no closer and no further apart: common practice, no source.
CLOSEST_PLUGS = 1_500
WIDEST_PLUGS = 12_000
# Plates and uprights are fixed at 600 at most: UK trade wiki, stud walls.
FIXING = 6_000


def check_survey(wall: Wall, notes: Notes) -> None:
    """Name what the survey leaves open; record its faults that do not depend on what is built."""
    site = wall.site
    _name_defaults(site, notes)
    _check_heights(site, notes)
    _check_levels(site, notes)
    _check_places(site, notes)
    for name, lean in (("lean_left", site.lean_left), ("lean_right", site.lean_right)):
        if abs(lean) > MOST_LEAN:
            notes.problem(
                f"site.{name}",
                f"site.{name} {mm(lean)} is out of plumb by more than {mm(MOST_LEAN)}",
                "check the figure and its unit",
            )
    spacing = site.plug_spacing
    if spacing is not None and not CLOSEST_PLUGS <= spacing <= WIDEST_PLUGS:
        notes.problem(
            "site.plug_spacing",
            f"site.plug_spacing {mm(spacing)} is not from {mm(CLOSEST_PLUGS)} to"
            f" {mm(WIDEST_PLUGS)}",
            "choose 600",
        )


def _check_heights(site: Site, notes: Notes) -> None:
    if not site.levels and site.height_left is None:
        notes.problem(
            "site.height_left",
            "site.height_left is left out, and site.levels too",
            "give the height at the left, or two or more places in site.levels",
        )
    for side in ("left", "middle", "right"):
        height = getattr(site, f"height_{side}")
        if site.levels and height is not None:
            notes.problem(
                f"site.height_{side}",
                f"site.height_{side} {mm(height)} and site.levels[0].height"
                f" {mm(site.levels[0].height)} both set the heights",
                f"leave site.height_{side} or site.levels out",
            )
    if site.levels and site.floor_fall:
        notes.problem(
            "site.floor_fall",
            f"site.floor_fall {mm(site.floor_fall)} and site.levels[0].floor"
            f" {mm(site.levels[0].floor)} both set the floor",
            "leave site.floor_fall or site.levels out",
        )


def _check_levels(site: Site, notes: Notes) -> None:
    clear = f"site.clear_width {mm(site.clear_width)}"
    seen: dict[int, int] = {}
    for i, point in enumerate(site.levels):
        if point.x in seen:
            notes.problem(
                f"site.levels[{i}].x",
                f"site.levels[{i}].x {mm(point.x)} is the place of site.levels[{seen[point.x]}].x"
                f" {mm(point.x)} too",
                "give each place once",
            )
        seen.setdefault(point.x, i)
        if point.x > site.clear_width:
            notes.problem(
                f"site.levels[{i}].x",
                f"site.levels[{i}].x {mm(point.x)} is more than {clear}",
                "measure from the left side wall",
            )


def _check_places(site: Site, notes: Notes) -> None:
    clear = f"site.clear_width {mm(site.clear_width)}"
    for i, breast in enumerate(site.projections):
        here = f"site.projections[{i}]"
        if breast.x + breast.width > site.clear_width:
            notes.problem(
                f"{here}.x",
                f"{here}.x {mm(breast.x)} + {here}.width {mm(breast.width)} is more than {clear}",
                "measure from the left side wall",
            )
    for i, stud in enumerate(site.stud_positions):
        if stud > site.clear_width:
            notes.problem(
                f"site.stud_positions[{i}]",
                f"site.stud_positions[{i}] {mm(stud)} is more than {clear}",
                "measure from the left side wall",
            )
    for i, spot in enumerate(site.accessories):
        if spot.x > site.clear_width:
            notes.problem(
                f"site.accessories[{i}].x",
                f"site.accessories[{i}].x {mm(spot.x)} is more than {clear}",
                "measure from the left side wall",
            )


def _name_defaults(site: Site, notes: Notes) -> None:
    """Name what is taken for the survey where it says nothing, or says that nothing is there."""
    if not site.levels and site.height_left is not None:
        right = notes.size("site.height_right", site.height_right, site.height_left)
        notes.size("site.height_middle", site.height_middle, (site.height_left + right) // 2)
    if site.kind is None and site.stud_positions:
        notes.problem(
            "site.kind",
            "site.kind is left out, and site.stud_positions gives"
            f" {', '.join(map(mm, site.stud_positions))}",
            'give kind = "studs", or take the positions out',
        )
    kind = notes.take("site.kind", site.kind, ExistingWall.SOLID, lambda kind: kind.value)
    if kind is ExistingWall.SOLID:
        notes.size("site.plug_spacing", site.plug_spacing, FIXING)
    notes.take("site.floor", site.floor, Floor.TIMBER, lambda floor: floor.value)
    notes.take("site.skirting", site.skirting, 0, lambda _: "taken off")
    falls = {"lean_left": site.lean_left, "lean_right": site.lean_right}
    if not site.levels:
        falls = {"floor_fall": site.floor_fall, **falls}
    notes.defaults += [
        Default(field=f"site.{n}", value="0 mm") for n, fall in falls.items() if not fall
    ]
