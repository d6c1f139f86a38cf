"""Checks of fire, TV and soundbar against the wall that is to hold them."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Finding, Severity
from optimiser.framing.bearing import (
    BARRIER_BOARD,
    BARRIER_TIMBER,
    MOST_OVERHANG,
    cavity_barrier,
    mdf_takes_screw,
)
from optimiser.framing.hanging import bracket_findings
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import ABOVE_FIRE, FireChoice, TvChoice
from optimiser.framing.returns import Level
from optimiser.framing.rules import finding
from optimiser.framing.screen import upward_look
from optimiser.framing.settings import Settings
from optimiser.units import mm

# Volts in the UK, and the largest fuse of a plug or a fused connection unit in amperes.
MAINS = 230
PLUG_FUSE = 13
# Up to 15°: display set-up guide.
MOST_LOOK = 15


def fire_findings(settings: Settings, fire: FireChoice, hole: Hole) -> Iterator[Finding]:
    """Yield what the fire's figures say against the depth, the timbers and its board."""
    yield from _fire_depth(settings, fire)
    yield from _fire_width(settings, fire, hole)
    yield _power(fire)
    yield _barrier(settings)
    free = hole.frame.z1 - fire.body.z1
    side = min(fire.body.x0 - hole.frame.x0, hole.frame.x1 - fire.body.x1)
    yield finding(
        "check.fire.ventilation",
        Severity.NOTE,
        f"air left round the body: {mm(free)} above, {mm(max(side, 0))} at the side,"
        f" {mm(max(settings.depth - fire.fire.body_depth, 0))} behind",
        "compare with the vents and air gaps of its manual; some fires forbid closing them",
    )
    unnamed = [
        name
        for name, given in (
            ("top", fire.fire.clearance_top),
            ("side", fire.fire.clearance_side),
            ("back", fire.fire.clearance_back),
        )
        if given is None
    ]
    if unnamed:
        yield finding(
            "check.fire.maker",
            Severity.WARNING,
            f"clearance not given: {', '.join(unnamed)}; taken as 0",
            "enter the figures of the fire's installation manual",
        )


def _fire_depth(settings: Settings, fire: FireChoice) -> Iterator[Finding]:
    spare = settings.depth - fire.reach
    if spare < 0:
        yield finding(
            "check.fire.depth",
            Severity.STOP,
            f"wall.depth {mm(settings.depth)} is less than fire.body_depth"
            f" {mm(fire.fire.body_depth)} + fire.clearance_back {mm(fire.clearance_back)}",
            f"make the wall {mm(-spare)} deeper",
        )
    elif spare < settings.wide:
        yield finding(
            "check.fire.depth",
            Severity.NOTE,
            f"{mm(spare)} is left behind the fire, less than a timber of {mm(settings.wide)}: the"
            " back frame goes round it",
            f"make the wall {mm(settings.wide - spare)} deeper to carry the back frame through",
        )


def _fire_width(settings: Settings, fire: FireChoice, hole: Hole) -> Iterator[Finding]:
    wide, high = fire.fire.body_width, fire.fire.body_height
    opening = fire.opening_width
    if hole.to_left and hole.to_right and wide != settings.width:
        yield finding(
            "check.fire.width",
            Severity.STOP,
            f"wall.width {mm(settings.width)} and fire.body_width {mm(wide)} differ, and the"
            " glass is at both ends",
            f"make the wall {mm(wide)} wide",
        )
    elif opening > wide or fire.opening_height > high:
        yield finding(
            "check.fire.opening",
            Severity.WARNING,
            f"opening {mm(opening)} × {mm(fire.opening_height)} is larger than the body"
            f" {mm(wide)} × {mm(high)}",
            "check both against the manual",
        )
    yield from _overhang(fire, hole)
    if fire.fire.centre is not None and (hole.to_left or hole.to_right):
        yield finding(
            "check.fire.centre",
            Severity.WARNING,
            f"fire.centre {mm(fire.fire.centre)} is not used: the glass returns round an end",
            "leave fire.centre_mm out",
        )


def amperes(watts: int) -> float:
    """Return the current that a heater draws from the mains."""
    return watts / MAINS


