"""From TV, soundbar and niches as chosen to the openings they need.

Figures of things bought are the user's own; what is taken when he leaves one out is
named in the frame's defaults, with common practice as the only source.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from optimiser.domain.wall import Niche, Soundbar, Tv
from optimiser.framing.figures import (
    Figure,
    Figures,
    Told,
    listed,
    size,
)
from optimiser.framing.notes import Notes
from optimiser.framing.openings import Hole, lined_hole
from optimiser.framing.screen import picture_size
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import Tenths, mm

# Common practice, no source: finger gap, room behind the TV for a folded arm.
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
# Guides put a TV's centre at 1 070 to 1 220 and a seated eye at 1 060.
CENTRE_HEIGHT = 11_000
EYE_HEIGHT = 10_600
VIEWING_DISTANCE = 27_000


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


def settle_tv(
    tv: Tv, fire: Hole | None, settings: Settings, notes: Notes
) -> tuple[TvChoice, Hole] | None:
    """Return the TV as it will hang, and its recess; None when its size is not known."""
    settled = _tv_size(tv, notes)
    if settled is None:
        return None
    width, height = settled
    _check_sockets(tv, notes)
    gap = notes.size("tv.finger_gap", tv.finger_gap, FINGER_GAP)
    centre = notes.size("tv.centre", tv.centre, middle_along(settings, fire))
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
    panel = settings.backboard.thickness
    return choice, lined_hole(
        "tv", "tv", clear, recess, panel, settings, told=_tv_told(choice, fire)
    )


def middle_along(settings: Settings, fire: Hole | None) -> int:
    """Return where along the wall a TV hangs of which nothing is said: over a fire that was put
    somewhere, else in the middle of its box."""
    put = settings.wall.fire is not None and settings.wall.fire.centre is not None
    if fire is not None and put and not (fire.to_left or fire.to_right):
        return (fire.cut.x0 + fire.cut.x1) // 2
    return (settings.start + settings.end) // 2


def middle_up(tv: Tv, fire: Hole | None, settings: Settings) -> int:
    """Return how high the middle of a TV will hang, before its box is known; faults are told when
    it is settled."""
    if tv.centre_height is not None:
        return tv.centre_height
    if fire is None:
        return CENTRE_HEIGHT
    gap = tv.finger_gap if tv.finger_gap is not None else FINGER_GAP
    above = max(ABOVE_FIRE, _room_for_slot(gap, fire, settings))
    height = tv.height
    if height is None:
        height = picture_size(tv.diagonal)[1] if tv.diagonal is not None else Tenths(0)
    return fire.cut.z1 + (above if tv.above_fire is None else tv.above_fire) + height // 2


def _tv_told(choice: TvChoice, fire: Hole | None) -> Told:
    """Return the figures behind a TV's recess, those that set its size first."""
    tv = choice.tv
    gap = size("tv.finger_gap", tv.finger_gap, choice.finger_gap)
    along, high = (
        _tv_side(tv, given, field, used, gap)
        for given, field, used in (
            (tv.width, "width", choice.screen.width),
            (tv.height, "height", choice.screen.height),
        )
    )
    if tv.centre is not None:
        along = (*along, size("tv.centre", tv.centre, tv.centre))
    if tv.centre_height is None and fire is not None:
        over = size("tv.above_fire", tv.above_fire, choice.screen.z0 - fire.cut.z1)
        up = (over, *high, *fire.told.up)
    else:
        up = (size("tv.centre_height", tv.centre_height, choice.centre_height), *high)
    deep = size("tv.recess_depth", tv.recess_depth, choice.recess_depth)
    return Told(along=along, up=up, deep=(deep,))


def _tv_side(tv: Tv, given: Tenths | None, field: str, used: int, gap: Figure) -> Figures:
    recess = tv.recess_width if field == "width" else tv.recess_height
    if recess is not None:
        return (size(f"tv.recess_{field}", recess, recess),)
    if given is None and tv.diagonal is not None:
        inches = f"{float(tv.diagonal):g} in, {mm(used)} {'wide' if field == 'width' else 'high'}"
        return (Figure("tv.diagonal", inches), gap)
    return (size(f"tv.{field}", given, used), gap)


def _kilograms(mass: int) -> str:
    return f"{mass / 1000:g} kg"


def _tv_size(tv: Tv, notes: Notes) -> tuple[int, int] | None:
    if tv.width is not None and tv.height is not None:
        _check_picture(tv, notes)
        return tv.width, tv.height
    if tv.diagonal is None:
        left_out = [f"tv.{name}" for name in ("width", "height") if getattr(tv, name) is None]
        notes.problem(
            left_out[0],
            f"{' and '.join(left_out)} left out, and tv.diagonal too",
            "measure the TV's case, or give tv.diagonal_in",
        )
        return None
    picture = picture_size(tv.diagonal)
    width = notes.size("tv.width", tv.width, picture[0])
    height = notes.size("tv.height", tv.height, picture[1])
    return width, height


