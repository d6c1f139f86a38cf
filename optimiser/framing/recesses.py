"""From fire, TV, soundbar and niches as chosen to the openings they need.

Figures of things bought (fires, TVs) are the user's own; what is taken when he leaves one out is
named in the frame's defaults, with common practice as the only source.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.wall import Fire, Glass, Niche, Soundbar, Tv
from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.notes import Notes
from optimiser.framing.openings import Hole, behind_glass, lined_hole
from optimiser.framing.screen import picture_size
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# Common practice, no source: raised base, finger gap, room behind the TV for a folded arm.
BASE_HEIGHT = 3_000
FINGER_GAP = 300
TV_DEPTH = 600
BEHIND_TV = 600
BRACKET_REACH = 5_000  # moving arms reach 380 to 635: web guides to moving-arm brackets
BRACKET_MASS = 8_000
BRACKET_WIDTH = 4_500
BRACKET_HEIGHT = 3_000
SOUNDBAR_GAP = 100
# Top of a fire to the underside of a TV: retail rule of thumb in a fire retailer's article.
ABOVE_FIRE = 3_000
# Inset electric fires draw 1 500 to 2 000 W: from memory.
POWER = 2_000
# Guides put a TV's centre at 1 070 to 1 220 and a seated eye at 1 060.
CENTRE_HEIGHT = 11_000
EYE_HEIGHT = 10_600
VIEWING_DISTANCE = 27_000


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


@dataclass(frozen=True, slots=True, kw_only=True)
class TvChoice:
    """The TV with nothing left out; `screen` is where it hangs on the front."""

    tv: Tv
    screen: Rect
    depth: int
    finger_gap: int
    recess_depth: int
    bracket_reach: int
    bracket_mass: int
    bracket: Rect
    eye_height: int
    viewing_distance: int

    @property
    def centre_height(self) -> int:
        """The height of its middle."""
        return (self.screen.z0 + self.screen.z1) // 2


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
            "fire.return_depth", fire.return_depth, fire.body_depth, lambda size: f"{mm(size)} mm"
        )
    _check_glass(to_left=to_left, to_right=to_right, settings=settings, notes=notes)
    if (to_left and settings.left_bare) or (to_right and settings.right_bare):
        _check_glass_edge(fire.body_depth + back, returning, settings, notes)
    centre = _fire_centre(fire, glass, width, settings, notes)
    lining = settings.fire_lining.thickness if settings.fire_lining is not None else 0
    reach = max(fire.body_width + 2 * side, width) + 2 * lining
    frame_x = centre - reach // 2, centre - reach // 2 + reach
    cut_x = centre - width // 2, centre - width // 2 + width
    if to_left:
        frame_x, cut_x = (settings.left, frame_x[1]), (settings.start, cut_x[1])
    if to_right:
        frame_x = frame_x[0], settings.right
        cut_x = cut_x[0], settings.end
    frame = Rect(frame_x[0], base, frame_x[1], base + max(fire.body_height + top, height) + lining)
    cut = Rect(cut_x[0], base, cut_x[1], base + height)
    body_x = centre - fire.body_width // 2
    choice = FireChoice(
        fire=fire,
        body=Rect(body_x, base, body_x + fire.body_width, base + fire.body_height),
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
    )
    return choice, hole


def _check_glass(*, to_left: bool, to_right: bool, settings: Settings, notes: Notes) -> None:
    for wanted, free, end in (
        (to_left, bool(settings.left_bare), "left"),
        (to_right, bool(settings.right_bare), "right"),
    ):
        if wanted and not free:
            notes.problem(
                "fire.glass",
                f'returns round the {end} end, but wall.{end} is "abuts"',
                f'set wall.{end} to "free", or the glass to the front only',
            )


def _check_glass_edge(reach: int, glass: int, settings: Settings, notes: Notes) -> None:
    """Refuse a depth that leaves no upright near enough behind the edge of the returning glass.

    `reach` is how deep the fire and its clearance go, `glass` how deep the end board is cut out.
    """
    behind, strip = settings.depth - reach, settings.depth - glass
    upright = behind_glass(behind, settings)
    held = upright.y + upright.deep if upright is not None else 0
    # The end board may stand out past that upright by as much as past any.
    if behind < 0 or strip <= 0 or (held > 0 and strip - held <= MOST_OVERHANG):
        return
    said = (
        f"{mm(settings.depth)} leaves {mm(behind)} behind fire.body_depth and its clearance,"
        f" {mm(reach)}, and {mm(strip)} of end board behind fire.return_depth {mm(glass)}"
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
    if behind < settings.thick:
        least = settings.thick
        needs = f"the upright at the glass's edge needs {mm(least)}"
    notes.problem("wall.depth", f"{said}: {needs}", f"make the wall {mm(least - behind)} deeper")


def _fire_centre(fire: Fire, glass: Glass, width: int, settings: Settings, notes: Notes) -> int:
    if glass is Glass.LEFT:
        return settings.start + max(width, fire.body_width) // 2
    if glass is Glass.RIGHT:
        return settings.end - max(width, fire.body_width) // 2
    middle = (settings.start + settings.end) // 2
    if glass is Glass.BOTH:
        return middle
    return notes.size("fire.centre", fire.centre, middle)


def settle_tv(
    tv: Tv, fire: Hole | None, settings: Settings, notes: Notes
) -> tuple[TvChoice, Hole] | None:
    """Return the TV as it will hang, and its recess; None when its size is not known."""
    size = _tv_size(tv, notes)
    if size is None:
        return None
    width, height = size
    gap = notes.size("tv.finger_gap", tv.finger_gap, FINGER_GAP)
    centre = notes.size("tv.centre", tv.centre, (settings.start + settings.end) // 2)
    above = max(ABOVE_FIRE, _room_for_slot(gap, fire, settings))
    z0 = _tv_bottom(tv, height, fire, above, notes)
    screen = Rect(centre - width // 2, z0, centre - width // 2 + width, z0 + height)
    depth = notes.size("tv.depth", tv.depth, TV_DEPTH)
    recess = notes.size("tv.recess_depth", tv.recess_depth, depth + BEHIND_TV)
    clear_w = tv.recess_width if tv.recess_width is not None else width + 2 * gap
    clear_h = tv.recess_height if tv.recess_height is not None else height + 2 * gap
    x = centre - clear_w // 2
    z = z0 + height // 2 - clear_h // 2
    plate_w = notes.size("tv.bracket_width", tv.bracket_width, min(BRACKET_WIDTH, clear_w))
    plate_h = notes.size("tv.bracket_height", tv.bracket_height, min(BRACKET_HEIGHT, clear_h))
    middle = (screen.z0 + screen.z1) // 2
    choice = TvChoice(
        tv=tv,
        screen=screen,
        depth=depth,
        finger_gap=gap,
        recess_depth=recess,
        bracket_reach=notes.size("tv.bracket_reach", tv.bracket_reach, BRACKET_REACH),
        bracket_mass=notes.take("tv.bracket_mass", tv.bracket_mass, BRACKET_MASS, _kilograms),
        bracket=Rect(
            centre - plate_w // 2,
            middle - plate_h // 2,
            centre - plate_w // 2 + plate_w,
            middle - plate_h // 2 + plate_h,
        ),
        eye_height=notes.size("tv.eye_height", tv.eye_height, EYE_HEIGHT),
        viewing_distance=notes.size("tv.viewing_distance", tv.viewing_distance, VIEWING_DISTANCE),
    )
    clear = Rect(x, z, x + clear_w, z + clear_h)
    return choice, lined_hole("tv", "tv", clear, recess, settings.backboard.thickness, settings)


def _kilograms(mass: int) -> str:
    return f"{mass / 1000:g} kg"


def _tv_size(tv: Tv, notes: Notes) -> tuple[int, int] | None:
    if tv.width is not None and tv.height is not None:
        return tv.width, tv.height
    if tv.diagonal is None:
        notes.problem(
            "tv",
            "needs its width and height, or its diagonal",
            "measure its case, or give tv.diagonal_in",
        )
        return None
    picture = picture_size(tv.diagonal)
    width = notes.size("tv.width", tv.width, picture[0])
    height = notes.size("tv.height", tv.height, picture[1])
    return width, height


def _room_for_slot(finger_gap: int, fire: Hole | None, settings: Settings) -> int:
    """Return how far above a fire a TV hangs when a soundbar's slot lies between; 0 if none."""
    bar = settings.wall.soundbar
    if bar is None or bar.z is not None or fire is None:
        return 0
    gap = bar.gap if bar.gap is not None else SOUNDBAR_GAP
    slot = bar.height + 2 * gap + 2 * settings.lining
    rails = 4 * settings.thick
    return fire.frame.z1 - fire.cut.z1 + slot + rails + settings.lining + finger_gap


