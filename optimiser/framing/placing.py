"""Each opening into the box of the wall that it lies in, and every fault of their places told."""

from __future__ import annotations

from dataclasses import dataclass, field

from optimiser.domain.frame import Box
from optimiser.domain.wall import Fire, Glass, Niche, Wall
from optimiser.framing.figures import Figure, box_width, listed
from optimiser.framing.fires import BASE_HEIGHT, FireChoice, settle_fire
from optimiser.framing.notes import Notes
from optimiser.framing.opening_checks import check_holes, check_lining
from optimiser.framing.openings import Hole, bring_in_line
from optimiser.framing.recesses import (
    TvChoice,
    middle_along,
    middle_up,
    niche_holes,
    settle_tv,
    soundbar_hole,
)
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# The fields that say where an opening lies, along the wall and up it.
_FIRE = "fire.centre", "fire.base_height"
_TV = "tv.centre", "tv.centre_height"
_SOUNDBAR = "soundbar.x", "soundbar.z"


@dataclass(slots=True)
class Placed:
    """One box of the wall with the openings in it.

    `against` are the uprights of the boxes at its right that its own stand flat against, `below`
    the timbers of the boxes that it stands on, as they lie in every way of those; `others` are all
    other boxes of the wall.
    """

    settings: Settings
    holes: list[Hole] = field(default_factory=list)
    fire: FireChoice | None = None
    tv: TvChoice | None = None
    against: tuple[Box, ...] = ()
    below: tuple[Box, ...] = ()
    others: tuple[Settings, ...] = ()

    def hole(self, kind: str) -> Hole | None:
        """Return its opening of a kind, if it has one."""
        return next((hole for hole in self.holes if hole.kind == kind), None)


def place_openings(boxes: list[Settings], faulty: set[str], notes: Notes) -> list[Placed]:
    """Set out every opening, and record every fault of where they lie.

    In a box whose name is among the `faulty` nothing can be told of them.
    """
    placed = [Placed(settings) for settings in boxes]
    wall = boxes[0].wall
    fire_hole = tv_hole = None
    if wall.fire is not None:
        box = _box_of_fire(wall.fire, placed, notes)
        if box is not None:
            box.fire, fire_hole = settle_fire(wall.fire, box.settings, notes)
            box.holes.append(fire_hole)
    if wall.tv is not None:
        # Over the fire's part of the wall, where it has one.
        under = next((one.settings for one in placed if one.fire is not None), None)
        along = middle_along(under, fire_hole) if under is not None else boxes[0].width // 2
        x = wall.tv.centre if wall.tv.centre is not None else along
        box = _box_at(placed, (x, middle_up(wall.tv, fire_hole, boxes[0])), _TV, notes)
        settled = settle_tv(wall.tv, fire_hole, box.settings, notes) if box is not None else None
        if box is not None and settled is not None:
            box.tv, tv_hole = settled
            box.holes.append(tv_hole)
    _place_soundbar(placed, tv_hole, notes)
    for niche in wall.niches:
        _place_niche(placed, niche, notes)
    for box in placed:
        if box.settings.name in faulty:
            continue
        so_far = len(notes.problems)
        crossing = _crossing(box, placed, notes)
        check_holes([hole for hole in box.holes if hole not in crossing], box.settings, notes)
        # Sides are brought in line where openings fit as they are: else faults would be told twice.
        if len(notes.problems) == so_far:
            box.holes = bring_in_line(box.holes, box.settings, notes)
            if len(notes.problems) == so_far:
                check_holes(box.holes, box.settings, notes)
            check_lining(box.holes, box.settings, notes)
    return placed


def _crossing(box: Placed, placed: list[Placed], notes: Notes) -> list[Hole]:
    """Return the openings that reach out of their box into another, each with its problem."""
    found: list[Hole] = []
    for hole in box.holes:
        cut = hole.cut
        into = [
            other.settings
            for other in placed
            if other is not box and _overlaps(cut, other.settings)
        ]
        if not into:
            continue
        found.append(hole)
        own, other = box.settings, into[0]
        names = [one.name or "the wall" for one in (own, other)]
        top = mm(own.board_top) if own.board_top is not None else "the ceiling"
        dividing = dict.fromkeys((*box_width(own), *box_width(other)))
        stacked = _stacked(own.wall) if own.base or other.base else ()
        notes.problem(
            hole.told.along[0].field,
            f"{hole.name} ({listed(hole.told.along, hole.told.up)}) takes x {mm(cut.x0)}-"
            f"{mm(cut.x1)}, z {mm(cut.z0)}-{mm(cut.z1)} and crosses from {names[0]}, x"
            f" {mm(own.start)}-{mm(own.end)}, z {mm(own.board_base or 0)}-{top}, into {names[1]}"
            f" ({listed(dividing, stacked)}): an opening lies in one box of the wall",
            f"{_way_in(hole, own)}, or move the side of the step or of what is built before the"
            " breast",
        )
    return found


