"""How fast and how gently a batch is replanned: seeded mishaps in the middle of cutting it.

Run `python -m benchmarks.mishaps --batches N --jobs J --seed S --out FILE.json`. Each batch is
planned, about a third of it is marked as cut, one part in forty of that as spoiled, one piece in
sixty as damaged, and the rest is replanned; every continuation passes its check or the run stops.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from pathlib import Path
from random import Random

from benchmarks.batches import random_request
from optimiser.domain.marks import Mark, Marks, State
from optimiser.domain.plan import CuttingPlan, LengthLayout, SheetLayout
from optimiser.planning.plan import plan_cutting
from optimiser.planning.replan import replan


def random_marks(plan: CuttingPlan, luck: Random) -> Marks:
    """Mark a plan as a day's work leaves it, with one spoiled part at least."""
    marks: list[Mark] = []
    for material in plan.materials:
        layouts: tuple[LengthLayout | SheetLayout, ...] = material.layouts
        for number, layout in enumerate(layouts, start=1):
            for _ in range(layout.count):
                marks += _mark(material.material, number, layout, luck)
    return Marks(marks=tuple(marks))


def _mark(
    material: str, number: int, layout: LengthLayout | SheetLayout, luck: Random
) -> list[Mark]:
    draw = luck.random()
    if draw < 1 / 60:
        return [Mark(material=material, layout=number, state=State.DAMAGED)]
    if draw < 1 / 3:
        names = [part.part for part in layout.parts]
        spoiled = tuple(name for name in names if luck.random() < 1 / 40)
        return [Mark(material=material, layout=number, state=State.CUT, spoiled=spoiled)]
    if draw < 0.36 and layout.cuts:
        cuts = luck.randint(1, len(layout.cuts))
        return [Mark(material=material, layout=number, state=State.STARTED, cuts=cuts)]
    return []


def main() -> None:
    """Replan every batch once and print medians."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--batches", type=int, default=5)
    parser.add_argument("--jobs", type=int, default=3)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    arguments = parser.parse_args()
    luck = Random(arguments.seed)
    rows = []
    for _ in range(arguments.batches):
        request = random_request(luck, arguments.jobs, 2.0)
        plan = plan_cutting(request)
        marks = random_marks(plan, luck)
        started = time.perf_counter()
        rest = replan(request, plan, marks).rest
        seconds = time.perf_counter() - started
        if rest is None:
            continue
        rows.append(
            {
                "seconds": round(seconds, 2),
                "purchase": rest.plan.money.purchase,
                "bound": rest.plan.bound,
                "as_planned": rest.as_planned,
                "filled": rest.filled,
                "changed": rest.changed,
            }
        )
        print(json.dumps(rows[-1]))
    summary = {
        "batches": len(rows),
        "median_seconds": statistics.median(row["seconds"] for row in rows),
        "most_seconds": max(row["seconds"] for row in rows),
        "median_changed": statistics.median(row["changed"] for row in rows),
    }
    print(json.dumps(summary))
    if arguments.out is not None:
        arguments.out.write_text(json.dumps({"rows": rows, **summary}, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
