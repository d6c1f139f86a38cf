"""A service that is told to stop, as a machine stops it: SIGTERM to a real process on a socket."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest

from api.runner import HAND_BACK_SECONDS
from tests.api.test_runs import PATIENCE, hard, wait_for, worker_of

ROOT = Path(__file__).parents[2]


@contextmanager
def served(store_url: str) -> Iterator[tuple[subprocess.Popen[bytes], httpx.Client]]:
    """Serve a store by a process of its own; end it in any case."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "api.cli", "serve", "--port", str(port), "--store", store_url]
    process = subprocess.Popen(command, cwd=ROOT, stderr=subprocess.DEVNULL)
    try:
        with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=PATIENCE) as client:
            wait_for(lambda: _is_ready(client), bool)
            yield process, client
    finally:
        process.kill()
        process.wait()


def _is_ready(client: httpx.Client) -> bool:
    try:
        return client.get("/ready").status_code == 200
    except httpx.HTTPError:
        return False


@pytest.fixture(params=[signal.SIGTERM, signal.SIGINT], ids=["terminate", "ctrl-c"])
def told(request: pytest.FixtureRequest) -> int:
    found = request.param
    assert isinstance(found, int)
    return found


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_a_service_told_to_stop_hands_its_run_back_and_another_takes_it_up(
    store_url: str, told: int
) -> None:
    with served(store_url) as (process, client):
        run = client.post("/v1/plans", json=hard(seconds=500)).json()["id"]
        wait_for(lambda: client.get(f"/v1/runs/{run}").json(), lambda one: one["layouts"])
        # Somebody watches it as well: an open stream must not keep the service.
        with client.stream("GET", f"/v1/runs/{run}/events") as stream:
            lines = stream.iter_lines()
            assert next(lines) == "event: run"

            process.send_signal(told)

            # Calls under way have ten seconds, workers five to hand back.
            assert process.wait(timeout=10 + HAND_BACK_SECONDS + PATIENCE) in (0, -told)
    wait_for(lambda: worker_of(run), lambda found: found is None)

    with served(store_url) as (_, client):
        again = wait_for(
            lambda: client.get(f"/v1/runs/{run}").json(),
            lambda one: one["state"] == "running" and one["layouts"],
        )
        # Handed back is no attempt; a worker too busy to hand back in time costs one.
        assert again["attempt"] in (1, 2)
        client.post(f"/v1/runs/{run}/cancel")
        done = wait_for(lambda: client.get(f"/v1/runs/{run}").json(), lambda one: one["ended"])
        assert done["state"] == "cancelled"
        plan = client.get(f"/v1/plans/{done['plan']}").json()
        assert plan["state"] == "draft"


@pytest.mark.parametrize("store_url", ["sqlite"], indirect=True)
def test_what_is_planned_within_a_call_is_finished_first(store_url: str) -> None:
    with served(store_url) as (process, client):
        # Sent and being planned: the request is on the wire before the signal is.
        with socket.create_connection(("127.0.0.1", client.base_url.port)) as line:
            text = httpx.Request("POST", client.base_url.join("/v1/plans"), json=hard(seconds=2))
            head = [
                "POST /v1/plans HTTP/1.1",
                f"Host: {client.base_url.netloc.decode()}",
                "Content-Type: application/json",
                f"Content-Length: {len(text.content)}",
                "Connection: close",
            ]
            line.sendall("\r\n".join([*head, "", ""]).encode() + text.content)
            wait_for(lambda: client.get("/v1/runs").json()["items"], bool)
            process.send_signal(signal.SIGTERM)
            line.settimeout(PATIENCE)
            said = b""
            while chunk := line.recv(65536):
                said += chunk
        assert b"201 Created" in said.split(b"\r\n", 1)[0]
        assert process.wait(timeout=PATIENCE) in (0, -signal.SIGTERM)
