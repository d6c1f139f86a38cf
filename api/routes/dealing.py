"""Jobs dealt to deliveries: at once where that is short, else as a run with a result of its own."""

from __future__ import annotations

import json
from datetime import UTC, datetime

from fastapi import Request
from fastapi.responses import JSONResponse, Response
from starlette.concurrency import run_in_threadpool

from api.answers import IfNoneMatch, run_document, tagged
from api.bodies import read_object
from api.callers import Caller, Planner, Reader, TheStore
from api.dealing import read_deal
from api.limits import require_within_limits
from api.openapi import Routes, body_of
from api.routes.planning import (
    RUN_STARTED,
    SHORT_SECONDS,
    Deadline,
    IdempotencyKey,
    asked_before,
    body_hash,
    with_kept,
)
from api.routes.runs import run_row
from api.store import papers, results, runs
from api.store.engine import Store
from api.store.hourly import require_seconds_left
from api.store.runs import WITHOUT_PLAN, Asked
from api.working import work_here

router = Routes(prefix="/v1", tags=["planning"])


@router.post("/deliveries", status_code=201, responses=RUN_STARTED, openapi_extra=body_of("deal"))
async def deal_jobs(
    request: Request,
    store: TheStore,
    caller: Planner,
    deadline_seconds: Deadline = None,
    idempotency_key: IdempotencyKey = None,
) -> Response:
    """Say which jobs to buy and bring together, and when, so that stock and deliveries cost least.

    Jobs and prices as in a batch; `terms` is what the merchant asks of a delivery, and may give
    jobs the days on which they are needed.
    """
    body = await request.body()
    return await run_in_threadpool(
        lambda: _deal(store, caller, body, deadline=deadline_seconds, key=idempotency_key)
    )


@router.get("/deliveries/{run_id}")
def get_dealt_jobs(
    run_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return the deliveries that a run found."""
    with store.read() as connection:
        result = results.of_run(connection, caller.firm, run_id)
    return tagged(if_none_match, run_id, lambda: _text(run_id, result))


def _deal(
    store: Store, caller: Caller, body: bytes, *, deadline: float | None, key: str | None
) -> Response:
    hashed = body_hash(body, "deliveries", deadline)
    if (known := asked_before(store, caller.firm, key, hashed)) is not None:
        return _answer(store, caller.firm, known)
    given = read_object(body)
    # Said here, so that a run that waits past midnight means the day on which it was asked.
    given.setdefault("today", datetime.now(UTC).date().isoformat())
    document = json.dumps(with_kept(store, caller, given))
    asked = read_deal(document.encode())
    seconds = asked.jobs.rules.seconds
    book = asked.jobs.book
    require_within_limits(
        seconds=seconds,
        materials=len(book.lengths) + len(book.sheets),
        walls=len(asked.jobs.walls),
        parts=asked.jobs.listed,
    )
    work = Asked(
        kind=WITHOUT_PLAN,
        document=document,
        body_hash=hashed,
        seconds=seconds,
        who=caller.who,
        idempotency_key=key,
        deadline_seconds=deadline,
    )
    owner = "service" if seconds <= SHORT_SECONDS else None
    with store.write() as connection:
        require_seconds_left(
            connection,
            caller.firm,
            work.seconds,
            store.hourly,
            key=work.idempotency_key,
            body=work.body_hash,
        )
        run, claim = runs.ask(connection, caller.firm, work, owner=owner)
        papers.note(connection, caller.firm, caller.who, "ask deliveries", run)
    if claim is not None:
        work_here(store, claim)
    return _answer(store, caller.firm, run)


def _answer(store: Store, firm: str, run: str) -> Response:
    row, plan = run_row(store, firm, run)
    if row.result is not None:
        headers = {"Location": f"/v1/deliveries/{run}"}
        text = _text(run, row.result)
        return Response(text, status_code=201, media_type="application/json", headers=headers)
    return JSONResponse(
        run_document(row, plan), status_code=202, headers={"Location": f"/v1/runs/{run}"}
    )


def _text(run: str, result: str) -> str:
    return f'{{"id": {json.dumps(run)}, {result[1:]}'
