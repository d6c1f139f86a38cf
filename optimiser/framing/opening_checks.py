"""Whether openings fit the box of the wall that they lie in, and stand clear of one another."""

from __future__ import annotations

from optimiser.framing.figures import (
    Figure,
    before_it,
    board,
    box_depth,
    box_width,
    ceiling,
    layers,
    listed,
    summed,
    timber,
)
from optimiser.framing.notes import Notes
from optimiser.framing.openings import Hole, apart
from optimiser.framing.settings import SHORTEST, Settings
from optimiser.units import mm

# A recess hardly deeper than its boards cannot be lined: common practice, no source.
SHALLOWEST = 200


def check_holes(holes: list[Hole], settings: Settings, notes: Notes) -> None:
    """Record every opening that does not fit the wall, and every two that are too near."""
    for hole in holes:
        _check_sides(hole, settings, notes)
        _check_heights(hole, settings, notes)
        if hole.lined:
            _check_depth(hole, settings, notes)
        _check_shelves(hole, settings, notes)
    for i, one in enumerate(holes):
        for other in holes[i + 1 :]:
            if not apart(one, other, settings.thick):
                notes.problem(
                    one.told.along[0].field,
                    f"{one.name} ({listed(one.told.along, one.told.up)}) and {other.name}"
                    f" ({listed(other.told.along, other.told.up)}) overlap or are too near:"
                    f" {_place(one)}, {_place(other)}",
                    _parted(one, other, settings.thick),
                )


def _parted(one: Hole, other: Hole, thick: int) -> str:
    """Say the smallest move that parts two openings, whichever of them it moves."""
    a, b = one.frame, other.frame
    ways = [
        (thick - (a.x0 - b.x1), f"move {one.name} {{}} right or {other.name} as much left"),
        (thick - (b.x0 - a.x1), f"move {other.name} {{}} right or {one.name} as much left"),
        (2 * thick - (a.z0 - b.z1), f"raise {one.name} {{}} or lower {other.name} as much"),
        (2 * thick - (b.z0 - a.z1), f"raise {other.name} {{}} or lower {one.name} as much"),
    ]
    by, way = min(ways, key=lambda entry: entry[0])
    return way.format(mm(by))


def _check_depth(hole: Hole, settings: Settings, notes: Notes) -> None:
    deep, skin = hole.told.deep, settings.skin
    if hole.depth < skin + SHALLOWEST:
        notes.problem(
            deep[0].field,
            f"{summed(deep)} is less than boards {mm(skin)} ({listed(board(settings))},"
            f" {listed(layers(settings))}) + {mm(SHALLOWEST)}",
            f"make {hole.name} at least {mm(skin + SHALLOWEST)} deep",
        )
    behind = hole.back(settings)
    if behind < 0:
        whole, before = box_depth(settings), before_it(settings)
        notes.problem(
            whole.field,
            f"{whole} is less than {summed(deep)} + back {mm(hole.panel)} + strut"
            f" {mm(settings.thick)} ({timber(settings)})"
            + (f" + {summed(before)} behind" if before else ""),
            f"make {whole.field} {mm(settings.back + settings.depth - behind)}, or {hole.name}"
            f" {mm(-behind)} shallower",
        )


def _check_shelves(hole: Hole, settings: Settings, notes: Notes) -> None:
    """Refuse shelves so near one another that no return finds room behind each one's ends."""
    least = settings.wide * 3 // 2 - settings.lining
    spacing = hole.clear.height // (hole.shelves + 1)
    if hole.shelves and spacing < least:
        height = hole.told.up[-1]
        notes.problem(
            f"niches.{hole.name}.shelves",
            f"niches.{hole.name}.shelves {hole.shelves} in {height} lie {mm(spacing)} apart; the"
            f" timbers that carry their ends ({timber(settings)}) need {mm(least)}",
            f"make it {max(hole.clear.height // least - 1, 0)} at the most, or choose a narrower"
            " timber",
        )


def check_lining(holes: list[Hole], settings: Settings, notes: Notes) -> None:
    """Record a fire whose lining overhead has no room for the returns that hold its ends."""
    fire = next((hole for hole in holes if hole.kind == "fire"), None)
    narrow = settings.wide <= 2 * settings.thick
    if fire is None or settings.fire_lining is None or fire.blocks_back(settings) or narrow:
        # A narrow timber lies on the flat where a return on edge is too high.
        return
    thick = settings.thick
    outers = [hole.outer(settings) for hole in holes if hole is not fire]
    for x in (fire.frame.x0 - thick, fire.frame.x1):
        over = [o.z0 for o in outers if o.x0 < x + thick and x < o.x1 and o.z0 >= fire.frame.z1]
        plate = settings.levels.lowest_ceiling(x, x + thick) - thick - settings.fit
        # A strut's return beside the same upright stands at the foot of its recess.
        strutted = [
            hole.frame.z0
            for hole in holes
            if hole.lined
            and hole.frame.z0 >= fire.frame.z1
            and x in (hole.frame.x0 - thick, hole.frame.x1)
        ]
        room = min([plate, *(z + thick for z in over), *strutted])
        if room - fire.frame.z1 < settings.wide:
            lining = Figure("fire.lining", f'"{settings.fire_lining.material}"')
            over_it = [hole.told.up for hole in holes if hole.frame.z0 >= fire.frame.z1]
            notes.problem(
                "fire.lining",
                f"{lining} needs returns {mm(settings.wide)} high ({timber(settings)}) that hold"
                f" its ends, and {listed(fire.told.up, *over_it, ceiling(settings))} leave"
                f" {mm(room - fire.frame.z1)} over the fire's frame",
                f"leave {mm(settings.wide - room + fire.frame.z1)} more over the fire, or choose a"
                " narrower timber",
            )
            return


