"""Everything said about a framed wall, in the order in which a fitter wants to hear it."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import NoScrewBand
from optimiser.domain.wall import ExistingWall, Wall
from optimiser.framing.appliances import fire_findings, tv_findings
from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.cables import cable_findings
from optimiser.framing.findings import box_findings, choice_findings, wall_findings
from optimiser.framing.framed import Framed
from optimiser.framing.handling import lift_findings, seat_findings
from optimiser.framing.levels_held import lining_unheld
from optimiser.framing.openings import Hole
from optimiser.framing.placing import Placed
from optimiser.framing.rules import finding
from optimiser.framing.settings import Settings
from optimiser.framing.shelves import shelf_findings
from optimiser.units import counted, mm


def wall_remarks(
    whole: Settings, way: list[Framed], bands: tuple[NoScrewBand, ...], *, loose: int
) -> list[Finding]:
    """Return the findings about timber, sheets and site of a wall boarded in one way.

    `loose` screws into the house found no place outside the bands.
    """
    placed = [one.placed for one in way]
    return [
        *wall_findings(whole, way),
        *_site(whole, bands, loose),
        *_covered(whole, placed),
        *cable_findings(placed),
    ]


def early_stops(whole: Settings, placed: list[Placed]) -> Iterator[Finding]:
    """Yield what stops a wall that cannot be framed: all that needs no timber to be told.

    A file with faults is thus told at once what would stop it without them.
    """
    fire_hole = next((hole for box in placed for hole in box.holes if hole.kind == "fire"), None)
    said = list(choice_findings(whole))
    for box in placed:
        settings, tv = box.settings, box.tv
        if box.fire is not None and fire_hole is not None:
            said += fire_findings(settings, box.fire, fire_hole)
        recess = box.hole("tv")
        if tv is not None and recess is not None:
            said += tv_findings(settings, tv, recess, fire_hole, [])
    yield from (one for one in said if one.severity is Severity.STOP)


def box_remarks(one: Framed, way: list[Framed]) -> list[Finding]:
    """Return the findings about the boards and openings of one box of a wall."""
    return [*box_findings(one), *_openings(one, way)]


def _openings(one: Framed, way: list[Framed]) -> Iterator[Finding]:
    placed, settings = one.placed, one.settings
    fire_hole = next(
        (hole for box in way for hole in box.placed.holes if hole.kind == "fire"), None
    )
    if placed.fire is not None and fire_hole is not None:
        yield from fire_findings(settings, placed.fire, fire_hole)
        own = placed.hole("fire")
        if settings.fire_lining is not None and own is not None:
            yield from _lining(one, own)
    yield from lift_findings(placed.fire, placed.tv)
    for hole in placed.holes:
        if hole.kind == "tv" and placed.tv is not None:
            yield from tv_findings(settings, placed.tv, hole, fire_hole, one.levels[hole.name])
            yield from seat_findings(placed.tv)
        yield from shelf_findings(settings, hole)
        if hole.lit:
            yield finding(
                "check.niche.light",
                Severity.NOTE,
                f"{hole.name} is lit: {counted(hole.shelves + 1, 'strip')} of"
                f" {mm(hole.clear.width)}",
                "leave a cable at its top and a driver where a hand reaches it",
            )


def _lining(one: Framed, fire: Hole) -> Iterator[Finding]:
    past = lining_unheld(one.settings, one.members, fire)
    if past > MOST_OVERHANG:
        yield finding(
            "check.fire.overhang",
            Severity.STOP,
            f"the lining over the fire passes its timber by {mm(past)} at the back, and what stands"
            f" over it leaves no room for a noggin {mm(one.settings.wide)} high there; at most"
            f" {mm(MOST_OVERHANG)}",
            f"hang what stands over the fire {mm(one.settings.wide)} higher, or choose narrower"
            " timber",
        )


def _site(whole: Settings, bands: tuple[NoScrewBand, ...], loose: int) -> Iterator[Finding]:
    site = whole.wall.site
    for side, lean, free in (
        ("left", site.lean_left, whole.left_free),
        ("right", site.lean_right, whole.right_free),
    ):
        if lean and not free:
            way_in = "into the room" if lean > 0 else "away from the room"
            yield finding(
                "check.site.lean",
                Severity.NOTE,
                f"the {side} side wall leans {mm(abs(lean))} {way_in} at the ceiling",
                f"pack the end upright plumb, up to {mm(abs(lean))}, and scribe the board to the"
                " wall",
            )
    if site.skirting:
        yield finding(
            "check.site.skirting",
            Severity.NOTE,
            f"the skirting of {mm(site.skirting)} stays: the back frame stands {mm(site.skirting)}"
            " off the wall",
            "pack behind each back upright where it is fixed"
            + (
                "; boards of ends and tops run on to the house: notch each round the skirting"
                if whole.left_free
                or whole.right_free
                or whole.wall.extent.height
                or whole.wall.steps
                else ""
            ),
        )
    if site.stud_positions and site.kind is not ExistingWall.STUDS:
        studs = ", ".join(mm(stud) for stud in site.stud_positions)
        yield _unused(f"site.stud_positions {studs}", 'site.kind = "studs"')
    if site.plug_spacing is not None and site.kind is ExistingWall.STUDS:
        yield _unused(f"site.plug_spacing {mm(site.plug_spacing)}", 'site.kind = "solid"')
    if bands:
        yield from _cables(bands, loose, solid=site.kind is not ExistingWall.STUDS)
    else:
        yield from _unnamed_cables(whole.wall)


def _unused(what: str, kind: str) -> Finding:
    return finding(
        "check.site.studs",
        Severity.NOTE,
        f"{what} is not used: that is for {kind}",
        f"give {kind} where the wall is so, or take it out",
    )


def _covered(whole: Settings, placed: list[Placed]) -> Iterator[Finding]:
    """Tell of each accessory of the existing wall that the feature wall would bury."""
    for i, spot in enumerate(whole.wall.site.accessories):
        x = spot.x - whole.offset
        over = [
            box.settings.name or "the wall"
            for box in placed
            if box.settings.start <= x <= box.settings.end
            and box.settings.base <= spot.z
            and spot.z <= box.settings.levels.highest_ceiling(box.settings.start, box.settings.end)
        ]
        if over:
            yield finding(
                "check.site.accessory",
                Severity.WARNING,
                f"site.accessories[{i}] (x {mm(spot.x)}, z {mm(spot.z)}) lies behind {over[0]}, out"
                " of reach",
                "have it brought to the front or into an opening, or taken out, by a qualified"
                " electrician before the frame goes up",
            )


def _unnamed_cables(wall: Wall) -> Iterator[Finding]:
    """Tell that what is fed wants a cable, and that no band is kept free of screws for it."""
    fed = [
        name
        for name, there in (
            ("fire", wall.fire is not None),
            ("TV", wall.tv is not None),
            ("soundbar", wall.soundbar is not None),
            ("lit niche", any(niche.lit for niche in wall.niches)),
        )
        if there
    ]
    if fed:
        yield finding(
            "check.site.cables",
            Severity.NOTE,
            f"site.accessories names no socket or switch, and {' and '.join(fed)} want a cable: no"
            " band of the existing wall is kept free of screws",
            "name each accessory that is there, and each that an electrician will put on the"
            " existing wall, before the frame is fixed; detect before drilling all the same",
        )


def _cables(bands: tuple[NoScrewBand, ...], loose: int, *, solid: bool) -> Iterator[Finding]:
    yield finding(
        "check.site.cables",
        Severity.WARNING if loose else Severity.NOTE,
        f"{len(bands)} bands of the existing wall may hide cables; {loose}"
        f" {'plugs' if solid else 'screws'} had no place outside them",
        "detect before drilling; fix those members to their neighbours instead"
        if loose
        else "detect before drilling all the same",
    )
