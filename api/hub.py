"""One look at the store for all who watch runs, however many they are, told at a bearable pace.

A thousand event streams that each asked the database twice a second would leave it no time for
anything else. The first watcher starts the looking, and with the last one it ends. What a look saw
is written once for all, and watchers are let in and told a few at a time, so that other calls get
their turn in between; who is told late hears the newest, and nothing of what was in between.
"""

from __future__ import annotations

import asyncio
import json
import logging
import time
from collections.abc import AsyncGenerator, Sequence
from dataclasses import dataclass, field

import sqlalchemy as sa
from starlette.concurrency import run_in_threadpool
from starlette.types import ASGIApp, Receive, Scope, Send

from api.answers import run_document
from api.store import runs
from api.store.engine import Store
from api.store.runs import ENDED
from api.store.tables import runs as runs_table

LOOK_SECONDS = 0.5
# So many are told at a time, with a pause after them: at most some 2,000 events a second.
TOLD_AT_ONCE = 20
PAUSE_SECONDS = 0.01
# After a restart all watchers come back at once: so many are let in at a time, with the same pause.
LET_IN_AT_ONCE = 5
# Who heard nothing for so long is sent a sign that we are still there.
QUIET_SECONDS = 15.0
_AT_ONCE = 500  # ids in one question to the database
_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class _Seen:
    """A run as the last look saw it: whose, the event as it is sent, whether that is the last."""

    firm: str
    event: bytes
    is_over: bool


@dataclass(slots=True, eq=False)
class _Watcher:
    run: str
    told: float
    last: bytes | None = None
    woken: asyncio.Event = field(default_factory=asyncio.Event)


class Hub:
    """Tells watchers of runs what changed; make one per service, in its event loop."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._watchers: set[_Watcher] = set()
        self._seen: dict[str, _Seen] = {}
        self._looking: asyncio.Task[None] | None = None

    def knows(self, firm: str, run: str) -> bool:
        """Return whether the last look saw this run as the firm's; False says nothing.

        A run stays with its firm and is never removed, so nobody need ask the store again.
        """
        seen = self._seen.get(run)
        return seen is not None and seen.firm == firm

    async def changes(self, run: str) -> AsyncGenerator[bytes | None, None]:
        """Yield a run as a server-sent event whenever it changed, and None after a long quiet.

        Ends after the run has. While the database is away nothing changes.
        """
        watcher = _Watcher(run=run, told=time.monotonic())
        self._watchers.add(watcher)
        if self._looking is None or self._looking.done():
            self._looking = asyncio.create_task(self._look())
        try:
            while True:
                seen = self._seen.get(run)
                if seen is not None and seen.event != watcher.last:
                    watcher.last = seen.event
                    watcher.told = time.monotonic()
                    yield seen.event
                elif watcher.woken.is_set():
                    watcher.told = time.monotonic()
                    yield None
                if seen is not None and seen.is_over:
                    return
                watcher.woken.clear()
                await watcher.woken.wait()
        finally:
            self._watchers.discard(watcher)

    async def _look(self) -> None:
        while self._watchers:
            try:
                watched = sorted({watcher.run for watcher in self._watchers})
                self._seen = await run_in_threadpool(self._read, watched)
            except sa.exc.SQLAlchemyError as fault:
                # The database may come back; the watchers wait with us.
                _log.warning("hub.not_read fault=%s", fault)
            at = time.monotonic()
            await self._wake([watcher for watcher in self._watchers if self._is_due(watcher, at)])
            await asyncio.sleep(LOOK_SECONDS)
        self._looking = None
        self._seen = {}

    def _is_due(self, watcher: _Watcher, at: float) -> bool:
        seen = self._seen.get(watcher.run)
        changed = seen is not None and seen.event != watcher.last
        return changed or at - watcher.told >= QUIET_SECONDS

    @staticmethod
    async def _wake(due: Sequence[_Watcher]) -> None:
        for start in range(0, len(due), TOLD_AT_ONCE):
            for watcher in due[start : start + TOLD_AT_ONCE]:
                watcher.woken.set()
            if start + TOLD_AT_ONCE < len(due):
                await asyncio.sleep(PAUSE_SECONDS)

    def _read(self, watched: list[str]) -> dict[str, _Seen]:
        found: dict[str, _Seen] = {}
        for start in range(0, len(watched), _AT_ONCE):
            some = watched[start : start + _AT_ONCE]
            with self._store.read() as connection:
                rows = connection.execute(sa.select(runs_table).where(runs_table.c.id.in_(some)))
                made = runs.plans_made(connection, some)
                for row in rows:
                    text = json.dumps(run_document(row, made.get(row.id)))
                    event = f"event: run\ndata: {text}\n\n".encode()
                    found[row.id] = _Seen(firm=row.firm, event=event, is_over=row.state in ENDED)
        return found


class Door:
    """ASGI middleware before all others: who wants to watch a run is let in by turns."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app
        self._turns = asyncio.Lock()
        self._let_in = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, an event stream's once it has its turn."""
        if scope["type"] == "http" and _is_stream(scope["path"]):
            async with self._turns:
                self._let_in += 1
                if self._let_in % LET_IN_AT_ONCE == 0:
                    await asyncio.sleep(PAUSE_SECONDS)
        await self._app(scope, receive, send)


def _is_stream(path: str) -> bool:
    return path.startswith("/v1/runs/") and path.endswith("/events")
