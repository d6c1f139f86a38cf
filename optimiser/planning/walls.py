"""Framed walls that have been proven: nobody cuts from a frame that the inspector has not seen."""

from __future__ import annotations

from dataclasses import replace

from optimiser.domain.fault import Fault
from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Frame
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import Wall
from optimiser.errors import PlanRefused, Problem
from optimiser.framing import build
from optimiser.framing.choosing import with_first, without
from optimiser.inspection.inspect import inspect_frame, inspect_ways
from optimiser.planning.jobs import frame_as_planned, job_as_planned, job_of_frame
from optimiser.planning.marked import marked_as_cut

LEFT_OUT = "inspection.way"
_REMEDY = "Report it with the wall's file: this is a fault of the program, not of the wall"


def frame_wall(wall: Wall, book: PriceBook) -> Frame:
    """Make a wall into members, boards, beads and quantities, with findings, and prove the frame.

    A way of boarding that does not hold in space is left out, and a note says so. Raises
    InvalidInput, with every fault, for input that contradicts itself or the price book, and
    PlanRefused when no way of boarding holds. What a finding stops is not proven: it may not be
    built as it is.
    """
    frame = build.frame_wall(wall, book)
    if any(finding.severity is Severity.STOP for finding in frame.findings):
        return frame
    return only_sound(frame, wall)


def look_at_wall(wall: Wall, book: PriceBook) -> Frame:
    """Frame a wall for somebody who is still choosing: one way of boarding, proven, no others.

    Nothing is bought from it, so the other ways, which take most of the time, are left unproven and
    out. Raises as `frame_wall` does.
    """
    frame = build.frame_wall(wall, book)
    if any(finding.severity is Severity.STOP for finding in frame.findings):
        return replace(frame, alternatives=())
    first = replace(frame, alternatives=())
    return only_sound(frame, wall) if inspect_frame(first, wall) else first


def frame_as_proven(frame: Frame, wall: Wall, plan: CuttingPlan) -> Frame:
    """Return the wall made in the ways that a plan chose, without the other ways, and proven.

    Its pieces have the marks that they have on diagrams and labels. A plan may mix ways that no
    whole frame has together, which nobody has looked at before. Raises PlanRefused for a mixture
    that does not hold.
    """
    planned = frame_as_planned(frame, plan)
    known = {one.boarding for one in (frame, *frame.alternatives)}
    faults = () if planned.boarding in known else inspect_frame(planned, wall)
    if faults:
        raise _refused(wall, faults)
    return marked_as_cut(planned, job_as_planned(job_of_frame(frame), frame, plan))


def _refused(wall: Wall, faults: tuple[Fault, ...]) -> PlanRefused:
    return PlanRefused(
        tuple(Problem(f"job {wall.job}, {fault.where}", fault.what, _REMEDY) for fault in faults)
    )


def only_sound(frame: Frame, wall: Wall) -> Frame:
    """Return the first way that the inspector passes, the others that pass as its alternatives."""
    ways = (replace(frame, alternatives=(), choices=()), *frame.alternatives)
    inspected = inspect_ways(ways, wall)
    faults = {way.boarding: found for way, found in zip(ways, inspected, strict=True)}
    sound = [way for way in ways if not faults[way.boarding]]
    if not sound:
        raise _refused(wall, faults[frame.boarding])
    notes = tuple(_left_out(name, found) for name, found in faults.items() if found)
    first, *others = (replace(way, findings=way.findings + notes) for way in sound)
    unsound = {name for name, found in faults.items() if found}
    choices = without(frame.choices, unsound)
    return replace(first, alternatives=tuple(others), choices=with_first(choices, first.boarding))


def _left_out(boarding: str, faults: tuple[Fault, ...]) -> Finding:
    return Finding(
        rule=LEFT_OUT,
        severity=Severity.NOTE,
        trouble=f"boarding {boarding} is left out: {'; '.join(map(str, faults[:3]))}",
        remedy=_REMEDY,
        source="calculated",
    )
