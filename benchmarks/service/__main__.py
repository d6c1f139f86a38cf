"""Measure the service: `python -m benchmarks.service WHAT… --out FILE.json`.

WHAT is one or more of start, reads, plans, mixed, queue, workers, streams, stores, or all. Each
starts the service as a process of its own on a new store and calls it on a socket. `--small` takes
a few calls of each, which shows that it works and measures nothing. One JSON line a measurement,
with the machine's load before it: figures count when that is near zero.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import os
import platform
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from typing import Any

from benchmarks.service.calls import measure_mixed, measure_plans, measure_reads
from benchmarks.service.queued import measure_queue, measure_work
from benchmarks.service.served import Served
from benchmarks.service.streams import measure_streams
from tests.api.databases import HOW, new_database, postgres_programs, postgres_server

Lines = Iterator[dict[str, Any]]


class Bench:
    """What is measured, and how much of it."""

    def __init__(self, asked: argparse.Namespace) -> None:
        self._asked = asked
        self._small = asked.small

    @contextmanager
    def served(self, *, workers: int | None = None, store: str | None = None) -> Iterator[Served]:
        """Serve on a new store: SQLite in a file unless said."""
        count = self._asked.workers if workers is None else workers
        with tempfile.TemporaryDirectory(prefix="bench") as folder:
            url = store or f"sqlite:///{folder}/store.db"
            with Served(url, count, self._asked.address) as served:
                yield served

    def start(self) -> Lines:
        """Start on a new store and on one that is there, several times."""
        new: list[float] = []
        known: list[float] = []
        for _ in range(2 if self._small else 7):
            with tempfile.TemporaryDirectory(prefix="bench") as folder:
                url = f"sqlite:///{folder}/store.db"
                for times in (new, known):
                    with Served(url, 1) as served:
                        times.append(served.started)
        yield {
            "what": "start-up",
            "new_store_seconds": round(median(new), 2),
            "known_store_seconds": round(median(known), 2),
            "worst_seconds": round(max(new + known), 2),
        }

    def reads(self) -> Lines:
        """Read at 200 calls a second."""
        with self.served() as served:
            yield asyncio.run(measure_reads(served, 1 if self._small else self._asked.seconds))

    def plans(self) -> Lines:
        """Plan small requests beside a long run."""
        with self.served() as served:
            yield measure_plans(served, 3 if self._small else self._asked.plans)

    def mixed(self) -> Lines:
        """Read, write and plan at once."""
        with self.served() as served:
            yield asyncio.run(measure_mixed(served, 2 if self._small else self._asked.seconds))

    def queue(self) -> Lines:
        """Fill the queue and kill workers."""
        with self.served() as served:
            count = 6 if self._small else self._asked.runs
            yield measure_queue(served, count, 8 if self._small else self._asked.kill_every)

    def workers(self) -> Lines:
        """Work on the same runs with one worker and with two."""
        count = 2 if self._small else 40
        found = {}
        for workers in (1, 2):
            with self.served(workers=workers) as served:
                found[workers] = measure_work(served, count)
        yield {
            "what": "two workers against one",
            "runs": count,
            "one": found[1],
            "two": found[2],
            "speed_up": round(found[1]["seconds"] / found[2]["seconds"], 2),
        }

    def streams(self) -> Lines:
        """Watch a run a thousand times."""
        with self.served() as served:
            count = 20 if self._small else self._asked.streams
            yield asyncio.run(measure_streams(served, count, 1 if self._small else 8))

    def stores(self) -> Lines:
        """Put the same load on SQLite and on PostgreSQL."""
        seconds = 1 if self._small else self._asked.seconds
        plans = 3 if self._small else self._asked.plans
        programs = postgres_programs()
        if programs is None:
            raise SystemExit(HOW)
        loads: dict[str, Callable[[Served], dict[str, Any]]] = {
            "reads": lambda served: asyncio.run(measure_reads(served, seconds)),
            "plans": lambda served: measure_plans(served, plans),
            "mixed": lambda served: asyncio.run(measure_mixed(served, seconds)),
        }
        with postgres_server(programs) as folder:
            for kind in ("sqlite", "postgresql"):
                for name, measure in loads.items():
                    store = None if kind == "sqlite" else new_database(folder, f"bench_{name}")
                    with self.served(store=store) as served:
                        yield {"store": kind, **measure(served)}


NAMES = ("start", "reads", "plans", "mixed", "workers", "streams", "stores", "queue")


def main() -> None:
    """Measure what was asked for, and write each figure down as soon as it is known."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("what", nargs="+", choices=(*NAMES, "all"))
    parser.add_argument("--address", help="serve others too, at this address, with keys")
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=20, help="of reads and of mixed load")
    parser.add_argument("--plans", type=int, default=50, help="small plans")
    parser.add_argument("--runs", type=int, default=1000, help="runs in the queue")
    parser.add_argument("--streams", type=int, default=1000, help="event streams")
    parser.add_argument("--kill-every", type=float, default=20, help="seconds; 0 kills nobody")
    parser.add_argument("--small", action="store_true", help="a few of each: shows that it works")
    parser.add_argument("--out", type=Path, required=True)
    asked = parser.parse_args()
    bench = Bench(asked)
    wanted = NAMES if "all" in asked.what else tuple(dict.fromkeys(asked.what))
    with asked.out.open("w", encoding="utf-8") as file:
        for name in wanted:
            measure: Callable[[], Lines] = getattr(bench, name)
            loads = [round(load, 1) for load in os.getloadavg()]
            began = time.perf_counter()
            for line in measure():
                about = {
                    "name": name,
                    "small": asked.small,
                    "workers": asked.workers,
                    "address": asked.address or "loopback",
                    "python": platform.python_version(),
                    "load_before": loads,
                    "took_seconds": round(time.perf_counter() - began, 1),
                }
                text = json.dumps({**about, **line})
                file.write(text + "\n")
                file.flush()
                print(text, flush=True)


if __name__ == "__main__":
    main()