def _way_in(hole: Hole, box: Settings) -> str:
    """Say how an opening comes to lie in its box with an upright each side of it."""
    frame, name = hole.frame, hole.name
    low, high = box.left + box.thick, box.right - box.thick
    if low <= frame.x0 and frame.x1 <= high:
        return f"move {name} up or down, make it lower"
    if frame.width > high - low:
        return f"make {name} {mm(frame.width - high + low)} narrower"
    if frame.x0 < low:
        return f"move {name} {mm(low - frame.x0)} to the right"
    return f"move {name} {mm(frame.x1 - high)} to the left"


def _stacked(wall: Wall) -> list[Figure]:
    """Return the levels at which steps begin and end."""
    return [
        Figure(f"steps.{step.name}.{name}", mm(level))
        for step in wall.steps
        for name, level in (("z", step.z), ("height", step.height))
        if level is not None
    ]


def _overlaps(cut: Rect, box: Settings) -> bool:
    low = box.board_base if box.board_base is not None else 0
    high = box.board_top if box.board_top is not None else cut.z1
    # Boxes reach behind one another's end boards by a board; that much is no crossing.
    start, end = box.start + box.skin, box.end - box.skin
    return cut.x0 < end and start < cut.x1 and cut.z0 < high and low < cut.z1


def _box_of_fire(fire: Fire, placed: list[Placed], notes: Notes) -> Placed | None:
    """Return the box that a fire lies in: at its centre, or where its glass finds ends to return
    round, in the middle of the wall first."""
    base = fire.base_height if fire.base_height is not None else BASE_HEIGHT
    z = base + fire.body_height // 2
    if fire.centre is None and fire.glass not in (None, Glass.FRONT):
        middle = placed[0].settings.width // 2
        shown = [
            box
            for box in placed
            if _spans_up(box.settings, z)
            and (fire.glass is Glass.RIGHT or box.settings.left_bare)
            and (fire.glass is Glass.LEFT or box.settings.right_bare)
        ]
        if shown:
            return min(
                shown, key=lambda box: abs(box.settings.start + box.settings.end - 2 * middle)
            )
    x = fire.centre if fire.centre is not None else placed[0].settings.width // 2
    return _box_at(placed, (x, z), _FIRE, notes)


def _spans_up(settings: Settings, z: int) -> bool:
    """Return whether a box's front reaches past a height."""
    low = settings.board_base if settings.board_base is not None else 0
    top = settings.board_top
    if top is None:
        top = settings.levels.highest_ceiling(settings.start, settings.end)
    return low <= z <= top


def _place_soundbar(placed: list[Placed], tv: Hole | None, notes: Notes) -> None:
    bar = placed[0].settings.wall.soundbar
    if bar is None:
        return
    box = next((one for one in placed if tv is not None and tv in one.holes), placed[0])
    if bar.x is not None and bar.z is not None:
        middle = bar.x + bar.width // 2, bar.z + bar.height // 2
        box = _box_at(placed, middle, _SOUNDBAR, notes) or box
    slot = soundbar_hole(bar, tv, box.settings, notes)
    if slot is not None:
        box.holes.append(slot)


def _place_niche(placed: list[Placed], niche: Niche, notes: Notes) -> None:
    at = niche.x + niche.width // 2, niche.z + niche.height // 2
    box = _box_at(placed, at, (f"niches.{niche.name}.x", f"niches.{niche.name}.z"), notes)
    if box is not None:
        box.holes += niche_holes([niche], box.settings)


def _box_at(
    placed: list[Placed], at: tuple[int, int], fields: tuple[str, str], notes: Notes
) -> Placed | None:
    """Return the box that a point of the front lies in; `fields` set where it is, x and z."""
    x, z = at
    for box in placed:
        settings = box.settings
        if settings.start <= x <= settings.end and _spans_up(settings, z):
            return box
    if len(placed) == 1:
        # Its own checks say with which figures it does not fit.
        return placed[0]
    built = [box_width(box.settings) for box in placed]
    notes.problem(
        fields[0],
        f"{fields[0]} and {fields[1]} put it at x {mm(x)}, z {mm(z)}, where"
        f" {listed(*built, _stacked(placed[0].settings.wall))} leave nothing built",
        "move it",
    )
    return None
