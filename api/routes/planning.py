"""Asking for plans and checks. Small work is answered at once, longer work gives a run."""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Annotated, Any

import sqlalchemy as sa
from fastapi import Header, Query, Request
from fastapi.responses import JSONResponse, Response
from starlette.concurrency import run_in_threadpool

import optimiser as lib
from api.answers import run_document
from api.bodies import MOST_MERCHANTS, name_of_book, read_batch, read_object, read_pair
from api.callers import Caller, Planner, TheStore
from api.limits import require_within_limits
from api.openapi import Routes, body_of
from api.routes.plans import answer_plan
from api.routes.runs import run_row
from api.store import papers, runs
from api.store.engine import Store
from api.store.hourly import require_seconds_left
from api.store.repeats import known_run
from api.store.runs import Asked
from api.store.tables import jobs, walls
from api.working import work_here

# Work that thinks no longer than this is answered at once.
SHORT_SECONDS = 2.0
RUN_STARTED: dict[int | str, dict[str, Any]] = {
    202: {"description": "Longer work: the run to watch, with its address as Location"}
}

router = Routes(prefix="/v1", tags=["planning"])
UseRack = Annotated[
    bool,
    Query(description="Plan with the firm's rack, hold what is used; the body names no offcuts."),
]
Deadline = Annotated[
    float | None,
    Query(ge=1, le=604_800, description="Seconds from now after which the best plan is kept."),
]
MOST_NAMED = 1000  # kept things in one call, each of which is looked up
IdempotencyKey = Annotated[
    str | None,
    Header(max_length=200, description="Any text of your own: the same call twice is done once."),
]


@router.post(
    "/plans",
    status_code=201,
    responses=RUN_STARTED,
    openapi_extra=body_of("cutting-request"),
)
async def plan_request(
    request: Request,
    store: TheStore,
    caller: Planner,
    use_rack: UseRack = False,
    deadline_seconds: Deadline = None,
    idempotency_key: IdempotencyKey = None,
) -> Response:
    """Plan a cutting request: the checked plan, or a run when it may think over two seconds."""
    body = await request.body()
    return await run_in_threadpool(
        lambda: _plan_request(
            store,
            caller,
            body,
            use_rack=use_rack,
            deadline=deadline_seconds,
            key=idempotency_key,
        )
    )


def _plan_request(
    store: Store,
    caller: Caller,
    body: bytes,
    *,
    use_rack: bool,
    deadline: float | None,
    key: str | None,
) -> Response:
    asked = lib.read_request(body, name="body")
    if use_rack:
        _require_no_offcuts({item.material: item.offcuts for item in asked.materials})
    materials = [material.material for material in asked.materials]
    require_within_limits(
        seconds=asked.seconds,
        materials=len(materials),
        parts=sum(part.quantity for item in asked.materials for part in item.parts),
    )
    return _ask(
        store,
        caller,
        Asked(
            kind="request",
            document=body.decode("utf-8-sig"),
            body_hash=body_hash(body, use_rack, deadline),
            seconds=asked.seconds,
            who=caller.who,
            idempotency_key=key,
            deadline_seconds=deadline,
            materials=materials if use_rack else None,
        ),
    )


def _require_no_offcuts(given: Mapping[str, tuple[object, ...]]) -> None:
    """Refuse offcuts of the body beside those of the firm's rack: only these can be held."""
    remedy = "Leave them out, put them up with POST /v1/rack, or leave use_rack out"
    problems = tuple(
        lib.Problem(f"body.{name}", "names offcuts, and use_rack takes the firm's rack", remedy)
        for name, offcuts in given.items()
        if offcuts
    )
    if problems:
        raise lib.InvalidInput(problems)


@router.post("/batches", status_code=201, responses=RUN_STARTED, openapi_extra=body_of("batch"))
async def plan_jobs(
    request: Request,
    store: TheStore,
    caller: Planner,
    use_rack: UseRack = False,
    deadline_seconds: Deadline = None,
    idempotency_key: IdempotencyKey = None,
) -> Response:
    """Frame walls, plan all jobs together, and work out the order and each job's share.

    Walls as documents or by `wall_ids`, jobs with listed parts as `jobs`, kept jobs with all that
    is theirs by `job_ids`; prices as a document or by the name of a `price_book`, several
    merchants' as `merchants` or `price_books`: the cheapest or two are ordered from.
    """
    body = await request.body()
    return await run_in_threadpool(
        lambda: _plan_jobs(
            store,
            caller,
            body,
            use_rack=use_rack,
            deadline=deadline_seconds,
            key=idempotency_key,
        )
    )


