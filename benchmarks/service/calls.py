"""How quickly calls are answered: reads, small plans, and all of them together."""

from __future__ import annotations

import asyncio
import time
from typing import Any, TypeAlias

from benchmarks.service.bodies import request_body
from benchmarks.service.plain import PlainClient
from benchmarks.service.served import Served, spread

# A method, a path, a body.
Call: TypeAlias = tuple[str, str, dict[str, Any] | None]
PARTS = 30
READS_A_SECOND = 200
# In mixed load, by kind: calls a second.
MIXED = {"reads": 60, "writes": 8, "plans": 2}


class Steady:
    """Sends calls at a fixed rate whether or not earlier ones were answered, so a stall shows."""

    def __init__(self, client: PlainClient) -> None:
        self._client = client
        self.taken: list[float] = []
        self.refused = 0

    async def send(self, calls: list[Call], rate: float, seconds: float) -> float:
        """Send calls by turns; return how many a second were answered in the end."""
        began = time.perf_counter()
        tasks = []
        for number in range(max(2, int(seconds * rate))):
            due = began + number / rate
            await asyncio.sleep(max(0.0, due - time.perf_counter()))
            method, path, body = calls[number % len(calls)]
            if body is not None and "name" in body:
                body = {**body, "name": f"{body['name']} {number}"}
            tasks.append(asyncio.create_task(self._one(method, path, body, due)))
        await asyncio.gather(*tasks)
        return len(self.taken) / (time.perf_counter() - began)

    async def _one(self, method: str, path: str, body: dict[str, Any] | None, due: float) -> None:
        answer = await self._client.request(method, path, json=body)
        if answer.status_code >= 300:
            self.refused += 1
        self.taken.append(time.perf_counter() - due)


def reads_of(plan: str) -> list[Call]:
    """Return the calls that read."""
    return [("GET", f"/v1/plans/{plan}", None), ("GET", "/v1/plans?limit=20", None)]


def a_plan(served: Served) -> str:
    """Have a plan made to read."""
    with served.client() as client:
        return str(client.post("/v1/plans", json=request_body(PARTS, 0.2)).json()["id"])


async def measure_reads(served: Served, seconds: float) -> dict[str, Any]:
    """Read a plan and a page of the list by turns, at a fixed rate."""
    plan = a_plan(served)
    async with PlainClient(served) as client:
        steady = Steady(client)
        rate = await steady.send(reads_of(plan), READS_A_SECOND, seconds)
    return {
        "what": "reads",
        "a_second": round(rate, 1),
        "refused": steady.refused,
        "ms": spread(steady.taken),
    }


def measure_plans(served: Served, count: int) -> dict[str, Any]:
    """Plan small requests one after the other while a long run has the other core."""
    with served.client() as client:
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


async def measure_mixed(served: Served, seconds: float) -> dict[str, Any]:
    """Read, write jobs and plan small requests all at once, each at its own fixed rate."""
    plan = a_plan(served)
    async with PlainClient(served) as client:
        kinds: dict[str, list[Call]] = {
            "reads": reads_of(plan),
            "writes": [("POST", "/v1/jobs", {"name": "mixed", "client": "Bench"})],
            "plans": [("POST", "/v1/plans", request_body(PARTS, 0.1))],
        }
        steady = {kind: Steady(client) for kind in kinds}
        rates = await asyncio.gather(
            *(steady[kind].send(calls, MIXED[kind], seconds) for kind, calls in kinds.items())
        )
    return {
        "what": "mixed load",
        **{
            kind: {
                "asked_a_second": MIXED[kind],
                "a_second": round(rate, 1),
                "refused": steady[kind].refused,
                "ms": spread(steady[kind].taken),
            }
            for kind, rate in zip(kinds, rates, strict=True)
        },
    }
