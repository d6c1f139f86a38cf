"""From the fire as chosen to its opening, with the glass round an end of the wall or without.

Its figures are those of its manual; what is left out is named in the frame's defaults.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.frame import Edge
from optimiser.domain.wall import Fire, Glass
from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.bearing import behind as bearing
from optimiser.framing.figures import (
    Figures,
    Told,
    box_depth,
    box_width,
    face_at,
    listed,
    size,
    summed,
    timber,
)
from optimiser.framing.notes import Notes
from optimiser.framing.openings import Hole, behind_glass
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# Common practice, no source: a raised base.
BASE_HEIGHT = 3_000
# Inset electric fires draw 1 500 to 2 000 W: from memory.
POWER = 2_000

Span = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class FireChoice:
    """The fire with nothing left out; `body` is where it stands on the front."""

    fire: Fire
    body: Rect
    opening_width: int
    opening_height: int
    clearance_top: int
    clearance_side: int
    clearance_back: int
    return_depth: int
    glass: Glass
    power: int

    @property
    def reach(self) -> int:
        """How deep body and back clearance reach from the front."""
        return self.fire.body_depth + self.clearance_back


def settle_fire(fire: Fire, settings: Settings, notes: Notes) -> tuple[FireChoice, Hole]:
    """Return the fire as it will stand, and its opening."""
    glass = notes.take("fire.glass", fire.glass, Glass.FRONT, lambda glass: glass.value)
    top = notes.size("fire.clearance_top", fire.clearance_top, 0)
    side = notes.size("fire.clearance_side", fire.clearance_side, 0)
    back = notes.size("fire.clearance_back", fire.clearance_back, 0)
    base = notes.size("fire.base_height", fire.base_height, BASE_HEIGHT)
    width = notes.size("fire.opening_width", fire.opening_width, fire.body_width)
    height = notes.size("fire.opening_height", fire.opening_height, fire.body_height)
    to_left = glass in (Glass.LEFT, Glass.BOTH)
    to_right = glass in (Glass.RIGHT, Glass.BOTH)
    returning = fire.body_depth
    if glass is not Glass.FRONT:
        returning = notes.take(
            "fire.return_depth", fire.return_depth, fire.body_depth, lambda depth: f"{mm(depth)} mm"
        )
    _check_glass(glass, settings, notes)
    _check_unused(fire, glass, settings, notes)
    if (to_left and settings.left_bare) or (to_right and settings.right_bare):
        up = base, base + height
        _check_glass_shows(glass, up, returning, settings, notes)
        _check_glass_edge(_deep(fire, back), fire.body_depth + back, returning, settings, notes)
    lining = settings.fire_lining.thickness if settings.fire_lining is not None else 0
    body_x, cut_x, frame_x = _along(fire, glass, (width, side, lining), settings, notes)
    frame = Rect(frame_x[0], base, frame_x[1], base + max(fire.body_height + top, height) + lining)
    cut = Rect(cut_x[0], base, cut_x[1], base + height)
    choice = FireChoice(
        fire=fire,
        body=Rect(body_x[0], base, body_x[1], base + fire.body_height),
        opening_width=cut.width,
        opening_height=height,
        clearance_top=top,
        clearance_side=side,
        clearance_back=back,
        return_depth=returning,
        glass=glass,
        power=notes.take("fire.power", fire.power, POWER, lambda watts: f"{watts} W"),
    )
    hole = Hole(
        name="fire",
        kind="fire",
        frame=frame,
        cut=cut,
        clear=cut,
        depth=choice.reach,
        panel=0,
        to_left=to_left,
        to_right=to_right,
        told=_fire_told(choice, hole_width=width),
    )
    return choice, hole


def _deep(fire: Fire, back: int) -> Figures:
    return (
        size("fire.body_depth", fire.body_depth, fire.body_depth),
        size("fire.clearance_back", fire.clearance_back, back),
    )


def _fire_told(choice: FireChoice, *, hole_width: int) -> Told:
    """Return the figures behind a fire's opening, those that set its size first."""
    fire = choice.fire
    side = size("fire.clearance_side", fire.clearance_side, choice.clearance_side)
    top = size("fire.clearance_top", fire.clearance_top, choice.clearance_top)
    along = [size("fire.body_width", fire.body_width, fire.body_width), side]
    if hole_width > fire.body_width + 2 * choice.clearance_side:
        along = [size("fire.opening_width", fire.opening_width, hole_width)]
    if fire.centre is not None:
        along.append(size("fire.centre", fire.centre, fire.centre))
    high = [size("fire.body_height", fire.body_height, fire.body_height), top]
    if choice.opening_height > fire.body_height + choice.clearance_top:
        high = [size("fire.opening_height", fire.opening_height, choice.opening_height)]
    base = size("fire.base_height", fire.base_height, choice.body.z0)
    deep = _deep(fire, choice.clearance_back)
    return Told(along=tuple(along), up=(base, *high), deep=deep)


