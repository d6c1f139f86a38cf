"""Whether the last board of a front goes in: between two fixed ends it is cut narrower.

Knows what stands at the ends of a front, nothing of how it was boarded.
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Face, Frame, Toward

# A closing board is 3 to 5 narrower than its place: common practice, no source. Tenths.
_EASED = (30, 50)


def faults_of_closing(frame: Frame, face: Face) -> Iterator[Fault]:
    """Yield a front between two fixed ends whose last board does not go in, and any face that is
    eased elsewhere, or by more or less than a closing board is."""
    eased = int(face.eased)
    right = _meets(frame, face, last=True)
    where = f"face {face.name}"
    closes = right and _begins_fixed(frame, face)
    if closes and not eased:
        yield Fault(where, "closes between two fixed ends, and its last board does not go in")
    if eased and not right:
        yield Fault(where, "is eased where nothing stands at its end")
    if eased and right and not closes:
        yield Fault(where, "is eased, though its boards run out at a free end")
    if eased and not _EASED[0] <= eased <= _EASED[1]:
        yield Fault(where, f"is eased by {eased / 10:g}; a closing board is by 3 to 5")


def _begins_fixed(frame: Frame, face: Face) -> bool:
    """Return whether boards in one plane, over all the parts that these go on from, begin at
    something fixed: the boards of a part flush with this one are of the same run."""
    if _meets(frame, face, last=False):
        return True
    own = face.box
    return any(
        _begins_fixed(frame, other)
        for other in frame.faces
        if other.name.endswith("front")
        and other.box.x + other.box.dx == own.x
        and other.box.y == own.y
        and other.box.z < own.z + own.dz
        and own.z < other.box.z + other.box.dz
    )


def _meets(frame: Frame, face: Face, *, last: bool) -> bool:
    """Return whether a front meets something fixed at one end: a side wall, a part built out
    further, a breast."""
    if not face.name.endswith("front"):
        return False
    box = face.box
    at = int(box.x + box.dx) if last else int(box.x)
    if at == (frame.width if last else 0):
        return not (frame.right_free if last else frame.left_free)
    return any(_ends_over(frame, face, at, one, last=last) for one in frame.faces) or any(
        at == (solid.box.x if last else solid.box.x + solid.box.dx) and solid.box.dy >= box.y
        for solid in frame.solids
    )


def _ends_over(frame: Frame, face: Face, at: int, other: Face, *, last: bool) -> bool:
    """Return whether another face is the end of a part built out further, beside this front."""
    if other.faces is not (Toward.LEFT if last else Toward.RIGHT):
        return False
    if other.name.rpartition(".")[0] in {one.name for one in frame.openings}:
        return False
    box, own = other.box, face.box
    out = box.y <= own.y < box.y + box.dy
    beside = box.z < own.z + own.dz and own.z < box.z + box.dz
    # Its board laps this front's, which goes under it to the timber.
    return out and beside and abs(int(box.x) - at) <= face.layers * face.thickness
