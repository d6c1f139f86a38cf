"""Jobs, walls and price books, kept until they are planned."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Annotated, Any

import sqlalchemy as sa
from fastapi import Query, Request
from fastapi.responses import JSONResponse, Response
from pydantic import Base64Bytes, BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool

import optimiser as lib
from api.answers import (
    After,
    IfMatch,
    IfNoneMatch,
    Limit,
    etag,
    listed,
    moment,
    money,
    tagged,
    version_from,
)
from api.bodies import parts_of_job, read_object
from api.callers import Buyer, Caller, Planner, Reader, TheStore
from api.limits import require_within_limits
from api.openapi import Routes, body_of
from api.store import papers, progress
from api.store.engine import Store
from api.store.tables import jobs, price_books, walls

router = Routes(prefix="/v1", tags=["jobs and prices"])
_Line = Annotated[str, Field(max_length=200, pattern=r"^[^\x00-\x1f\x7f]*$")]


class JobBody(BaseModel):
    """A job: its name is what its walls call it."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={
            "examples": [{"name": "A", "client": "Demo Client", "needed": "2026-12-01"}]
        },
    )

    name: Annotated[str, Field(min_length=1, max_length=120, pattern=r"^[^\x00-\x1f\x7f]+$")]
    client: _Line = ""
    needed: _Line = ""
    notes: Annotated[str, Field(max_length=5000, pattern=r"^[^\x00]*$")] = ""
    parts: Annotated[
        dict[str, Any] | None, Field(description="Listed parts: lengths and boards, each a list.")
    ] = None

    def document(self) -> dict[str, Any]:
        """Return what is kept of it. Raises InvalidInput for parts that cannot be."""
        if self.parts is None:
            return self.model_dump(exclude={"parts"})
        parts = parts_of_job(self.parts, self.name, name="body.parts")
        return {**self.model_dump(), "parts": lib.part_list_document(parts)}


class ListBody(BaseModel):
    """A part list as a file, for one job; a column of the list may name others."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={
            "examples": [
                {
                    "name": "parts.csv",
                    "job": "shelves",
                    "content": "bWFyayxtYXRlcmlhbCxsZW5ndGhfbW0KVTEsYzE2LTM4eDYzLDkwMAo=",
                }
            ]
        },
    )

    name: Annotated[str, Field(min_length=1, max_length=200, pattern=r"^[^\x00-\x1f\x7f]+$")]
    job: Annotated[str, Field(min_length=1, max_length=120, pattern=r"^[^\x00-\x1f\x7f]+$")]
    client: _Line = ""
    needed: _Line = ""
    content: Annotated[Base64Bytes, Field(description="The file, CSV or XLSX, in Base64.")]


@router.get("/jobs")
def list_jobs(
    store: TheStore,
    caller: Reader,
    name: Annotated[str | None, Query(max_length=120)] = None,
    limit: Limit = 50,
    after: After = None,
) -> dict[str, Any]:
    """List the firm's jobs, newest first, each with how far it has come and its share of a plan."""
    with store.read() as connection:
        rows, following = papers.page(
            connection, jobs, caller.firm, most=limit, after=after, name=name
        )
        come = progress.of_jobs(connection, caller.firm, rows)
    return listed([_come(row, come[row.id]) for row in rows], following)


@router.post("/part-lists", status_code=201)
def keep_part_list(body: ListBody, store: TheStore, caller: Planner) -> dict[str, Any]:
    """Keep the parts of a file under their jobs; all of them, or none when a cell is wrong."""
    parts = lib.read_part_list(body.content, name=body.name, job=body.job)
    named = [part.job for _, part in parts.lengths] + [part.job for _, part in parts.boards]
    if not named:
        raise lib.InvalidInput((lib.Problem(body.name, "lists no parts", "Give at least one row"),))
    require_within_limits(parts=len(named))
    made = []
    with store.write() as connection:
        for name in dict.fromkeys(named):
            own = replace(
                parts,
                lengths=tuple(pair for pair in parts.lengths if pair[1].job == name),
                boards=tuple(pair for pair in parts.boards if pair[1].job == name),
            )
            document = {
                "client": body.client,
                "needed": body.needed,
                "parts": lib.part_list_document(own),
            }
            id_ = papers.list_parts(connection, caller.firm, name, document)
            papers.note(connection, caller.firm, caller.who, "list parts", id_)
            made.append({"id": id_, "name": name})
    return {"jobs": made}


