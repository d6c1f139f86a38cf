"""How quickly the service answers, and what becomes of a full queue whose workers are killed.

Run `python -m benchmarks.service --out FILE.json [--store URL] [--runs N] [--workers N]
[--kill-every S] [--reads S] [--plans N]`. The service runs as a process of its own; the store must
be new. Reads are sent at a fixed rate whether or not earlier ones were answered, so that a stall
shows in the figures. One JSON line a measurement.
"""

from __future__ import annotations

import argparse
import asyncio
import copy
import json
import os
import signal
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import httpx

from api.examples import REQUEST_EXAMPLE

ROOT = Path(__file__).parents[1]
PARTS = 30
READS_A_SECOND = 200


def request_body(parts: int, seconds: float, seed: int = 1) -> dict[str, Any]:
    """Make a request with so many different parts, on lengths and boards."""
    body = copy.deepcopy(REQUEST_EXAMPLE)
    body |= {"seconds": seconds, "seed": seed}
    body["sheets"][0]["stock"][0]["available"] = None
    body["lengths"][0]["parts"] = [
        {"id": f"u{n}", "job": "A", "length_mm": 400 + 61 * n % 1900, "quantity": 1}
        for n in range(parts // 2)
    ]
    body["sheets"][0]["parts"] = [
        {
            "id": f"b{n}",
            "job": "A",
            "width_mm": 211 + 37 * (n * 7 % 23) + n,
            "height_mm": 305 + 29 * (n * 11 % 31),
            "quantity": 1,
        }
        for n in range(parts - parts // 2)
    ]
    return body


def queued_body(number: int) -> dict[str, Any]:
    """Make a run for the queue: every 25th thinks for its 2.5 seconds, the others are soon proven.

    All may think longer than what is answered at once, so that all go through the queue.
    """
    body = request_body(4, 2.5, seed=number)
    return body if number % 25 == 0 else {**body, "sheets": []}


class Served:
    """A service in a process of its own; use as a context."""

    def __init__(self, store: str, workers: int) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self._command = [sys.executable, "-m", "api.cli", "serve", "--port", str(self.port)]
        self._command += ["--store", store, "--workers", str(workers)]
        self.url = f"http://127.0.0.1:{self.port}"
        self.started = 0.0

    def __enter__(self) -> Served:
        began = time.perf_counter()
        self.process = subprocess.Popen(self._command, cwd=ROOT, stderr=subprocess.DEVNULL)
        while True:
            try:
                httpx.get(f"{self.url}/ready").raise_for_status()
                break
            except httpx.HTTPError:
                time.sleep(0.02)
        self.started = time.perf_counter() - began
        return self

    def __exit__(self, *_: object) -> None:
        self.process.terminate()
        self.process.wait()

    def memory(self) -> int:
        """Return the resident memory of the service itself, in kB."""
        text = Path(f"/proc/{self.process.pid}/status").read_text(encoding="ascii")
        return int(text.split("VmRSS:")[1].split()[0])

    def workers(self) -> list[int]:
        """Return the processes that work on runs for it: those called after a run."""
        return [child for child in self._below(self.process.pid) if _is_run(child)]

    def _below(self, process: int) -> list[int]:
        files = Path(f"/proc/{process}/task").glob("*/children")
        children = [int(child) for file in files for child in file.read_text().split()]
        return children + [below for child in children for below in self._below(child)]


def _is_run(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/comm").read_text(encoding="ascii").startswith("run-")
    except OSError:
        return False


def spread(seconds: list[float]) -> dict[str, float]:
    """Return percentiles in milliseconds."""
    cuts = statistics.quantiles(seconds, n=100, method="inclusive")
    names = {"p50": cuts[49], "p95": cuts[94], "p99": cuts[98], "worst": max(seconds)}
    return {name: round(1000 * value, 1) for name, value in names.items()}


async def measure_reads(url: str, seconds: float) -> dict[str, Any]:
    """Read a plan's page of the list and the plan itself by turns, at a fixed rate."""
    limits = httpx.Limits(max_connections=50)
    async with httpx.AsyncClient(base_url=url, limits=limits, timeout=30) as client:
        made = await client.post("/v1/plans", json=request_body(PARTS, 0.2))
        paths = (f"/v1/plans/{made.json()['id']}", "/v1/plans?limit=20")
        taken: list[float] = []

        async def read(path: str, due: float) -> None:
            answer = await client.get(path)
            assert answer.status_code == 200, answer.text
            taken.append(time.perf_counter() - due)

        began = time.perf_counter()
        tasks = []
        for number in range(int(seconds * READS_A_SECOND)):
            due = began + number / READS_A_SECOND
            await asyncio.sleep(max(0.0, due - time.perf_counter()))
            tasks.append(asyncio.create_task(read(paths[number % 2], due)))
        await asyncio.gather(*tasks)
        rate = len(taken) / (time.perf_counter() - began)
    return {"what": "reads", "a_second": round(rate, 1), "ms": spread(taken)}


def measure_plans(url: str, count: int) -> dict[str, Any]:
    """Plan small requests one after the other while a long run has the other core."""
    with httpx.Client(base_url=url, timeout=60) as client:
        run = client.post("/v1/plans", json=request_body(80, 300)).json()["id"]
        while client.get(f"/v1/runs/{run}").json()["layouts"] is None:
            time.sleep(0.1)
        taken = []
        for number in range(count):
            began = time.perf_counter()
            answer = client.post("/v1/plans", json=request_body(PARTS, 0.1, seed=number))
            assert answer.status_code == 201, answer.text
            taken.append(time.perf_counter() - began)
        state = client.post(f"/v1/runs/{run}/cancel").json()["state"]
    return {"what": f"plans of {PARTS} parts", "beside": f"a run {state}", "ms": spread(taken)}


def measure_queue(served: Served, count: int, kill_every: float) -> dict[str, Any]:
    """Submit runs at once, kill a worker now and then, and count how each ended."""
    with httpx.Client(base_url=served.url, timeout=60) as client:
        began = time.perf_counter()
        ids = [
            client.post("/v1/plans", json=queued_body(number)).json()["id"]
            for number in range(count)
        ]
        submitted = time.perf_counter() - began
        before, killed, last = served.memory(), 0, time.perf_counter()
        while (
            client.get("/v1/runs?limit=1&state=queued").json()["items"]
            or client.get("/v1/runs?limit=1&state=running").json()["items"]
        ):
            time.sleep(0.25)
            at_work = served.workers()
            if kill_every and at_work and time.perf_counter() - last > kill_every:
                os.kill(at_work[0], signal.SIGKILL)
                killed, last = killed + 1, time.perf_counter()
        seconds = time.perf_counter() - began
        found = [client.get(f"/v1/runs/{id_}").json() for id_ in ids]
        plans = {run["plan"] for run in found if run["plan"]}
    return {
        "what": "queue",
        "runs": count,
        "ended": sum(run["ended"] is not None for run in found),
        "done": sum(run["state"] == "done" for run in found),
        "plans": len(plans),
        "killed": killed,
        "attempts": sum(run["attempt"] for run in found),
        "submit_seconds": round(submitted, 1),
        "seconds": round(seconds, 1),
        "memory_growth_percent": round(100 * (served.memory() / before - 1), 1),
    }


def main() -> None:
    """Measure what was asked for and write it down."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--store", help="URL of a new store (default: SQLite in a new folder)")
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--reads", type=float, default=10, help="seconds of reads")
    parser.add_argument("--plans", type=int, default=50, help="small plans")
    parser.add_argument("--runs", type=int, default=1000, help="runs in the queue")
    parser.add_argument("--kill-every", type=float, default=20, help="seconds; 0 kills nobody")
    parser.add_argument("--out", type=Path, required=True)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        store = asked.store or f"sqlite:///{folder}/store.db"
        lines: list[dict[str, Any]] = []
        with Served(store, asked.workers) as served:
            lines.append({"what": "start-up", "seconds": round(served.started, 2)})
            if asked.reads:
                lines.append(asyncio.run(measure_reads(served.url, asked.reads)))
            if asked.plans:
                lines.append(measure_plans(served.url, asked.plans))
            if asked.runs:
                lines.append(measure_queue(served, asked.runs, asked.kill_every))
    about = {
        "store": store.split(":")[0],
        "workers": asked.workers,
        "load_average": [round(load, 1) for load in os.getloadavg()],
    }
    text = "".join(json.dumps({**about, **line}) + "\n" for line in lines)
    asked.out.write_text(text, encoding="utf-8")
    print(text, end="")


if __name__ == "__main__":
    main()
