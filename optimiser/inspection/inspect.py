"""Prove a frame from its geometry: what a fitter would find wrong on site, found on paper.

Independent of the generator: nothing here knows why a piece is where it is. The wall is asked only
for what was wanted of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Frame
from optimiser.domain.wall import Wall
from optimiser.inspection.asked import faults_of_places
from optimiser.inspection.clear import (
    faults_of_fixings,
    faults_of_lining,
    faults_of_passages,
    faults_of_spaces,
)
from optimiser.inspection.corners import unfinished
from optimiser.inspection.facing import Faces
from optimiser.inspection.finish import untaped
from optimiser.inspection.resting import faults_of_resting
from optimiser.inspection.restraint import missing_rests, parted, unrestrained
from optimiser.inspection.shown import faults_of_surfaces
from optimiser.inspection.space import Pieces
from optimiser.inspection.standing import loose_ends, outside, shared_space

# What uprights are cut short where the wall does not say: common practice, no source.
_FIT = 10


def inspect_frame(frame: Frame, wall: Wall) -> tuple[Fault, ...]:
    """Return every fault of a frame and of the other ways to board it; empty when it is sound.

    Sizes in tenths of a millimetre, written in millimetres.
    """
    ways = inspect_ways((frame, *frame.alternatives), wall)
    return tuple(dict.fromkeys(fault for faults in ways for fault in faults))


def inspect_ways(ways: Sequence[Frame], wall: Wall) -> list[tuple[Fault, ...]]:
    """Return the faults of each of several ways to board one wall; what they share is seen once."""
    faces = Faces()
    return [tuple(dict.fromkeys(_faults(Pieces(way), wall, faces))) for way in ways]


def _faults(pieces: Pieces, wall: Wall, faces: Faces) -> Iterator[Fault]:
    fit = _FIT if wall.materials.fit is None else int(wall.materials.fit)
    yield from shared_space(pieces)
    yield from outside(pieces)
    yield from loose_ends(pieces, fit=fit)
    yield from unrestrained(pieces)
    yield from parted(pieces)
    yield from missing_rests(pieces)
    yield from faces.faults(pieces)
    yield from faults_of_surfaces(pieces.frame, wall)
    yield from faults_of_places(pieces.frame, wall)
    yield from faults_of_spaces(pieces, wall)
    yield from faults_of_passages(pieces, wall)
    yield from faults_of_resting(pieces, wall)
    yield from faults_of_lining(pieces.frame, wall)
    yield from faults_of_fixings(pieces, wall)
    yield from untaped(pieces)
    yield from unfinished(pieces.frame, wall)
