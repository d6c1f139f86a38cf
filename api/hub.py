"""One look at the store for all who watch runs, however many they are.

A thousand event streams that each asked the database twice a second would leave it no time for
anything else. The first watcher starts the looking, and with the last one it ends.
"""

from __future__ import annotations

import asyncio
import json
import logging
from collections import Counter
from collections.abc import AsyncGenerator
from dataclasses import dataclass, field

import sqlalchemy as sa
from starlette.concurrency import run_in_threadpool

from api.answers import run_document
from api.store import runs
from api.store.engine import Store
from api.store.runs import ENDED
from api.store.tables import runs as runs_table

LOOK_SECONDS = 0.5
_AT_ONCE = 500  # ids in one question to the database
_log = logging.getLogger(__name__)


@dataclass(slots=True)
class _Seen:
    """What the last look saw: documents as JSON text by run, and whether each has ended."""

    runs: dict[str, tuple[str, bool]] = field(default_factory=dict)


class Hub:
    """Tells watchers of runs what changed; make one per service, in its event loop."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._watched: Counter[str] = Counter()
        self._seen = _Seen()
        self._looked = asyncio.Event()
        self._looking: asyncio.Task[None] | None = None

    async def changes(self, run: str) -> AsyncGenerator[str | None, None]:
        """Yield a run as JSON text whenever it changed, and None when a look saw no change.

        Ends after the run has. While the database is away nothing changes.
        """
        self._watched[run] += 1
        if self._looking is None or self._looking.done():
            self._looked = asyncio.Event()
            self._looking = asyncio.create_task(self._look())
        last = ""
        try:
            while True:
                text, is_over = self._seen.runs.get(run, ("", False))
                yield text if text != last else None
                last = text
                if is_over:
                    return
                await self._looked.wait()
        finally:
            self._watched[run] -= 1
            if not self._watched[run]:
                del self._watched[run]

    async def _look(self) -> None:
        while self._watched:
            try:
                found = await run_in_threadpool(self._read, list(self._watched))
                self._seen = _Seen(runs=found)
            except sa.exc.SQLAlchemyError as fault:
                # The database may come back; the watchers wait with us.
                _log.warning("hub.not_read fault=%s", fault)
            # Whoever waits now is woken; whoever comes later waits for the next look.
            looked, self._looked = self._looked, asyncio.Event()
            looked.set()
            await asyncio.sleep(LOOK_SECONDS)
        self._looking = None
        self._seen = _Seen()

    def _read(self, watched: list[str]) -> dict[str, tuple[str, bool]]:
        found: dict[str, tuple[str, bool]] = {}
        for start in range(0, len(watched), _AT_ONCE):
            some = watched[start : start + _AT_ONCE]
            with self._store.read() as connection:
                rows = connection.execute(sa.select(runs_table).where(runs_table.c.id.in_(some)))
                made = runs.plans_made(connection, some)
                for row in rows:
                    text = json.dumps(run_document(row, made.get(row.id)))
                    found[row.id] = (text, row.state in ENDED)
        return found
