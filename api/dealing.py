"""Jobs dealt to deliveries: read from a body, boarded as planned, and written; no database."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import optimiser as lib
from api.batch import dated, framed_jobs
from api.bodies import BatchBody, read_batch, read_object
from optimiser import InvalidInput, Problem, mm, pounds

if TYPE_CHECKING:
    from optimiser import Deliveries, Delivery, Job

# What a batch may say and a deal of jobs to deliveries has no use for.
_NOT_HERE = (
    "merchants",
    "split_saves",
    "rack",
    "compare",
    "keep_by_history",
    "coming",
    "coming_job_ids",
    "access",
    "fewer_layouts",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DealBody:
    """Jobs and prices as a batch's body gives them, a merchant's terms, and the day it is asked.

    `needed`: days of need by job, from the terms.
    """

    jobs: BatchBody
    terms: lib.Terms
    needed: Mapping[str, str]
    today: str


def read_deal(body: bytes) -> DealBody:
    """Read walls, jobs, prices, terms and rules, all faults of all of them at once."""
    document = read_object(body)
    terms, today = document.pop("terms", None), document.pop("today", None)
    problems = [
        Problem(f"body.{name}", "is not for deliveries", "Leave it out")
        for name in _NOT_HERE
        if name in document
    ]
    read: tuple[lib.Terms, dict[str, str]] | None = None
    jobs: BatchBody | None = None
    if not isinstance(today, str):
        problems.append(Problem("body.today", "is no date", 'Give a day such as "2026-12-01"'))
    try:
        read = lib.terms_from_document(terms, name="body.terms")
    except InvalidInput as fault:
        problems += fault.problems
    try:
        rest = {name: given for name, given in document.items() if name not in _NOT_HERE}
        jobs = read_batch(json.dumps(rest).encode())
    except InvalidInput as fault:
        problems += fault.problems
    if problems or read is None or jobs is None:
        raise InvalidInput(tuple(problems))
    return DealBody(jobs=jobs, terms=read[0], needed=read[1], today=str(today))


def deal(
    asked: DealBody,
    *,
    at_most: float | None = None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Deliveries:
    """Deal the jobs to deliveries at the least cost.

    `at_most` seconds are thought, fewer once `cancelled` returns True.

    Raises InvalidInput for days that are none or past, NoPlan when a wall has a finding that stops
    it or one job is more than a vehicle takes.
    """
    given = asked.jobs
    seconds = given.rules.seconds if at_most is None else min(given.rules.seconds, at_most)
    frames, framed = framed_jobs(given.walls, given.part_lists, given.book)
    jobs = with_days(tuple(dated(job, given.dates) for job in framed), dict(asked.needed))
    rules = given.rules
    return lib.plan_deliveries(
        as_planned(frames, jobs, given.book, rules.keep, rules.seed, seconds),
        given.book,
        asked.terms,
        keep=rules.keep,
        today=asked.today,
        seed=rules.seed,
        seconds=seconds,
        cancelled=cancelled,
    )


def as_planned(
    frames: tuple[lib.Frame, ...],
    jobs: tuple[Job, ...],
    book: lib.PriceBook,
    keep: lib.Keep,
    seed: int,
    seconds: float,
    workers: int = 1,
) -> tuple[Job, ...]:
    """Return all jobs, each wall boarded in the way that a plan of all jobs together chooses.

    `seconds`: for the whole of the work; choosing takes three of them, or half where that is less.
    """
    if not any(job.choices for job in jobs):
        return jobs
    request = lib.request_for_jobs(
        jobs, book, lib.Rack(), keep=keep, seed=seed, seconds=min(3.0, seconds / 2)
    )
    plan = lib.plan_cutting(request, workers=workers)
    settled = tuple(
        lib.job_as_planned(job, frame, plan)
        for job, frame in zip(jobs[: len(frames)], frames, strict=True)
    )
    return settled + jobs[len(frames) :]


def with_days(jobs: tuple[Job, ...], needed: dict[str, str]) -> tuple[Job, ...]:
    """Give jobs the days on which they are needed. Raises InvalidInput for jobs unknown here."""
    names = {job.name for job in jobs}
    strange = sorted(set(needed) - names)
    if strange:
        remedy = f"Name one of {', '.join(sorted(names))}"
        raise InvalidInput(
            tuple(
                Problem(f"needed: job {name!r}", "is not in the batch", remedy) for name in strange
            )
        )
    return tuple(replace(job, needed=needed.get(job.name, job.needed)) for job in jobs)


def deliveries_document(found: Deliveries) -> dict[str, Any]:
    """Write deliveries as plain values, ready for JSON."""
    return {
        "cost": pounds(found.cost),
        "bound": pounds(found.bound),
        "proven": found.proven,
        "proven_by_bound": found.cost == found.bound,
        "one_each": pounds(found.one_each),
        "together": None if found.together is None else pounds(found.together),
        "batches": found.batches,
        "planned": found.planned,
        "deliveries": [_delivery(one) for one in found.deliveries],
    }


def _delivery(one: Delivery) -> dict[str, Any]:
    return {
        "day": one.day,
        "jobs": list(one.jobs),
        "goods": pounds(one.goods),
        "charge": pounds(one.charge),
        "mass_kg": one.mass / 1000,
        "longest_mm": mm(one.longest),
        "request": lib.request_document(one.request),
        "plan": lib.plan_document(one.plan),
    }