@router.post("/jobs", status_code=201)
def add_job(body: JobBody, store: TheStore, caller: Planner) -> Response:
    """Write a new job down."""
    document = body.document()
    with store.write() as connection:
        id_ = papers.add_job(connection, caller.firm, body.name, document)
        papers.note(connection, caller.firm, caller.who, "add job", id_)
    return _answer(store, caller.firm, jobs, id_, status=201)


@router.get("/jobs/{job_id}")
def get_job(
    job_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return a job, with its version as ETag."""
    return _tagged(if_none_match, store, caller.firm, jobs, job_id)


@router.put("/jobs/{job_id}")
def change_job(
    job_id: str, body: JobBody, store: TheStore, caller: Planner, if_match: IfMatch = None
) -> Response:
    """Write a job anew; with If-Match only when nobody else did meanwhile."""
    version = version_from(if_match)
    document = body.document()
    with store.write() as connection:
        papers.change_job(connection, caller.firm, job_id, body.name, document, version)
        papers.note(connection, caller.firm, caller.who, "change job", job_id)
    return _answer(store, caller.firm, jobs, job_id)


@router.get("/walls")
def list_walls(
    store: TheStore,
    caller: Reader,
    job: Annotated[str | None, Query(max_length=60, description="The id of a job.")] = None,
    limit: Limit = 50,
    after: After = None,
) -> dict[str, Any]:
    """List the firm's walls, newest first."""
    with store.read() as connection:
        rows, following = papers.page(
            connection, walls, caller.firm, most=limit, after=after, job=job
        )
    return listed([_kept(row, "wall") for row in rows], following)


@router.post("/walls", status_code=201, openapi_extra=body_of("wall"))
async def add_wall(request: Request, store: TheStore, caller: Planner) -> Response:
    """Write a wall down, under the job it names."""
    body = await request.body()

    def add() -> Response:
        document = read_object(body)
        wall = lib.wall_from_document(document, name="body")
        with store.write() as connection:
            id_ = papers.add_wall(connection, caller.firm, wall.job, document)
            papers.note(connection, caller.firm, caller.who, "add wall", id_)
        return _answer(store, caller.firm, walls, id_, status=201)

    return await run_in_threadpool(add)


@router.get("/walls/{wall_id}")
def get_wall(
    wall_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return a wall, with its version as ETag."""
    return _tagged(if_none_match, store, caller.firm, walls, wall_id)


@router.put("/walls/{wall_id}", openapi_extra=body_of("wall"))
async def change_wall(
    wall_id: str, request: Request, store: TheStore, caller: Planner, if_match: IfMatch = None
) -> Response:
    """Write a wall anew; with If-Match only when nobody else did meanwhile."""
    body = await request.body()
    return await run_in_threadpool(_change_wall, store, caller, wall_id, body, if_match)


def _change_wall(
    store: Store, caller: Caller, id_: str, body: bytes, if_match: str | None
) -> Response:
    version = version_from(if_match)
    document = read_object(body)
    wall = lib.wall_from_document(document, name="body")
    with store.write() as connection:
        papers.change_wall(connection, caller.firm, id_, wall.job, document, version)
        papers.note(connection, caller.firm, caller.who, "change wall", id_)
    return _answer(store, caller.firm, walls, id_)


@router.delete("/walls/{wall_id}", status_code=204)
def remove_wall(
    wall_id: str, store: TheStore, caller: Planner, if_match: IfMatch = None
) -> Response:
    """Remove a wall; plans made of it keep their own copy."""
    version = version_from(if_match)
    with store.write() as connection:
        papers.remove_wall(connection, caller.firm, wall_id, version)
        papers.note(connection, caller.firm, caller.who, "remove wall", wall_id)
    return Response(status_code=204)


@router.get("/price-books")
def list_price_books(
    store: TheStore,
    caller: Reader,
    name: Annotated[str | None, Query(max_length=200)] = None,
    limit: Limit = 50,
    after: After = None,
) -> dict[str, Any]:
    """List all versions of all price books, newest first."""
    with store.read() as connection:
        rows, following = papers.page(
            connection, price_books, caller.firm, most=limit, after=after, name=name
        )
    return listed([_book(row) for row in rows], following)


@router.put("/price-books/{name}", status_code=201, openapi_extra=body_of("price-book"))
async def add_price_book(
    name: str,
    request: Request,
    store: TheStore,
    caller: Buyer,
    valid_from: date | None = None,
    if_match: IfMatch = None,
) -> Response:
    """Add a version of a price book, which holds from a day on (today when none is given).

    With If-Match only when nobody else added one meanwhile.
    """
    body = await request.body()
    first = (valid_from or datetime.now(UTC).date()).isoformat()
    return await run_in_threadpool(_add_price_book, store, caller, name, first, body, if_match)


def _add_price_book(
    store: Store, caller: Caller, name: str, first: str, body: bytes, if_match: str | None
) -> Response:
    known = version_from(if_match)
    papers.require_book_name(name)
    document = read_object(body)
    lib.price_book_from_document(document, name="body")
    with store.write() as connection:
        version = papers.add_price_book(connection, caller.firm, name, first, document, known=known)
        papers.note(connection, caller.firm, caller.who, "add prices", f"{name} {version}"[-200:])
    answer = {"name": name, "version": version, "valid_from": first}
    return JSONResponse(answer, status_code=201, headers=etag(version))


@router.get("/price-books/{name}")
def get_price_book(
    name: str,
    store: TheStore,
    caller: Reader,
    on: date | None = None,
    if_none_match: IfNoneMatch = None,
) -> Response:
    """Return the version of a price book that holds on a day (today when none is given).

    Its ETag serves to add the next version, when it is the newest.
    """
    day = (on or datetime.now(UTC).date()).isoformat()
    with store.read() as connection:
        row = papers.price_book_on(connection, caller.firm, name, day)
    book = {**_book(row), "prices": json.loads(row.document)}
    return tagged(if_none_match, row.version, lambda: json.dumps(book))


def _kept(row: sa.Row[Any], kind: str) -> dict[str, Any]:
    document = {
        "id": row.id,
        "version": row.version,
        "created": moment(row.created),
        "changed": moment(row.changed),
        kind: json.loads(row.document),
    }
    return document if kind == "job" else {**document, "job": row.job}


def _come(row: sa.Row[Any], come: progress.Come) -> dict[str, Any]:
    """Write a job for a list: its parts counted, as there can be thousands."""
    document = _kept(row, "job")
    parts = document["job"].pop("parts", None) or {}
    counted = sum(part["quantity"] for kind in parts.values() for part in kind)
    return {
        **document,
        "needed": document["job"].get("needed") or come.needed,
        "client": document["job"].get("client") or come.client,
        "walls": list(come.walls),
        "listed_parts": counted,
        "state": "no parts" if come.state == "new" and not (come.walls or counted) else come.state,
        "plan": come.plan,
        "share": money(come.share),
    }


def _book(row: sa.Row[Any]) -> dict[str, Any]:
    return {
        "id": row.id,
        "name": row.name,
        "version": row.version,
        "valid_from": row.valid_from,
        "created": moment(row.created),
    }


def _answer(store: Store, firm: str, table: sa.Table, id_: str, *, status: int = 200) -> Response:
    with store.read() as connection:
        row = papers.find_one(connection, table, firm, id_)
    kind = table.name.removesuffix("s")
    headers = {**etag(row.version), "Location": f"/v1/{table.name}/{id_}"}
    return JSONResponse(_kept(row, kind), status_code=status, headers=headers)


def _tagged(
    if_none_match: str | None, store: Store, firm: str, table: sa.Table, id_: str
) -> Response:
    with store.read() as connection:
        row = papers.find_one(connection, table, firm, id_)
    kind = table.name.removesuffix("s")
    return tagged(if_none_match, row.version, lambda: json.dumps(_kept(row, kind)))
