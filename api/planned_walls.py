"""The walls of a kept batch, framed again for what is drawn of them.

A plan keeps what was asked and what is cut, not the frames between. They are framed again from what
was asked; should another version of the program frame them otherwise, nobody gets a drawing that
does not match the parts that were cut.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import optimiser as lib
from api.batch import framed_jobs
from api.bodies import read_batch
from api.store.refusals import Conflict
from optimiser import Problem

if TYPE_CHECKING:
    from optimiser import Chosen, CuttingPlan, CuttingRequest, Frame, Job


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedWalls:
    """The frames as planned, and the jobs that they make."""

    frames: tuple[Frame, ...]
    jobs: tuple[Job, ...]


def planned_walls(document: str, *, request: str, plan: str) -> PlannedWalls:
    """Frame a batch's walls as its plan boards them; all three as the JSON that is kept.

    Raises Conflict when this version of the program makes other parts of them.
    """
    asked = read_batch(document.encode())
    books = (asked.book, *asked.merchants.others)
    book = lib.merged_book(books) if len(books) > 1 else asked.book
    frames, jobs = framed_jobs(asked.walls, (), book)
    made = _settled(lib.plan_from_document(json.loads(plan), name="plan"), jobs)
    chosen = tuple(
        lib.job_as_planned(job, frame, made) for job, frame in zip(jobs, frames, strict=True)
    )
    _require_same_parts(chosen, lib.request_from_document(json.loads(request), name="request"))
    return PlannedWalls(
        frames=tuple(
            lib.frame_as_proven(frame, wall, made)
            for frame, wall in zip(frames, asked.walls, strict=True)
        ),
        jobs=chosen,
    )


def _settled(plan: CuttingPlan, jobs: tuple[Job, ...]) -> CuttingPlan:
    """Return the plan with every choice of the jobs: those it was made without are seen in it.

    Where several merchants were compared, the ways of boarding were settled before the last plan.
    Raises Conflict when it cuts none of the ways.
    """
    cut = {part.part for item in plan.lengths for layout in item.layouts for part in layout.parts}
    cut |= {part.part for item in plan.sheets for layout in item.layouts for part in layout.parts}
    said = {chosen.choice for chosen in plan.chosen}
    more: list[Chosen] = []
    for choice in (choice for job in jobs for choice in job.choices if choice.id not in said):
        options = [n for n, option in enumerate(choice.options) if cut.issuperset(option)]
        if not options:
            raise _otherwise()
        largest = max(options, key=lambda option: len(choice.options[option]))
        more.append(lib.Chosen(choice=choice.id, option=largest))
    return replace(plan, chosen=(*plan.chosen, *more))


def _require_same_parts(jobs: tuple[Job, ...], request: CuttingRequest) -> None:
    known = {
        (part.id, part.length, part.quantity) for item in request.lengths for part in item.parts
    }
    flat = {
        (part.id, part.width, part.height, part.quantity)
        for item in request.sheets
        for part in item.parts
    }
    same = all(
        (part.id, part.length, part.quantity) in known
        for job in jobs
        for _, part in job.parts.lengths
    ) and all(
        (part.id, part.width, part.height, part.quantity) in flat
        for job in jobs
        for _, part in job.parts.boards
    )
    if not same:
        raise _otherwise()


def _otherwise() -> Conflict:
    trouble = "was framed by another version of the program, which makes other parts"
    remedy = "Take its drawings from /diagrams, which are kept as they were"
    return Conflict(Problem("plan", trouble, remedy))
