"""Setting out along the wall: where board joints fall, and from them where uprights stand.

A joint may fall anywhere that an upright can stand behind its middle, so joints are chosen first:
few boards, no joint up the line of an opening's corner (it cracks there), joints on the centres.
The choice is a shortest path from end to end of the front, exact and always the same.
"""

from __future__ import annotations

import bisect
import itertools
from collections import deque
from dataclasses import dataclass

from optimiser.framing.openings import Hole, side_uprights
from optimiser.framing.settings import SHORTEST, Settings

# From memory of site guidance: a joint in line with an opening's corner cracks. 150 is the
# narrowest strip that is left beside an opening or at an end: common practice, no source.
CORNER = 1_500
STRIP = 1_500
# Joints of a second layer keep this far from the first layer's: common practice, no source.
STAGGER = 3_000
_STEP = 500  # joints off the centres are tried each 50 mm

_BOARD_COST = 1_000
_CORNER_COST = 600
_OFF_CENTRES_COST = 100
_NARROW_COST = 400
_IN_LINE_COST = 5_000
# Less than a strip or a corner costs: another way to board must be as sound as the first.
_AVOIDED_COST = 350


@dataclass(frozen=True, slots=True)
class Line:
    """Where an upright stands, `x` its left face, and why: end, side, joint or centres."""

    x: int
    role: str


