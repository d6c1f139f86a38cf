"""What dealing jobs to deliveries saves, and how long it takes: seeded walls over some weeks.

Run `python -m benchmarks.deliveries --jobs N --weeks W --months M --seed S --seconds T --out FILE`.
Each month is N walls, boarded in their first way, needed on weekdays spread over W weeks; terms are
invented: a flat charge, free over a sum, more for long items, a van's load. Packs are left out.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

from benchmarks.batches import KEEP, random_frames
from benchmarks.random_walls import price_book
from optimiser.domain.deliveries import Terms
from optimiser.domain.job import Job
from optimiser.planning.days import day_number, day_text, weekday
from optimiser.planning.deliveries import plan_deliveries
from optimiser.planning.jobs import job_of_frame
from optimiser.units import Pence, Tenths

TODAY = "2026-11-25"
TERMS = Terms(
    charge=Pence(4_500),
    free_over=Pence(75_000),
    by_length=((Tenths(36_000), Pence(1_500)),),
    mass=1_200_000,
    length=Tenths(48_000),
    weekdays=(0, 1, 2, 3, 4),
    storage_days=7,
)


def random_month(luck: Random, jobs: int, weeks: int) -> tuple[Job, ...]:
    """Return so many walls as jobs, needed on weekdays spread over so many weeks."""
    first = day_number(TODAY) + 7
    days = [day for day in range(first, first + 7 * weeks) if weekday(day) < 5]
    return tuple(
        replace(
            job_of_frame(replace(frame, alternatives=())),
            needed=day_text(luck.choice(days)),
            quantities=(),
        )
        for frame in random_frames(luck, jobs, price_book())
    )


def main() -> None:
    """Plan the deliveries of each month once and print medians."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=20)
    parser.add_argument("--weeks", type=int, default=4)
    parser.add_argument("--months", type=int, default=1)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=40.0)
    parser.add_argument("--workers", type=int, default=1, help="processes to plan with")
    parser.add_argument("--out", type=Path)
    arguments = parser.parse_args()
    luck = Random(arguments.seed)
    rows: list[dict[str, Any]] = []
    for _ in range(arguments.months):
        jobs = random_month(luck, arguments.jobs, arguments.weeks)
        started = time.perf_counter()
        found = plan_deliveries(
            jobs,
            price_book(),
            TERMS,
            keep=KEEP,
            today=TODAY,
            seconds=arguments.seconds,
            workers=arguments.workers,
        )
        rows.append(
            {
                "seconds": round(time.perf_counter() - started, 1),
                "deliveries": len(found.deliveries),
                "cost": found.cost,
                "one_each": found.one_each,
                "together": found.together,
                "bound": found.bound,
                "gap": round(1 - found.bound / found.cost, 4),
                "proven": found.proven,
                "batches": found.batches,
                "planned": found.planned,
                "saved": round(1 - found.cost / found.one_each, 4),
            }
        )
        print(json.dumps(rows[-1]))
    summary = {
        "months": len(rows),
        "median_seconds": statistics.median(row["seconds"] for row in rows),
        "median_saved": statistics.median(row["saved"] for row in rows),
        "proven": sum(bool(row["proven"]) for row in rows),
    }
    print(json.dumps(summary))
    if arguments.out is not None:
        arguments.out.write_text(json.dumps({"rows": rows, **summary}, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
