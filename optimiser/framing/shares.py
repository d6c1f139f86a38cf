"""How places of a wall move with the fields of its file: by which share of each.

Read from the wall as the fitter wrote it. A field that he left out is replaced by those that its
default follows from; a field whose default is a figure counts like one that was given.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from optimiser.domain.wall import Glass, Wall
from optimiser.framing.openings import Hole
from optimiser.framing.placing import Placed
from optimiser.framing.settings import Settings

# By how much a place moves with each field, in millionths of what the field grows by.
Shares = Mapping[str, int]

WHOLE = 1_000_000
_HALF = WHOLE // 2
# Less than this is what rounding left of shares that cancel out.
_NOTHING = 20
_STILL: Shares = {}


def together(*terms: tuple[Shares, int]) -> Shares:
    """Add shares up, each so many millionths of it; what cancels out is left out."""
    found: dict[str, int] = {}
    for shares, times in terms:
        for field, share in shares.items():
            more = share if times == WHOLE else share * times // WHOLE
            found[field] = found.get(field, 0) + more
    return {field: share for field, share in found.items() if not -_NOTHING < share < _NOTHING}


def between(one: Shares, other: Shares, at: int, of: int) -> Shares:
    """Return the shares of a place `at` so much of the way `of` from one place to another."""
    share = WHOLE * at // of
    return together((one, WHOLE - share), (other, share))


def _by(**fields: int) -> Shares:
    """Name shares by fields; a double underscore stands for the point."""
    return {name.replace("__", "."): times * WHOLE for name, times in fields.items()}


def _of(field: str, share: int = WHOLE) -> Shares:
    return {field: share}


def _sum(*shares: Shares) -> Shares:
    return together(*((one, WHOLE) for one in shares))


def _less(one: Shares, other: Shares) -> Shares:
    return together((one, WHOLE), (other, -WHOLE))


def _width(wall: Wall) -> Shares:
    if wall.extent.width is not None:
        return _of("wall.width")
    return _by(site__clear_width=1, wall__offset=-1)


def places_along(settings: Settings) -> dict[int, Shares]:
    """Return where boxes of the wall may begin and end along it, and what moves each place."""
    wall, offset = settings.wall, settings.offset
    found: dict[int, Shares] = {0: _STILL, settings.width: _width(wall)}
    for step in wall.steps:
        left = _of(f"steps.{step.name}.x")
        found.setdefault(step.x, left)
        found.setdefault(step.x + step.width, _sum(left, _of(f"steps.{step.name}.width")))
    for i, breast in enumerate(wall.site.projections):
        left = _less(_of(f"site.projections[{i}].x"), _of("wall.offset"))
        right = _sum(left, _of(f"site.projections[{i}].width"))
        found.setdefault(breast.x - offset, left)
        found.setdefault(breast.x + breast.width - offset, right)
    return found


def places_up(settings: Settings) -> dict[int, Shares]:
    """Return the levels at which boxes of the wall may begin and end, and what moves each."""
    wall = settings.wall
    found: dict[int, Shares] = {0: _STILL}
    if wall.extent.height is not None:
        found[wall.extent.height] = _of("wall.height")
    for step in wall.steps:
        bottom = _of(f"steps.{step.name}.z")
        found.setdefault(step.z or 0, bottom)
        if step.height is not None:
            top = _sum(bottom, _of(f"steps.{step.name}.height"))
            found.setdefault((step.z or 0) + step.height, top)
    return found


def depth_shares(settings: Settings) -> tuple[Shares, Shares, dict[int, Shares]]:
    """Return what moves the back of a box, its front, and the faces beside it by their depth."""
    wall = settings.wall
    before = _of(f"steps.{settings.step}.depth" if settings.step else "wall.depth")
    skirting = wall.site.skirting or 0
    solids: dict[int, Shares] = {
        breast.depth: _of(f"site.projections[{i}].depth")
        for i, breast in enumerate(wall.site.projections)
    }
    kept = _of("site.skirting") if skirting else _STILL
    behind = _sum(solids.get(settings.back - skirting, _STILL), kept)
    beside: dict[int, Shares] = {wall.extent.depth: _of("wall.depth"), **solids}
    for other in wall.steps:
        beside.setdefault(other.depth, _of(f"steps.{other.name}.depth"))
    return behind, before, beside


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleShares:
    """What moves the four sides and the back of an opening.

    `cut`: what moves the sides of the hole in its boards, left, right, bottom and top, where that
    is not the same. `left_frame`, `right_frame`: where its own figures put its sides between the
    timbers.
    """

    left: Shares
    right: Shares
    bottom: Shares
    top: Shares
    depth: Shares
    left_frame: int
    right_frame: int
    cut: tuple[Shares, Shares, Shares, Shares] | None = None

    @property
    def of_cut(self) -> tuple[Shares, Shares, Shares, Shares]:
        """Return what moves left, right, bottom and top of the hole in the boards."""
        return self.cut or (self.left, self.right, self.bottom, self.top)


def hole_shares(hole: Hole, placed: Placed) -> HoleShares:
    """Return what moves the sides and the back of an opening of a box."""
    settings = placed.settings
    if hole.kind == "fire":
        return _fire_shares(hole, placed)
    wanted = hole.wanted or hole.clear
    frame = wanted.grown(settings.lining)
    if hole.kind == "tv":
        left, right, bottom, top, depth = _tv_sides(placed)
    elif hole.kind == "soundbar":
        left, right, bottom, top, depth = _soundbar_sides(placed)
    else:
        name = f"niches.{hole.name}"
        left, bottom = _of(f"{name}.x"), _of(f"{name}.z")
        right, top = _sum(left, _of(f"{name}.width")), _sum(bottom, _of(f"{name}.height"))
        depth = _of(f"{name}.depth")
    return HoleShares(
        left=left,
        right=right,
        bottom=bottom,
        top=top,
        depth=depth,
        left_frame=frame.x0,
        right_frame=frame.x1,
    )


def nearest(known: Mapping[int, Shares], at: int) -> tuple[int, Shares]:
    """Return the known place nearest to one, with what moves it."""
    place = min(known, key=lambda place: abs(place - at))
    return place, known[place]


def _ends(settings: Settings) -> tuple[Shares, Shares]:
    """Return what moves the two ends of a box."""
    along = places_along(settings)
    return nearest(along, settings.start)[1], nearest(along, settings.end)[1]


def _middle(settings: Settings) -> Shares:
    return together(*((end, _HALF) for end in _ends(settings)))


def _fire_shares(hole: Hole, placed: Placed) -> HoleShares:
    settings, choice = placed.settings, placed.fire
    assert choice is not None
    fire = choice.fire
    body, side = _of("fire.body_width"), _of("fire.clearance_side")
    opening = _of("fire.opening_width") if fire.opening_width is not None else body
    given = fire.opening_width if fire.opening_width is not None else fire.body_width
    start, end = _ends(settings)
    centre = _of("fire.centre") if fire.centre is not None else _middle(settings)
    one_end = choice.glass in (Glass.LEFT, Glass.RIGHT)
    sides = 1 if one_end else 2
    most = max(fire.body_width + sides * choice.clearance_side, given)
    reach = together((body, WHOLE), (side, sides * WHOLE)) if most > given else opening
    # Where the glass returns, body and hole count from that end.
    share = WHOLE if one_end else _HALF
    from_left, from_right = (end, start) if one_end else (centre, centre)
    base = _of("fire.base_height")
    high = _of("fire.opening_height" if fire.opening_height is not None else "fire.body_height")
    lining = settings.fire_lining.thickness if settings.fire_lining is not None else 0
    if one_end:
        frame = settings.end - most - lining, settings.start + most + lining
    else:
        whole = most + 2 * lining
        middle = choice.body.x0 + fire.body_width // 2
        frame = middle - whole // 2, middle - whole // 2 + whole
    return HoleShares(
        left=start if hole.to_left else together((from_left, WHOLE), (reach, -share)),
        right=end if hole.to_right else together((from_right, WHOLE), (reach, share)),
        bottom=base,
        top=_sum(base, _fire_height(placed)),
        depth=_by(fire__body_depth=1, fire__clearance_back=1),
        cut=(
            start if hole.to_left else together((from_left, WHOLE), (opening, -share)),
            end if hole.to_right else together((from_right, WHOLE), (opening, share)),
            base,
            _sum(base, high),
        ),
        left_frame=hole.frame.x0 if hole.to_left else frame[0],
        right_frame=hole.frame.x1 if hole.to_right else frame[1],
    )


def _fire_height(placed: Placed) -> Shares:
    """Return what the height between the timbers of a fire goes by."""
    choice = placed.fire
    assert choice is not None
    body = _of("fire.body_height")
    opening = _of("fire.opening_height") if choice.fire.opening_height is not None else body
    high = choice.fire.body_height + choice.clearance_top
    if high > choice.opening_height:
        return _sum(body, _of("fire.clearance_top"))
    return opening


def _tv_size(placed: Placed) -> tuple[Shares, Shares]:
    """Return what the width and the height of the TV go by."""
    choice = placed.tv
    assert choice is not None
    found: list[Shares] = []
    for field, given in (("tv.width", choice.tv.width), ("tv.height", choice.tv.height)):
        from_diagonal = given is None and choice.tv.diagonal is not None
        found.append(_of("tv.diagonal" if from_diagonal else field))
    return found[0], found[1]


def _tv_sides(placed: Placed) -> tuple[Shares, Shares, Shares, Shares, Shares]:
    choice, settings = placed.tv, placed.settings
    assert choice is not None
    tv = choice.tv
    width, height = _tv_size(placed)
    gaps = _of("tv.finger_gap", 2 * WHOLE)
    clear_width = _of("tv.recess_width") if tv.recess_width is not None else _sum(width, gaps)
    clear_height = _of("tv.recess_height") if tv.recess_height is not None else _sum(height, gaps)
    centre = _of("tv.centre") if tv.centre is not None else _middle(settings)
    fire = settings.wall.fire
    if tv.centre is None and fire is not None and fire.centre is not None:
        # Over a fire that was put somewhere.
        centre = _of("fire.centre") if fire.glass in (None, Glass.FRONT) else centre
    middle = _of("tv.centre_height")
    if tv.centre_height is None and fire is not None:
        over = _of("tv.above_fire")
        bar = settings.wall.soundbar
        if tv.above_fire is None and bar is not None and bar.z is None:
            over = _by(soundbar__height=1, soundbar__gap=2, tv__finger_gap=1, tv__above_fire=1)
        opening = "fire.opening_height" if fire.opening_height is not None else "fire.body_height"
        bottom = _sum(_of("fire.base_height"), _of(opening), over)
        middle = together((bottom, WHOLE), (height, _HALF))
    depth = _of("tv.recess_depth") if tv.recess_depth is not None else _of("tv.depth")
    return (
        together((centre, WHOLE), (clear_width, -_HALF)),
        together((centre, WHOLE), (clear_width, _HALF)),
        together((middle, WHOLE), (clear_height, -_HALF)),
        together((middle, WHOLE), (clear_height, _HALF)),
        depth,
    )


def _soundbar_sides(placed: Placed) -> tuple[Shares, Shares, Shares, Shares, Shares]:
    bar = placed.settings.wall.soundbar
    assert bar is not None
    width, height = (
        _by(soundbar__width=1, soundbar__gap=2),
        _by(soundbar__height=1, soundbar__gap=2),
    )
    left, bottom = _of("soundbar.x"), _of("soundbar.z")
    if placed.tv is not None and (bar.x is None or bar.z is None):
        tv = _tv_sides(placed)
        if bar.x is None:
            left = together((tv[0], _HALF), (tv[1], _HALF), (width, -_HALF))
        if bar.z is None:
            bottom = _less(tv[2], height)
    depth = _by(soundbar__depth=1, soundbar__gap=1)
    return left, _sum(left, width), bottom, _sum(bottom, height), depth
