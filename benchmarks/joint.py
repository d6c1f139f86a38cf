"""What deciding boards together with cutting saves, how near it is to the bound, how long it takes.

Run `python -m benchmarks.joint --batches N --jobs J --seed S --seconds T --out FILE.json`. Each
batch is J seeded walls, each a job, every way of boarding open. Its plan is held
against two others of the same seconds: every wall boarded in its first way, and every job's ways
decided by a plan of that job alone (`--alone`, as that takes longest). Every plan passes its check.
`--cpu` counts the process's own seconds, for a machine that is shared.
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import time
from dataclasses import replace
from pathlib import Path
from random import Random
from types import SimpleNamespace
from typing import Any

from benchmarks.batches import random_request
from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.plan import plan_cutting
from optimiser.solvers import protocol
from optimiser.verify.check import check_plan


def decided(request: CuttingRequest, options: tuple[int, ...]) -> CuttingRequest:
    """Return the request with these options only, and no choice left."""
    optional = {id_ for choice in request.choices for option in choice.options for id_ in option}
    wanted = {
        id_
        for choice, option in zip(request.choices, options, strict=True)
        for id_ in choice.options[option]
    }
    out = optional - wanted
    lengths = (
        replace(item, parts=tuple(part for part in item.parts if part.id not in out))
        for item in request.lengths
    )
    sheets = (
        replace(item, parts=tuple(part for part in item.parts if part.id not in out))
        for item in request.sheets
    )
    return replace(
        request,
        lengths=tuple(item for item in lengths if item.parts),
        sheets=tuple(item for item in sheets if item.parts),
        choices=(),
    )


def _only(request: CuttingRequest, choice: Choice, seconds: float) -> CuttingRequest:
    """Return the request with the parts of one choice's job only."""
    ids = {id_ for option in choice.options for id_ in option}
    job = next(part.job for item in request.materials for part in item.parts if part.id in ids)
    lengths = (
        replace(item, parts=tuple(part for part in item.parts if part.job == job))
        for item in request.lengths
    )
    sheets = (
        replace(item, parts=tuple(part for part in item.parts if part.job == job))
        for item in request.sheets
    )
    return replace(
        request,
        seconds=seconds,
        lengths=tuple(item for item in lengths if item.parts),
        sheets=tuple(item for item in sheets if item.parts),
        choices=(choice,),
    )


def decided_alone(request: CuttingRequest) -> tuple[int, ...]:
    """Return the options that plans of one job at a time choose, in the request's seconds in all.

    Each job has one choice, as framed walls have.
    """
    seconds = request.seconds / max(1, len(request.choices))
    return tuple(
        plan_cutting(_only(request, choice, seconds)).chosen[0].option for choice in request.choices
    )


def _row(request: CuttingRequest, *, alone: bool, workers: int) -> dict[str, Any]:
    started, worked = time.perf_counter(), time.process_time()
    plan = plan_cutting(request, workers=workers)
    seconds, worked = time.perf_counter() - started, time.process_time() - worked
    first = plan_cutting(decided(request, tuple(0 for _ in request.choices)), workers=workers)
    row: dict[str, Any] = {
        "seconds": round(seconds, 2),
        "process_seconds": round(worked, 2),
        "choices": len(request.choices),
        "options": sum(len(choice.options) for choice in request.choices),
        "net": plan.money.net,
        "bound": plan.bound,
        "gap": round(1 - plan.bound / plan.money.net, 5),
        "first": first.money.net,
        "saving": round(1 - plan.money.net / first.money.net, 5),
        "moved": sum(chosen.option > 0 for chosen in plan.chosen),
        "verified": not check_plan(request, plan),
    }
    if alone:
        single = plan_cutting(decided(request, decided_alone(request))).money.net
        row |= {"alone": single, "saving_alone": round(1 - plan.money.net / single, 5)}
    return row


def main() -> None:
    """Plan every batch and print medians."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--batches", type=int, default=5)
    parser.add_argument("--jobs", type=int, default=3)
    parser.add_argument(
        "--choices", type=int, help="walls are drawn until there are so many choices in all"
    )
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=4.0)
    parser.add_argument("--workers", type=int, default=1, help="processes to plan with")
    parser.add_argument("--alone", action="store_true")
    parser.add_argument("--cpu", action="store_true", help="count the process's own seconds")
    parser.add_argument("--out", type=Path)
    arguments = parser.parse_args()
    if arguments.cpu and arguments.workers > 1:
        parser.error("--cpu counts this process's seconds only: leave it out with --workers")
    if arguments.cpu:
        # The library's one clock: on a machine that is shared a second there is not one of work.
        vars(protocol)["time"] = SimpleNamespace(monotonic=time.process_time)
    luck = Random(arguments.seed)
    rows = []
    for _ in range(arguments.batches):
        request = random_request(
            luck, arguments.jobs, arguments.seconds, least_choices=arguments.choices or 0
        )
        rows.append(_row(request, alone=arguments.alone, workers=arguments.workers))
        print(json.dumps(rows[-1]), flush=True)
    summary = {
        "batches": len(rows),
        "verified": sum(row["verified"] for row in rows),
        "mean_saving": round(statistics.mean(row["saving"] for row in rows), 5),
        "median_gap": statistics.median(row["gap"] for row in rows),
        "seconds": statistics.median(row["seconds"] for row in rows),
        "process_seconds": statistics.median(row["process_seconds"] for row in rows),
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }
    if arguments.alone:
        summary["mean_saving_alone"] = round(
            statistics.mean(row["saving_alone"] for row in rows), 5
        )
    print(json.dumps(summary))
    if arguments.out is not None:
        arguments.out.write_text(json.dumps({**summary, "rows": rows}, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
