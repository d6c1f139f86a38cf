"""The lines of the set-out sheet for all after the timbers: boards, beads, the fire and the TV.

Read off the frame: nothing here decides anything.
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.frame import Board, Edge, Frame, KeepOut
from optimiser.drawing.wall_page import height_at
from optimiser.formats.set_out_frame import at_place, from_centre
from optimiser.framing.quantities import CORNERS, FIELD, OVERHEAD
from optimiser.units import metres, mm

# From a bound and from a cut edge of plasterboard: published UK project specification 2014.
_BOUND, _CUT = 100, 130
# A front board that begins higher than this stands on another part of the wall, tenths.
_NEAR_FLOOR = 500
_SIDES = ("left", "right", "bottom", "top")
_HOLD = ("drywall-screw", "drywall-screw-long", "mdf-screw", "shelf-screw", "adhesive")


def checks(frame: Frame) -> Iterator[str]:
    """Yield what is measured before the frame is closed."""
    for opening in frame.openings:
        yield (
            f"{opening.name}: {mm(opening.width)} × {mm(opening.height)} clear, {mm(opening.depth)}"
            f" deep, after board and skim; left side {at_place(frame, opening.x)}, "
            f"bottom {mm(opening.z)} up"
        )
    for keep in frame.keep_outs:
        yield f"Nothing may stand in {_space(keep)} for the {keep.name}: {keep.reason}"
    if frame.openings:
        yield "Measure both diagonals of each opening; they are equal when it is square"
    if any(opening.kind in ("fire", "tv", "soundbar") for opening in frame.openings):
        yield "Cables for all that is to be fitted lie in the frame, and the electrician has agreed"


def _space(keep: KeepOut) -> str:
    box = keep.box
    return f"{mm(box.dx)} × {mm(box.dz)} × {mm(box.dy)} deep"


def boards(frame: Frame) -> Iterator[str]:
    """Yield the screws of the boards, then one line for each board, in the order of building."""
    for one in frame.quantities:
        if one.item in _HOLD:
            unit = "" if one.unit == "each" else f" {one.unit}"
            yield f"{one.item}: {one.amount}{unit} in all; {one.working}"
    if any(one.item == "drywall-screw" for one in frame.quantities):
        yield (
            f"Screws of plasterboard at most {mm(FIELD)} apart, {mm(CORNERS)} at outside corners"
            f" and in reveals, {mm(OVERHEAD)} overhead; {mm(_BOUND)} or more from a bound edge,"
            f" {mm(_CUT)} from a cut one; heads just below the paper, which stays whole"
        )
    if frame.boards:
        yield _edges(frame)
    for hole in frame.passages:
        yield (
            f"{hole.face}: drill {mm(hole.diameter)} for cables {at_place(frame, hole.at.x)},"
            f" {mm(hole.at.z)} up, clear of the struts behind; draw the cable in before its board"
            " goes up"
        )
    off = _off_the_floor(frame)
    if off:
        yield f"Front boards stand {mm(off)} off the floor: lift them tight to the ceiling"
    for board in sorted(frame.boards, key=_turn):
        yield _board(frame, board)


def _turn(board: Board) -> tuple[int, bool, int]:
    """Return what puts boards in the order in which they go up: from the existing wall out.

    The end of a part built out further thus comes after the front that it laps, and a front after
    the linings and ends that it laps itself.
    """
    return int(board.box.y + board.box.dy), board.face.endswith("front"), board.layer


def _edges(frame: Frame) -> str:
    """Count the edges of all boards: those that the sheets bring, and those to be cut and eased."""
    every = [getattr(one.edges, side) for one in frame.boards for side in _SIDES]
    bound = sum(edge is Edge.FACTORY for edge in every)
    return (
        f"{bound} edges from the factory, which go to the joints named, and {len(every) - bound}"
        " cut ones: ease their faces before they meet another"
    )


def _off_the_floor(frame: Frame) -> int:
    """Return how far the lowest front boards stand above the floor under them, at the least."""
    gaps = []
    for one in frame.boards:
        left, right = one.box.x, one.box.x + one.box.dx
        inside = [lv.x for lv in frame.levels if left < lv.x < right]
        floor = min(int(height_at(frame, x, ceiling=False)) for x in (left, *inside, right))
        if one.face.endswith("front") and one.box.z - floor < _NEAR_FLOOR:
            gaps.append(int(one.box.z) - floor)
    return min(gaps, default=0)


def _board(frame: Frame, board: Board) -> str:
    place = f"left edge {at_place(frame, board.box.x)}, bottom {mm(max(board.box.z, 0))} up"
    holes = f", {len(board.cut_outs)} cut out" if board.cut_outs else ""
    bound = [side for side in _SIDES if getattr(board.edges, side) is Edge.FACTORY]
    edges = f", factory edge {' and '.join(bound)}" if bound else ""
    size = f"{mm(board.width)} × {mm(board.height)}"
    closing = ""
    if board.eased:
        closing = (
            f", the closing piece: {mm(board.eased)} narrower than its place, so that it goes in;"
            " fill the gap at its right before taping"
        )
    return (
        f"{board.face}, layer {board.layer}: {board.mark}, {size}{holes}, {place}{edges}{closing}"
    )


def finish(frame: Frame) -> Iterator[str]:
    """Yield the beads where they run, and what else the finish takes."""
    for bead in frame.beads:
        yield f"{bead.kind} {bead.mark}, {mm(bead.length)} long: {bead.place}"
    for kind, what in (
        ("joint-tape", "tape on flat joints"),
        ("angle-tape", "paper tape in inside angles"),
    ):
        runs = [tape for tape in frame.tapes if tape.kind == kind]
        run = sum(
            abs(t.end.x - t.start.x) + abs(t.end.y - t.start.y) + abs(t.end.z - t.start.z)
            for t in runs
        )
        if runs:
            yield f"{metres(run)} m of {what}, in {len(runs)} runs"
    for one in frame.quantities:
        if one.item in ("plaster", "primer", "light-strip"):
            yield f"{one.item}: {one.working}"


def fire(frame: Frame) -> Iterator[str]:
    """Yield how the fire goes in."""
    for keep in frame.keep_outs:
        if keep.name == "fire":
            box = keep.box
            yield (
                f"Its body and the maker's air take {_space(keep)}: left side at"
                f" {from_centre(frame, box.x)}, underside {mm(box.z)} up; gaps and vents as in its"
                " manual, measured"
            )
            yield "The lip covers the edge of the facing board all round"


def tv(frame: Frame) -> Iterator[str]:
    """Yield where the bracket and the TV go."""
    keep = next((keep for keep in frame.keep_outs if keep.name == "tv"), None)
    if keep is None:
        return
    struts = {m.box.z + m.box.dz // 2 for m in frame.members if m.rule == "frame.strut.bracket"}
    if struts:
        heights = " and ".join(mm(z) for z in sorted(struts))
        yield f"Screw the bracket's plate through the backboard into the struts: {heights} up"
    box = keep.box
    yield (
        f"The TV takes {mm(box.dx)} × {mm(box.dz)}: its left side {at_place(frame, box.x)},"
        f" its underside {mm(box.z)} up; the same gap is left all round"
    )
    yield "Pull the arm out and swing it: nothing gives, no screw turns"
