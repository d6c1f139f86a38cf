"""A new service loads what plans before its first caller asks, and no fault there stops it."""

from __future__ import annotations

import asyncio
import logging
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from threading import Timer
from typing import TypeVar

import pytest
from fastapi import FastAPI

import optimiser
from api import app as service
from api import warming
from api.settings import Settings

Answer = TypeVar("Answer")
ROOT = Path(__file__).parents[2]
# What a first plan would load is what a second one finds: the names of modules that it adds.
ADDED = """
import json, sys
from api.warming import warm
from api.examples import REQUEST_EXAMPLE
import optimiser as lib
if sys.argv[1] == "warm":
    warm()
before = set(sys.modules)
lib.plan_cutting(lib.read_request(json.dumps({**REQUEST_EXAMPLE, "seconds": 0.1}), name="first"))
print(len([name for name in set(sys.modules) - before if name.startswith("optimiser.solvers")]))
"""


async def live(app: FastAPI, meanwhile: Callable[[], Answer]) -> Answer:
    """Start the service and stop it, and do something in between."""
    async with app.router.lifespan_context(app):
        return await asyncio.to_thread(meanwhile)


def added(how: str) -> int:
    command = [sys.executable, "-c", ADDED, how]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    return int(done.stdout.split()[-1])


def test_the_first_plan_after_a_warming_loads_nothing() -> None:
    assert added("cold") > 5
    assert added("warm") == 0


def test_a_service_that_warms_says_when_it_is_warm(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    begun: list[Timer] = []

    def start() -> Timer:
        begun.append(warming.start_warming())
        return begun[-1]

    monkeypatch.setattr(warming, "AFTER_SECONDS", 0.0)
    monkeypatch.setattr(service, "start_warming", start)
    caplog.set_level(logging.INFO, logger="api.warming")
    settings = Settings(store=f"sqlite:///{tmp_path}/store.db", workers=0)

    def warmed() -> None:
        begun[0].join()

    asyncio.run(live(service.create_app(settings, warms=True), warmed))

    assert "service.warm" in caplog.messages


def test_a_service_that_stops_before_does_not_warm(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[Timer] = []

    def start() -> Timer:
        begun.append(warming.start_warming())
        return begun[-1]

    monkeypatch.setattr(warming, "AFTER_SECONDS", 3600.0)
    monkeypatch.setattr(service, "start_warming", start)
    settings = Settings(store=f"sqlite:///{tmp_path}/store.db", workers=0)

    def is_alive() -> bool:
        return begun[0].is_alive()

    assert asyncio.run(live(service.create_app(settings, warms=True), is_alive))
    begun[0].join()  # an hour, were it not called off


def test_a_warming_that_fails_is_told_and_no_more(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fails(*_: object, **__: object) -> None:
        raise RuntimeError("no room")

    monkeypatch.setattr(optimiser, "plan_cutting", fails)

    warming.warm()

    (message,) = caplog.messages
    assert message.startswith("service.not_warm")
    assert "no room" in message