@dataclass(frozen=True, slots=True)
class Joint:
    """A vertical board joint at `x`; `double`: an upright each side of it, as both edges are cut.

    Two cut edges want 38 of timber at the least, which one upright of 38 gives with nothing to
    spare: published UK project specification 2014, calculated.
    """

    x: int
    double: bool = False

    def uprights(self, thick: int) -> tuple[int, ...]:
        """Return the left faces of the uprights behind it."""
        return (self.x - thick, self.x) if self.double else (self.x - thick // 2,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """What the joints of one row of boards go by.

    `reach` is the longest board, `bound` the length of board whose ends are both bound (0: none).
    `others` are joints already chosen, to be kept clear of or shared; `avoid` are joints of
    another way to board the same wall.
    """

    holes: list[Hole]
    reach: int
    bound: int = 0
    others: tuple[Joint, ...] = ()
    avoid: tuple[Joint, ...] = ()


def joints(run: Run, settings: Settings, all_holes: list[Hole]) -> tuple[Joint, ...]:
    """Return where one row's vertical joints fall, from left to right.

    Empty when one board spans the front, or when no upright can stand where joints are needed.
    """
    if settings.end - settings.start <= run.reach:
        return ()
    fixed = [x for x, _ in side_uprights(all_holes, settings)]
    # A joint shares its upright with those already chosen or keeps clear of them.
    fixed += [x for joint in run.others for x in joint.uprights(settings.thick)]
    places = [settings.start, *_candidates(run.holes, settings, fixed), settings.end]
    costs = [_place_cost(place, run, settings) for place in places]
    costs[-1] = 0
    chosen = _walk_back(places, _cheapest(places, costs, run.reach))
    return _doubled(chosen, run, settings, fixed)


def _cheapest(places: list[int], costs: list[int], most: int) -> list[tuple[int, int] | None]:
    """Return for each place the least cost of reaching it and the place before it."""
    best: list[tuple[int, int] | None] = [None] * len(places)
    best[0] = (0, 0)
    # Of the places far enough back that what lies between is no narrow board: those that may yet
    # be the cheapest within reach, from left to right and so from the cheapest.
    far: deque[tuple[int, int]] = deque()
    narrow = 0
    for end in range(1, len(places)):
        at = places[end]
        while at - places[narrow] >= 2 * STRIP:
            so_far = best[narrow]
            if so_far is not None:
                while far and far[-1][0] >= so_far[0]:
                    far.pop()
                far.append((so_far[0], narrow))
            narrow += 1
        while far and at - places[far[0][1]] > most:
            far.popleft()
        least, before = far[0] if far else (-1, 0)
        # Of equally cheap places the nearest.
        for start in range(narrow, end):
            reach, so_far = at - places[start], best[start]
            if reach > most or so_far is None:
                continue
            cost = so_far[0] + _NARROW_COST + (_IN_LINE_COST if reach < STRIP else 0)
            if least < 0 or cost <= least:
                least, before = cost, start
        if least >= 0:
            best[end] = (least + _BOARD_COST + costs[end], before)
    return best


def _doubled(
    chosen: tuple[int, ...], run: Run, settings: Settings, fixed: list[int]
) -> tuple[Joint, ...]:
    """Double the uprights behind joints of two cut edges, where there is room."""
    thick = settings.thick
    # The closing board is cut at its far edge, whatever its place is as wide as.
    edges = [settings.start, *chosen, settings.end - settings.eased]
    found: list[Joint] = []
    for before, x, after in zip(edges, edges[1:], edges[2:], strict=False):
        cut = (x - before != run.bound) and (after - x != run.bound)
        taken = [*fixed, *(other - thick // 2 for other in chosen if other != x)]
        pair = (x - thick, x)
        # Close beside another upright a pair would leave no room to screw: the joint stays single.
        clear = all(
            abs(other - one) >= thick + SHORTEST or other == one for one in pair for other in taken
        )
        inside = settings.left <= pair[0] and pair[1] + thick <= settings.right
        found.append(Joint(x, double=cut and clear and inside))
    return tuple(found)


def _walk_back(places: list[int], best: list[tuple[int, int] | None]) -> tuple[int, ...]:
    chosen: list[int] = []
    step = best[-1]
    while step is not None and step[1] > 0:
        chosen.append(places[step[1]])
        step = best[step[1]]
    return tuple(reversed(chosen))


def _candidates(holes: list[Hole], settings: Settings, fixed: list[int]) -> list[int]:
    """Return where a joint may fall: an upright behind its middle stands clear, or is shared."""
    thick = settings.thick
    half = thick // 2
    tried = set(range(settings.start + settings.centres, settings.end, settings.centres))
    tried |= set(range(settings.start + _STEP, settings.end, _STEP))
    tried |= {(hole.frame.x0 + hole.frame.x1) // 2 for hole in holes}
    tried |= {x + half for x in fixed}
    uprights = sorted(set(fixed))

    def stands(joint: int) -> bool:
        # The upright of an opening's side, or of an end, may stand outside what is boarded.
        if not settings.start < joint < settings.end:
            return False
        x = joint - half
        if x < settings.left or x + thick > settings.right:
            return False
        if any(_on_nothing(joint, x, x + thick, hole) for hole in holes):
            return False
        near = bisect.bisect_right(uprights, x - thick), bisect.bisect_left(uprights, x + thick)
        return all(x == other for other in uprights[slice(*near)])

    return sorted(joint for joint in tried if stands(joint))


def _on_nothing(joint: int, x0: int, x1: int, hole: Hole) -> bool:
    """Return whether a joint with an upright from x0 to x1 passes beside a hole where its board
    stands out past the timber, as the facing board does at a fire."""
    at_left = hole.frame.x0 <= x0 and joint < hole.cut.x0
    return at_left or (hole.cut.x1 < joint and x1 <= hole.frame.x1)


def _place_cost(joint: int, run: Run, settings: Settings) -> int:
    cost = 0 if (joint - settings.start) % settings.centres == 0 else _OFF_CENTRES_COST
    for hole in run.holes:
        cost += _CORNER_COST * sum(abs(joint - x) < CORNER for x in (hole.cut.x0, hole.cut.x1))
    if any(abs(joint - other.x) < STAGGER for other in run.others):
        cost += _IN_LINE_COST
    if any(abs(joint - other.x) < STAGGER for other in run.avoid):
        cost += _AVOIDED_COST
    return cost


def lines(
    holes: list[Hole], settings: Settings, board_joints: tuple[Joint, ...]
) -> tuple[Line, ...]:
    """Return every place of an upright from left to right: ends, sides, joints, then centres.

    Places on the centres that crowd another are left out; then any span over the board's limit is
    divided evenly.
    """
    thick, half = settings.thick, settings.thick // 2
    found = {x: "joint" for joint in board_joints for x in joint.uprights(thick)}
    # An end upright that an opening's side shares stays an end upright.
    for x, role in sorted(side_uprights(holes, settings), key=lambda side: side[1], reverse=True):
        found[x] = role
    fixed = sorted(found)
    for middle in range(settings.start + settings.centres, settings.end, settings.centres):
        x = middle - half
        inside = settings.left <= x and x + thick <= settings.right
        if inside and all(abs(x - other) >= thick + SHORTEST for other in fixed):
            found[x] = "centres"
    for hole in holes:
        # A fire too narrow for one of them stands at its back on the return of one in its middle.
        middle = (hole.frame.x0 + hole.frame.x1) // 2 - half
        held = any(hole.frame.x0 <= x and x + thick <= hole.frame.x1 for x in found)
        if hole.kind == "fire" and hole.frame.width >= 3 * thick and not held:
            found[middle] = "centres"
    span = max(settings.limit, settings.centres)
    places = sorted(found)
    for start, end in itertools.pairwise(places):
        parts = -(-(end - start) // span)
        for part in range(1, parts):
            found[start + (end - start) * part // parts] = "centres"
    return tuple(Line(x, found[x]) for x in sorted(found))
