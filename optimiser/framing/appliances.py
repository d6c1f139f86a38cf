"""Checks of fire, TV and soundbar against the wall that is to hold them."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Finding, Severity
from optimiser.framing.bearing import MOST_OVERHANG, mdf_takes_screw
from optimiser.framing.loads import (
    GAMMA_PERMANENT,
    GRAVITY,
    STRENGTH_CLASSES,
    Shear,
    bracket_pull,
    combined,
    design_resistance,
    effective_screws,
    percent_up,
    pull_per_screw,
    rail_on_edge,
    withdrawal_resistance,
)
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import ABOVE_FIRE, FireChoice, TvChoice
from optimiser.framing.returns import BRACKET_ROWS, Level
from optimiser.framing.rules import finding
from optimiser.framing.screen import upward_look
from optimiser.framing.settings import Settings
from optimiser.units import mm

# Up to 15°: display set-up guide.
MOST_LOOK = 15
# Wood screws of 6 mm, two at the top of the plate: common practice, no source.
SCREW_DIAMETER = 6.0
TOP_SCREWS = 2
# A screw stops this far short of a strut's back: common practice, no source.
SCREW_SHORT = 20
# Books weigh 20 to 40 kg a metre: common practice, no source. Four screws of 4 mm a shelf through
# its cheeks, 25 into the returns behind: as the screws are counted.
SHELF_LOAD = 30
SHELF_SCREWS = 4
SHELF_SCREW = 4.0
SHELF_THREAD = 25
# MDF, N/mm², from memory; a sag of 1/200 of the span is seen: common practice, no source.
SHELF_MODULUS = 2_500
SHELF_SAG = 200


def fire_findings(settings: Settings, fire: FireChoice, hole: Hole) -> Iterator[Finding]:
    """Yield what the fire's figures say against the depth, the timbers and its board."""
    yield from _fire_depth(settings, fire)
    yield from _fire_width(settings, fire, hole)
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
    edges = [hole.frame.z1 - hole.cut.z1]
    if not hole.to_left:
        edges.append(hole.cut.x0 - hole.frame.x0)
    if not hole.to_right:
        edges.append(hole.frame.x1 - hole.cut.x1)
    if max(edges) > MOST_OVERHANG:
        yield finding(
            "check.fire.overhang",
            Severity.STOP,
            f"facing board reaches {mm(max(edges))} beyond its timber at the fire; at most"
            f" {mm(MOST_OVERHANG)}",
            "give fire.opening_width and fire.opening_height nearer to the body and its clearances",
        )
    if fire.fire.centre is not None and (hole.to_left or hole.to_right):
        yield finding(
            "check.fire.centre",
            Severity.WARNING,
            f"fire.centre {mm(fire.fire.centre)} is not used: the glass returns round an end",
            "leave fire.centre_mm out",
        )


def tv_findings(
    settings: Settings, tv: TvChoice, hole: Hole, fire: Hole | None, levels: list[Level]
) -> Iterator[Finding]:
    """Yield what the TV's figures say against its recess, its bracket and its viewer."""
    yield from _tv_fit(tv, hole)
    yield from _bracket(tv, hole, levels, settings)
    yield from _withdrawal(settings, tv)
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


