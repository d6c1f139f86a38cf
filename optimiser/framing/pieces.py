"""The pieces of a wall's front: each a rectangle at one depth, divided by steps and by breasts.

Every piece becomes a box of the wall; what cannot stand as one is told here, with the figures of
the wall's file that make it so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.figures import (
    Figure,
    Figures,
    before_it,
    board,
    box_depth,
    box_width,
    ceiling,
    face_at,
    listed,
    summed,
    timber,
    wall_width,
)
from optimiser.framing.notes import Notes
from optimiser.framing.settings import SHORTEST, Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# Above any ceiling: a box that reaches it has no top of its own.
CEILING = 10_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A rectangle of the front at one depth from the existing wall, and whose `step` it is."""

    place: Rect
    depth: int
    name: str
    step: str = ""
    back: int = 0


@dataclass(frozen=True, slots=True)
class Solid:
    """What of the house projects behind the wall, from x to x, and how far."""

    x0: int
    x1: int
    depth: int


def pieces_of(whole: Settings, notes: Notes) -> list[Piece]:
    """Return the wall's front divided by its steps; records a step that reaches beyond the wall."""
    top = whole.wall.extent.height
    high = top if top is not None else CEILING
    pieces = [Piece(place=Rect(0, 0, whole.width, high), depth=whole.depth, name="")]
    for step in whole.wall.steps:
        z0 = step.z or 0
        z1 = z0 + step.height if step.height is not None else high
        place = Rect(step.x, z0, step.x + step.width, z1)
        here = f"steps.{step.name}"
        if place.x1 > whole.width:
            notes.problem(
                f"{here}.width",
                f"{here}.x {mm(step.x)} + {here}.width {mm(step.width)} is more than"
                f" {wall_width(whole)}",
                f"make {here}.width {mm(whole.width - step.x)} or less"
                if step.x < whole.width
                else f"make {here}.x smaller",
            )
        if place.z1 > high:
            figures = [Figure(f"{here}.z", mm(z0)), Figure(f"{here}.height", mm(step.height or 0))]
            notes.problem(
                f"{here}.z",
                f"{summed(figures)} is more than wall.height {mm(high)}",
                "make it lower, or the wall higher",
            )
        if place.x1 > whole.width or place.z1 > high:
            continue
        pieces = [left for piece in pieces for left in _without(piece, place)]
        pieces.append(Piece(place=place, depth=step.depth, name=step.name, step=step.name))
    return _named(sorted(pieces, key=lambda p: (p.place.x0, p.place.z0)))


def _without(piece: Piece, cut: Rect) -> Iterator[Piece]:
    """Yield what a step leaves of a piece: columns beside it, then what lies below and above."""
    one = piece.place
    x0, x1 = max(one.x0, cut.x0), min(one.x1, cut.x1)
    if x0 >= x1 or one.z1 <= cut.z0 or cut.z1 <= one.z0:
        yield piece
        return
    for place in (
        Rect(one.x0, one.z0, x0, one.z1),
        Rect(x1, one.z0, one.x1, one.z1),
        Rect(x0, one.z0, x1, cut.z0),
        Rect(x0, cut.z1, x1, one.z1),
    ):
        if place.width > 0 and place.height > 0:
            yield replace(piece, place=place)


def _named(pieces: list[Piece]) -> list[Piece]:
    """Number the boxes that no step names, unless there is only one."""
    if len(pieces) == 1:
        return [replace(pieces[0], name="")]
    unnamed = [i for i, piece in enumerate(pieces) if not piece.name]
    return [
        replace(piece, name=piece.name or f"box {unnamed.index(i) + 1}")
        for i, piece in enumerate(pieces)
    ]


