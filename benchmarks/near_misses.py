"""How fast near misses of a batch are found, and what they would save: seeded walls.

Run `python -m benchmarks.near_misses --batches N --jobs J --ease MM --seed S --out FILE.json`.
Every part may be that much smaller; each answer is checked as a plan of the eased request.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from dataclasses import replace
from pathlib import Path
from random import Random

from benchmarks.batches import random_request
from optimiser.domain.request import CuttingRequest
from optimiser.planning.easing import near_misses
from optimiser.planning.plan import plan_cutting
from optimiser.units import Tenths, tenths


def with_ease(request: CuttingRequest, ease: Tenths) -> CuttingRequest:
    """Return the request with that ease on every part that is larger than it."""
    return replace(
        request,
        lengths=tuple(
            replace(item, parts=tuple(replace(part, ease=ease) for part in item.parts))
            for item in request.lengths
        ),
        sheets=tuple(
            replace(item, parts=tuple(replace(part, ease=ease) for part in item.parts))
            for item in request.sheets
        ),
    )


def main() -> None:
    """Look for the near misses of every batch once and print medians."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--batches", type=int, default=5)
    parser.add_argument("--jobs", type=int, default=3)
    parser.add_argument("--ease", default="5")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    arguments = parser.parse_args()
    luck = Random(arguments.seed)
    rows = []
    for _ in range(arguments.batches):
        request = with_ease(random_request(luck, arguments.jobs, 2.0), tenths(arguments.ease))
        plan = plan_cutting(request)
        started = time.perf_counter()
        found = near_misses(request, plan)
        rows.append(
            {
                "seconds": round(time.perf_counter() - started, 2),
                "purchase": plan.money.purchase,
                "found": len(found),
                "saving": max((miss.saving for miss in found), default=0),
                "fewest_easings": min((len(miss.easings) for miss in found), default=0),
                "certain": sum(miss.certain for miss in found),
            }
        )
        print(json.dumps(rows[-1]))
    summary = {
        "batches": len(rows),
        "median_seconds": statistics.median(row["seconds"] for row in rows),
        "most_seconds": max(row["seconds"] for row in rows),
        "median_saving": statistics.median(row["saving"] for row in rows),
    }
    print(json.dumps(summary))
    if arguments.out is not None:
        arguments.out.write_text(json.dumps({"rows": rows, **summary}, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
