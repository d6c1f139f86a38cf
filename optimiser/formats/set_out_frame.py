"""The lines of the set-out sheet for the timbers: where each stands, and the screws that hold it.

Read off the frame: nothing here decides anything.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from optimiser.domain.frame import Fixing, Frame, Member, WallFixing
from optimiser.drawing.wall_page import height_at
from optimiser.framing.fixing import FROM_END
from optimiser.units import mm

SCREWS = {
    "screw-70": "70 mm screws",
    "screw-80": "80 mm screws",
    "screw-100": "100 mm screws",
    "plug-fixing": "plugs with their screws",
    "hammer-fixing": "hammer fixings of 100",
}
# How a screw at the end of a member goes in, by how many timbers it passes on its way.
_WAYS = {
    0: "aslant through its own side",
    1: "through the timber that it ends against",
    2: "through both of the doubled uprights that it ends against",
}
# A plate's screws into the ceiling go in no further from its top than packing is thick, tenths.
_NEAR_CEILING = 1_000
# Pieces of a row under a sloping ceiling differ by less than this in height, tenths.
_ONE_ROW = 200
# A plug may sit so much higher or lower in sound masonry: common practice, no source. Tenths.
_ABOUT = 250


def from_centre(frame: Frame, x: int) -> str:
    """Write an x as the distance from the centre line, half tenths away from it."""
    off = 2 * x - frame.width
    size = mm((abs(off) + 1) // 2)
    return "on the centre line" if off == 0 else f"{'+' if off > 0 else '−'}{size}"


def at_place(frame: Frame, x: int) -> str:
    """Write an x as the place where something is: "at +400", "on the centre line"."""
    place = from_centre(frame, x)
    return place if place.startswith("on") else f"at {place}"


def plates(frame: Frame, kind: str) -> Iterator[str]:
    """Yield one line for each plate with its screws, and those of its packing."""
    for one in of_kind(frame, (kind,)):
        box = one.box
        into = "floor" if kind == "sole plate" else "ceiling"
        held = [f for f in frame.fixings if f.member == one.mark and _at_plate(one, f, into)]
        yield (
            f"{named(one)}: {across(frame, one)}, {mm(box.y)} to {mm(box.y + box.dy)} out"
            f"{_height(one)}{_screws_at(frame, held)}"
        )
    if kind == "sole plate":
        yield from _packing(frame)
        for what in frame.quantities:
            if what.item in ("packer", "damp-proof-strip"):
                said = f"{what.amount} packers" if what.item == "packer" else "Damp-proof strip"
                yield f"{said}: {what.working}"


def _height(plate: Member) -> str:
    """Say how high a plate lies, where that is neither the floor nor the ceiling."""
    box = plate.box
    if plate.follows_ceiling or box.z <= 0:
        return ""
    return f", underside {mm(box.z)} up"


def _at_plate(plate: Member, fixing: WallFixing, into: str) -> bool:
    box, at = plate.box, fixing.at
    low = fixing.into in ("floor", "box below")
    within = box.x <= at.x <= box.x + box.dx and box.y <= at.y <= box.y + box.dy
    if not within or low != (into == "floor"):
        return False
    return at.z == box.z if low else abs(at.z - box.z - box.dz) < _NEAR_CEILING


def _screws_at(frame: Frame, held: Sequence[WallFixing]) -> str:
    if not held:
        return ""
    where = {"floor": "the floor", "ceiling": "the ceiling", "box below": "the box below"}
    places = ", ".join(from_centre(frame, x) for x in sorted(one.at.x for one in held))
    first = held[0]
    item = SCREWS.get(first.item, first.item)
    return f"; {len(held)} × {item} into {where.get(first.into, first.into)} at {places}"


def _packing(frame: Frame) -> Iterator[str]:
    # Packers thinner than half a millimetre are not made.
    packs = sorted({(pack.y, pack.x, pack.height) for pack in frame.packing if pack.height >= 5})
    for y in sorted({pack[0] for pack in packs}):
        places = "; ".join(f"{mm(h)} {at_place(frame, x)}" for py, x, h in packs if py == y)
        yield f"Pack under the plate {mm(y)} out: {places}"


def ledgers(frame: Frame) -> Iterator[str]:
    """Yield one line for each ledger with its screws into the existing studs."""
    for one in of_kind(frame, ("ledger",)):
        held = [f for f in frame.fixings if f.into == "stud" and _in(one, f)]
        screws = ""
        for x in sorted({f.at.x for f in held}):
            heights = " and ".join(mm(f.at.z) for f in held if f.at.x == x)
            count = sum(f.at.x == x for f in held)
            screws += f"; {count} × {SCREWS['screw-100']} into the stud {at_place(frame, x)}"
            screws += f", {heights} up"
        yield f"{named(one)}: {across(frame, one)}, underside {mm(one.box.z)} up{screws}"
    yield from ends(of_kind(frame, ("ledger",)))


def uprights(frame: Frame) -> Iterator[str]:
    """Yield one line for equal uprights of one row, then their plugs and the screws of their ends.

    Marked on sole and head plate alike, as their left faces.
    """
    every = of_kind(frame, ("upright", "short upright"))
    rows: dict[tuple[str, int, int, str], list[Member]] = {}
    for one in every:
        foot = int(one.box.z) if one.kind == "short upright" else -1
        rows.setdefault((one.kind, int(one.box.y), foot, one.mark), []).append(one)
    for (_, y, foot, mark), same in rows.items():
        at = ", ".join(from_centre(frame, one.box.x) for one in same)
        stands = f", foot {mm(foot)} up" if foot >= 0 else ""
        faces = "left face at" if len(same) == 1 else "left faces at"
        what = f"{len(same)} × {mark}, {mm(same[0].length)} long"
        yield f"{what}: {faces} {at}, back edge {mm(y)} out{stands}"
    eased = _eased(frame)
    if eased:
        yield (
            f"Uprights are {mm(eased)} shorter than the space between their plates, to go in"
            " without force: measure each place again before cutting"
        )
    yield from _flat(frame, every)
    yield from _plugs(frame, every)
    yield from ends(every)


def _flat(frame: Frame, every: Sequence[Member]) -> Iterator[str]:
    """Yield the screws of uprights into those that stand flat against their right sides."""
    same: dict[tuple[str, int, int], list[Member]] = {}
    for one in every:
        for fixing in one.fixings:
            if fixing.end == "along":
                key = fixing.item, fixing.count, int(one.box.y)
                same.setdefault(key, []).append(one)
    for (item, count, y), found in same.items():
        at = ", ".join(from_centre(frame, one.box.x + one.box.dx) for one in found)
        yield (
            f"{count} × {SCREWS[item]} join the uprights {mm(y)} out that meet at {at}: the first"
            f" and the last {mm(FROM_END)} from the ends of the shorter, the others evenly between,"
            f" near the back and the front edge in turn; {count * len(found)} in all"
        )


def _eased(frame: Frame) -> int:
    """Return by how much each upright under a ceiling is at least shorter than its space."""
    gaps = []
    for plate in frame.members:
        if not plate.follows_ceiling:
            continue
        box = plate.box
        for one in frame.members:
            under = one.kind == "upright" and one.box.y == box.y
            if under and box.x <= one.box.x < box.x + box.dx:
                edges = (one.box.x, one.box.x + one.box.dx)
                ceiling = min(height_at(frame, x, ceiling=True) for x in edges)
                gaps.append(int(ceiling) - box.dz - one.box.z - one.box.dz)
    return max(0, min(gaps, default=0))


@dataclass(frozen=True, slots=True)
class _Plugged:
    """Uprights with plugs at about the heights of the first of them; `exact`: at just those."""

    heights: tuple[int, ...]
    uprights: tuple[Member, ...]
    exact: bool = True

    def off(self, heights: Sequence[int]) -> int:
        """Return how far apart these heights are at most; without end where they do not pair."""
        if len(heights) != len(self.heights):
            return sys.maxsize
        return max(abs(a - b) for a, b in zip(self.heights, heights, strict=True))


def _plugs(frame: Frame, every: Sequence[Member]) -> Iterator[str]:
    """Yield the heights of plugs, once for all uprights that have them at about the same heights.

    Beside a band in which cables may run every millimetre is told.
    """
    slack = 0 if frame.bands else _ABOUT
    groups: list[_Plugged] = []
    for one in every:
        held = tuple(sorted(int(f.at.z) for f in frame.fixings if f.into == "wall" and _in(one, f)))
        if not held:
            continue
        index = next((i for i, group in enumerate(groups) if group.off(held) <= slack), None)
        if index is None:
            groups.append(_Plugged(held, (one,)))
        else:
            group = groups[index]
            exact = group.exact and not group.off(held)
            groups[index] = _Plugged(group.heights, (*group.uprights, one), exact)
    item = SCREWS["plug-fixing"]
    for group in groups:
        at = ", ".join(from_centre(frame, one.box.x) for one in group.uprights)
        up = ("" if group.exact else "about ") + ", ".join(mm(z) for z in group.heights)
        what = f"{len(group.heights) * len(group.uprights)} × {item} into the existing wall"
        yield f"{what}: {up} up, in the uprights at {at}"


def rails(frame: Frame) -> Iterator[str]:
    """Yield one line for each sill and head, then the screws of their ends."""
    every = of_kind(frame, ("sill", "head"))
    for one in every:
        top = one.kind == "sill"
        side, z = ("top", one.box.z + one.box.dz) if top else ("underside", one.box.z)
        yield f"{one.kind} {named(one)}: {across(frame, one)}, {side} {mm(z)} up"
    yield from ends(every)


def between(frame: Frame) -> Iterator[str]:
    """Yield one line for each row of equal pieces with their places, then the screws of ends."""
    every = of_kind(frame, ("noggin", "return", "strut"))
    same: dict[tuple[str, str, int], list[Member]] = {}
    for one in every:
        same.setdefault((one.kind, one.mark, int(one.box.y)), []).append(one)
    for (kind, mark, y), pieces in same.items():
        size = f"{mm(pieces[0].length)} long, {mm(y)} out"
        for row in _rows(pieces):
            what = f"{len(row)} × {kind} {mark}, {size}"
            heights = {one.box.z for one in row}
            if len(heights) == 1:
                at = ", ".join(_place(frame, one) for one in row)
                yield f"{what}: underside {mm(row[0].box.z)} up, {_at(row[0])}{at}"
            else:
                at = "; ".join(f"{mm(one.box.z)} up {_at(one)}{_place(frame, one)}" for one in row)
                yield f"{what}: undersides {at}"
    yield from ends(every)


def _rows(pieces: Sequence[Member]) -> Iterator[list[Member]]:
    """Yield pieces row by row from below: those of about one height, from the left."""
    row: list[Member] = []
    for one in sorted(pieces, key=lambda m: (m.box.z, m.box.x)):
        if row and one.box.z - row[0].box.z > _ONE_ROW:
            yield sorted(row, key=lambda m: m.box.x)
            row = []
        row.append(one)
    if row:
        yield sorted(row, key=lambda m: m.box.x)


def _place(frame: Frame, one: Member) -> str:
    return from_centre(frame, one.box.x) if _at(one) else across(frame, one)


def _at(one: Member) -> str:
    """Return "at " for a piece told by its left face, "" for one that runs along the wall."""
    return "" if one.box.dx == one.length else "at "


def ends(members: Iterable[Member]) -> Iterator[str]:
    """Yield the screws at the ends of members, by kind of member and the way they go in."""
    counts: Counter[tuple[str, int, int]] = Counter()
    kinds: dict[tuple[str, int, int], list[str]] = {}
    for one in members:
        for fixing in one.fixings:
            if fixing.end != "along":
                key = _key(fixing)
                counts[key] += fixing.count
                kinds.setdefault(key, []).append(f"{one.kind}s")
    for (item, count, through), total in counts.items():
        who = " and ".join(dict.fromkeys(kinds[item, count, through]))
        screws = f"{count} × {SCREWS[item]} at each end"
        yield f"{who[:1].upper()}{who[1:]}: {screws}, {_WAYS[through]}; {total} in all"


def _key(fixing: Fixing) -> tuple[str, int, int]:
    return fixing.item, fixing.count, fixing.through


def _in(one: Member, fixing: WallFixing) -> bool:
    box, at = one.box, fixing.at
    return (
        fixing.member == one.mark
        and box.x <= at.x <= box.x + box.dx
        and box.y <= at.y <= box.y + box.dy
        and box.z <= at.z <= box.z + box.dz
    )


def of_kind(frame: Frame, kinds: tuple[str, ...]) -> list[Member]:
    """Return the members of these kinds: by kind, then from the back, from below, from the left."""
    found = [one for one in frame.members if one.kind in kinds]
    return sorted(found, key=lambda m: (kinds.index(m.kind), m.box.y, m.box.z, m.box.x))


def named(one: Member) -> str:
    """Return a member's mark and length."""
    return f"{one.mark}, {mm(one.length)} long"


def across(frame: Frame, one: Member) -> str:
    """Return from where to where a member runs, from the centre line."""
    box = one.box
    return f"{from_centre(frame, box.x)} to {from_centre(frame, box.x + box.dx)}"