def _check_picture(tv: Tv, notes: Notes) -> None:
    """Record a case that is smaller than the picture of the diagonal that is given with it."""
    if tv.diagonal is None:
        return
    for name, case, picture in zip(
        ("width", "height"), (tv.width, tv.height), picture_size(tv.diagonal), strict=True
    ):
        # A millimetre is what a tape is read to.
        if case is not None and case < picture - 10:
            notes.problem(
                f"tv.{name}",
                f"tv.{name} {mm(case)} is less than the picture of tv.diagonal"
                f" {float(tv.diagonal):g} in, {mm(picture)}",
                f"measure the case again, or leave tv.{name} or tv.diagonal_in out",
            )


def _check_sockets(tv: Tv, notes: Notes) -> None:
    """Record each two sockets whose holes lie in one another."""
    for (i, one), (j, other) in itertools.combinations(enumerate(tv.sockets), 2):
        beside = one.x + one.width <= other.x or other.x + other.width <= one.x
        above = one.z + one.height <= other.z or other.z + other.height <= one.z
        if beside or above:
            continue
        figures = [
            Figure(f"tv.sockets[{n}].{side}", mm(size))
            for n, socket in ((i, one), (j, other))
            for side, size in (
                ("x", socket.x),
                ("z", socket.z),
                ("width", socket.width),
                ("height", socket.height),
            )
        ]
        notes.problem(
            figures[4].field,
            f"tv.sockets[{i}] and tv.sockets[{j}] lie in one another: {listed(figures)}",
            f"make tv.sockets[{j}].x {mm(one.x + one.width)} or more, or leave one of them out",
        )


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
            f"tv.centre_height {mm(tv.centre_height)} and tv.above_fire {mm(tv.above_fire)} both"
            " set its height",
            "give one of the two",
        )
    if tv.above_fire is not None and fire is None:
        notes.problem(
            "tv.above_fire",
            f"tv.above_fire {mm(tv.above_fire)} counts from a fire, and fire is left out",
            "give tv.centre_height, or add the fire",
        )
    if tv.centre_height is None and fire is not None:
        return fire.cut.z1 + notes.size("tv.above_fire", tv.above_fire, above)
    return notes.size("tv.centre_height", tv.centre_height, CENTRE_HEIGHT) - height // 2


def soundbar_hole(bar: Soundbar, tv: Hole | None, settings: Settings, notes: Notes) -> Hole | None:
    """Return the slot of a soundbar: where it was put, or under the TV's recess."""
    gap = notes.size("soundbar.gap", bar.gap, SOUNDBAR_GAP)
    width, height = bar.width + 2 * gap, bar.height + 2 * gap
    if tv is None and (bar.x is None or bar.z is None):
        missing = [f"soundbar.{name}" for name in ("x", "z") if getattr(bar, name) is None]
        notes.problem(
            missing[0],
            f"{' and '.join(missing)} left out, and tv too: there is no TV to put its slot under",
            "give soundbar.x_mm and soundbar.z_mm",
        )
        return None
    middle = (tv.clear.x0 + tv.clear.x1) // 2 if tv is not None else 0
    below = tv.frame.z0 - 2 * settings.thick - settings.lining if tv is not None else 0
    x = notes.size("soundbar.x", bar.x, max(0, middle - width // 2))
    z = notes.size("soundbar.z", bar.z, max(0, below - height))
    clear = Rect(x, z, x + width, z + height)
    depth = bar.depth + gap
    between = size("soundbar.gap", bar.gap, gap)
    told = Told(
        along=(
            size("soundbar.width", bar.width, bar.width),
            between,
            size("soundbar.x", bar.x, x),
        ),
        up=(size("soundbar.z", bar.z, z), size("soundbar.height", bar.height, bar.height), between),
        deep=(size("soundbar.depth", bar.depth, bar.depth), between),
    )
    panel = settings.board.thickness
    return lined_hole("soundbar", "soundbar", clear, depth, panel, settings, told=told)


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
            told=_niche_told(niche),
            shelves=niche.shelves,
            lit=niche.lit,
        )
        for niche in niches
    ]


def _niche_told(niche: Niche) -> Told:
    here = f"niches.{niche.name}"
    return Told(
        along=(
            size(f"{here}.x", niche.x, niche.x),
            size(f"{here}.width", niche.width, niche.width),
        ),
        up=(
            size(f"{here}.z", niche.z, niche.z),
            size(f"{here}.height", niche.height, niche.height),
        ),
        deep=(size(f"{here}.depth", niche.depth, niche.depth),),
    )
