"""The service in a process of its own, as a user starts it, and what can be seen of it."""

from __future__ import annotations

import http.client
import os
import socket
import statistics
import subprocess
import sys
import time
from pathlib import Path

import httpx

ROOT = Path(__file__).parents[2]
_NOT_PASSED_ON = {"PYTHONDONTWRITEBYTECODE"}


class Served:
    """A service, started as a user starts it; use as a context.

    `address`: None serves this machine alone on loopback, without keys. Another one is served to
    others, each with a key, which `key` then holds.
    """

    def __init__(self, store: str, workers: int, address: str | None = None) -> None:
        host = address or "127.0.0.1"
        with socket.socket() as free:
            free.bind((host, 0))
            self.port = free.getsockname()[1]
        self._store, self._host = store, host
        self._command = [sys.executable, "-m", "api.cli", "serve", "--port", str(self.port)]
        self._command += ["--host", host, "--store", store, "--workers", str(workers)]
        self._command += ["--serve-public"] if address else []
        # As on a user's machine: compiled modules are kept, whatever the shell of this one says.
        kept = {name: said for name, said in os.environ.items() if name not in _NOT_PASSED_ON}
        self._environment = {**kept, "SCANTLING_RATE": "100000"}
        self._is_public = address is not None
        self.url = f"http://{host}:{self.port}"
        self.headers: dict[str, str] = {}
        self.started = 0.0

    def __enter__(self) -> Served:
        began = time.perf_counter()
        self.process = subprocess.Popen(
            self._command, cwd=ROOT, stderr=subprocess.DEVNULL, env=self._environment
        )
        while True:
            if self._is_ready():
                break
            if self.process.poll() is not None:
                raise SystemExit(f"the service ended: {' '.join(self._command)}")
            time.sleep(0.005)
        self.started = time.perf_counter() - began
        if self._is_public:
            made = [sys.executable, "-m", "api.cli", "keys", "create", "--store", self._store]
            made += ["--firm", "Bench", "--name", "bench", "--roles", "read,plan,order"]
            said = subprocess.run(made, cwd=ROOT, check=True, capture_output=True, text=True)
            key = next(word for word in said.stdout.split() if len(word) > 30)
            self.headers = {"Authorization": f"Bearer {key}"}
        return self

    def _is_ready(self) -> bool:
        # A full client library would take as long to be made as the question takes.
        connection = http.client.HTTPConnection(self._host, self.port)
        try:
            connection.request("GET", "/ready")
            return connection.getresponse().status == 200
        except OSError:
            return False
        finally:
            connection.close()

    def __exit__(self, *_: object) -> None:
        self.process.terminate()
        self.process.wait()

    def client(self) -> httpx.Client:
        """Return a client of the service."""
        return httpx.Client(base_url=self.url, headers=self.headers, timeout=60)

    def memory(self) -> int:
        """Return the resident memory of the service itself, in kB."""
        text = Path(f"/proc/{self.process.pid}/status").read_text(encoding="ascii")
        return int(text.split("VmRSS:")[1].split()[0])

    def files(self) -> int:
        """Return how many files and sockets the service has open."""
        return len(os.listdir(f"/proc/{self.process.pid}/fd"))

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
