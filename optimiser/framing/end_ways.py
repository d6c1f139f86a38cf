"""The other way to board a bare end: joined in height, from the shortest sheet there is.

An end is a strip of a board, and shorter strips come out of what the front leaves over. Its joint
needs a return behind it and nothing else, so that an end is chosen apart from the front: where the
rest of the box would change with it, or where the front's ways hold the end otherwise, there is no
such choice.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import replace
from typing import TypeVar

from optimiser.domain.frame import Board, Member, Tape
from optimiser.framing.framed import EndWays, Framed
from optimiser.framing.layout import end_room
from optimiser.framing.settings import Settings, usable_sheets

Piece = TypeVar("Piece", Member, Board, Tape)

# What holds the board of an end between front and back.
_HOLDING = ("return", "short upright")


def may_be_joined(settings: Settings) -> bool:
    """Return whether a bare end of a box is higher than its shortest sheet of several."""
    heights = {height for _, height in usable_sheets(settings.board)}
    if len(heights) < 2:
        return False
    rooms = [
        end_room(settings, side, stretch)
        for side, bare in (("left", settings.left_bare), ("right", settings.right_bare))
        for stretch in bare
    ]
    return any(top - bottom > min(heights) for bottom, top in rooms)


def end_ways(ways: list[Framed], joined: Framed) -> list[EndWays]:
    """Return the ends of a box that may be joined in height whichever way its front is boarded.

    `ways` are those of the front; `joined` is the first of them with both ends joined.
    """
    first = ways[0]
    settings = first.settings
    alike = first.faces == joined.faces and [_bead(b) for b in first.beads] == [
        _bead(b) for b in joined.beads
    ]
    found: list[EndWays] = []
    told = 0
    for side, x, face_x in (
        ("left", settings.left, settings.start),
        ("right", settings.right - settings.thick, settings.end),
    ):
        own, other = (_of_end(one, side, x, face_x) for one in (first, joined))
        less, more = _without(own, other), _without(other, own)
        if not less.boards:
            continue
        told += _pieces(more) + _pieces(less)
        same = all(_same(_of_end(one, side, x, face_x), own) for one in ways[1:])
        if same and _is_held(more, x) and _is_held(less, x):
            found.append(EndWays(name=f"{side} end", first=less, joined=more))
    everything = _pieces(_without(joined, first)) + _pieces(_without(first, joined))
    return found if alike and told == everything else []


def _of_end(one: Framed, side: str, x: int, face_x: int) -> Framed:
    """Return what of a box belongs to one end: its boards, what holds them, their tape."""
    settings = one.settings
    return replace(
        one,
        members=tuple(m for m in one.members if m.box.x == x and m.kind in _HOLDING),
        boards=tuple(b for b in one.boards if b.face == settings.face(side)),
        tapes=tuple(t for t in one.tapes if t.start.x == t.end.x == face_x),
    )


def _is_held(one: Framed, x: int) -> bool:
    return all(m.kind in _HOLDING and m.box.x == x for m in one.members)


def _pieces(one: Framed) -> int:
    return len(one.members) + len(one.boards) + len(one.tapes)


def _same(one: Framed, other: Framed) -> bool:
    return not _pieces(_without(one, other)) + _pieces(_without(other, one))


def _without(one: Framed, other: Framed) -> Framed:
    return replace(
        one,
        members=tuple(_left(one.members, other.members)),
        boards=tuple(_left(one.boards, other.boards)),
        tapes=tuple(_left(one.tapes, other.tapes)),
    )


def _left(pieces: Iterable[Piece], others: Iterable[Piece]) -> Iterable[Piece]:
    known = {_place(other) for other in others}
    return (piece for piece in pieces if _place(piece) not in known)


def _place(piece: Member | Board | Tape) -> Hashable:
    """Return what a piece is and where: no two pieces of a box share a place."""
    if isinstance(piece, Tape):
        return piece
    if isinstance(piece, Member):
        return piece.kind, piece.box, piece.fixings, piece.group
    return piece.face, piece.layer, piece.box, piece.cut_outs, piece.edges


def _bead(bead: object) -> Hashable:
    return getattr(bead, "place", ""), getattr(bead, "length", 0)


def without_ends(one: Framed, ended: Iterable[EndWays]) -> Framed:
    """Return a box without the pieces of ends that are chosen apart."""
    for end in ended:
        one = _without(one, end.first)
    return one