def _check_glass(glass: Glass, settings: Settings, notes: Notes) -> None:
    for ends, free, end in (
        ((Glass.LEFT, Glass.BOTH), bool(settings.left_bare), "left"),
        ((Glass.RIGHT, Glass.BOTH), bool(settings.right_bare), "right"),
    ):
        if glass not in ends or free:
            continue
        outer = settings.start == 0 if end == "left" else settings.end == settings.width
        hidden = f'wall.{end} "abuts" hides'
        if not outer:
            hidden = f"{listed(box_width(settings))} hide"
        notes.problem(
            "fire.glass",
            f'fire.glass "{glass.value}" returns round the {end} end, and {hidden} that end',
            f'set wall.{end} to "free", or fire.glass to "front"'
            if outer
            else 'set fire.glass to "front", or move the step',
        )


def _check_glass_edge(
    deep: Figures, reach: int, glass: int, settings: Settings, notes: Notes
) -> None:
    """Refuse a depth that leaves no upright near enough behind the edge of the returning glass.

    `reach` is how deep the fire and its clearance go, `glass` how deep the end board is cut out.
    """
    # Before a skirting that is kept the end board runs on to the wall.
    strip = settings.depth - glass + (settings.wall.site.skirting or 0)
    behind = settings.depth - reach
    upright = behind_glass(behind, settings)
    held = upright.y + upright.deep if upright is not None else 0
    # The end board may stand out past that upright by as much as past any.
    over = settings.depth - glass - held
    if behind < 0 or strip <= 0 or (held > 0 and over <= MOST_OVERHANG):
        return
    fire = settings.wall.fire
    edge = size("fire.return_depth", fire.return_depth if fire is not None else None, glass)
    depth = box_depth(settings)
    said = (
        f"{depth} leaves {mm(behind)} behind {summed(deep)}, and {mm(strip)} of end board behind"
        f" {edge}"
    )
    if reach - glass > MOST_OVERHANG:
        notes.problem(
            "fire.return_depth",
            f"{said}: no upright can stand within {mm(MOST_OVERHANG)} of the board's edge",
            f"make it at least {mm(reach - MOST_OVERHANG)}",
        )
        return
    flat = settings.wide <= 2 * settings.thick
    least = settings.wide + (settings.thick if flat else settings.wide)
    needs = f"back timber {mm(settings.wide)} and the upright at the glass's edge need {mm(least)}"
    needs += f" ({timber(settings)})"
    if behind < settings.thick:
        least = settings.thick
        needs = f"the upright at the glass's edge needs {mm(least)}"
    whole = settings.back + settings.depth
    notes.problem(
        depth.field, f"{said}: {needs}", f"make {depth.field} {mm(whole + least - behind)}"
    )


