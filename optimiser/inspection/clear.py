"""What must stay free: openings, the fire's and the TV's space, where cables may run.

What was wanted is read from the wall itself, so that a frame cannot agree with its own mistake.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

import numpy as np

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Board, Box, Frame, Member, Opening
from optimiser.domain.wall import Glass, Tv, Wall
from optimiser.inspection.space import (
    ROUNDING,
    Block,
    Pieces,
    block_of,
    is_filled,
    lying,
    meeting,
)
from optimiser.inspection.standing import name_of
from optimiser.units import counted

# Skim on the linings, 2 to 3 thick by the UK glossary on skim coats: the larger.
_SKIM = 30
# Room round a hole for cables, and so far behind the board's face: common practice, no source.
_ROUND_HOLE, _BEHIND_HOLE = 50, 400
_UNFED = "check.cable.passage"
# Half a double plate, 146 wide (from memory), and so far straight up and down from its middle.
_HALF_PLATE, _STRAIGHT = 730, 3_000
# A screw stands 6 from the edge of a stud 38 wide at the least, and this far from a timber's end.
_IN_STUD, _LEDGER_END = 130, 250
# Shelves lie evenly to a millimetre.
_EVEN = 10


def faults_of_spaces(pieces: Pieces, wall: Wall) -> Iterator[Fault]:
    """Yield what stands in a space that must stay free, and openings smaller than wanted."""
    frame = pieces.frame
    skim = 0 if wall.materials.skim is False else _SKIM
    spaces = [
        (keep.name, block_of(keep.box), "the space kept free for it") for keep in frame.keep_outs
    ]
    spaces += [
        (one.name, clear_of(one, frame, skim), "its clear opening") for one in frame.openings
    ]
    lows = np.array([(space.low, space.high) for _, space, _ in spaces], dtype=np.int64)
    lows = lows.reshape(-1, 2, 3)
    for i, j in np.argwhere(meeting(lows, pieces.members)):
        member: Member = frame.members[j]
        if not member.follows_ceiling:
            yield Fault(spaces[i][0], f"{name_of(member)} stands in {spaces[i][2]}")
    for name, space, what in spaces:
        yield from (
            Fault(name, f"{name_of(plate)} stands in {what}") for plate in _bent_into(space, pieces)
        )
    for i, j in np.argwhere(meeting(lows, pieces.boards)):
        board: Board = frame.boards[j]
        common = spaces[i][1].shared(pieces.flats[j])
        if i >= len(frame.keep_outs) and _belongs(board, frame.openings[i - len(frame.keep_outs)]):
            continue
        if common is not None and is_filled(common, pieces.holes[j]):
            yield Fault(
                spaces[i][0], f"board {board.mark} of {board.face} stands in {spaces[i][2]}"
            )
    yield from _too_small(frame, wall)
    yield from _unkept(frame, wall)
    yield from _shelves(frame, wall)


def _bent_into(space: Block, pieces: Pieces) -> Iterator[Member]:
    """Yield what follows the ceiling and hangs down into a space where it passes over it."""
    for i in pieces.bent:
        member, block = pieces.frame.members[i], pieces.blocks[i]
        start, end = max(space.low[0], block.low[0]), min(space.high[0], block.high[0])
        if start < end:
            common = lying(pieces.frame, member, start, end).shared(space)
            if common is not None and common.high[2] - common.low[2] > ROUNDING:
                yield member


def faults_of_lining(frame: Frame, wall: Wall) -> Iterator[Fault]:
    """Yield what is wrong with the lining that a fire's manual asks for: none, or one that burns.

    Overhead and on each side where the glass does not return, of class A1 or A2 (EN 13501-1).
    """
    if wall.fire is None or wall.fire.lining is None:
        return
    glass = wall.fire.glass
    sides = ["soffit"]
    sides += ["left"] if glass not in (Glass.LEFT, Glass.BOTH) else []
    sides += ["right"] if glass not in (Glass.RIGHT, Glass.BOTH) else []
    lined = [board for board in frame.boards if board.face.startswith("fire.")]
    for side in sides:
        if not any(board.face == f"fire.{side}" for board in lined):
            yield Fault("fire", f"has no lining on its {side}, and the wall asks for one")
    for board in lined:
        if not board.reaction_to_fire.startswith(("A1", "A2")):
            yield Fault(f"board {board.mark} of {board.face}", "burns, and lines the fire")


def faults_of_passages(pieces: Pieces, wall: Wall) -> Iterator[Fault]:
    """Yield each hole for cables that meets timber, a shelf or a board's edge, and each opening
    that is fed and has none, unless a finding says so."""
    frame = pieces.frame
    told = {found.trouble.partition(":")[0] for found in frame.findings if found.rule == _UNFED}
    there = {one.name for one in frame.passages}
    fed = [niche.name for niche in wall.niches if niche.lit]
    fed += ["soundbar"] if wall.soundbar is not None else []
    fed += ["tv"] if wall.tv is not None and not wall.tv.sockets else []
    yield from (
        Fault(name, "has no hole for its cable") for name in fed if name not in there | told
    )
    for one in frame.passages:
        r, at = (one.diameter + 1) // 2 + _ROUND_HOLE, one.at
        low = int(at.x) - r, int(at.y) - _BEHIND_HOLE, int(at.z) - r
        space = Block(low, (int(at.x) + r, int(at.y) + 1, int(at.z) + r))
        box = np.array([[space.low, space.high]], dtype=np.int64)
        for j in np.flatnonzero(meeting(box, pieces.members)[0]):
            yield Fault(one.name, f"its hole for cables meets {name_of(frame.members[j])}")
        whole = False
        for j in np.flatnonzero(meeting(box, pieces.boards)[0]):
            board, flat = frame.boards[j], pieces.flats[j]
            if board.face != one.face:
                yield Fault(one.name, f"its hole for cables meets board {board.mark}")
                continue
            shared = flat.shared(space)
            within = all(
                flat.low[i] <= space.low[i] and space.high[i] <= flat.high[i] for i in (0, 2)
            )
            cut = any(hole.shared(space) is not None for hole in pieces.holes[j])
            whole |= shared is not None and within and not cut
        if not whole:
            yield Fault(one.name, "its hole for cables lies in no one board of its back")


def _tv_size(tv: Tv) -> tuple[int, int]:
    """Return width and height of a TV in tenths: as measured, else of its picture at 16:9.

    A diagonal D has the sides 16·D/√337 and 9·D/√337, by Pythagoras; rounded up.
    """

    def side(measured: int | None, share: int) -> int:
        if measured is not None or tv.diagonal is None:
            return int(measured or 0)
        squared = Fraction(254 * share * tv.diagonal) ** 2 / 337
        return math.isqrt(math.ceil(squared) - 1) + 1

    return side(tv.width, 16), side(tv.height, 9)


def _belongs(board: Board, opening: Opening) -> bool:
    """Return whether a board may stand in an opening: a shelf, or the end that its glass returns
    into, which is cut out for the glass and no further."""
    side = board.face.rpartition(".")[2]
    return (
        side.startswith("shelf")
        or (opening.open_left and side == "left")
        or (opening.open_right and side == "right")
    )


def clear_of(opening: Opening, frame: Frame, skim: int) -> Block:
    """Return the space of an opening, with the skim on its linings; a fire's has none."""
    more = 0 if opening.kind == "fire" else skim
    front = int(frame.depth if opening.front is None else opening.front)
    return Block(
        (opening.x - more, front - opening.depth, opening.z - more),
        (opening.x + opening.width + more, front, opening.z + opening.height + more),
    )


