"""Runs: longer work to look at, to watch, and to stop."""

from __future__ import annotations

import json
from collections.abc import AsyncIterator
from typing import Any, Literal

import sqlalchemy as sa
from fastapi import Request
from fastapi.responses import Response, StreamingResponse
from starlette.concurrency import run_in_threadpool

from api.answers import After, IfNoneMatch, Limit, listed, moment, run_document, tagged_by_content
from api.callers import Planner, Reader, TheStore
from api.hub import Hub
from api.openapi import Routes
from api.store import papers, runs
from api.store.engine import Store
from api.store.tables import batches
from api.store.tables import runs as runs_table

router = Routes(prefix="/v1", tags=["runs"])


@router.get("/runs")
def list_runs(
    store: TheStore,
    caller: Reader,
    state: Literal["queued", "running", "done", "cancelled", "failed"] | None = None,
    limit: Limit = 50,
    after: After = None,
) -> dict[str, Any]:
    """List the firm's runs, newest first."""
    with store.read() as connection:
        rows, following = papers.page(
            connection, runs_table, caller.firm, most=limit, after=after, state=state
        )
        made = runs.plans_made(connection, [row.id for row in rows])
    return listed([run_document(row, made.get(row.id)) for row in rows], following)


@router.get("/runs/{run_id}")
def get_run(
    run_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return a run: its state, best cost and bound so far, layouts and seconds."""
    text = json.dumps(run_document(*run_row(store, caller.firm, run_id)))
    return tagged_by_content(if_none_match, text)


@router.post("/runs/{run_id}/cancel")
def cancel_run(run_id: str, store: TheStore, caller: Planner) -> dict[str, Any]:
    """Stop a run: one under way keeps its best plan, one in the queue ends without."""
    with store.write() as connection:
        runs.cancel(connection, caller.firm, run_id, who=caller.who)
        papers.note(connection, caller.firm, caller.who, "cancel run", run_id)
    return run_document(*run_row(store, caller.firm, run_id))


@router.get(
    "/runs/{run_id}/events",
    response_class=StreamingResponse,
    responses={200: {"content": {"text/event-stream": {}}}},
)
async def watch_run(
    run_id: str, request: Request, store: TheStore, caller: Reader
) -> StreamingResponse:
    """Stream a run's changes as server-sent events, each a whole run, until it has ended."""
    hub: Hub = request.app.state.hub
    if not hub.knows(caller.firm, run_id):
        await run_in_threadpool(run_row, store, caller.firm, run_id)
    return StreamingResponse(_changes(hub, run_id), media_type="text/event-stream")


@router.get("/batches")
def list_batches(
    store: TheStore, caller: Reader, limit: Limit = 50, after: After = None
) -> dict[str, Any]:
    """List the firm's batches, newest first: which jobs were planned together by which run."""
    with store.read() as connection:
        rows, following = papers.page(connection, batches, caller.firm, most=limit, after=after)
    found = [
        {
            "id": row.id,
            "run": row.run,
            "jobs": json.loads(row.jobs),
            "created": moment(row.created),
        }
        for row in rows
    ]
    return listed(found, following)


def run_row(store: Store, firm: str, run: str) -> tuple[sa.Row[Any], str | None]:
    """Return a run's row, and its plan once that is made. Raises Missing."""
    with store.read() as connection:
        row = papers.find_one(connection, runs_table, firm, run)
        return row, runs.plans_made(connection, [run]).get(run)


async def _changes(hub: Hub, run: str) -> AsyncIterator[bytes]:
    async for event in hub.changes(run):
        # A line of comment tells a proxy, and us, that the other end is still there.
        yield b": still here\n\n" if event is None else event