def _plan_jobs(
    store: Store,
    caller: Caller,
    body: bytes,
    *,
    use_rack: bool,
    deadline: float | None,
    key: str | None,
) -> Response:
    hashed = body_hash(body, use_rack, deadline)
    if (known := asked_before(store, caller.firm, key, hashed)) is not None:
        return _answer_run(store, caller.firm, known)
    document = json.dumps(with_kept(store, caller, read_object(body)))
    asked = read_batch(document.encode())
    if use_rack:
        _require_no_offcuts({"rack": (*asked.rack.lengths, *asked.rack.sheets)})
    books = (asked.book, *asked.merchants.others)
    sold = [item.material for book in books for item in book.lengths]
    sold += [item.material for book in books for item in book.sheets]
    materials = list(dict.fromkeys(sold))
    require_within_limits(
        seconds=asked.rules.seconds,
        materials=len(materials),
        walls=len(asked.walls) + len(asked.coming_walls),
        parts=asked.listed,
    )
    return _ask(
        store,
        caller,
        Asked(
            kind="batch",
            document=document,
            body_hash=hashed,
            seconds=asked.rules.seconds,
            who=caller.who,
            idempotency_key=key,
            deadline_seconds=deadline,
            materials=materials if use_rack else None,
            jobs=tuple(dict.fromkeys([*(wall.job for wall in asked.walls), *asked.dates])),
        ),
    )


def with_kept(store: Store, caller: Caller, document: dict[str, Any]) -> dict[str, Any]:
    """Put kept walls, jobs and prices in the place of their names.

    Raises Missing for what the firm has not, InvalidInput for names that cannot be any and for
    prices that are given twice: nothing that was named is left out unsaid.
    """
    changed = dict(document)
    firm = caller.firm
    today = datetime.now(UTC).date().isoformat()
    with store.read() as connection:
        if (ids := _names_in(changed, "wall_ids")) is not None:
            rows = [papers.find_one(connection, walls, firm, id_) for id_ in ids]
            _require_once(rows, changed)
            found = [json.loads(row.document) for row in rows]
            changed["walls"] = [*_listed_in(changed, "walls"), *found]
        of_jobs = _names_in(changed, "job_ids")
        if of_jobs is not None:
            _add_jobs(connection, firm, of_jobs, changed)
        if (to_come := _names_in(changed, "coming_job_ids")) is not None:
            _add_coming(connection, firm, to_come, of_jobs or [], changed)
        if "price_book" in changed:
            row = papers.price_book_on(connection, firm, name_of_book(changed), today)
            changed["prices"] = json.loads(row.document)
        if (names := _names_in(changed, "price_books", most=MOST_MERCHANTS)) is not None:
            books = [papers.price_book_on(connection, firm, name, today) for name in names]
            among = _listed_in(changed, "merchants")
            changed["merchants"] = [*among, *(json.loads(row.document) for row in books)]
    return changed


def _require_once(named: list[sa.Row[Any]], document: dict[str, Any]) -> None:
    """Raise InvalidInput for a kept wall that a body names twice, by its job as well."""
    counts = Counter(row.id for row in named)
    for field in ("job_ids", "coming_job_ids"):
        of_jobs = document.get(field)
        whole = of_jobs if isinstance(of_jobs, list) else []
        counts.update(row.id for row in named if row.job in whole)
    twice = [id_ for id_, count in counts.items() if count > 1]
    if twice:
        trouble = f"names {twice[0]} twice, or its job is named as well"
        remedy = "Name each wall once, by its id or by its job"
        raise lib.InvalidInput((lib.Problem("body.wall_ids", trouble, remedy),))


def _names_in(document: dict[str, Any], field: str, most: int = MOST_NAMED) -> list[str] | None:
    """Take a list of names or ids out of a body; None where it has none. Raises InvalidInput."""
    if field not in document:
        return None
    given = document.pop(field)
    if not isinstance(given, list) or not all(isinstance(name, str) for name in given):
        trouble, remedy = "is not a list of texts", "Give a list, or leave it out"
        raise lib.InvalidInput((lib.Problem(f"body.{field}", trouble, remedy),))
    if len(given) > most:
        trouble = f"names {len(given)}, and {most} is the most"
        raise lib.InvalidInput((lib.Problem(f"body.{field}", trouble, "Split the call"),))
    return given


