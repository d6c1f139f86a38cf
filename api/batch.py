"""The main job in one call: walls and part lists in; plan, order, shares and comparison out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import optimiser as lib
from api.framed import WallFile, frame_all
from optimiser import NoPlan, Pence, Problem

if TYPE_CHECKING:
    from optimiser import (
        Access,
        Buying,
        Comparison,
        CuttingPlan,
        CuttingRequest,
        Frame,
        Job,
        JobShare,
        Keep,
        KeepAdvice,
        OffcutLife,
        Order,
        PartList,
        PlanProgress,
        PriceBook,
        Rack,
        Wall,
    )

# What a second order must save, as a second delivery takes somebody's time (common practice, no
# source): two hours of a fitter's, roughly.
SPLIT_SAVES = Pence(50_00)
# Share of the time that settling ways of boarding takes before merchants are compared.
_SETTLING = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Merchants:
    """Other merchants' price books beside the first, and what a second order must save."""

    others: tuple[PriceBook, ...] = ()
    split_saves: Pence = SPLIT_SAVES


_ONE = Merchants()


# A minute or two of a fitter's time, and a season (common practice, no source).
HANDLING = Pence(40)
HORIZON_DAYS = 90


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What became of offcuts up to `today`, a day's number, and the parts of jobs to come."""

    lives: tuple[OffcutLife, ...]
    coming: tuple[PartList, ...]
    today: int
    handling: Pence = HANDLING


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """How a batch is planned: what is kept, how long to think, which seed, what can be carried in.

    `fewer_layouts`: up to 0.25 % may be paid for fewer different layouts of lengths. `history`:
    keep rules follow from it, material by material; `keep` is then where it says nothing.
    """

    keep: Keep
    seed: int
    seconds: float
    access: tuple[Access, ...] = ()
    fewer_layouts: bool = False
    history: History | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Everything that one planning of several jobs yields. `comparison` only when asked for.

    `advice` where the keep rules follow from what became of offcuts.

    `bought` where several merchants' prices were compared; `order` is then the first of its orders.
    """

    walls: tuple[Wall, ...]
    frames: tuple[Frame, ...]
    jobs: tuple[Job, ...]
    book: PriceBook
    request: CuttingRequest
    plan: CuttingPlan
    order: Order
    shares: tuple[JobShare, ...]
    comparison: Comparison | None
    bought: Buying | None = None
    advice: tuple[KeepAdvice, ...] = ()

    @property
    def orders(self) -> tuple[Order, ...]:
        """Return the order to each merchant."""
        return (self.order,) if self.bought is None else self.bought.orders


def plan_batch(
    walls: tuple[Wall, ...],
    part_lists: tuple[PartList, ...],
    book: PriceBook,
    rack: Rack,
    rules: Rules,
    *,
    files: Mapping[str, WallFile] | None = None,
    merchants: Merchants = _ONE,
    dates: Mapping[str, tuple[str, str]] | None = None,
    compare: bool = False,
    watch: Callable[[CuttingPlan], None] | None = None,
    tell: Callable[[PlanProgress], None] | None = None,
    cancelled: Callable[[], bool] = lambda: False,
    workers: int = 1,
) -> Batch:
    """Frame the walls, plan all jobs together, and work out the order and who pays for what.

    `files` are those that walls were read from, by job, so that their faults quote the line;
    `dates` are client and date needed of listed jobs, by job; `workers` processes plan at once.
    Raises InvalidInput for bad input, NoPlan when a wall has a finding that stops it or the parts
    cannot be cut from what there is, PlanRefused for a plan or a chosen frame that does not hold.
    """
    if merchants.others:
        first, book = book, lib.merged_book((book, *merchants.others))
    frames, jobs = framed_jobs(walls, part_lists, book, files)
    jobs = tuple(dated(job, dates or {}) for job in jobs)
    request = lib.request_for_jobs(
        jobs, book, rack, keep=rules.keep, seed=rules.seed, seconds=rules.seconds
    )
    request = replace(request, access=rules.access, fewer_layouts=rules.fewer_layouts)
    advice = _advice(request, rules)
    request = lib.with_advice(request, advice)
    settling = request
    if merchants.others:
        # Without a choice to settle this plan serves nothing but to find what cannot be planned.
        share = _SETTLING if request.choices else 0.0
        settling = replace(request, seconds=request.seconds * share)
    plan = lib.plan_cutting(settling, watch=watch, tell=tell, cancelled=cancelled, workers=workers)
    comparison = None
    if compare and not merchants.others and not cancelled():
        plan, comparison = lib.compare_batch(request, plan, cancelled=cancelled, workers=workers)
    jobs = (
        tuple(
            lib.job_as_planned(job, frame, plan)
            for job, frame in zip(jobs[: len(frames)], frames, strict=True)
        )
        + jobs[len(frames) :]
    )
    frames = tuple(
        lib.frame_as_proven(frame, wall, plan) for frame, wall in zip(frames, walls, strict=True)
    )
    bought = None
    if merchants.others:
        left = replace(request, seconds=request.seconds - settling.seconds)
        bought = lib.buy_from(
            jobs,
            (first, *merchants.others),
            rack,
            left,
            split_saves=merchants.split_saves,
            cancelled=cancelled,
        )
        request, plan, book = bought.request, bought.plan, bought.book
        if watch is not None:
            watch(plan)
        if compare and not cancelled():
            # The orders are made for this plan: it stands whatever the comparison comes upon.
            _, comparison = lib.compare_batch(
                request, plan, stands=True, cancelled=cancelled, workers=workers
            )
    return Batch(
        walls=walls,
        frames=frames,
        jobs=jobs,
        book=book,
        request=request,
        plan=plan,
        order=lib.order_for(plan, jobs, book) if bought is None else bought.orders[0],
        shares=lib.job_shares(request, plan),
        # One that was cut short would flatter the plan.
        comparison=None if cancelled() else comparison,
        bought=bought,
        advice=advice,
    )


def _advice(request: CuttingRequest, rules: Rules) -> tuple[KeepAdvice, ...]:
    history = rules.history
    if history is None:
        return ()
    terms = lib.KeepTerms(usual=rules.keep, handling=history.handling, horizon=HORIZON_DAYS)
    return lib.keep_advice(
        request.materials, history.lives, history.coming, terms, today=history.today
    )


def framed_jobs(
    walls: tuple[Wall, ...],
    part_lists: tuple[PartList, ...],
    book: PriceBook,
    files: Mapping[str, WallFile] | None = None,
) -> tuple[tuple[Frame, ...], tuple[Job, ...]]:
    """Frame the walls, and return the frames and all jobs, the walls' first.

    Raises InvalidInput with the faults of every wall, NoPlan when a finding stops one.
    """
    frames = frame_all(walls, book, files or {})
    _require_no_stop(frames)
    jobs = tuple(
        lib.job_of_frame(frame, client=wall.client, needed=wall.needed)
        for wall, frame in zip(walls, frames, strict=True)
    )
    return frames, jobs + tuple(job for parts in part_lists for job in _jobs_of(parts))


def _require_no_stop(frames: tuple[Frame, ...]) -> None:
    stops = tuple(
        Problem(f"job {frame.job}, {finding.rule}", finding.trouble, finding.remedy)
        for frame in frames
        for finding in frame.findings
        if finding.severity is lib.Severity.STOP
    )
    if stops:
        raise NoPlan(stops)


def dated(job: Job, dates: Mapping[str, tuple[str, str]]) -> Job:
    """Say whom a listed job is for and when it is needed; a wall says so itself."""
    client, needed = dates.get(job.name, ("", ""))
    return replace(job, client=job.client or client, needed=job.needed or needed)


def _jobs_of(parts: PartList) -> tuple[Job, ...]:
    """Make a job of each job named in a part list."""
    named = [part.job for _, part in parts.lengths] + [part.job for _, part in parts.boards]
    return tuple(
        lib.Job(
            name=name,
            client="",
            needed="",
            parts=lib.PartList(
                lengths=tuple(pair for pair in parts.lengths if pair[1].job == name),
                boards=tuple(pair for pair in parts.boards if pair[1].job == name),
            ),
        )
        for name in dict.fromkeys(named)
    )
