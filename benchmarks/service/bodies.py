"""Bodies that the measurements send: requests of a size, and work for the queue."""

from __future__ import annotations

import copy
from typing import Any

from api.examples import REQUEST_EXAMPLE


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


def work_body(number: int) -> dict[str, Any]:
    """Make a run that is a set amount of work: 24 lengths to a proven plan, all different.

    It may think for 60 seconds and needs about one; no clock ends it.
    """
    body = request_body(48, 60, seed=number)
    for part in body["lengths"][0]["parts"]:
        part["length_mm"] += 7 * (number % 29)
    return {**body, "sheets": []}
