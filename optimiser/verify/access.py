"""Checks that every part cut can be carried to where its job is built."""

from __future__ import annotations

from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault

if TYPE_CHECKING:
    from optimiser.domain.plan import CuttingPlan
    from optimiser.domain.request import CuttingRequest


def check_access(request: CuttingRequest, plan: CuttingPlan) -> list[Fault]:
    """Return a fault for each part in the plan that its job's access does not let in."""
    faults = []
    limits = {limit.job: limit for limit in request.access}
    for lengths in plan.lengths:
        for placed in {
            piece.part: piece for item in lengths.layouts for piece in item.parts
        }.values():
            limit = limits.get(placed.job)
            if limit is not None and limit.length is not None and placed.length > limit.length:
                faults.append(Fault(lengths.material, f"part {placed.part!r} cannot be carried in"))
    for sheets in plan.sheets:
        for board in {
            piece.part: piece for item in sheets.layouts for piece in item.parts
        }.values():
            limit = limits.get(board.job)
            if limit is None or limit.board is None:
                continue
            sides = (board.width, board.height)
            if min(sides) > min(limit.board) or max(sides) > max(limit.board):
                faults.append(Fault(sheets.material, f"part {board.part!r} cannot be carried in"))
    return faults
