"""Checks of fire and TV against the wall that is to hold them.

Each carries the smallest change of the wall's file that clears it. None has: a clearance left out
(its manual alone knows the figure), the air left, the cavity barrier and the picture's size (they
are told for the record, and nothing about them is wrong), a bracket without room for two struts
where the recess has its board joined (the joint's own strut stands where those would).
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.framing.bearing import (
    BARRIER_BOARD,
    BARRIER_TIMBER,
    MOST_OVERHANG,
    cavity_barrier,
)
from optimiser.framing.bracket import plate_findings
from optimiser.framing.figures import (
    before_it,
    box_depth,
    box_width,
    listed,
    size,
    step_of,
    summed,
)
from optimiser.framing.fires import FireChoice
from optimiser.framing.hanging import bracket_findings
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import ABOVE_FIRE, TvChoice
from optimiser.framing.rules import finding
from optimiser.framing.screen import least_distance, upward_look
from optimiser.framing.serving import Level
from optimiser.framing.settings import Settings
from optimiser.framing.sockets import socket_findings
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
    yield from _lining(settings)
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


def _lining(settings: Settings) -> Iterator[Finding]:
    """Say whether what lines the fire's timbers burns: a lining is named where its maker asks."""
    item = settings.fire_lining
    if item is None:
        return
    named = f'fire.lining "{item.material}"'
    if not item.is_non_combustible:
        stated = (
            f"its reaction_to_fire is {item.reaction_to_fire}"
            if item.reaction_to_fire
            else "the price book states no reaction_to_fire for it"
        )
        others = ", ".join(f'"{name}"' for name in settings.fire_boards)
        yield finding(
            "check.fire.lining",
            Severity.STOP,
            f"{named} is to line the timber round the fire, and {stated}; a lining that does not"
            " burn is of class A1 or A2",
            f"set fire.lining to {others}"
            if others
            else "add a board to the price book whose declaration of performance gives A1 or A2,"
            " with its reaction_to_fire",
            change=[Change("fire.lining", name) for name in settings.fire_boards[:1]],
        )
    else:
        yield finding(
            "check.fire.lining",
            Severity.NOTE,
            f"{named} is of class {item.reaction_to_fire}",
            "compare with what the fire's manual asks for, its thickness too: some ask for A1",
        )


def _fire_depth(settings: Settings, fire: FireChoice) -> Iterator[Finding]:
    spare = settings.depth - fire.reach
    depth, before = box_depth(settings), before_it(settings)
    whole = settings.back + settings.depth
    taken = summed(
        size("fire.body_depth", fire.fire.body_depth, fire.fire.body_depth),
        size("fire.clearance_back", fire.fire.clearance_back, fire.clearance_back),
        before,
    )
    if spare < 0:
        yield finding(
            "check.fire.depth",
            Severity.STOP,
            f"{depth} is less than {taken}",
            f"make {depth.field} {mm(whole - spare)}",
            change=[_to(depth.field, whole - spare)],
        )
    elif spare < settings.wide:
        through = whole + settings.wide - spare
        yield finding(
            "check.fire.depth",
            Severity.NOTE,
            f"{mm(spare)} is left behind the fire ({depth} less {taken}), less than a timber of"
            f" {mm(settings.wide)}: the back frame goes round it",
            f"make {depth.field} {mm(through)} to carry the back frame through",
            change=[_to(depth.field, through)],
        )


def _to(field: str, size_in_tenths: int) -> Change:
    return Change(field, mm(size_in_tenths))


