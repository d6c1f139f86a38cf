"""Takes runs from the queue and gives each a process of its own.

A process that dies takes only its own run with it, and that goes back in the queue at once. Any
number of runners, on any number of machines, may share one store.
"""

from __future__ import annotations

import logging
import os
import secrets
import subprocess
import sys
from threading import Event, Thread

import sqlalchemy as sa

from api.store import runs
from api.store.engine import Store
from api.store.runs import Claim
from api.working import STORE_VARIABLE

_log = logging.getLogger(__name__)
IDLE_SECONDS = 0.25  # between two looks at an empty queue
HAND_BACK_SECONDS = 5.0


class Runner:
    """Works on the queue with so many processes at a time; start and stop it once."""

    def __init__(self, store: Store, *, workers: int) -> None:
        self._store = store
        self._stopping = Event()
        self._threads = [Thread(target=self._work, daemon=True) for _ in range(workers)]

    def start(self) -> None:
        """Begin to take runs."""
        for thread in self._threads:
            thread.start()

    def stop(self) -> None:
        """Hand runs under way back to the queue and return when that is done."""
        self._stopping.set()
        for thread in self._threads:
            thread.join()

    def _work(self) -> None:
        owner = f"{os.uname().nodename}:{os.getpid()}:{secrets.token_hex(4)}"
        while not self._stopping.is_set():
            try:
                claim = runs.claim_next(self._store, owner)
            except sa.exc.SQLAlchemyError as fault:
                # The database is away; it may come back.
                _log.warning("queue.not_read fault=%s", fault)
                claim = None
            if claim is None:
                self._stopping.wait(IDLE_SECONDS)
            else:
                self._give(claim)

    def _give(self, claim: Claim) -> None:
        """Start the process and wait for it; put its run back when it died."""
        command = [sys.executable, "-m", "api.working"]
        command += [claim.run, claim.owner, str(claim.attempt)]
        _log.info("run.begun firm=%s run=%s attempt=%d", claim.firm, claim.run, claim.attempt)
        # The URL may hold a password, which has no place among a process's arguments.
        variables = {**os.environ, STORE_VARIABLE: self._store.url}
        process = subprocess.Popen(command, env=variables, stdin=subprocess.DEVNULL)
        while process.poll() is None:
            try:
                process.wait(IDLE_SECONDS)
            except subprocess.TimeoutExpired:
                if self._stopping.is_set():
                    self._call_off(process)
        if process.returncode != 0:
            _log.error("run.worker_died run=%s code=%d", claim.run, process.returncode)
            runs.forsake(self._store, claim)

    @staticmethod
    def _call_off(process: subprocess.Popen[bytes]) -> None:
        process.terminate()
        try:
            process.wait(HAND_BACK_SECONDS)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
