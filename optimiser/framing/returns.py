"""Returns join front and back frame into boxes; struts carry the backs of recesses between them.

A strut ends against the returns beside its opening, at the same height, so that its screws find
timber, and is propped from the back uprights that pass behind it.
"""

from __future__ import annotations

import itertools

from optimiser.domain.frame import Member
from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.openings import Hole, behind_glass
from optimiser.framing.recesses import TvChoice
from optimiser.framing.serving import Level, placed
from optimiser.framing.settings import SHORTEST, Settings
from optimiser.framing.uprights import BEARING, Skeleton, Span, member

# Common practice, no source; a reveal's board spans no further than the front's.
SPACING = 12_000
STRUT_SPACING = 6_000
# Bracket plates have their screw rows about 200 apart: common practice, no source.
BRACKET_ROWS = 2_000


def strut_levels(
    hole: Hole, panel_joints: list[int], tv: TvChoice | None, settings: Settings
) -> list[Level]:
    """Return the heights of the struts behind one recess: edges, joints, bracket, then between."""
    wide = settings.wide
    lo, hi = hole.frame.z0, hole.frame.z1
    wanted: list[Level] = [(joint - wide // 2, "frame.strut.back") for joint in panel_joints]
    wanted += [(lo, "frame.strut.back"), (hi - wide, "frame.strut.back")]
    if hole.kind == "tv" and tv is not None:
        for way in (-1, 1):
            row = tv.centre_height + way * BRACKET_ROWS // 2 - wide // 2
            wanted.append((row, "frame.strut.bracket"))
    chosen: list[Level] = []
    for level in wanted:
        inside = lo <= level[0] and level[0] + wide <= hi
        if inside and _is_free(level[0], chosen, wide):
            chosen.append(level)
    # A thin board spans less than struts may lie apart.
    spacing = min(STRUT_SPACING, settings.limit)
    return _filled(chosen, (lo, hi), wide, spacing, "frame.strut.back")


def _is_free(z: int, taken: list[Level], wide: int) -> bool:
    return all(abs(z - other) >= wide for other, _ in taken)


def _filled(chosen: list[Level], span: Span, wide: int, spacing: int, rule: str) -> list[Level]:
    """Add levels between those chosen, evenly, so that no clear space exceeds the spacing."""
    levels = sorted(level for level in chosen if span[0] <= level[0] + wide and level[0] <= span[1])
    added: list[Level] = []
    for (one, _), (other, _) in itertools.pairwise(levels):
        clear = other - one - wide
        count = max(-(-clear // spacing) - 1, 0)
        for i in range(1, count + 1):
            added.append((one + wide + clear * i // (count + 1) - wide // 2, rule))
    return sorted([*chosen, *added])


def struts(settings: Settings, hole: Hole, levels: list[Level]) -> list[Member]:
    """Return the struts behind one recess, across its whole width."""
    size = (hole.frame.width, settings.thick, settings.wide)
    return [
        member(settings, "strut", rule, (hole.frame.x0, hole.back(settings), z), size)
        for z, rule in levels
    ]


def props(settings: Settings, back: Skeleton, hole: Hole, levels: list[Level]) -> list[Member]:
    """Return short returns from the back uprights to the struts that pass before them."""
    reach = hole.back(settings) - settings.wide
    if reach < SHORTEST:
        return []
    thick, wide = settings.thick, settings.wide
    return [
        member(settings, "return", "frame.return.strut", (line.x, wide, z), (thick, reach, wide))
        for line in back.lines
        if hole.frame.x0 <= line.x and line.x + thick <= hole.frame.x1
        for z, _ in levels
        if any(lo <= z and z + wide <= hi for lo, hi in back.spans[line.x])
    ]


def returns(
    settings: Settings,
    front: Skeleton,
    strutted: list[tuple[Hole, list[Level]]],
    end_joints: dict[int, list[int]],
) -> list[Member]:
    """Return the pieces from front to back beside each front upright.

    `strutted` are the recesses with their struts' levels; `end_joints` the heights of horizontal
    joints in the boards of a free end, by the x of that end's upright.
    """
    thick, wide = settings.thick, settings.wide
    made: list[Member] = []
    for line in front.lines:
        beside = [
            (hole, levels)
            for hole, levels in strutted
            if line.x + thick == hole.frame.x0 or line.x == hole.frame.x1
        ]
        wanted: list[Level] = [
            (z, "frame.return.strut" if hole.lined else rule)
            for hole, levels in beside
            for z, rule in levels
        ]
        for hole, _ in beside:
            wanted += [(z - wide // 2, "frame.return.shelf") for z in shelf_heights(hole)]
        wanted += [(z - wide // 2, "frame.noggin.joint") for z in end_joints.get(line.x, [])]
        size = (thick, settings.front - wide, wide)
        for span in front.spans[line.x]:
            reach, most = _reach(settings, line.x, span, beside)
            inside = [lv for lv in wanted if reach[0] <= lv[0] and lv[0] + wide <= most]
            levels = _levels_of(span, reach, inside, [h for h, _ in beside], settings)
            for z, rule in levels:
                made.append(member(settings, "return", rule, (line.x, wide, z), size))
            made += _on_the_flat(settings, line.x, reach, [z for z, _ in levels])
    return made


def _on_the_flat(settings: Settings, x: int, reach: Span, levels: list[int]) -> list[Member]:
    """Return what holds a bare end's board at floor and ceiling where no return on edge has room.

    Beside a low base under returning glass say, whose one return is the glass's. A length laid flat
    between front and back plate, as a fitter closes the end of a base: without it the board stands
    out further past that return than it may.
    """
    thick, wide = settings.thick, settings.wide
    if x == settings.left:
        bare, at = settings.left_bare, x
    elif x == settings.right - thick:
        bare, at = settings.right_bare, settings.right - wide
    else:
        return []
    bottom, top = reach
    lowest, highest = min(levels, default=top), max(levels, default=bottom - wide) + wide
    found: list[Member] = []
    for z, gap, taken in (
        (bottom, lowest - bottom, settings.bottom_bare is not None and bottom == settings.base),
        (top - thick, top - highest, settings.top_bare is not None),
    ):
        loose = any(
            one.z0 < z + thick
            and z < one.z1
            and (one.y > wide - BEARING or settings.front - wide > settings.limit)
            for one in bare
        )
        if loose and not taken and gap > max(MOST_OVERHANG, thick):
            size = (wide, settings.front - wide, thick)
            found.append(member(settings, "return", "frame.return.flat", (at, wide, z), size))
    return found


def rests_on_plates(settings: Settings, fire: Hole | None) -> list[Member]:
    """Return what a fire on the sole plates stands on between them: lengths laid flat on the floor,
    in its middle and at an end that its glass goes round, where an upright stands on one."""
    if fire is None or fire.frame.z0 > settings.sole or fire.blocks_back(settings):
        return []
    wide = settings.wide
    size = (wide, settings.front - wide, settings.thick)
    ends = [settings.left] * fire.to_left + [settings.right - wide] * fire.to_right
    middle = (fire.frame.x0 + fire.frame.x1 - wide) // 2
    # Under a narrow fire what lies at its end is enough.
    places = [*ends, *([middle] if all(abs(middle - x) >= wide for x in ends) else [])]
    return [
        member(settings, "return", "frame.return.flat", (x, wide, settings.base), size)
        for x in places
    ]


def returns_beside_glass(settings: Settings, fire: Hole | None) -> list[Member]:
    """Return what holds a bare end's board between the glass round it and the back.

    Pieces from the back upright to the one at the glass's edge, as often as the board spans; none
    where these two hold the whole of it.
    """
    edge = behind_glass(settings.depth - fire.depth, settings) if fire is not None else None
    if fire is None or edge is None or edge.y - settings.wide < SHORTEST:
        return []
    thick, wide = settings.thick, settings.wide
    over = [(fire.frame.z0 - wide, ""), (fire.frame.z1, "")]
    rule = "frame.return.end-span"
    levels = _filled(over, (fire.frame.z0, fire.frame.z1), wide, settings.limit, rule)
    size = (thick, edge.y - wide, wide)
    made: list[Member] = []
    for wanted, bare, x in (
        (fire.to_left, settings.left_bare, settings.left),
        (fire.to_right, settings.right_bare, settings.right - thick),
    ):
        shown = [one for one in bare if one.z0 < fire.frame.z1 and fire.frame.z0 < one.z1]
        past = max((edge.y - one.y for one in shown if one.y > wide), default=0)
        if wanted and shown and (past > MOST_OVERHANG or edge.y - wide > settings.limit):
            made += [
                member(settings, "return", rule, (x, wide, z), size) for z, rule in levels if rule
            ]
    return made


def _reach(
    settings: Settings, x: int, span: Span, beside: list[tuple[Hole, list[Level]]]
) -> tuple[Span, int]:
    """Return how far returns may stand along an upright, and how high those that boards want.

    Flush with the opening that cuts the upright off, or with the floor. Under a top, and behind a
    bare end's board, they reach up between the plates.
    """
    lo, hi = span
    thick = settings.thick
    top = settings.levels.lowest_ceiling(x, x + thick) - thick - settings.fit
    if hi != top:
        # What holds a board's edge may bear in part on the rail that cuts the upright off: an end
        # return would have to stand within a timber's width of it.
        return (lo - thick, hi + thick), hi + thick
    # Too low over a lined fire for a return on edge: one on the flat takes its place.
    for hole, levels in beside:
        if levels and not hole.lined and lo < hole.frame.z1 < hi < hole.frame.z1 + settings.wide:
            return (lo - thick, hole.frame.z1), hi
    bare = {settings.left} if settings.left_bare else set()
    bare |= {settings.right - thick} if settings.right_bare else set()
    over = settings.fit + thick if settings.flat_top else thick * (x in bare)
    return (lo - thick, hi + over), hi


def _levels_of(
    span: Span, reach: Span, wanted: list[Level], beside: list[Hole], settings: Settings
) -> list[Level]:
    """Return the heights of the returns along one upright, those wanted first.

    `reach` is how far they may stand.
    """
    wide = settings.wide
    lo, hi = span
    chosen = placed(wanted, reach, wide)
    ends = [(z, "frame.return.end") for z in (reach[0], reach[1] - wide)]
    if reach[0] == settings.base:
        # Where there is room for one only, the opening's is worth more than the floor's.
        ends.reverse()
    for level in ends:
        if reach[0] <= level[0] <= reach[1] - wide and _is_free(level[0], chosen, wide):
            chosen.append(level)
    for hole in beside:
        if not hole.lined and settings.fire_lining is None:
            continue
        reveal = max(lo, hole.frame.z0), min(hi, hole.frame.z1)
        near = [level for level in chosen if reveal[0] - wide <= level[0] <= reveal[1]]
        for level in _filled(near, reveal, wide, settings.limit, "frame.return.reveal"):
            if level not in near and _is_free(level[0], chosen, wide):
                chosen.append(level)
    return _filled(chosen, reach, wide, SPACING, "frame.return.spacing")


def shelf_heights(hole: Hole) -> list[int]:
    """Return the middle heights of a niche's shelves, evenly spaced."""
    parts = hole.shelves + 1
    return [hole.clear.z0 + hole.clear.height * i // parts for i in range(1, parts)]
