"""Checks of the survey itself: places, heights and things on the existing wall that cannot be."""

from __future__ import annotations

from optimiser.domain.frame import Default
from optimiser.domain.wall import ExistingWall, Site, Wall
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
    clear = f"site.clear_width {mm(site.clear_width)}"
    if not site.levels and site.height_left is None:
        notes.problem(
            "site.height_left",
            "left out, and site.levels too",
            "give the height at the left, or two or more places in site.levels",
        )
    if site.levels and site.height_left is not None:
        notes.problem(
            "site.height_left",
            f"{mm(site.height_left)} and site.levels both set the heights",
            "give one of the two",
        )
    xs = [point.x for point in site.levels]
    for x in sorted({x for x in xs if xs.count(x) > 1}):
        notes.problem("site.levels", f"two places at x {mm(x)}", "give each place once")
    for point in site.levels:
        if point.x > site.clear_width:
            notes.problem(
                "site.levels", f"x {mm(point.x)} lies beyond {clear}", "measure from the left"
            )
    for name, lean in (("lean_left", site.lean_left), ("lean_right", site.lean_right)):
        if abs(lean) > MOST_LEAN:
            notes.problem(
                f"site.{name}",
                f"{mm(lean)} out of plumb is more than {mm(MOST_LEAN)}",
                "check the figure and its unit",
            )
    spacing = site.plug_spacing
    if spacing is not None and not CLOSEST_PLUGS <= spacing <= WIDEST_PLUGS:
        notes.problem(
            "site.plug_spacing",
            f"{mm(spacing)} is not from {mm(CLOSEST_PLUGS)} to {mm(WIDEST_PLUGS)}",
            "choose 600",
        )
    for i, breast in enumerate(site.projections, start=1):
        if breast.x + breast.width > site.clear_width:
            notes.problem(
                f"site.projections {i}",
                f"x {mm(breast.x)} + width {mm(breast.width)} lies beyond {clear}",
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
            f"left out, and site.stud_positions gives {len(site.stud_positions)} studs",
            'give kind = "studs", or take the positions out',
        )
    kind = notes.take("site.kind", site.kind, ExistingWall.SOLID, lambda kind: kind.value)
    if kind is ExistingWall.SOLID:
        notes.size("site.plug_spacing", site.plug_spacing, FIXING)
    notes.take("site.skirting", site.skirting, 0, lambda _: "taken off")
    falls = {"lean_left": site.lean_left, "lean_right": site.lean_right}
    if not site.levels:
        falls = {"floor_fall": site.floor_fall, **falls}
    notes.defaults += [
        Default(field=f"site.{n}", value="0 mm") for n, fall in falls.items() if not fall
    ]