def _fire_width(settings: Settings, fire: FireChoice, hole: Hole) -> Iterator[Finding]:
    body = fire.fire
    wide, high = body.body_width, body.body_height
    box = settings.end - settings.start
    if hole.to_left and hole.to_right and wide != box:
        along = box_width(settings)
        step = step_of(settings)
        field = f"steps.{step.name}.width" if step is not None else "wall.width"
        wanted = wide - box + (step.width if step is not None else settings.width)
        yield finding(
            "check.fire.width",
            Severity.STOP,
            f"{listed(along)}: {mm(box)} from end to end, and fire.body_width {mm(wide)} differs;"
            " the glass is at both ends",
            f"make {field} {mm(wanted)}",
            change=[_to(field, wanted)],
        )
    elif fire.opening_width > wide or fire.opening_height > high:
        # Where glass is at both ends the hole runs from end to end.
        held = hole.to_left and hole.to_right
        larger = [
            (size(f"fire.opening_{side}", given, opening), size(f"fire.body_{side}", most, most))
            for side, given, opening, most, fixed in (
                ("width", body.opening_width, fire.opening_width, wide, held),
                ("height", body.opening_height, fire.opening_height, high, False),
            )
            if opening > most and not fixed
        ]
        if larger:
            yield finding(
                "check.fire.opening",
                Severity.WARNING,
                " and ".join(f"{opening} is more than {most}" for opening, most in larger),
                "check both against the manual; "
                + " and ".join(f"{opening.field} {most.value}" for opening, most in larger)
                + " at most leaves no gap round the body",
                change=[Change(opening.field, most.value) for opening, most in larger],
            )
    yield from _overhang(fire, hole)
    # Where the wall has several boxes it says in which of them the fire lies.
    if fire.fire.centre is not None and not settings.name and (hole.to_left or hole.to_right):
        yield finding(
            "check.fire.centre",
            Severity.WARNING,
            f"fire.centre {mm(fire.fire.centre)} is not used: the glass returns round an end"
            f' (fire.glass "{fire.glass.value}")',
            "leave fire.centre_mm out",
            change=[Change("fire.centre", "")],
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
        change=[Change("fire.power", str(PLUG_FUSE * MAINS))],
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
    # The hole is in the middle of its timbers: what it grows by is shared by both sides, but where
    # the glass goes round an end it counts from that end.
    given = fire.opening_width
    sides = 1 if hole.to_left or hole.to_right else 2
    width = given + sides * max(aside - MOST_OVERHANG, 0)
    height = fire.opening_height + max(over - MOST_OVERHANG, 0)
    changes: list[Change] = []
    bare: list[str] = []
    for field, now, least, body in (
        ("opening_width", given, width, fire.fire.body_width),
        ("opening_height", fire.opening_height, height, fire.fire.body_height),
    ):
        if least > now:
            changes.append(_to(f"fire.{field}", least))
            if least > body:
                bare.append(f"{mm(least - body)} more than {mm(body)} of body")
    yield finding(
        "check.fire.overhang",
        Severity.STOP,
        f"facing board reaches {mm(over)} above and {mm(aside)} beside the fire beyond its timber"
        f" ({listed(hole.told.along, hole.told.up)}; opening {mm(given)} ×"
        f" {mm(fire.opening_height)}); at most {mm(MOST_OVERHANG)}",
        "make "
        + " and ".join(f"{one.field} {one.value} at least" for one in changes)
        + (f" ({', '.join(bare)}: check that the fire's trim covers it)" if bare else ""),
        change=changes,
    )


def tv_findings(
    settings: Settings, tv: TvChoice, hole: Hole, fire: Hole | None, levels: list[Level]
) -> Iterator[Finding]:
    """Yield what the TV's figures say against its recess, its bracket and its viewer."""
    yield from _tv_fit(tv, hole)
    yield from plate_findings(settings, tv, hole, levels)
    yield from socket_findings(settings, tv, hole, levels)
    yield from bracket_findings(settings, tv)
    yield _look(tv)
    if fire is not None and fire.cut.x0 < tv.screen.x1 and tv.screen.x0 < fire.cut.x1:
        gap = tv.screen.z0 - fire.cut.z1
        if gap < ABOVE_FIRE:
            higher = tv.centre_height + ABOVE_FIRE - gap
            change = _to("tv.above_fire", ABOVE_FIRE)
            if tv.tv.centre_height is not None:
                change = _to("tv.centre_height", higher)
            yield finding(
                "check.fire.tv",
                Severity.WARNING,
                f"{mm(gap)} from the fire to the TV; {mm(ABOVE_FIRE)} is a rule of thumb",
                f"raise the TV {mm(ABOVE_FIRE - gap)} ({change.field} {change.value}), or follow"
                " the fire's manual",
                change=[change],
            )


def _look(tv: TvChoice) -> Finding:
    """Say how far up the viewer looks; from further away he looks up less."""
    angle = upward_look(tv.centre_height, tv.eye_height, tv.viewing_distance)
    said = (
        f"centre at {mm(tv.centre_height)}, eye at {mm(tv.eye_height)}, seat at"
        f" {mm(tv.viewing_distance)}: a look of {angle:.1f}° up; at most {MOST_LOOK}°"
    )
    if angle <= MOST_LOOK:
        return finding("check.tv.angle", Severity.NOTE, said, "nothing to do")
    back = least_distance(tv.centre_height, tv.eye_height, MOST_LOOK)
    return finding(
        "check.tv.angle",
        Severity.WARNING,
        said,
        f"hang it lower, or sit {mm(back)} away (tv.viewing_distance)",
        change=[_to("tv.viewing_distance", back)],
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
        change = [
            _to(f"tv.recess_{side}", wanted)
            for side, wanted, gap in (
                ("width", width, min(gaps["left"], gaps["right"])),
                ("height", height, min(gaps["below"], gaps["above"])),
            )
            if gap < tv.finger_gap
        ]
        yield finding(
            "check.tv.gap",
            Severity.STOP if least < 0 else Severity.WARNING,
            f"recess {mm(clear.width)} × {mm(clear.height)} ({listed(hole.told.along)},"
            f" {listed(hole.told.up)}) leaves "
            + ", ".join(f"{mm(gap)} {side}" for side, gap in gaps.items())
            + f" round a TV of {mm(screen.width)} × {mm(screen.height)}",
            f"{mm(width)} × {mm(height)} gives {mm(tv.finger_gap)} all round",
            change=change,
        )
    if tv.depth > tv.recess_depth:
        yield finding(
            "check.tv.depth",
            Severity.WARNING,
            f"{size('tv.depth', tv.tv.depth, tv.depth)} is more than tv.recess_depth"
            f" {mm(tv.recess_depth)}: it stands {mm(tv.depth - tv.recess_depth)} proud",
            f"make tv.recess_depth {mm(tv.depth)} at least, and deeper by the folded bracket",
            change=[_to("tv.recess_depth", tv.depth)],
        )
    if tv.tv.diagonal is not None and (tv.tv.width is None or tv.tv.height is None):
        yield finding(
            "check.tv.size",
            Severity.NOTE,
            f"{mm(screen.width)} × {mm(screen.height)} is the picture by its diagonal; a case"
            " is 5 to 20 larger (from memory)",
            "measure the case and give tv.width_mm and tv.height_mm",
        )