def _too_small(frame: Frame, wall: Wall) -> Iterator[Fault]:
    """Yield each opening that is missing, or smaller than what the wall asks for."""
    named = {(one.kind, one.name): one for one in frame.openings}
    asked: list[tuple[str, str, int, int, int]] = []
    for niche in wall.niches:
        asked.append(("niche", niche.name, niche.width, niche.height, niche.depth))
    fire, tv, bar = wall.fire, wall.tv, wall.soundbar
    if fire is not None:
        wide = int(fire.opening_width or fire.body_width)
        high = int(fire.opening_height or fire.body_height)
        asked.append(("fire", "fire", wide, high, fire.body_depth))
    if tv is not None:
        gap = 2 * int(tv.finger_gap or 0)
        wide, high = _tv_size(tv)
        asked.append(
            (
                "tv",
                "tv",
                int(tv.recess_width or wide + gap),
                int(tv.recess_height or high + gap),
                int(tv.recess_depth or 0),
            )
        )
    if bar is not None:
        gap = int(bar.gap or 0)
        asked.append(
            ("soundbar", "soundbar", bar.width + 2 * gap, bar.height + 2 * gap, bar.depth + gap)
        )
    for kind, name, width, height, depth in asked:
        one = named.get((kind, name))
        if one is None:
            yield Fault(name, "has no opening in the frame")
        elif (one.width < width and not (one.open_left or one.open_right)) or (
            one.height < height or one.depth < depth
        ):
            yield Fault(
                name,
                f"is {one.width / 10:g} × {one.height / 10:g} clear, {one.depth / 10:g} deep;"
                f" {width / 10:g} × {height / 10:g}, {depth / 10:g} deep was asked for",
            )
    for one in frame.openings:
        if one.wanted is None:
            continue
        wanted, got = block_of(one.wanted), clear_of(one, frame, 0)
        if wanted.shared(got) != wanted:
            yield Fault(one.name, "does not hold the clear space that was wanted")


