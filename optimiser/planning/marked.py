"""A planned frame with the marks that its parts have on diagrams and labels.

Parts that only one way of a choice needs are cut under ids of their own ("B5+d"), and may be equal
to others that any way needs ("R1" and "R1+f"). Whoever stands before the frame with a labelled part
in hand looks for that very mark.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TypeVar

from optimiser.domain.frame import Bead, Board, Box, Frame, Member, WallFixing
from optimiser.domain.job import Job

_PieceT = TypeVar("_PieceT", Member, Board, Bead)


def marked_as_cut(frame: Frame, job: Job) -> Frame:
    """Return the frame with each piece's mark as in the id of the part it is cut as.

    `job` is the wall's, with the parts of the ways that the plan chose. Of equal pieces with
    several ids any may be any: the first in the frame's order take the first id.
    """
    left: dict[str, list[str]] = {}
    counts = [(part.id, part.quantity) for _, part in job.parts.lengths]
    counts += [(part.id, part.quantity) for _, part in job.parts.boards]
    for id_, quantity in counts:
        mark = id_.removeprefix(f"{job.name}/")
        left.setdefault(mark.partition("+")[0], []).extend([mark] * quantity)
    # One mark is on timbers, on boards or on beads, never on two of them.
    members = _marked(frame.members, left)
    fixings = tuple(_held_by(one, members) for one in frame.fixings)
    return replace(
        frame,
        members=members,
        boards=_marked(frame.boards, left),
        beads=_marked(frame.beads, left),
        fixings=fixings,
    )


def _marked(pieces: Iterable[_PieceT], left: Mapping[str, list[str]]) -> tuple[_PieceT, ...]:
    return tuple(replace(piece, mark=left[piece.mark].pop(0)) for piece in pieces)


def _held_by(fixing: WallFixing, members: Iterable[Member]) -> WallFixing:
    """Return a fixing with the mark of the timber that it goes through."""
    alike = [m for m in members if m.mark.partition("+")[0] == fixing.member]
    through = [m for m in alike if _holds(m.box, fixing)]
    return replace(fixing, member=(through or alike)[0].mark) if alike else fixing


def _holds(box: Box, fixing: WallFixing) -> bool:
    at = fixing.at
    return (
        box.x <= at.x <= box.x + box.dx
        and box.y <= at.y <= box.y + box.dy
        and box.z <= at.z <= box.z + box.dz
    )