def _tv_bottom(tv: Tv, height: int, fire: Hole | None, above: int, notes: Notes) -> int:
    """Return the height of the TV's underside; `above` a fire unless it is chosen."""
    if tv.centre_height is not None and tv.above_fire is not None:
        notes.problem(
            "tv.centre_height",
            f"{mm(tv.centre_height)} and tv.above_fire {mm(tv.above_fire)} both set its height",
            "give one of the two",
        )
    if tv.above_fire is not None and fire is None:
        notes.problem("tv.above_fire", "there is no fire", "give tv.centre_height, or add the fire")
    if tv.centre_height is None and fire is not None:
        return fire.cut.z1 + notes.size("tv.above_fire", tv.above_fire, above)
    return notes.size("tv.centre_height", tv.centre_height, CENTRE_HEIGHT) - height // 2


def soundbar_hole(bar: Soundbar, tv: Hole | None, settings: Settings, notes: Notes) -> Hole | None:
    """Return the slot of a soundbar: where it was put, or under the TV's recess."""
    gap = notes.size("soundbar.gap", bar.gap, SOUNDBAR_GAP)
    width, height = bar.width + 2 * gap, bar.height + 2 * gap
    if tv is None and (bar.x is None or bar.z is None):
        notes.problem(
            "soundbar", "no TV to put its slot under", "give soundbar.x_mm and soundbar.z_mm"
        )
        return None
    middle = (tv.clear.x0 + tv.clear.x1) // 2 if tv is not None else 0
    below = tv.frame.z0 - 2 * settings.thick - settings.lining if tv is not None else 0
    x = notes.size("soundbar.x", bar.x, max(0, middle - width // 2))
    z = notes.size("soundbar.z", bar.z, max(0, below - height))
    clear = Rect(x, z, x + width, z + height)
    depth = bar.depth + gap
    return lined_hole("soundbar", "soundbar", clear, depth, settings.board.thickness, settings)


def niche_holes(niches: list[Niche], settings: Settings) -> list[Hole]:
    """Return the openings of the niches of one box of the wall."""
    return [
        lined_hole(
            niche.name,
            "niche",
            Rect(niche.x, niche.z, niche.x + niche.width, niche.z + niche.height),
            niche.depth,
            settings.board.thickness,
            settings,
            shelves=niche.shelves,
            lit=niche.lit,
        )
        for niche in niches
    ]
