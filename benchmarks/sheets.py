"""Sheets: cost, bound and time on published instances and on batches like a small firm's.

    python -m benchmarks.sheets --instances DIR --sets bwmv,furniture --seconds 2 --out FILE
    python -m benchmarks.sheets --sets batches,one_size,two_sizes --seconds 5 --beside --out FILE
    python -m benchmarks.sheets --sets growth --seconds 10 --out FILE

DIR holds JSON lines: `{"set", "name", "sheets": [{"w", "h", "stock", "cost"}], "items": [{"w", "h",
"demand"}]}`, and may hold best_known.csv. One JSON line is written per instance and variant: set,
instance, variant (2BP|O|G: as given, 2BP|R|G: turned at will; a number at the end limits stages),
parts, cost, bound, proven, best_known, seconds, first_seconds, peak_mb, with --beside what plain
methods make of it. `--cpu` counts the process's own seconds, for a machine that has other work.
With one sheet size the cost is the number of sheets. A line for each set and
variant at the end adds up.
"""

from __future__ import annotations

import argparse
import json
import resource
import time
from collections import defaultdict
from collections.abc import Callable
from pathlib import Path
from typing import Any

from benchmarks.sheets_baselines import beside
from benchmarks.sheets_sets import VARIANTS, Case, cases
from optimiser.solvers.protocol import Budget, Status
from optimiser.solvers.sheets.solve import solve
from optimiser.solvers.sheets.warm import warm


def main() -> None:
    """Run the instances asked for, one after another."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--instances", type=Path)
    parser.add_argument("--sets", default="bwmv")
    parser.add_argument("--every", type=int, default=1, help="take every n-th instance only")
    parser.add_argument("--seconds", type=float, default=2.0)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--turn", choices=tuple(VARIANTS), default="both")
    parser.add_argument("--stages", type=int, help="limit the stages of cuts")
    parser.add_argument("--beside", action="store_true", help="run plain methods too")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--cpu", action="store_true", help="count the process's own seconds")
    options = parser.parse_args()
    clock = time.process_time if options.cpu else time.perf_counter
    warm()
    lines: list[dict[str, Any]] = []
    with options.out.open("w", encoding="utf-8") as out:
        for case in cases(
            options.instances,
            options.sets.split(","),
            turn=options.turn,
            stages=options.stages,
            every=options.every,
        ):
            line = run(case, options.seconds, options.seed, clock)
            if options.beside:
                line |= beside(case.problem, options.seconds)
            lines.append(line)
            out.write(json.dumps(line) + "\n")
            out.flush()
            print(line)
        for line in summary(lines):
            out.write(json.dumps(line) + "\n")
            print(line)


def run(case: Case, seconds: float, seed: int, clock: Callable[[], float]) -> dict[str, Any]:
    """Solve one problem and say how it went."""
    budget = Budget(seconds, clock, clock())
    first: list[float] = []
    outcome = solve(
        case.problem, budget=budget, seed=seed, progress=lambda _, __: first.append(budget.used)
    )
    return {
        "set": case.set_,
        "instance": case.name,
        "variant": case.variant,
        "parts": sum(case.problem.demands),
        "cost": outcome.cost,
        "bound": outcome.bound,
        "proven": outcome.status is Status.OPTIMAL,
        "status": outcome.status.value,
        "best_known": case.best_known,
        "method": outcome.method,
        "seconds": round(outcome.seconds, 3),
        "first_seconds": round(first[0], 4) if first else None,
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }


def summary(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Add up each set and variant."""
    groups: dict[tuple[str, str], list[dict[str, Any]]] = defaultdict(list)
    for line in lines:
        groups[line["set"], line["variant"]].append(line)
    added = []
    for (set_, variant), group in groups.items():
        gaps = [line["cost"] / line["bound"] - 1 for line in group if line["bound"] > 0]
        known = [line for line in group if line["best_known"] is not None]
        added.append(
            {
                "set": set_,
                "variant": variant,
                "instances": len(group),
                "cost": sum(line["cost"] for line in group),
                "bound": sum(line["bound"] for line in group),
                "proven": sum(line["proven"] for line in group),
                "mean_gap": round(sum(gaps) / max(1, len(gaps)), 5),
                "most_gap": round(max(gaps, default=0.0), 5),
                "best_known": sum(line["best_known"] for line in known),
                "at_or_below_best_known": sum(line["cost"] <= line["best_known"] for line in known),
                "known": len(known),
            }
        )
    return added


if __name__ == "__main__":
    main()
