"""Batches of jobs for benchmarks: seeded walls that frame without a stop, on one price book."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

from benchmarks.random_walls import price_book, random_document
from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.domain.price_book import PriceBook
from optimiser.domain.rack import Rack
from optimiser.domain.request import CuttingRequest, Keep
from optimiser.errors import InvalidInput, PlanRefused
from optimiser.formats.wall import wall_from_document
from optimiser.planning.jobs import job_of_frame, request_for_jobs
from optimiser.planning.walls import frame_wall
from optimiser.units import Tenths

KEEP = Keep(length=Tenths(6_000), width=Tenths(3_000), height=Tenths(3_000), credit=Fraction(1, 2))


def random_frames(luck: Random, count: int, book: PriceBook) -> tuple[Frame, ...]:
    """Return so many framed walls, each a job of its own; odd walls are passed over."""
    frames: list[Frame] = []
    while len(frames) < count:
        document = random_document(luck) | {"job": f"J{len(frames) + 1}"}
        try:
            frame = frame_wall(wall_from_document(document, name="wall"), book)
        except (InvalidInput, PlanRefused):
            continue
        if all(finding.severity is not Severity.STOP for finding in frame.findings):
            frames.append(frame)
    return tuple(frames)


def random_request(
    luck: Random, jobs: int, seconds: float, *, least_choices: int = 0
) -> CuttingRequest:
    """Return the cutting request of a batch of random walls, every way of boarding open.

    Where the walls leave fewer choices than `least_choices`, those with the fewest are drawn anew
    until there are so many.
    """
    book = price_book()
    dealt = [job_of_frame(frame) for frame in random_frames(luck, jobs, book)]
    while sum(len(job.choices) for job in dealt) < least_choices:
        (frame,) = random_frames(luck, 1, book)
        fewest = min(range(jobs), key=lambda place: len(dealt[place].choices))
        fresh = job_of_frame(frame)
        if len(fresh.choices) > len(dealt[fewest].choices):
            dealt[fewest] = job_of_frame(replace(frame, job=f"J{fewest + 1}"))
    return request_for_jobs(
        tuple(dealt),
        book,
        Rack(),
        keep=KEEP,
        seed=1,
        seconds=seconds,
    )
