"""How good and how fast lengths are cut, on published and generated lists.

Run: python -m benchmarks.lengths --instances DIR [--sets A B …] --seconds S --out FILE.json
One JSON line an instance: set, instance, best_known, cost, bound, proven, seconds (until proven,
else all), exhausted (not proven, but the integer program saw every pattern a cheaper plan could
use), first_seconds, peak_mb (of the process so far: give --sets one at a time for clean ones).
Formats: see lengths_sets.py. A summary of each set is printed at the end.
`--growth` measures seeded batches of 1 to 50 jobs and lists of rising size instead, without
instances. `--plain` also cuts by four plain methods with the same time. `--cpu` counts the
process's own seconds, for a machine that is shared.
"""

from __future__ import annotations

import argparse
import gc
import json
import resource
import time
from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from pathlib import Path
from statistics import median

from benchmarks.lengths_plain import METHODS
from benchmarks.lengths_sets import Instance, growth, many_parts, read
from optimiser.solvers.lengths.solve import solve, warm
from optimiser.solvers.protocol import Budget

Row = dict[str, str | int | float | bool]


def main() -> None:
    """Read the arguments, run the instances, write one line each."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--instances", type=Path)
    parser.add_argument("--sets", nargs="*", default=[])
    parser.add_argument("--every", type=int, default=1, help="take each n-th instance of a set")
    parser.add_argument("--growth", action="store_true")
    parser.add_argument("--plain", action="store_true", help="plain methods beside")
    parser.add_argument("--cpu", action="store_true", help="count the process's own seconds")
    parser.add_argument("--seconds", type=float, default=5.0)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    if options.instances is None and not options.growth:
        parser.error("give --instances DIR or --growth")
    warm()
    instances: Iterator[Instance] = (
        chain(growth(), many_parts())
        if options.growth
        else read(options.instances, options.sets, options.every)
    )
    clock = time.process_time if options.cpu else time.perf_counter
    rows = []
    with options.out.open("w", encoding="utf-8") as out:
        for instance in instances:
            row = measure(instance, options.seconds, options.seed, clock)
            if options.plain:
                row |= plain(instance, options.seconds)
            rows.append(row)
            print(json.dumps(row), file=out, flush=True)
    print(summary(rows))


def measure(instance: Instance, seconds: float, seed: int, clock: Callable[[], float]) -> Row:
    """Solve once and return the figures of one line."""
    gc.collect()
    budget = Budget(seconds, clock, clock())
    heard: list[tuple[float, bool]] = []
    outcome = solve(
        instance.problem,
        budget=budget,
        seed=seed,
        progress=lambda cost, bound: heard.append((budget.used, cost <= bound)),
    )
    used = budget.used
    proven = outcome.status.value in ("optimal", "impossible")
    settled = min((at for at, is_proven in heard if is_proven), default=used)
    return {
        "set": instance.set_name,
        "instance": instance.name,
        "best_known": instance.best_known,
        "cost": outcome.cost,
        "bound": outcome.bound,
        "proven": proven,
        "exhausted": outcome.exhausted,
        "status": outcome.status.value,
        "method": outcome.method,
        "pieces": sum(pattern.times for pattern in outcome.patterns),
        "layouts": len(outcome.patterns),
        "first_seconds": round(heard[0][0], 4) if heard else -1.0,
        "seconds": round(settled if proven else used, 4),
        "all_seconds": round(used, 4),
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }


def plain(instance: Instance, seconds: float) -> Row:
    """Cut by each plain method; cost -1 where it finds no plan, has no answer, or is too slow."""
    row: Row = {}
    for name, method in METHODS.items():
        started = time.perf_counter()
        cost = method(instance.problem, seconds)
        row[f"{name}_cost"] = -1 if cost is None else cost
        row[f"{name}_seconds"] = round(time.perf_counter() - started, 4)
    return row


def summary(rows: Iterable[Row]) -> str:
    """Return a table: per set how many are proven or at the best known cost, how fast, what gap."""
    sets: dict[str, list[Row]] = {}
    for row in rows:
        sets.setdefault(str(row["set"]), []).append(row)
    lines = [
        f"{'set':<22} {'of':>4} {'proven':>6} {'seen all':>8} {'at best':>7} "
        f"{'median s':>9} {'max s':>7} {'mean gap %':>10} {'max gap %':>9} {'MB':>5}"
    ]
    for name, group in sets.items():
        seconds = [float(row["seconds"]) for row in group]
        gaps = [_gap(row) for row in group]
        lines.append(
            f"{name:<22} {len(group):>4} {sum(bool(row['proven']) for row in group):>6} "
            f"{sum(bool(row['exhausted']) for row in group):>8} "
            f"{sum(is_at_best(row) for row in group):>7} {median(seconds):>9.3f} "
            f"{max(seconds):>7.2f} {sum(gaps) / len(gaps):>10.4f} {max(gaps):>9.4f} "
            f"{max(int(row['peak_mb']) for row in group):>5}"
        )
    return "\n".join(lines)


def is_at_best(row: Row) -> bool:
    """Return whether a line's cost is no more than the best known, or its refusal is right."""
    known = str(row["best_known"])
    if known == "infeasible":
        return row["status"] == "impossible"
    has_plan = row["status"] in ("optimal", "feasible")
    return has_plan and known != "" and float(row["cost"]) <= float(known)


def _gap(row: Row) -> float:
    cost, bound = float(row["cost"]), float(row["bound"])
    return 100 * (cost - bound) / cost if cost > 0 else 0.0


if __name__ == "__main__":
    main()
