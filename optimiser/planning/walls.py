"""Framed walls that have been proven: nobody cuts from a frame that the inspector has not seen."""

from __future__ import annotations

from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import Wall
from optimiser.errors import PlanRefused, Problem
from optimiser.framing import build
from optimiser.inspection.inspect import inspect_frame

_REMEDY = "Report it with the wall's file: this is a fault of the program, not of the wall"


def frame_wall(wall: Wall, book: PriceBook) -> Frame:
    """Make a wall into members, boards, beads and quantities, with findings, and prove the frame.

    Raises InvalidInput, with every fault, for input that contradicts itself or the price book, and
    PlanRefused when the frame, or another way to board it, does not hold in space. What a finding
    stops is not proven: it may not be built as it is.
    """
    frame = build.frame_wall(wall, book)
    if any(finding.severity is Severity.STOP for finding in frame.findings):
        return frame
    faults = inspect_frame(frame, wall)
    if faults:
        raise PlanRefused(
            tuple(
                Problem(f"job {wall.job}, {fault.where}", fault.what, _REMEDY) for fault in faults
            )
        )
    return frame