def _power(fire: FireChoice) -> Finding:
    """Say what fuse feeds the fire, and whether its circuit must be notified."""
    current = amperes(fire.power)
    said = f"{fire.power} W at {MAINS} V draw {current:.2f} A"
    if current <= PLUG_FUSE:
        return finding(
            "check.fire.power",
            Severity.NOTE,
            f"{said}: a fuse of {PLUG_FUSE} A carries them",
            "feed it from a fused connection unit that stays within reach; in England a spur on the"
            " living room's own circuit is not notifiable, yet must comply",
        )
    return finding(
        "check.fire.power",
        Severity.WARNING,
        f"{said}, more than a fuse of {PLUG_FUSE} A carries",
        f"choose a fire of {PLUG_FUSE * MAINS} W at most, or have it given a circuit of its own: a"
        " new circuit is notifiable in England",
    )


def _barrier(settings: Settings) -> Finding:
    """Say whether the timber and the board round the fire would close a cavity."""
    timber = cavity_barrier(settings.thick, timber=True)
    board = cavity_barrier(settings.board.thickness, timber=False)
    least = f"timber {mm(BARRIER_TIMBER)} or board {mm(BARRIER_BOARD)}"
    serves = [
        f"{what} {mm(thickness)} {'serves' if enough else 'does not serve'}"
        for what, thickness, enough in (
            ("timber", settings.thick, timber),
            ("board", settings.board.thickness, board),
        )
    ]
    return finding(
        "check.fire.barrier",
        Severity.NOTE,
        f"where fire rules ask for a cavity barrier round the opening, {least} thick at least:"
        f" {', '.join(serves)}",
        "ask building control whether one is asked for, and close the cavity before boarding",
    )


def _overhang(fire: FireChoice, hole: Hole) -> Iterator[Finding]:
    """Yield how far the facing board passes the timber round the fire, and what clears that.

    The opening's timber stands clear of the body as the manual asks; only the hole may grow.
    """
    over = max(hole.frame.z1 - hole.cut.z1, 0)
    left = 0 if hole.to_left else hole.cut.x0 - hole.frame.x0
    right = 0 if hole.to_right else hole.frame.x1 - hole.cut.x1
    aside = max(left, right)
    if max(over, aside) <= MOST_OVERHANG:
        return
    # The hole is in the middle of its timbers: what it grows by is shared by both sides.
    # Where the glass goes round an end it runs to that end, whatever was given.
    given = fire.fire.opening_width or fire.fire.body_width
    width = given + 2 * max(aside - MOST_OVERHANG, 0)
    height = fire.opening_height + max(over - MOST_OVERHANG, 0)
    changes, bare = [], []
    for field, now, least, body in (
        ("opening_width", given, width, fire.fire.body_width),
        ("opening_height", fire.opening_height, height, fire.fire.body_height),
    ):
        if least > now:
            changes.append(f"fire.{field} {mm(least)} at least")
            if least > body:
                bare.append(f"{mm(least - body)} more than {mm(body)} of body")
    yield finding(
        "check.fire.overhang",
        Severity.STOP,
        f"facing board reaches {mm(over)} above and {mm(aside)} beside the fire beyond its timber;"
        f" at most {mm(MOST_OVERHANG)}",
        "make "
        + " and ".join(changes)
        + (f" ({', '.join(bare)}: check that the fire's trim covers it)" if bare else ""),
    )


def tv_findings(
    settings: Settings, tv: TvChoice, hole: Hole, fire: Hole | None, levels: list[Level]
) -> Iterator[Finding]:
    """Yield what the TV's figures say against its recess, its bracket and its viewer."""
    yield from _tv_fit(tv, hole)
    yield from _bracket(tv, hole, levels, settings)
    yield from bracket_findings(settings, tv)
    angle = upward_look(tv.centre_height, tv.eye_height, tv.viewing_distance)
    yield finding(
        "check.tv.angle",
        Severity.WARNING if angle > MOST_LOOK else Severity.NOTE,
        f"centre at {mm(tv.centre_height)}, eye at {mm(tv.eye_height)}, seat at"
        f" {mm(tv.viewing_distance)}: a look of {angle:.1f}° up; at most {MOST_LOOK}°",
        "hang it lower, or sit further away" if angle > MOST_LOOK else "none needed",
    )
    if fire is not None and fire.cut.x0 < tv.screen.x1 and tv.screen.x0 < fire.cut.x1:
        gap = tv.screen.z0 - fire.cut.z1
        if gap < ABOVE_FIRE:
            yield finding(
                "check.fire.tv",
                Severity.WARNING,
                f"{mm(gap)} from the fire to the TV; {mm(ABOVE_FIRE)} is a rule of thumb",
                f"raise the TV {mm(ABOVE_FIRE - gap)}, or follow the fire's manual",
            )