def _unkept(frame: Frame, wall: Wall) -> Iterator[Fault]:
    """Yield a fire's or TV's kept space that is missing or smaller than the thing itself.

    It reaches from behind the thing to where it shows: a fire's to the back of the facing board.
    """
    kept = {keep.name: keep.box for keep in frame.keep_outs}
    fronts = {one.name: int(one.front or frame.depth) for one in frame.openings}
    fire, tv = wall.fire, wall.tv
    if fire is not None:
        box = kept.get("fire")
        skins = [f.layers * f.thickness for f in frame.faces if f.name.endswith("front")]
        shows = fronts.get("fire", 0) - max(skins, default=0)
        high = fire.body_height + int(fire.clearance_top or 0)
        # Where the glass returns, the body reaches through the end board, which is cut out for it.
        wide = fire.body_width + 2 * int(fire.clearance_side or 0)
        wide = wide if fire.glass in (None, Glass.FRONT) else 0
        back = fronts.get("fire", 0) - fire.body_depth - int(fire.clearance_back or 0)
        if box is None or box.dx < wide or box.dz < high or _ends_short(box, back, shows):
            yield Fault("fire", "is not kept free for its body and the maker's clearances")
    if tv is not None:
        box = kept.get("tv")
        back = fronts.get("tv", 0) - int(tv.depth or 0)
        wide, high = _tv_size(tv)
        if (
            box is None
            or box.dx < wide
            or box.dz < high
            or _ends_short(box, back, fronts.get("tv", 0))
        ):
            yield Fault("tv", "is not kept free for the TV")


def _ends_short(box: Box, back: int, front: int) -> bool:
    return box.y > back or box.y + box.dy < front


def _shelves(frame: Frame, wall: Wall) -> Iterator[Fault]:
    """Yield what is wrong with the shelves asked for: evenly spaced, from cheek to cheek."""
    openings = {one.name: one for one in frame.openings if one.kind == "niche"}
    for niche in wall.niches:
        one = openings.get(niche.name)
        begins = f"{niche.name}.shelf"
        shelves = [board.box for board in frame.boards if board.face.startswith(begins)]
        if one is None:
            continue
        if len(shelves) != niche.shelves:
            has = counted(len(shelves), "shelf", "shelves")
            yield Fault(one.name, f"has {has} instead of {niche.shelves}")
            continue
        for number, box in enumerate(sorted(shelves, key=lambda box: box.z), start=1):
            if (box.x, box.dx) != (one.x, one.width):
                yield Fault(one.name, f"shelf {number} does not reach from cheek to cheek")
            even = one.z + one.height * number / (niche.shelves + 1)
            if abs(box.z + box.dz / 2 - even) > _EVEN:
                yield Fault(one.name, f"shelf {number} is not at {even / 10:g}, evenly spaced")


