"""Takes runs from the queue and gives each a process of its own.

A process that dies takes only its own run with it, and that goes back in the queue at once. Any
number of runners, on any number of machines, may share one store. Where the system can, a run's
process is forked from one that has loaded all code already and done nothing else (decision 024).
"""

from __future__ import annotations

import logging
import multiprocessing
import os
import secrets
from multiprocessing.process import BaseProcess
from threading import Event, Thread

import sqlalchemy as sa

from api.store import runs
from api.store.engine import Store
from api.store.runs import Claim
from api.working import main

_log = logging.getLogger(__name__)
IDLE_SECONDS = 0.25  # between two looks at an empty queue
HAND_BACK_SECONDS = 5.0
NO_ROOM_SECONDS = 5.0  # after a process could not be started


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
        _log.info("run.begun firm=%s run=%s attempt=%d", claim.firm, claim.run, claim.attempt)
        asked = (self._store.url, claim.run, claim.owner, claim.attempt)
        process = _process(asked)
        try:
            process.start()
        except OSError as fault:
            # The machine has no room for one more; it may soon, and so may another machine.
            _log.error("run.not_begun run=%s fault=%s", claim.run, fault)
            self._hand_back(claim)
            self._stopping.wait(NO_ROOM_SECONDS)
            return
        while (code := process.exitcode) is None:
            process.join(IDLE_SECONDS)
            if self._stopping.is_set():
                self._call_off(process)
        process.close()
        if code != 0:
            _log.error("run.worker_died run=%s code=%d", claim.run, code)
            self._forsake(claim)

    def _hand_back(self, claim: Claim) -> None:
        """Put a run back that nobody began; while the database is away its lease runs out."""
        try:
            runs.hand_back(self._store, claim)
        except sa.exc.SQLAlchemyError as fault:
            _log.warning("run.not_handed_back run=%s fault=%s", claim.run, fault)

    def _forsake(self, claim: Claim) -> None:
        """Give a dead worker's run back; while the database is away its lease runs out instead."""
        try:
            runs.forsake(self._store, claim)
        except sa.exc.SQLAlchemyError as fault:
            _log.warning("run.not_forsaken run=%s fault=%s", claim.run, fault)

    @staticmethod
    def _call_off(process: BaseProcess) -> None:
        """Tell a process to hand its run back; one that has ended already is left as it is."""
        process.terminate()
        process.join(HAND_BACK_SECONDS)
        if process.exitcode is None:
            process.kill()
            process.join()


def _process(asked: tuple[str, str, str, int]) -> BaseProcess:
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn").Process(target=main, args=asked)
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["api.loaded"])
    return context.Process(target=main, args=asked)