def behind(pieces: list[Piece], solids: list[Solid]) -> list[Piece]:
    """Divide the pieces where the existing wall projects behind them."""
    for solid in solids:
        divided: list[Piece] = []
        for piece in pieces:
            place = piece.place
            x0, x1 = max(place.x0, solid.x0), min(place.x1, solid.x1)
            if x0 >= x1 or piece.depth == 0:
                divided.append(piece)
                continue
            for part, a, b in (("left", place.x0, x0), ("", x0, x1), ("right", x1, place.x1)):
                if a >= b:
                    continue
                name = f"{piece.name or 'wall'} {part or 'breast'}"
                if (a, b) == (place.x0, place.x1):
                    name = piece.name
                back = solid.depth if not part else piece.back
                divided.append(
                    replace(piece, place=Rect(a, place.z0, b, place.z1), name=name, back=back)
                )
        pieces = divided
    return pieces


def as_box(piece: Piece, whole: Settings) -> Settings:
    """Return a piece as a box whose figures faults can name; it serves for nothing else."""
    place = piece.place
    return replace(
        whole,
        step=piece.step,
        name=piece.name,
        start=place.x0,
        end=place.x1,
        back=piece.back,
        depth=piece.depth - piece.back,
    )


def heights_of(piece: Piece, whole: Settings) -> Figures:
    """Return what sets how high a piece of the front is."""
    wall, place = whole.wall, piece.place
    found = []
    for step in wall.steps:
        here, z0 = f"steps.{step.name}", step.z or 0
        z1 = z0 + step.height if step.height is not None else None
        if {z0, z1} & {place.z0, place.z1} - {0} or step.name == piece.step:
            found.append(Figure(f"{here}.z", mm(z0)))
            if step.height is not None:
                found.append(Figure(f"{here}.height", mm(step.height)))
    if wall.extent.height == place.z1:
        found.append(Figure("wall.height", mm(place.z1)))
    return tuple(found) or ceiling(whole)


def check_ends(box: Settings, notes: Notes) -> None:
    """Refuse a bare end whose back edge falls where no upright can stand behind it."""
    wide, front = box.wide, box.front
    for stretch in (*box.left_bare, *box.right_bare):
        between = wide <= stretch.y < front - MOST_OVERHANG
        if between and min(stretch.y, front - wide) < wide:
            depth = box_depth(box)
            notes.problem(
                depth.field,
                f"{depth} leaves {mm(front - wide)} between back and front timbers, too little for"
                f" the upright behind its end, which shows from"
                f" {face_at(box.back + stretch.y, box)} on: {timber(box)}",
                f"make {depth.field} {mm(box.back + box.depth + 2 * wide - front)}, or choose a"
                " narrower timber",
            )
            return


def check_piece(piece: Piece, whole: Settings, notes: Notes) -> None:
    """Record a piece that is too shallow, too narrow or too low for timbers of its own."""
    box = as_box(piece, whole)
    thick, wide, skin = whole.thick, whole.wide, whole.skin
    depth = box_depth(box)
    least = piece.back + skin + 2 * wide + SHORTEST
    if piece.depth < least:
        boards = Figure("materials.layers", str(whole.layers))
        before = before_it(box)
        notes.problem(
            depth.field,
            f"{depth} is less than boards {mm(skin)} ({listed(boards, board(whole))})"
            f" + two timbers of {mm(wide)} ({timber(whole)}) + a return of {mm(SHORTEST)}"
            + (f" + {summed(before)} behind" if before else ""),
            f"make {depth.field} at least {mm(least)}, or choose a narrower timber",
        )
    width = box_width(box)
    least = 6 * thick + 2 * skin
    if piece.place.width < least:
        notes.problem(
            width[0].field,
            f"{listed(width)} leave a part {mm(piece.place.width)} wide, too little for uprights of"
            f" {timber(whole)}",
            f"make it at least {mm(least)} wide",
        )
    if piece.place.height < 10 * SHORTEST + 2 * skin:
        height = heights_of(piece, whole)
        notes.problem(
            height[0].field,
            f"{listed(height)} leave a part {mm(piece.place.height)} high, too little for plates"
            f" and uprights of {timber(whole)}",
            f"make it at least {mm(10 * SHORTEST + 2 * skin)} high",
        )
