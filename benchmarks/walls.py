"""How many walls frame, how fast, and what stops the rest: seeded walls of every shape.

Run `python -m benchmarks.walls --count N --seed S --out FILE.json`. Walls are those that fitters
write, slips included: some do not fit and must be refused with reasons, never crash. Each wall is
framed in all its ways and each way is inspected, all within the time measured; outside it, of every
fifth wall a mixture of ways is inspected, such as a cutting plan may choose. `median_cpu_ms` and
`max_cpu_ms` are free of what else the machine does; `slowest` is the number of the latter's wall;
`peak_mb` is the most memory that the process held, interpreter and libraries included.
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import sys
import time
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from benchmarks.random_walls import price_book, random_wall
from optimiser.domain.fault import Fault
from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.errors import InvalidInput
from optimiser.framing.build import frame_wall
from optimiser.framing.ways import frame_of
from optimiser.inspection.inspect import inspect_frame

# A mixture of ways is inspected for every so many walls.
MIXED = 5


def _mixed(frame: Frame, luck: Random) -> Frame:
    """Return the wall with any way of each of its choices."""
    return frame_of(frame, frame.choices, [luck.randrange(len(c.ways)) for c in frame.choices])


def measure(count: int, seed: int) -> dict[str, Any]:
    """Frame `count` walls and return the row that the command writes."""
    luck, mixing = Random(seed), Random(seed)
    book = price_book()
    spent: list[float] = []
    worked: list[float] = []
    stops: Counter[str] = Counter()
    framed = stopped = crashed = failed = 0
    for number in range(count):
        wall = random_wall(luck)
        start, begun = time.perf_counter(), time.process_time()
        frame: Frame | None = None
        stop: set[str] = set()
        faults: tuple[Fault, ...] = ()
        try:
            frame = frame_wall(wall, book)
            stop = {f.rule for f in frame.findings if f.severity is Severity.STOP}
            faults = () if stop else inspect_frame(frame, wall)
        except InvalidInput as refused:
            stopped += 1
            stops.update({problem.field for problem in refused.problems})
        except Exception as fault:
            crashed += 1
            print(f"wall {number} crashed: {fault!r}", file=sys.stderr)
        spent.append((time.perf_counter() - start) * 1_000)
        worked.append((time.process_time() - begun) * 1_000)
        if frame is None:
            continue
        stops.update(stop)
        stopped += bool(stop)
        framed += not stop
        if not stop and not faults and number % MIXED == 0:
            faults = inspect_frame(_mixed(frame, mixing), wall)
        failed += bool(faults)
        for found in faults[:3]:
            print(f"wall {number}: {found}", file=sys.stderr)
    return {
        "count": count,
        "framed": framed,
        "stopped": stopped,
        "crashed": crashed,
        "failed_verification": failed,
        "median_ms": round(statistics.median(spent), 3),
        "max_ms": round(max(spent), 3),
        "median_cpu_ms": round(statistics.median(worked), 3),
        "max_cpu_ms": round(max(worked), 3),
        "slowest": worked.index(max(worked)),
        "peak_mb": round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1_024, 1),
        "stop_rules": dict(stops.most_common()),
    }


def main() -> None:
    """Read the command line, measure, write the row."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=1_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    chosen = parser.parse_args()
    row = measure(chosen.count, chosen.seed)
    text = json.dumps(row, indent=2)
    print(text)
    if chosen.out is not None:
        chosen.out.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
