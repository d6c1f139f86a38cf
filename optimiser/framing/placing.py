"""Each opening into the box of the wall that it lies in, and every fault of their places told."""

from __future__ import annotations

from dataclasses import dataclass, field

from optimiser.domain.wall import Niche
from optimiser.framing.notes import Notes
from optimiser.framing.openings import Hole, bring_in_line, check_holes, check_lining
from optimiser.framing.recesses import (
    BASE_HEIGHT,
    CENTRE_HEIGHT,
    FireChoice,
    TvChoice,
    niche_holes,
    settle_fire,
    settle_tv,
    soundbar_hole,
)
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm


@dataclass(slots=True)
class Placed:
    """One box of the wall with the openings in it."""

    settings: Settings
    holes: list[Hole] = field(default_factory=list)
    fire: FireChoice | None = None
    tv: TvChoice | None = None

    def hole(self, kind: str) -> Hole | None:
        """Return its opening of a kind, if it has one."""
        return next((hole for hole in self.holes if hole.kind == kind), None)


def place_openings(boxes: list[Settings], notes: Notes) -> list[Placed]:
    """Set out every opening; raises InvalidInput with every fault."""
    placed = [Placed(settings) for settings in boxes]
    wall = boxes[0].wall
    middle = boxes[0].width // 2
    fire_hole = tv_hole = None
    if wall.fire is not None:
        x = wall.fire.centre if wall.fire.centre is not None else middle
        base = wall.fire.base_height
        box = _box_at(placed, x, base if base is not None else BASE_HEIGHT, "fire", notes)
        if box is not None:
            box.fire, fire_hole = settle_fire(wall.fire, box.settings, notes)
            box.holes.append(fire_hole)
    if wall.tv is not None:
        x = wall.tv.centre if wall.tv.centre is not None else middle
        z: int | None = wall.tv.centre_height
        if z is None and fire_hole is not None:
            z = fire_hole.cut.z1 + (wall.tv.above_fire or 0) + (wall.tv.height or 0) // 2 + 3_000
        box = _box_at(placed, x, z if z is not None else CENTRE_HEIGHT, "tv", notes)
        settled = settle_tv(wall.tv, fire_hole, box.settings, notes) if box is not None else None
        if box is not None and settled is not None:
            box.tv, tv_hole = settled
            box.holes.append(tv_hole)
    _place_soundbar(placed, tv_hole, notes)
    for niche in wall.niches:
        _place_niche(placed, niche, notes)
    for check in (False, True):
        for box in placed:
            if check:
                box.holes = bring_in_line(box.holes, box.settings, notes)
            crossing = [] if check else _crossing(box, placed, notes)
            check_holes([hole for hole in box.holes if hole not in crossing], box.settings, notes)
            if check:
                check_lining(box.holes, box.settings, notes)
        notes.refuse()
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
        notes.problem(
            f"{hole.name} and {'steps' if own.wall.steps else 'site.projections'}",
            f"{hole.name} x {mm(cut.x0)}-{mm(cut.x1)}, z {mm(cut.z0)}-{mm(cut.z1)} crosses from"
            f" {names[0]}, x {mm(own.start)}-{mm(own.end)}, z {mm(own.board_base or 0)}-{top}, into"
            f" {names[1]}: an opening lies in one box of the wall",
            f"move {hole.name}, make it smaller, or move the side of the step or of what is built"
            " before the breast",
        )
    return found


def _overlaps(cut: Rect, box: Settings) -> bool:
    low = box.board_base if box.board_base is not None else 0
    high = box.board_top if box.board_top is not None else cut.z1
    # Boxes reach behind one another's end boards by a board; that much is no crossing.
    start, end = box.start + box.skin, box.end - box.skin
    return cut.x0 < end and start < cut.x1 and cut.z0 < high and low < cut.z1


def _place_soundbar(placed: list[Placed], tv: Hole | None, notes: Notes) -> None:
    bar = placed[0].settings.wall.soundbar
    if bar is None:
        return
    box = next((one for one in placed if tv is not None and tv in one.holes), placed[0])
    if bar.x is not None and bar.z is not None:
        box = _box_at(placed, bar.x, bar.z, "soundbar", notes) or box
    slot = soundbar_hole(bar, tv, box.settings, notes)
    if slot is not None:
        box.holes.append(slot)


def _place_niche(placed: list[Placed], niche: Niche, notes: Notes) -> None:
    at = niche.x + niche.width // 2, niche.z + niche.height // 2
    box = _box_at(placed, *at, niche.name, notes)
    if box is not None:
        box.holes += niche_holes([niche], box.settings)


def _box_at(placed: list[Placed], x: int, z: int, name: str, notes: Notes) -> Placed | None:
    """Return the box that a point of the front lies in."""
    for box in placed:
        settings = box.settings
        top = settings.levels.highest_ceiling(settings.start, settings.end)
        if settings.start <= x <= settings.end and settings.base <= z <= top:
            return box
    if len(placed) == 1:
        # Its own checks say with which figures it does not fit.
        return placed[0]
    notes.problem(name, f"lies at x {mm(x)}, z {mm(z)}, where nothing is built", "move it")
    return None
