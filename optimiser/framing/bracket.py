"""Checks of a bracket's plate and of the sockets behind the TV, on the backboard of its recess.

Each carries the smallest change of the wall's file that clears it, but for sockets larger than the
backboard and for struts that a joint of the backboard keeps from their places.
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.domain.wall import Socket
from optimiser.framing.bearing import MDF_CORNER, MDF_EDGE, mdf_takes_screw
from optimiser.framing.figures import listed, size
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import TvChoice
from optimiser.framing.returns import BRACKET_ROWS
from optimiser.framing.rules import finding
from optimiser.framing.serving import Level
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm


def plate_findings(
    settings: Settings, tv: TvChoice, hole: Hole, levels: list[Level]
) -> Iterator[Finding]:
    """Yield what is amiss with the plate and with each socket; `levels` are those of the struts."""
    yield from _beyond(tv, hole)
    yield from _edges(tv, hole)
    if sum(rule == "frame.strut.bracket" for _, rule in levels) < 2:
        yield _no_struts(settings, hole)
    for i, socket in enumerate(tv.tv.sockets):
        yield from _behind_plate(i, socket, tv)
        yield from _on_board(i, socket, hole.frame, levels, settings.wide)


def _figures(tv: TvChoice) -> str:
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
            f"bracket plate ({_figures(tv)}) reaches beyond the backboard, {mm(board.width)} ×"
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
        f"bracket plate ({_figures(tv)}) {mm(near)} and {mm(far)} from the backboard's edges; its"
        f" screws need {mm(MDF_EDGE)} from an edge, {mm(MDF_CORNER)} from a corner",
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


def _behind_plate(i: int, socket: Socket, tv: TvChoice) -> Iterator[Finding]:
    plate, here = tv.bracket, f"tv.sockets[{i}]"
    x1, z1 = socket.x + socket.width, socket.z + socket.height
    if not (socket.x < plate.x1 and plate.x0 < x1 and socket.z < plate.z1 and plate.z0 < z1):
        return
    ways = [
        (abs(to - at), f"{here}.{name}", to)
        for name, at, to in (
            ("x", socket.x, plate.x0 - socket.width),
            ("x", socket.x, plate.x1),
            ("z", socket.z, plate.z0 - socket.height),
            ("z", socket.z, plate.z1),
        )
        if to >= 0
    ]
    _, field, to = min(ways)
    change = Change(field, mm(to))
    yield finding(
        "check.tv.bracket",
        Severity.STOP,
        f"{here}.x {mm(socket.x)}, {here}.z {mm(socket.z)} lie behind the bracket's plate"
        f" ({_figures(tv)})",
        f"move it outside x {mm(plate.x0)}-{mm(plate.x1)} or z {mm(plate.z0)}-{mm(plate.z1)}:"
        f" {change.field} {change.value} is nearest",
        change=[change],
    )


def _on_board(
    i: int, socket: Socket, board: Rect, levels: list[Level], wide: int
) -> Iterator[Finding]:
    here = f"tv.sockets[{i}]"
    x1, z1 = socket.x + socket.width, socket.z + socket.height
    if socket.x < board.x0 or x1 > board.x1 or socket.z < board.z0 or z1 > board.z1:
        change = _moved_in(here, socket, board)
        yield finding(
            "check.tv.socket",
            Severity.WARNING,
            f"{here}.x {mm(socket.x)}, {here}.z {mm(socket.z)} lie outside the backboard, x"
            f" {mm(board.x0)}-{mm(board.x1)}, z {mm(board.z0)}-{mm(board.z1)}",
            "move it into the recess" + "".join(f", {one.field} {one.value}" for one in change),
            change=change,
        )
    elif any(z < z1 and socket.z < z + wide for z, _ in levels):
        free = _between_struts(socket, board, levels, wide)
        yield finding(
            "check.tv.socket",
            Severity.WARNING,
            f"{here}.z {mm(socket.z)} to {mm(z1)} meets a strut",
            "move it between the struts" + (f", {here}.z {mm(free)}" if free is not None else ""),
            change=[Change(f"{here}.z", mm(free))] if free is not None else [],
        )


def _moved_in(here: str, socket: Socket, board: Rect) -> list[Change]:
    if socket.width > board.width or socket.height > board.height:
        return []
    found = []
    for name, at, low, high in (
        ("x", socket.x, board.x0, board.x1 - socket.width),
        ("z", socket.z, board.z0, board.z1 - socket.height),
    ):
        if not low <= at <= high:
            found.append(Change(f"{here}.{name}", mm(min(max(at, low), high))))
    return found


def _between_struts(socket: Socket, board: Rect, levels: list[Level], wide: int) -> int | None:
    """Return the nearest height at which a socket meets no strut, None when there is none."""
    tried = [z + wide for z, _ in levels] + [z - socket.height for z, _ in levels]
    free = [
        at
        for at in tried
        if board.z0 <= at <= board.z1 - socket.height
        and not any(z < at + socket.height and at < z + wide for z, _ in levels)
    ]
    return min(free, key=lambda at: (abs(at - socket.z), at), default=None)
