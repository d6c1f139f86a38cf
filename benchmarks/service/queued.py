"""What becomes of a full queue: with workers killed over it, and with two instead of one."""

from __future__ import annotations

import os
import signal
import time
from collections import Counter
from typing import Any

import httpx

from benchmarks.service.bodies import queued_body, work_body
from benchmarks.service.served import Served


def _is_busy(client: httpx.Client) -> bool:
    return any(
        client.get(f"/v1/runs?limit=1&state={state}").json()["items"]
        for state in ("queued", "running")
    )


def measure_queue(served: Served, count: int, kill_every: float) -> dict[str, Any]:
    """Submit runs at once, kill a worker now and then, and count how each ended."""
    with served.client() as client:
        # One run first, so that growth is that of the queue and not of what loads with the first.
        client.post("/v1/plans", json=queued_body(1))
        while _is_busy(client):
            time.sleep(0.1)
        before = served.memory()
        began = time.perf_counter()
        ids = [
            client.post("/v1/plans", json=queued_body(number)).json()["id"]
            for number in range(count)
        ]
        submitted = time.perf_counter() - began
        killed, last, most = 0, time.perf_counter(), before
        while _is_busy(client):
            time.sleep(0.25)
            most = max(most, served.memory())
            at_work = served.workers()
            if kill_every and at_work and time.perf_counter() - last > kill_every:
                try:
                    os.kill(at_work[0], signal.SIGKILL)
                except ProcessLookupError:  # it ended just now
                    continue
                killed, last = killed + 1, time.perf_counter()
        seconds = time.perf_counter() - began
        found = [client.get(f"/v1/runs/{id_}").json() for id_ in ids]
        made = Counter(item["run"] for item in _all(client, "/v1/plans"))
    return {
        "what": "queue",
        "runs": count,
        "ended": sum(run["ended"] is not None for run in found),
        "done": sum(run["state"] == "done" for run in found),
        "failed": sum(run["state"] == "failed" for run in found),
        "lost": sum(
            run["ended"] is None or (run["state"] == "done" and not made[run["id"]])
            for run in found
        ),
        "twice": sum(made[run["id"]] > 1 for run in found),
        "killed": killed,
        "attempts": sum(run["attempt"] for run in found),
        "submit_seconds": round(submitted, 1),
        "seconds": round(seconds, 1),
        "memory_kb": before,
        "memory_growth_percent": round(100 * (served.memory() / before - 1), 1),
        "memory_growth_at_most_percent": round(100 * (most / before - 1), 1),
    }


def measure_work(served: Served, count: int) -> dict[str, Any]:
    """Submit runs that are a set amount of work each; tell how long all of them took."""
    with served.client() as client:
        client.post("/v1/plans", json=queued_body(1))
        while _is_busy(client):
            time.sleep(0.1)
        began = time.perf_counter()
        ids = [
            client.post("/v1/plans", json=work_body(number)).json()["id"] for number in range(count)
        ]
        while _is_busy(client):
            time.sleep(0.1)
        seconds = time.perf_counter() - began
        found = [client.get(f"/v1/runs/{id_}").json() for id_ in ids]
    return {
        "done": sum(run["state"] == "done" for run in found),
        "proven": sum(run["net_cost"] == run["lower_bound"] for run in found),
        "thought_seconds": round(sum(run["seconds"] or 0 for run in found), 1),
        "seconds": round(seconds, 2),
    }


def _all(client: httpx.Client, path: str) -> list[dict[str, Any]]:
    items: list[dict[str, Any]] = []
    after = ""
    while True:
        page = client.get(f"{path}?limit=200{after}").json()
        items += page["items"]
        if page["next"] is None:
            return items
        after = f"&after={page['next']}"
