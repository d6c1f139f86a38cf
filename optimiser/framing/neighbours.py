"""Which box of a wall stands beside another, and where the two meet: flush, or in an angle.

Knows places only; what is taped or beaded there is the business of others.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optimiser.framing.boarding import level_surfaces
from optimiser.framing.layout import room
from optimiser.framing.settings import Settings

Spot = tuple[int, int, int]
Run = tuple[Spot, Spot]


@dataclass(frozen=True, slots=True)
class LevelEdge:
    """One end of a bare top or underside: what it makes there, and from where to where.

    `kind`: "corner" where it ends free, "angle" where another box stands beside, "joint" where that
    ends at the same level (said of the right one), "stop" at the house.
    """

    kind: str
    side: str
    end: str
    run: Run


def _front(one: Settings) -> int:
    return one.back + one.depth


def _reach(one: Settings, x: int) -> tuple[int, int]:
    """Return from where to where a box reaches upwards at x."""
    top = one.levels.flat_ceiling
    return one.base, top if top is not None else one.levels.highest_ceiling(x, x)


def _beside(one: Settings, others: Sequence[Settings], side: str) -> Iterator[Settings]:
    """Yield the boxes at one side; the end board of one may lap the other's front."""
    for other in others:
        apart = other.end - one.start if side == "left" else other.start - one.end
        if abs(apart) <= one.skin:
            yield other


def flush_joints(one: Settings, others: Sequence[Settings]) -> Iterator[Run]:
    """Yield where the front of a box meets that of one at its right, or its front and its ends
    those of one under it, in one plane."""
    y, x = _front(one), one.end
    bottom, top = room(one, x, x)
    for other in _beside(one, others, "right"):
        low, high = room(other, x, x)
        if _front(other) == y and other.start == x and max(bottom, low) < min(top, high):
            yield (x, y, max(bottom, low)), (x, y, min(top, high))
    for other in others:
        x0, x1 = max(one.start, other.start), min(one.end, other.end)
        if other.levels.flat_ceiling != one.base or x0 >= x1:
            continue
        if _front(other) == y:
            yield (x0, y, bottom), (x1, y, bottom)
        for x, bare, under, edge in (
            (one.start, one.left_bare, other.left_bare, other.start),
            (one.end, one.right_bare, other.right_bare, other.end),
        ):
            if x == edge and bare and under:
                y0 = max(one.back + bare[0].y, other.back + under[-1].y)
                y1 = min(y, _front(other))
                if y0 < y1:
                    yield (x, y0, bottom), (x, y1, bottom)


def inside_angles(one: Settings, others: Sequence[Settings]) -> Iterator[Run]:
    """Yield where a bare end of a box meets the front of one beside it."""
    for side, bare, x in (
        ("left", one.left_bare, one.start),
        ("right", one.right_bare, one.end),
    ):
        bottom, top = room(one, x, x)
        for stretch in bare:
            y = one.back + stretch.y
            for other in _beside(one, others, side):
                low, high = room(other, x, x)
                z0 = max(bottom, stretch.z0, low)
                z1 = min(top, stretch.z1, high)
                if _front(other) == y and z0 < z1:
                    yield (x, y, z0), (x, y, z1)


def level_edges(one: Settings, others: Sequence[Settings]) -> Iterator[LevelEdge]:
    """Yield what the ends of a bare top and underside make, along the depth of the wall."""
    front = _front(one)
    for surface, place, _ in level_surfaces(one):
        side = surface.name.rsplit(".", 1)[-1]
        z = one.board_top if side == "top" else one.board_base
        assert z is not None
        back = surface.origin[1] - place.z1
        for end, bare, x in (
            ("left", one.left_bare, one.start),
            ("right", one.right_bare, one.end),
        ):
            shown = [s for s in bare if s.z0 <= z <= s.z1 or s in (bare[0], bare[-1])]
            stretch = (shown[-1] if side == "top" else shown[0]) if shown else None
            free = front if stretch is None else max(back, one.back + stretch.y)
            if free < front:
                yield LevelEdge("corner", side, end, ((x, free, z), (x, front, z)))
            if back < free:
                kind = _met(one, others, end, side, z)
                # The tops themselves meet over timber, behind the board of the deeper one's end.
                at = one.left if kind == "joint" else x
                if kind:
                    yield LevelEdge(kind, side, end, ((at, back, z), (at, free, z)))


def _met(one: Settings, others: Sequence[Settings], end: str, side: str, z: int) -> str:
    x = one.start if end == "left" else one.end
    for other in _beside(one, others, end):
        low, high = _reach(other, x)
        if low < z < high:
            return "angle"
        if z == (other.board_top if side == "top" else other.board_base):
            return "joint" if end == "left" else ""
    free = one.left_free if end == "left" else one.right_free
    outer = x == (0 if end == "left" else one.width)
    return "stop" if outer and not free else ""