def _withdrawal(settings: Settings, tv: TvChoice) -> Iterator[Finding]:
    if tv.tv.mass is None:
        yield finding(
            "check.tv.mass",
            Severity.WARNING,
            "the TV's mass is not given, so its bracket is not checked",
            "give tv.mass_kg",
        )
        return
    grade = settings.timber.grade if settings.timber.grade in STRENGTH_CLASSES else "C16"
    pull = bracket_pull(
        tv=tv.tv.mass / 1000, reach=tv.bracket_reach / 10_000, arm=tv.bracket_mass / 1000
    )
    each = pull_per_screw(pull, rows_apart=BRACKET_ROWS / 10_000, top_screws=TOP_SCREWS)
    thread = (settings.thick - SCREW_SHORT) / 10
    density = STRENGTH_CLASSES[grade].density_characteristic
    one = withdrawal_resistance(
        diameter=SCREW_DIAMETER,
        thread=thread,
        density=density,
    )
    held = design_resistance(one) * effective_screws(TOP_SCREWS)
    use = percent_up(each * TOP_SCREWS / held)
    enough = use <= 100
    yield finding(
        "check.tv.withdrawal",
        Severity.NOTE if enough else Severity.STOP,
        f"{tv.tv.mass / 1000:g} kg at {mm(tv.bracket_reach)}: {pull.moment:.0f} N·m,"
        f" {each:.0f} N on each of {TOP_SCREWS} top screws of {SCREW_DIAMETER:g} mm with"
        f" {thread:g} mm of thread in {grade}; {use} % of their withdrawal resistance"
        " (k_mod 0.60, gamma_M 1.3, gamma_G 1.35)",
        "screw into struts, never into the backboard alone"
        if enough
        else "shorter bracket, more screws, or thicker struts",
    )

    # The backboard counts as timber of the struts' class: MDF is denser.
    screw = Shear(
        diameter=SCREW_DIAMETER,
        first=settings.backboard.thickness / 10,
        second=thread,
        density=density,
    )
    mode, shear = screw.resistance()
    sheared = GAMMA_PERMANENT * pull.shear / (2 * TOP_SCREWS) / design_resistance(shear)
    both = percent_up(combined(axial=each * TOP_SCREWS / held, shear=sheared))
    enough = both <= 100
    yield finding(
        "check.tv.shear",
        Severity.NOTE if enough else Severity.STOP,
        f"{pull.shear:.0f} N on {2 * TOP_SCREWS} screws through {mm(settings.backboard.thickness)}"
        f" of backboard: {percent_up(sheared)} % of their shear (mode {mode}), {both} % with the"
        " pull, by squares (k_mod 0.60, gamma_M 1.3, gamma_G 1.35)",
        "none needed" if enough else "shorter bracket, more screws, or thicker struts",
    )


def shelf_findings(settings: Settings, hole: Hole) -> Iterator[Finding]:
    """Yield what a shelf of books asks of the screws at its ends."""
    if not hole.shelves:
        return
    width = hole.clear.width / 10_000
    own = hole.clear.width * hole.depth * settings.backboard.mass / 100_000_000_000
    load = own + SHELF_LOAD * width
    grade = settings.timber.grade if settings.timber.grade in STRENGTH_CLASSES else "C16"
    screw = Shear(
        diameter=SHELF_SCREW,
        first=settings.board.thickness / 10,
        second=SHELF_THREAD,
        density=STRENGTH_CLASSES[grade].density_characteristic,
    )
    mode, one = screw.resistance()
    held = design_resistance(one) * SHELF_SCREWS
    use = percent_up(GAMMA_PERMANENT * GRAVITY * load / held)
    enough = use <= 100
    yield from _sag(settings, hole)
    yield finding(
        "check.shelf.fixing",
        Severity.NOTE if enough else Severity.WARNING,
        f"each shelf of {hole.name} with {SHELF_LOAD} kg a metre weighs {load:.1f} kg: {use} % of"
        f" the shear of {SHELF_SCREWS} screws of {SHELF_SCREW:g} mm (mode {mode}; k_mod 0.60,"
        " gamma_M 1.3, gamma_G 1.35)",
        "none needed" if enough else "more screws, or a bearer under each end",
    )


def _sag(settings: Settings, hole: Hole) -> Iterator[Finding]:
    span = hole.clear.width / 10
    sag = rail_on_edge(
        thickness=hole.depth / 10,
        depth=settings.backboard.thickness / 10,
        span=span,
        load=SHELF_LOAD * GRAVITY / 1_000,
        modulus=SHELF_MODULUS,
    ).deflection
    if sag > span / SHELF_SAG:
        yield finding(
            "check.shelf.sag",
            Severity.WARNING,
            f"a shelf of {hole.name} with {SHELF_LOAD} kg a metre sags {sag:.1f} over {span:g};"
            f" at most 1/{SHELF_SAG} of it, {span / SHELF_SAG:.1f}",
            "choose a thicker shelf, a lipping on edge, or a narrower niche",
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