def _place(hole: Hole) -> str:
    frame = hole.frame
    return f"{hole.name} frame x {mm(frame.x0)}-{mm(frame.x1)}, z {mm(frame.z0)}-{mm(frame.z1)}"


def _check_sides(hole: Hole, settings: Settings, notes: Notes) -> None:
    frame, thick = hole.frame, settings.thick
    along = hole.told.along
    left = 0 if hole.to_left else thick
    right = 0 if hole.to_right else thick
    short = settings.left + left - frame.x0, frame.x1 + right - settings.right
    if frame.width <= 0 or hole.cut.width <= 0 or hole.cut.height <= 0:
        notes.problem(
            along[0].field,
            f"{listed(along, hole.told.up)}: {hole.name} has no width or height",
            "give it a size above 0",
        )
    elif max(short) > 0:
        narrower = short[0] + short[1]
        remedy = f"make it {mm(narrower)} narrower, or {_wider(settings)} as much wider"
        if short[0] != short[1]:
            # Only a move brings it between its uprights once it is narrow enough.
            way = "right" if short[0] > short[1] else "left"
            moved = mm(max(short) if narrower <= 0 else abs(short[0] - short[1]) // 2)
            remedy = f"move it {moved} to the {way}" + (f", and {remedy}" if narrower > 0 else "")
        notes.problem(
            along[0].field,
            f"{listed(along)}: with an upright of {mm(thick)} each side it takes"
            f" {mm(frame.x0 - left)} to {mm(frame.x1 + right)}, and there is room from"
            f" {mm(settings.left)} to {mm(settings.right)} only ({listed(box_width(settings))})",
            remedy,
        )


def _raised(hole: Hole, by: int) -> str:
    """Say what raises an opening: a slot that hangs under the TV goes up with it."""
    if hole.kind == "soundbar" and not hole.told.up[0].given:
        return f"raise the TV {mm(by)}, or give soundbar.x and soundbar.z"
    return f"raise it {mm(by)}"


def _wider(settings: Settings) -> str:
    """Name what may be made wider: the wall, or a step of its front."""
    if not settings.step:
        return "the wall"
    return f"steps.{settings.step}.width"


def _check_heights(hole: Hole, settings: Settings, notes: Notes) -> None:
    frame, thick = hole.frame, settings.thick
    sole, up = settings.sole, hole.told.up
    lowest = f"sole plate and sill of {timber(settings)}"
    if frame.z0 != sole and frame.z0 < sole + thick:
        notes.problem(
            up[0].field,
            f"{listed(up)}: its frame begins at {mm(frame.z0)}, within {lowest}, which end at"
            f" {mm(sole + thick)}",
            _raised(hole, sole + thick - frame.z0)
            + (f", or lower it {mm(frame.z0 - sole)} to the sole plate" if frame.z0 > sole else ""),
        )
    elif hole.kind == "fire" and sole + thick < frame.z0 < sole + thick + SHORTEST:
        notes.problem(
            "fire.base_height",
            f"{up[0]} leaves {mm(frame.z0 - sole - thick)} between {lowest}, too little for the"
            f" short uprights that carry the fire, {mm(SHORTEST)}",
            f"make it {mm(sole + thick)}, or at least {mm(sole + thick + SHORTEST)}",
        )
    inside = max(settings.start, frame.x0 - thick), min(settings.end, frame.x1 + thick)
    if inside[0] >= inside[1]:
        return
    room = settings.levels.lowest_ceiling(*inside) - thick - settings.fit
    over = listed(ceiling(settings))
    if frame.z1 + thick > room:
        notes.problem(
            up[0].field,
            f"{listed(up)}: its frame ends at {mm(frame.z1)}, and {over} less head and head plate"
            f" of {timber(settings)} leave {mm(room - thick)}",
            f"lower it or make it {mm(frame.z1 + thick - room)} less high",
        )
    elif (hole.to_left or hole.to_right) and room - frame.z1 - thick < SHORTEST:
        glass = settings.wall.fire.glass if settings.wall.fire is not None else None
        notes.problem(
            "fire.glass",
            f'fire.glass "{glass.value if glass else ""}" returns round an end, and {listed(up)}'
            f" under {over} leave {mm(room - frame.z1 - thick)} between head and head plate, too"
            f" little for the short upright that carries the head there, {mm(SHORTEST)}",
            f"lower fire.base_height by {mm(SHORTEST + frame.z1 + thick - room)}, or raise the top",
        )