def _kept_free(
    bands: list[Block], left: int, right: int, low: int, high: int, span: tuple[int, int]
) -> bool:
    """Return whether one band holds what the frame covers, from low to high, of an area."""
    return any(
        band.low[0] <= left
        and right <= band.high[0]
        and band.low[2] <= max(low, span[0])
        and min(high, span[1]) <= band.high[2]
        for band in bands
    )


def faults_of_fixings(pieces: Pieces, wall: Wall) -> Iterator[Fault]:
    """Yield each screw into the house that meets no timber of its mark, or that a cable forbids."""
    frame = pieces.frame
    marked: dict[str, list[Block]] = {}
    for member, block in zip(frame.members, pieces.blocks, strict=True):
        marked.setdefault(member.mark, []).append(block)
    bands = [block_of(band.box) for band in frame.bands]
    span = (
        min(block.low[2] for block in pieces.blocks),
        max(block.high[2] for block in pieces.blocks),
    )
    for number, accessory in enumerate(wall.site.accessories, start=1):
        x, z = int(accessory.x) - int(wall.extent.offset or 0), int(accessory.z)
        inside = 0 <= x <= frame.width
        near = max(0, x - _HALF_PLATE), min(int(frame.width), x + _HALF_PLATE)
        # Straight up and down, and straight across, each as wide as a double plate.
        upright = (*near, z - _STRAIGHT, z + _STRAIGHT)
        level = (0, int(frame.width), z - _HALF_PLATE, z + _HALF_PLATE)
        if inside and not all(_kept_free(bands, *area, span) for area in (upright, level)):
            yield Fault(f"accessory {number}", "has no band kept free of screws")
    for fixing in frame.fixings:
        at = int(fixing.at.x), int(fixing.at.y), int(fixing.at.z)
        # A head plate follows the ceiling, so only its plan says whether a screw meets it.
        axes = 2 if fixing.into == "ceiling" else 3
        meets = any(_holds(block, at, axes) for block in marked.get(fixing.member, ()))
        forbidden = fixing.into in ("wall", "stud") and any(
            band.low[0] < at[0] < band.high[0] and band.low[2] < at[2] < band.high[2]
            for band in bands
        )
        under = fixing.into != "box below" or any(
            block.high[2] == at[2] and _holds(block, at, 3) for block in pieces.blocks
        )
        stud = fixing.into != "stud" or any(
            abs(int(one) - at[0]) <= _IN_STUD for one in frame.studs
        )
        split = fixing.into == "stud" and not any(
            block.low[0] + _LEDGER_END <= at[0] <= block.high[0] - _LEDGER_END
            for block in marked.get(fixing.member, ())
            if _holds(block, at, 3)
        )
        if meets and not forbidden and under and stud and not split:
            continue
        where = f"screw of {fixing.member} at {at[0] / 10:g}, {at[1] / 10:g}, {at[2] / 10:g}"
        if not meets:
            yield Fault(where, "meets no timber")
        if not stud:
            yield Fault(where, "meets no existing stud")
        if split:
            yield Fault(where, "would split the end of its timber")
        if not under:
            yield Fault(where, "finds no timber of the part below")
        if forbidden:
            yield Fault(where, "enters a band where a cable may run")


def _holds(block: Block, at: tuple[int, int, int], axes: int) -> bool:
    low, high = block.low, block.high
    return (
        low[0] <= at[0] <= high[0]
        and low[1] <= at[1] <= high[1]
        and (axes == 2 or low[2] <= at[2] <= high[2])
    )