def _add_jobs(
    connection: sa.Connection,
    firm: str,
    ids: list[str],
    document: dict[str, Any],
    field: str = "job_ids",
) -> None:
    """Add the walls and the listed parts of kept jobs to a batch. Raises Missing or InvalidInput.

    A wall gives its job's client and date where it has none of its own.
    """
    found, listed = _listed_in(document, "walls"), _listed_in(document, "jobs")
    for id_ in dict.fromkeys(ids):
        job = json.loads(papers.find_one(connection, jobs, firm, id_).document)
        built = papers.walls_of(connection, firm, id_)
        for wall in built:
            about = {key: job[key] for key in ("client", "needed") if job.get(key)}
            found.append({**about, **wall})
        if job.get("parts"):
            listed.append(job)
        elif not built:
            trouble, remedy = (
                f"job {job['name']!r} has no parts yet",
                "Give it a wall or a part list",
            )
            raise lib.InvalidInput((lib.Problem(field, trouble, remedy),))
    document["walls"] = found
    if listed:
        document["jobs"] = listed


def _add_coming(
    connection: sa.Connection, firm: str, ids: list[str], now: list[str], document: dict[str, Any]
) -> None:
    """Add kept jobs as parts to come. Raises InvalidInput for those that are planned now."""
    both = [id_ for id_ in ids if id_ in now]
    if both:
        trouble, remedy = f"names {both[0]}, which is planned now", "Leave it to job_ids"
        raise lib.InvalidInput((lib.Problem("coming_job_ids", trouble, remedy),))
    given = document.get("coming", {})
    # What is no object is refused with the rest of the body.
    coming = dict(given) if isinstance(given, dict) else {}
    _add_jobs(connection, firm, ids, coming, "coming_job_ids")
    document["coming"] = coming if isinstance(given, dict) else given


def _listed_in(document: dict[str, Any], name: str) -> list[Any]:
    """Return a list of a body, to be added to. Raises InvalidInput when it is none."""
    given = document.get(name, [])
    if not isinstance(given, list):
        trouble = "is not a list"
        raise lib.InvalidInput((lib.Problem(f"body.{name}", trouble, "Give a list, or none"),))
    return list(given)


@router.post("/checks", openapi_extra=body_of("check"))
async def check(request: Request, caller: Planner) -> dict[str, Any]:
    """Check any plan against its request; lists every fault."""
    del caller
    asked, plan = read_pair(await request.body())
    faults = await run_in_threadpool(lib.check_plan, asked, plan)
    return {
        "sound": not faults,
        "faults": [{"where": fault.where, "what": fault.what} for fault in faults],
    }


def _ask(store: Store, caller: Caller, asked: Asked) -> Response:
    """Write the run down; work on it here when it is short, else leave it to the runners."""
    is_short = asked.seconds <= SHORT_SECONDS
    with store.write() as connection:
        require_seconds_left(
            connection,
            caller.firm,
            asked.seconds,
            store.hourly,
            key=asked.idempotency_key,
            body=asked.body_hash,
        )
        run, claim = runs.ask(connection, caller.firm, asked, owner="service" if is_short else None)
        papers.note(connection, caller.firm, caller.who, f"ask {asked.kind}", run)
    if claim is not None:
        work_here(store, claim)
    return _answer_run(store, caller.firm, run)


def asked_before(store: Store, firm: str, key: str | None, hashed: str) -> str | None:
    """Return the run that the same call made before; what it named may be gone by now.

    Raises Conflict when the key came with another content.
    """
    if key is None:
        return None
    with store.read() as connection:
        return known_run(connection, firm, key, hashed)


def _answer_run(store: Store, firm: str, run: str) -> Response:
    row, plan = run_row(store, firm, run)
    if plan is not None:
        return answer_plan(store, firm, plan, status=201)
    return JSONResponse(
        run_document(row, None), status_code=202, headers={"Location": f"/v1/runs/{run}"}
    )


def body_hash(body: bytes, *also: object) -> str:
    """Return what tells two calls with one idempotency key apart."""
    return hashlib.sha256(repr(also).encode() + body).hexdigest()