def _along(
    fire: Fire, glass: Glass, room: tuple[int, int, int], settings: Settings, notes: Notes
) -> tuple[Span, Span, Span]:
    """Return from where to where its body reaches, the hole in the board, and its timbers' space.

    `room`: the hole's width, the clearance at a side and what lines that. Glass that returns round
    an end puts body and hole at that end, where no timber stands.
    """
    width, side, lining = room
    start, end = settings.start, settings.end
    body_width = int(fire.body_width)
    reach = max(body_width + side, width) + lining
    if glass is Glass.LEFT:
        return (start, start + body_width), (start, start + width), (settings.left, start + reach)
    if glass is Glass.RIGHT:
        return (end - body_width, end), (end - width, end), (end - reach, settings.right)
    middle = (start + end) // 2
    if glass is Glass.BOTH:
        body = middle - body_width // 2
        return (body, body + body_width), (start, end), (settings.left, settings.right)
    centre = notes.size("fire.centre", fire.centre, middle)
    body = centre - body_width // 2
    whole = max(body_width + 2 * side, width) + 2 * lining
    return (
        (body, body + body_width),
        (centre - width // 2, centre - width // 2 + width),
        (centre - whole // 2, centre - whole // 2 + whole),
    )


def _check_unused(fire: Fire, glass: Glass, settings: Settings, notes: Notes) -> None:
    """Refuse figures that the glass contradicts: a return that there is none of, a hole that does
    not run from end to end."""
    if glass is Glass.FRONT and fire.return_depth is not None:
        default = "" if fire.glass is not None else " (default)"
        notes.problem(
            "fire.return_depth",
            f"fire.return_depth {mm(fire.return_depth)} is the glass at an end, and"
            f' fire.glass "front"{default} returns round none',
            'leave it out, or set fire.glass to "left", "right" or "both"',
        )
    whole = settings.end - settings.start
    if glass is Glass.BOTH and fire.opening_width not in (None, whole, fire.body_width):
        notes.problem(
            "fire.opening_width",
            f"fire.opening_width {mm(fire.opening_width or 0)} contradicts"
            f' fire.glass "both", whose hole runs from end to end, {mm(whole)}'
            f" ({listed(box_width(settings))})",
            f"leave it out, or make it {mm(whole)}",
        )


def _is_in_beside(y: int, end: str, settings: Settings, notes: Notes) -> bool:
    """Return whether a fire at an end reaches back, its air gap with it, into what stands beside
    it; if so it is refused.

    That shows to `y` from the back of the box, and laps behind this box's end.
    """
    fire = settings.wall.fire
    if fire is None:
        return False
    reach = fire.body_depth + (fire.clearance_back or 0)
    if settings.depth - reach >= y:
        return False
    depth = box_depth(settings)
    deep = summed(
        size("fire.body_depth", fire.body_depth, fire.body_depth),
        size("fire.clearance_back", fire.clearance_back, fire.clearance_back or 0),
    )
    trouble = (
        f"{depth} leaves {mm(settings.depth - y)} before {face_at(settings.back + y, settings)}"
        f" at its {end} end, where the glass returns: less than {deep}"
    )
    # With air behind the fire a strip of end board shows, which lies on an upright there.
    held = bearing(Edge.FACTORY) if fire.clearance_back else 0
    remedy = f"make {depth.field} {mm(settings.back + y + reach + held)} or more"
    notes.problem(depth.field, trouble, remedy)
    return True


def _check_strip(y: int, inner: int, returning: int, settings: Settings, notes: Notes) -> None:
    """Refuse a strip of end board, between the glass and a face beside, that lies on no timber.

    It shows from `y` to `inner`, both from the back of the box.
    """
    fire = settings.wall.fire
    if y <= 0 or y == inner or fire is None:
        return
    reach = fire.body_depth + (fire.clearance_back or 0)
    behind = settings.depth - reach
    upright = behind_glass(behind, settings)
    if upright is not None:
        held = min(upright.y + upright.deep, inner) - max(upright.y, y)
        if held >= min(inner - y, bearing(Edge.FACTORY)):
            return
    depth = box_depth(settings)
    edge = size("fire.return_depth", fire.return_depth, returning)
    remedy = f"{mm(settings.back + y + returning)}, so that the glass ends at that face"
    if reach > returning:
        # The air behind the fire must not reach in behind that face: an upright stands there.
        deep = settings.back + y + reach + bearing(Edge.FACTORY)
        remedy = f"{mm(deep)}, so that one stands between that face and the fire"
    notes.problem(
        depth.field,
        f"{depth} leaves {mm(inner - y)} of end board between {edge} and"
        f" {face_at(settings.back + y, settings)}, and no upright stands behind that"
        f" ({timber(settings)})",
        f"make {depth.field} {remedy}, or choose a narrower timber",
    )


def _check_glass_shows(
    glass: Glass, up: Span, returning: int, settings: Settings, notes: Notes
) -> None:
    """Refuse glass that returns round an end where what stands beside it hides a part of it."""
    for ends, bare, end in (
        ((Glass.LEFT, Glass.BOTH), settings.left_bare, "left"),
        ((Glass.RIGHT, Glass.BOTH), settings.right_bare, "right"),
    ):
        if glass not in ends or not bare:
            continue
        shown = [one.y for one in bare if one.z0 <= up[0] and up[1] <= one.z1]
        if not shown:
            notes.problem(
                "fire.base_height",
                f'fire.glass "{glass.value}" returns round the {end} end from {mm(up[0])} to'
                f" {mm(up[1])} up, and that end shows from {mm(bare[0].z0)} to {mm(bare[-1].z1)}",
                'move the fire to where the end shows, or set fire.glass to "front"',
            )
            continue
        y, inner = min(shown), settings.depth - returning
        if y <= inner:
            if not _is_in_beside(y, end, settings, notes):
                _check_strip(y, inner, returning, settings, notes)
            continue
        fire = settings.wall.fire
        edge = size("fire.return_depth", fire.return_depth if fire is not None else None, returning)
        beside = settings.back + y
        depth = box_depth(settings)
        notes.problem(
            edge.field,
            f"{edge} reaches back to {mm(settings.back + inner)} out from the existing wall"
            f" ({depth}), and what stands beside its {end} end hides it up to"
            f" {face_at(beside, settings)}",
            f"make it {mm(settings.back + settings.depth - beside)} at most, or {depth.field}"
            f" {mm(beside + returning)}",
        )
