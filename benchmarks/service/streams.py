"""A thousand event streams open at once, and clients that go away in the middle of theirs."""

from __future__ import annotations

import asyncio
import json
import time
from typing import Any
from urllib.parse import urlsplit

from benchmarks.service.bodies import request_body
from benchmarks.service.calls import Steady, a_plan, reads_of
from benchmarks.service.plain import PlainClient
from benchmarks.service.served import Served, spread

# How a run that is cancelled while it thinks may end.
ENDED = ("cancelled", "done")


async def measure_streams(served: Served, count: int, seconds: float) -> dict[str, Any]:
    """Watch one run with so many streams, read beside it, cancel it, and wait for all to hear.

    Then as many again are cut off in the middle, and the service's sockets are counted.
    """
    plan = a_plan(served)
    with served.client() as client:
        run = client.post("/v1/plans", json=request_body(80, 600)).json()["id"]
    files, memory = served.files(), served.memory()
    began = time.perf_counter()
    first: list[float] = []
    async with PlainClient(served) as client:
        watching = [asyncio.create_task(_watch(served, run, first)) for _ in range(count)]
        meanwhile = Steady(client)
        await meanwhile.send(reads_of(plan), 100, min(seconds, 3))
    while len(first) < count and time.perf_counter() - began < 60:
        await asyncio.sleep(0.05)
    opened = max(first, default=time.perf_counter()) - began
    open_now = served.files() - files
    async with PlainClient(served) as client:
        steady = Steady(client)
        rate = await steady.send(reads_of(plan), 100, seconds)
        told = time.perf_counter()
        await client.request("POST", f"/v1/runs/{run}/cancel")
        heard = await asyncio.gather(*watching)
    late = [at - told for at, state in heard if state in ENDED] or [0.0]
    cut_off = await _cut_off(served, count)
    return {
        "what": "event streams",
        "streams": count,
        "open_at_once": open_now,
        "opening_seconds": round(opened, 2),
        "heard_the_end": sum(state in ENDED for _, state in heard),
        "heard_within_seconds": round(max(late), 2),
        "reads_while_they_open": {"ms": spread(meanwhile.taken)},
        "reads_beside": {"a_second": round(rate, 1), "ms": spread(steady.taken)},
        "memory_kb_a_stream": round((served.memory() - memory) / count, 1),
        "cut_off": cut_off,
    }


async def _watch(served: Served, run: str, first: list[float]) -> tuple[float, str]:
    """Follow a run's events on a plain socket; return when it ended, and how.

    When the first event came is added to `first`: only then is a stream open.
    """
    reader, writer = await _open(served, run)
    state = ""
    while line := await reader.readline():
        if line.startswith(b"data: "):
            if not state:
                first.append(time.perf_counter())
            state = json.loads(line[6:])["state"]
    writer.close()
    return time.perf_counter(), state


async def _open(served: Served, run: str) -> tuple[asyncio.StreamReader, asyncio.StreamWriter]:
    at = urlsplit(served.url)
    reader, writer = await asyncio.open_connection(at.hostname, at.port)
    key = "".join(f"{name}: {value}\r\n" for name, value in served.headers.items())
    asked = (
        f"GET /v1/runs/{run}/events HTTP/1.1\r\nHost: {at.netloc}\r\nConnection: close\r\n{key}\r\n"
    )
    writer.write(asked.encode())
    await writer.drain()
    return reader, writer


async def _cut_off(served: Served, count: int) -> dict[str, Any]:
    """Open streams of a queued run, cut each off in the middle, and see what the service keeps."""
    with served.client() as client:
        run = client.post("/v1/plans", json=request_body(80, 600)).json()["id"]
        before = served.files()
        open_now = [await _open(served, run) for _ in range(count)]
        for reader, _ in open_now:
            await reader.readline()
        for _, writer in open_now:
            writer.transport.abort()
        began = time.perf_counter()
        while served.files() > before + 2 and time.perf_counter() - began < 60:
            await asyncio.sleep(0.1)
        took = time.perf_counter() - began
        is_ready = client.get("/ready").status_code == 200
        client.post(f"/v1/runs/{run}/cancel")
    return {
        "streams": count,
        "sockets_kept": max(0, served.files() - before - 2),
        "let_go_within_seconds": round(took, 2),
        "ready_after": is_ready,
    }
