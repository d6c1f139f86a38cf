"""Plates, sills, heads and noggins: the timbers that lie along the wall in front and back frame."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.frame import Box, Member
from optimiser.framing.fixing import screw_into_stud
from optimiser.framing.setting_out import Line
from optimiser.framing.settings import SHORTEST, Settings
from optimiser.framing.uprights import Skeleton, Span, member, without

# Noggins about 1 350 apart at most: UK trade wiki, stud walls.
NOGGIN_SPACING = 13_500
# A narrower bay takes no noggin: its boards need none there. Common practice, no source.
NARROWEST_BAY = 1_000
# Nobody joins a plate for less: common practice, no source.
SHORTEST_PLATE = 6_000

# A ceiling further out of level than this is followed: common practice, no source.
_OUT_OF_LEVEL = 300

# A horizontal board joint: from x to x, at z.
Row = tuple[int, int, int]


def plates(settings: Settings, frame: Skeleton) -> list[Member]:
    """Return sole and head plate, joined over an upright where no stock is long enough."""
    made: list[Member] = []
    thick, wide = settings.thick, settings.wide
    for x0, x1 in joined_runs(settings.left, settings.right, frame.lines, settings):
        size = (x1 - x0, wide, thick)
        at = (x0, frame.y, settings.base)
        made.append(member(settings, "sole plate", "frame.plate.sole", at, size))
        top = settings.levels.lowest_ceiling(x0, x1) - thick
        made.append(
            member(
                settings,
                "head plate",
                "frame.plate.head",
                (x0, frame.y, top),
                size,
                follows_ceiling=not settings.flat_top,
            )
        )
    return made


def joined_runs(
    start: int, end: int, lines: tuple[Line, ...], settings: Settings
) -> Iterator[Span]:
    """Divide a run into lengths that stock gives, each joint on the middle of an upright."""
    middles = [line.x + settings.thick // 2 for line in lines]
    longest = settings.longest_plate
    while end - start > longest:
        reachable = [m for m in middles if start + SHORTEST <= m <= start + longest]
        reachable = [m for m in reachable if end - m >= SHORTEST_PLATE] or reachable
        # Nothing to join over: joined at full length, on packing.
        joint = max(reachable, default=start + longest)
        yield start, joint
        start = joint
    yield start, end


def sills_and_heads(settings: Settings, frame: Skeleton) -> list[Member]:
    """Return the rail under and over each opening that this frame goes round."""
    made: list[Member] = []
    thick = settings.thick
    for hole in frame.holes:
        inside = hole.frame
        size = (inside.width, settings.wide, thick)
        if inside.z0 > settings.sole:
            at = (inside.x0, frame.y, inside.z0 - thick)
            made.append(member(settings, "sill", "frame.sill", at, size))
        made.append(member(settings, "head", "frame.head", (inside.x0, frame.y, inside.z1), size))
    return made


def bays(
    settings: Settings, frame: Skeleton, *, narrowest: int = NARROWEST_BAY
) -> Iterator[tuple[int, int, int, int]]:
    """Yield each clear space between neighbouring uprights: from x to x, from z to z."""
    thick = settings.thick
    outers = [hole.outer(settings) for hole in frame.holes]
    for one, other in zip(frame.lines, frame.lines[1:], strict=False):
        x0, x1 = one.x + thick, other.x
        if x1 - x0 < narrowest:
            continue
        taken = [(o.z0, o.z1) for o in outers if o.x0 < x1 and x0 < o.x1]
        for lo_one, hi_one in frame.spans[one.x]:
            for lo_other, hi_other in frame.spans[other.x]:
                shared = max(lo_one, lo_other), min(hi_one, hi_other)
                if shared[1] > shared[0]:
                    for lo, hi in without(shared, taken):
                        yield x0, x1, lo, hi


def noggins(settings: Settings, frame: Skeleton, rows: list[Row]) -> list[Member]:
    """Return noggins behind horizontal joints, then as many as keep their spacing."""
    thick, wide = settings.thick, settings.wide
    made: list[Member] = []
    for x0, x1, lo, hi in bays(settings, frame):
        wanted = {
            z - wide // 2
            for from_x, to_x, z in rows
            if from_x < x1 and x0 < to_x and lo <= z - wide // 2 <= hi - wide
        }
        taken: list[int] = []
        for z in sorted(wanted):
            if not taken or z - taken[-1] >= wide:
                taken.append(z)
        # On the flat, so that two cut edges find more than the 38 that they need at the least.
        for z in taken:
            made.append(
                member(
                    settings,
                    "noggin",
                    "frame.noggin.joint",
                    (x0, frame.y + wide - thick, z),
                    (x1 - x0, thick, wide),
                )
            )
        size = (x1 - x0, wide, thick)
        starts = [lo, *(z + wide for z in taken)]
        for start, end in zip(starts, [*taken, hi], strict=True):
            top = _level(settings, end)
            count = -(-(end - start + end - top) // NOGGIN_SPACING) - 1
            for i in range(1, count + 1):
                z = whole_mm(start + (top - start) * i // (count + 1) - thick // 2)
                at = (x0, frame.y, z)
                made.append(member(settings, "noggin", "frame.noggin.mid-height", at, size))
    return made


def ledgers(settings: Settings, back: Skeleton) -> list[Member]:
    """Return ledgers of the bays before existing studs: low, at half height and high."""
    studs = [position - settings.offset for position in settings.wall.site.stud_positions]
    made: list[Member] = []
    wide = settings.wide
    for x0, x1, lo, hi in bays(settings, back):
        if all(screw_into_stud(stud, x0, x1) is None for stud in studs):
            continue
        top = _level(settings, hi)
        room = top - lo
        rows = [whole_mm((lo + top - wide) // 2)] if room >= wide + 10 else []
        if room >= 6 * SHORTEST + 3 * wide:
            rows = [lo + 2 * SHORTEST, rows[0], whole_mm(top - 2 * SHORTEST - wide)]
        for z in rows:
            made.append(
                member(
                    settings,
                    "ledger",
                    "frame.ledger",
                    (x0, 0, z),
                    (x1 - x0, settings.thick, wide),
                )
            )
    return made


def _level(settings: Settings, end: int) -> int:
    """Return where uprights end under the lowest ceiling, if `end` is no more than 30 above that.

    Noggins and ledgers of all bays then lie at one height, that one line on the wall marks.
    """
    lowest = settings.levels.lowest_ceiling(settings.start, settings.end)
    cut = lowest - settings.thick - settings.fit
    return cut if cut <= end <= cut + _OUT_OF_LEVEL else end


def whole_mm(height: int) -> int:
    """Round a height down to a whole millimetre, as far as a line is marked on site."""
    return height - height % 10


def back_noggins(settings: Settings, back: Skeleton, made: list[Member]) -> list[Member]:
    """Return noggins beside back uprights that pass an opening with nothing to hold them."""
    found: list[Member] = []
    # The outer one of a pair, held by no wide bay, takes its noggin in a narrow one.
    open_bays = list(bays(settings, back, narrowest=SHORTEST))
    wide = settings.back + settings.wide
    near = [one.box for one in made if "upright" not in one.kind and one.box.y <= wide]
    for line in back.lines:
        for lo, hi in back.spans[line.x]:
            for start, end in _loose(settings, line.x, (lo, hi), near):
                middle = (start + end - settings.thick) // 2
                beside = [
                    (x1 - x0 < NARROWEST_BAY, abs(z - middle), x0, x1, z)
                    for x0, x1, low, high in open_bays
                    if line.x in (x0 - settings.thick, x1)
                    for z in [min(max(middle, low), high - settings.thick)]
                    if start < z < end and z >= low
                ]
                if beside:
                    _, _, x0, x1, z = min(beside)
                    size = (x1 - x0, settings.wide, settings.thick)
                    at = (x0, back.y, z)
                    noggin = member(settings, "noggin", "frame.noggin.mid-height", at, size)
                    found.append(noggin)
                    near.append(noggin.box)
    return found


def _loose(settings: Settings, x: int, span: Span, near: list[Box]) -> list[Span]:
    """Return the stretches of a back upright, too long to stand alone, that nothing touches.

    `near` are the boxes of what may hold it.
    """
    right = x + settings.thick
    held: list[Span] = [
        (box.z, box.z + box.dz) for box in near if box.x <= right and x <= box.x + box.dx
    ]
    gaps = without(span, held)
    return [(lo, hi) for lo, hi in gaps if hi - lo > NOGGIN_SPACING]
