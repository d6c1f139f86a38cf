"""A browser for the tests, the machine's own Chromium, and a service for it to look at."""

from __future__ import annotations

import os
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

import uvicorn
from fastapi import FastAPI
from playwright.sync_api import Browser, sync_playwright

HOW = (
    "Chromium is not on this machine, and the pages cannot be tested without it: "
    "apt-get install chromium (.ci/run does so), or name one in SCANTLING_CHROMIUM"
)
FLAGS = [
    # As root, as tests run in containers, Chromium's own sandbox does not start.
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium() -> str | None:
    """Return the path of a Chromium, or None."""
    names = ("chromium", "chromium-browser", "google-chrome")
    return os.environ.get("SCANTLING_CHROMIUM") or next(
        filter(None, map(shutil.which, names)), None
    )


@contextmanager
def a_browser() -> Iterator[Browser]:
    """Run a browser. Fails, and does not skip, where there is none."""
    path = chromium()
    assert path is not None, HOW
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@contextmanager
def served(app: FastAPI) -> Iterator[str]:
    """Serve an app on a free port of this machine; yield its address."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port = found.getsockname()[1]
    server = uvicorn.Server(uvicorn.Config(app, port=port, log_config=None, ws="none"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        assert thread.is_alive(), "the service did not start"
        time.sleep(0.02)
    yield f"http://127.0.0.1:{port}"
    # Streams of events end with their run; none may hold the tests up.
    server.force_exit = True
    server.should_exit = True
    thread.join(timeout=20)
