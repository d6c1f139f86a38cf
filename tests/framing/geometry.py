"""What must hold of every frame, checked from its boxes and rectangles alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise

from optimiser.domain.frame import Board, Box, Frame, Member, Opening
from optimiser.domain.price_book import PriceBook
from optimiser.units import Tenths

# Levels are written in whole tenths, so a level between two of them may be off by this.
ROUNDING = 2
# A recess's hole in the board is this much larger than its clear size: skim.
SKIM = 30
FLOOR_GAP = 130
# Which way a member runs; all others lie along the wall.
AXES = {"upright": "z", "short upright": "z", "return": "y"}


def ceiling(frame: Frame, x: int) -> float:
    for one, other in pairwise(frame.levels):
        if one.x <= x <= other.x:
            share = (x - one.x) / (other.x - one.x)
            return one.ceiling + (other.ceiling - one.ceiling) * share
    raise AssertionError(f"no level at {x}")


def ceilings(frame: Frame, x0: int, x1: int) -> list[float]:
    inside = [float(level.ceiling) for level in frame.levels if x0 < level.x < x1]
    return [ceiling(frame, x0), *inside, ceiling(frame, x1)]


def _bottom(frame: Frame, one: Member, x0: int, x1: int) -> float:
    return min(ceilings(frame, x0, x1)) - one.box.dz if one.follows_ceiling else one.box.z


def _top(frame: Frame, one: Member, x0: int, x1: int) -> float:
    return max(ceilings(frame, x0, x1)) if one.follows_ceiling else one.box.z + one.box.dz


def share_space(frame: Frame) -> list[tuple[Member, Member]]:
    """Return every two members that stand in one another."""
    found = []
    for one, other in combinations(frame.members, 2):
        a, b = one.box, other.box
        x0, x1 = max(a.x, b.x), min(a.x + a.dx, b.x + b.dx)
        if x0 >= x1 or a.y + a.dy <= b.y or b.y + b.dy <= a.y:
            continue
        below = min(_top(frame, one, x0, x1), _top(frame, other, x0, x1))
        above = max(_bottom(frame, one, x0, x1), _bottom(frame, other, x0, x1))
        both_bend = one.follows_ceiling or other.follows_ceiling
        if below - above > (ROUNDING if both_bend else 0):
            found.append((one, other))
    return found


def outside(frame: Frame) -> list[Member]:
    """Return every member that leaves the wall."""
    return [
        one
        for one in frame.members
        if one.box.x < 0
        or one.box.x + one.box.dx > frame.width
        or one.box.y < 0
        or one.box.y + one.box.dy > frame.depth
        or one.box.z < 0
        or _leaves_ceiling(frame, one)
    ]


def _leaves_ceiling(frame: Frame, one: Member) -> bool:
    lowest = min(ceilings(frame, one.box.x, one.box.x + one.box.dx))
    return one.box.z + one.box.dz > lowest + ROUNDING


def in_openings(frame: Frame) -> list[tuple[Member, str]]:
    """Return every member that stands in the clear volume of an opening."""
    found = []
    for opening in frame.openings:
        for one in frame.members:
            box = _lying(frame, one, opening)
            if (
                box.x < opening.x + opening.width
                and opening.x < box.x + box.dx
                and box.z < opening.z + opening.height
                and opening.z < box.z + box.dz
                and box.y + box.dy > frame.depth - opening.depth
            ):
                found.append((one, opening.name))
    return found


def _lying(frame: Frame, one: Member, opening: Opening) -> Box:
    """The box of a member where it passes an opening: one that follows the ceiling bends there."""
    start = max(one.box.x, opening.x)
    end = min(one.box.x + one.box.dx, opening.x + opening.width)
    if not one.follows_ceiling or start >= end:
        return one.box
    return replace(one.box, z=Tenths(int(min(ceilings(frame, start, end))) - one.box.dz))


def too_large(frame: Frame, book: PriceBook) -> list[Board]:
    """Return every board part that no sheet gives."""
    sheets = {
        item.material: [
            (stock.width - item.edge_trim.across, stock.height - item.edge_trim.along)
            for stock in item.stock
        ]
        for item in book.sheets
    }
    return [
        one
        for one in frame.boards
        if not any(
            (one.width <= w and one.height <= h)
            or (one.turn and one.height <= w and one.width <= h)
            for w, h in sheets[one.material]
        )
    ]


def bad_cut_outs(frame: Frame) -> list[Board]:
    """Return every board with a cut-out that leaves it, or that leaves nothing of it."""
    found = []
    for one in frame.boards:
        area = one.width * one.height
        for cut in one.cut_outs:
            area -= cut.width * cut.height
            if (
                min(cut.x, cut.y) < 0
                or min(cut.width, cut.height) <= 0
                or cut.x + cut.width > one.width
                or cut.y + cut.height > one.height
            ):
                found.append(one)
        if area <= 0 or min(one.width, one.height) <= 0:
            found.append(one)
    return found


def front_faults(frame: Frame, *, skim: int = SKIM) -> list[tuple[int, float, float, int]]:
    """Return where a layer of the front is not covered exactly once: layer, x, z, boards there."""
    holes = []
    for opening in frame.openings:
        more = 0 if opening.kind == "fire" else skim
        holes.append(
            (
                opening.x - more,
                opening.z - more,
                opening.x + opening.width + more,
                opening.z + opening.height + more,
            )
        )
    faults = []
    layers = {board.layer for board in frame.boards if board.face == "front"}
    for layer in layers:
        boards = [b for b in frame.boards if b.face == "front" and b.layer == layer]
        for x, z in _middles(frame, boards, holes):
            if not _to_be_covered(frame, z):
                continue
            covered = sum(_covers(board, x, z) for board in boards)
            inside = any(x0 < x < x1 and z0 < z < z1 for x0, z0, x1, z1 in holes)
            if covered != (0 if inside else 1):
                faults.append((layer, x, z, covered))
    return faults


def _to_be_covered(frame: Frame, z: float) -> bool:
    lowest = max(level.floor for level in frame.levels) + FLOOR_GAP
    highest = min(level.ceiling for level in frame.levels)
    return lowest < z < highest


def _middles(
    frame: Frame, boards: list[Board], holes: list[tuple[int, int, int, int]]
) -> Iterator[tuple[float, float]]:
    xs = {0, int(frame.width)}
    zs = set()
    for board in boards:
        xs |= {board.x, board.x + board.width}
        zs |= {board.z, board.z + board.height}
    for x0, z0, x1, z1 in holes:
        xs |= {x0, x1}
        zs |= {z0, z1}
    for a, b in pairwise(sorted(xs)):
        for c, d in pairwise(sorted(zs)):
            yield (a + b) / 2, (c + d) / 2


def _covers(board: Board, x: float, z: float) -> bool:
    in_x, in_z = x - board.x, z - board.z
    if not (0 < in_x < board.width and 0 < in_z < board.height):
        return False
    return not any(
        cut.x < in_x < cut.x + cut.width and cut.y < in_z < cut.y + cut.height
        for cut in board.cut_outs
    )


def joints_on_air(frame: Frame, *, front: int, wide: int, least: int) -> list[tuple[int, float]]:
    """Return where a vertical joint of the front has no timber behind both its boards.

    `front` and `wide` place the front timbers; stretches shorter than `least` are held by rails.
    """
    fronts = [b for b in frame.boards if b.face == "front"]
    timbers = [m.box for m in frame.members if m.box.y == front and m.box.dy == wide]
    found = []
    for one in fronts:
        x = one.x + one.width
        if x == frame.width:
            continue
        zs = {one.z, one.z + one.height}
        for other in fronts:
            if other.layer == one.layer and other.x == x:
                zs |= {other.z, other.z + other.height}
                zs |= {other.z + cut.y for cut in other.cut_outs}
                zs |= {other.z + cut.y + cut.height for cut in other.cut_outs}
        zs |= {one.z + cut.y for cut in one.cut_outs}
        zs |= {one.z + cut.y + cut.height for cut in one.cut_outs}
        zs |= {z for box in timbers for z in (box.z, box.z + box.dz)}
        # Nearer to the ceiling the head plate holds both boards.
        top = min(ceilings(frame, x - 190, x + 190)) - 400
        for a, b in pairwise(sorted(z for z in zs if one.z <= z <= one.z + one.height)):
            middle = (a + b) / 2
            is_joint = _covers(one, x - 0.5, middle) and any(
                other.layer == one.layer and _covers(other, x + 0.5, middle) for other in fronts
            )
            if not is_joint or b - a < least or middle > top:
                continue
            # One upright behind both boards, or one behind each.
            held = [
                any(
                    box.x <= lo and hi <= box.x + box.dx and box.z <= middle <= box.z + box.dz
                    for box in timbers
                )
                for lo, hi in ((x - 150, x), (x, x + 150))
            ]
            if not all(held):
                found.append((x, middle))
    return found


def loose_ends(frame: Frame, *, fit: int) -> list[tuple[Member, str]]:
    """Return every end of a member, plates apart, that meets no other member.

    An upright may stand `fit` below the plate over it.
    """
    found = []
    for one in frame.members:
        if one.kind.endswith("plate"):
            continue
        axis = AXES.get(one.kind, "x")
        start = getattr(one.box, axis)
        for end, way in ((start, -1), (start + one.length, 1)):
            if _rests(frame, one, end):
                continue
            if not any(
                _meets(frame, one, other, axis, (end, way), fit)
                for other in frame.members
                if other is not one
            ):
                found.append((one, f"{axis} {end}"))
    return found


def _rests(frame: Frame, one: Member, end: int) -> bool:
    """Where the glass returns, sill and head end on a short upright under or over them."""
    if one.kind not in ("sill", "head"):
        return False
    box = one.box
    return any(
        other.kind == "short upright"
        and other.box.y == box.y
        and other.box.x <= end <= other.box.x + other.box.dx
        and (
            other.box.z + other.box.dz == box.z
            if one.kind == "sill"
            else other.box.z == box.z + box.dz
        )
        for other in frame.members
    )


def _meets(
    frame: Frame, one: Member, other: Member, axis: str, end: tuple[int, int], fit: int
) -> bool:
    a, b = one.box, other.box
    for side in "xyz":
        if side == axis:
            continue
        if other.follows_ceiling and side == "z":
            continue
        lo = max(getattr(a, side), getattr(b, side))
        hi = min(
            getattr(a, side) + getattr(a, f"d{side}"), getattr(b, side) + getattr(b, f"d{side}")
        )
        if lo >= hi:
            return False
    at, way = end
    if other.follows_ceiling and axis == "z":
        near: float = _bottom(frame, other, a.x, a.x + a.dx)
        return way == 1 and abs(near - at) <= fit + ROUNDING
    near = getattr(b, axis) + (getattr(b, f"d{axis}") if way == -1 else 0)
    return bool(near == at)


def rows_on_air(frame: Frame, *, front: int, wide: int) -> list[tuple[float, int]]:
    """Return where a horizontal joint of the front has no timber between two uprights.

    Between uprights less than 100 apart the board needs none.
    """
    fronts = [b for b in frame.boards if b.face == "front"]
    timbers = [m.box for m in frame.members if m.box.y + m.box.dy == front + wide]
    found = []
    for one in fronts:
        z = one.z + one.height
        above = [o for o in fronts if o.layer == one.layer and o.z == z and o.x == one.x]
        if not above:
            continue
        near = [box for box in timbers if box.z < z < box.z + box.dz]
        xs = {one.x, one.x + one.width}
        xs |= {x for box in near for x in (box.x, box.x + box.dx)}
        for a, b in pairwise(sorted(x for x in xs if one.x <= x <= one.x + one.width)):
            middle = (a + b) / 2
            is_joint = _covers(one, middle, z - 0.5) and _covers(above[0], middle, z + 0.5)
            if not is_joint or b - a < 1_000:
                continue
            if not any(
                box.x <= middle <= box.x + box.dx and box.z <= z - 150 and z + 150 <= box.z + box.dz
                for box in near
            ):
                found.append((middle, z))
    return found
