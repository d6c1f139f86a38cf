"""Checks of a bracket's plate on the backboard of the TV's recess.

Each carries the smallest change of the wall's file that clears it, but for struts that a joint of
the backboard keeps from their places.
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.framing.bearing import MDF_CORNER, MDF_EDGE, mdf_takes_screw
from optimiser.framing.figures import listed, size
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import TvChoice
from optimiser.framing.returns import BRACKET_ROWS
from optimiser.framing.rules import finding
from optimiser.framing.serving import Level
from optimiser.framing.settings import Settings
from optimiser.units import mm


def plate_findings(
    settings: Settings, tv: TvChoice, hole: Hole, levels: list[Level]
) -> Iterator[Finding]:
    """Yield what is amiss with the plate; `levels` are those of the struts."""
    yield from _beyond(tv, hole)
    yield from _edges(tv, hole)
    if sum(rule == "frame.strut.bracket" for _, rule in levels) < 2:
        yield _no_struts(settings, hole)


def plate_figures(tv: TvChoice) -> str:
    """Return the fields of a bracket's plate with their values."""
    plate = tv.bracket
    return listed(
        size("tv.bracket_width", tv.tv.bracket_width, plate.width),
        size("tv.bracket_height", tv.tv.bracket_height, plate.height),
    )


def _beyond(tv: TvChoice, hole: Hole) -> Iterator[Finding]:
    plate, board = tv.bracket, hole.frame
    aside = min(plate.x0 - board.x0, board.x1 - plate.x1)
    upright = min(plate.z0 - board.z0, board.z1 - plate.z1)
    change = [
        Change(f"tv.bracket_{side}", mm(now + 2 * room))
        for side, now, room in (("width", plate.width, aside), ("height", plate.height, upright))
        if room < 0
    ]
    if change:
        yield finding(
            "check.tv.bracket",
            Severity.STOP,
            f"bracket plate ({plate_figures(tv)}) reaches beyond the backboard, {mm(board.width)} ×"
            f" {mm(board.height)} ({listed(hole.told.along, hole.told.up)})",
            "choose a smaller bracket, "
            + " and ".join(f"{one.field} {one.value}" for one in change)
            + " at most, or a larger recess",
            change=change,
        )


def _edges(tv: TvChoice, hole: Hole) -> Iterator[Finding]:
    plate, board = tv.bracket, hole.frame
    aside = min(plate.x0 - board.x0, board.x1 - plate.x1)
    upright = min(plate.z0 - board.z0, board.z1 - plate.z1)
    near, far = sorted((aside, upright))
    if near < 0 or mdf_takes_screw(from_edge=near, from_corner=far):
        return
    # Its screws must stand clear of one edge by the one distance, and of the other by the other.
    ways = [
        (max(wide - aside, 0), max(high - upright, 0))
        for wide, high in ((MDF_EDGE, MDF_CORNER), (MDF_CORNER, MDF_EDGE))
    ]
    less_wide, less_high = min(ways, key=sum)
    change = [
        Change(f"tv.bracket_{side}", mm(now - 2 * less))
        for side, now, less in (
            ("width", plate.width, less_wide),
            ("height", plate.height, less_high),
        )
        if less
    ]
    yield finding(
        "check.tv.edge",
        Severity.WARNING,
        f"bracket plate ({plate_figures(tv)}) {mm(near)} and {mm(far)} from the backboard's edges;"
        f" its screws need {mm(MDF_EDGE)} from an edge, {mm(MDF_CORNER)} from a corner",
        "choose a smaller bracket, "
        + " and ".join(f"{one.field} {one.value}" for one in change)
        + ", or drill its outer holes first",
        change=change,
    )


def _no_struts(settings: Settings, hole: Hole) -> Finding:
    # Both rows, a strut's height each, between the struts at foot and head of the recess.
    least = BRACKET_ROWS + 3 * settings.wide - 2 * settings.lining
    change = [Change("tv.recess_height", mm(least))] if hole.clear.height < least else []
    return finding(
        "check.tv.bracket",
        Severity.WARNING,
        "there is no room for two struts behind the bracket's rows of screws in a recess"
        f" {mm(hole.clear.height)} high ({listed(hole.told.up)})",
        "fix the bracket to the struts that are there, or make "
        + (f"tv.recess_height {mm(least)}" if change else "the recess higher"),
        change=change,
    )