def _tv_fit(tv: TvChoice, hole: Hole) -> Iterator[Finding]:
    screen, clear = tv.screen, hole.clear
    gaps = {
        "left": screen.x0 - clear.x0,
        "right": clear.x1 - screen.x1,
        "below": screen.z0 - clear.z0,
        "above": clear.z1 - screen.z1,
    }
    least = min(gaps.values())
    if least < tv.finger_gap:
        width, height = screen.width + 2 * tv.finger_gap, screen.height + 2 * tv.finger_gap
        yield finding(
            "check.tv.gap",
            Severity.STOP if least < 0 else Severity.WARNING,
            f"recess {mm(clear.width)} × {mm(clear.height)} leaves "
            + ", ".join(f"{mm(gap)} {side}" for side, gap in gaps.items())
            + f" round a TV of {mm(screen.width)} × {mm(screen.height)}",
            f"{mm(width)} × {mm(height)} gives {mm(tv.finger_gap)} all round",
        )
    if tv.depth > tv.recess_depth:
        yield finding(
            "check.tv.depth",
            Severity.WARNING,
            f"TV {mm(tv.depth)} deep in a recess of {mm(tv.recess_depth)}: it stands"
            f" {mm(tv.depth - tv.recess_depth)} proud",
            f"make the recess {mm(tv.depth)} deep at least, and the folded bracket with it",
        )
    if tv.tv.diagonal is not None and (tv.tv.width is None or tv.tv.height is None):
        yield finding(
            "check.tv.size",
            Severity.NOTE,
            f"{mm(screen.width)} × {mm(screen.height)} is the picture by its diagonal; a case"
            " is 5 to 20 larger (from memory)",
            "measure the case and give tv.width_mm and tv.height_mm",
        )


def _bracket(
    tv: TvChoice, hole: Hole, levels: list[Level], settings: Settings
) -> Iterator[Finding]:
    plate, board = tv.bracket, hole.frame
    if plate.x0 < board.x0 or plate.x1 > board.x1 or plate.z0 < board.z0 or plate.z1 > board.z1:
        yield finding(
            "check.tv.bracket",
            Severity.STOP,
            f"bracket plate {mm(plate.width)} × {mm(plate.height)} reaches beyond the backboard",
            "choose a smaller bracket or a larger recess",
        )
    aside = min(plate.x0 - board.x0, board.x1 - plate.x1)
    upright = min(plate.z0 - board.z0, board.z1 - plate.z1)
    near, far = sorted((aside, upright))
    if near >= 0 and not mdf_takes_screw(from_edge=near, from_corner=far):
        yield finding(
            "check.tv.edge",
            Severity.WARNING,
            f"bracket plate {mm(near)} and {mm(far)} from the backboard's edges; its screws need"
            " 12 from an edge, 25 from a corner",
            "choose a smaller bracket, or drill its outer holes first",
        )
    if sum(rule == "frame.strut.bracket" for _, rule in levels) < 2:
        yield finding(
            "check.tv.bracket",
            Severity.WARNING,
            "there is no room for two struts behind the bracket's rows of screws",
            "fix the bracket to the struts that are there, or make the recess higher",
        )
    for i, socket in enumerate(tv.tv.sockets, start=1):
        x1, z1 = socket.x + socket.width, socket.z + socket.height
        if socket.x < plate.x1 and plate.x0 < x1 and socket.z < plate.z1 and plate.z0 < z1:
            yield finding(
                "check.tv.bracket",
                Severity.STOP,
                f"socket {i} at {mm(socket.x)}, {mm(socket.z)} lies behind the bracket's plate",
                f"move it outside x {mm(plate.x0)}-{mm(plate.x1)} or z"
                f" {mm(plate.z0)}-{mm(plate.z1)}",
            )
        if socket.x < board.x0 or x1 > board.x1 or socket.z < board.z0 or z1 > board.z1:
            yield finding(
                "check.tv.socket",
                Severity.WARNING,
                f"socket {i} lies outside the backboard",
                "move it into the recess",
            )
        elif any(z < z1 and socket.z < z + settings.wide for z, _ in levels):
            yield finding(
                "check.tv.socket",
                Severity.WARNING,
                f"socket {i} at height {mm(socket.z)} to {mm(z1)} meets a strut",
                "move it between the struts",
            )


def soundbar_findings(settings: Settings, hole: Hole) -> Iterator[Finding]:
    """Yield what a soundbar's figures say against its slot."""
    bar = settings.wall.soundbar
    if bar is not None and bar.depth > hole.depth:
        yield finding(
            "check.soundbar.depth",
            Severity.WARNING,
            f"soundbar {mm(bar.depth)} deep in a slot of {mm(hole.depth)}",
            "deepen the slot",
        )
