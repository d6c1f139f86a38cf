"""The rack: what lies on it, putting up, correcting, and the ledger behind it."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool

import optimiser as lib
from api.answers import listed, moment
from api.bodies import read_json
from api.callers import Admin, Buyer, Caller, Reader, TheStore
from api.openapi import Routes, body_of
from api.store import ledger, papers
from api.store.engine import Store
from api.store.ledger import Entry, Event, Piece
from api.store.refusals import Missing
from api.words import counted

router = Routes(prefix="/v1", tags=["rack"])
Lines = Annotated[int, Query(ge=1, le=1000, description="How many lines, at most 1000.")]
AfterLine = Annotated[int, Query(ge=0, le=2**53, description="The id of the last line seen.")]


class Correction(BaseModel):
    """What somebody found out about a piece, and why it is so."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={"examples": [{"kind": "scrapped", "why": "split at one end"}]},
    )

    kind: Literal["scrapped", "lost", "found"]
    why: Annotated[str, Field(min_length=1, max_length=500, pattern=r"^[^\x00-\x1f\x7f]+$")]


@router.get("/rack")
def list_rack(
    store: TheStore,
    caller: Reader,
    material: Annotated[str | None, Query(max_length=200)] = None,
    free: Annotated[bool | None, Query(description="Only free pieces, or only held ones.")] = None,
    limit: Lines = 1000,
    after: Annotated[str, Query(max_length=120, description="The label of the last piece.")] = "",
) -> dict[str, Any]:
    """List what is on the rack, by label, each piece with its place and the plan that holds it."""
    with store.read() as connection:
        found = ledger.pieces(connection, caller.firm)
    wanted = [
        piece
        for piece in found
        if piece.label > after
        and material in (None, piece.material)
        and free in (None, piece.held_by is None)
    ]
    following = wanted[limit - 1].label if len(wanted) > limit else None
    return listed([_document(piece) for piece in wanted[:limit]], following)


@router.post("/rack", status_code=201, openapi_extra=body_of("rack"))
async def put_up(
    request: Request,
    store: TheStore,
    caller: Buyer,
    place: Annotated[str, Query(min_length=1, max_length=200)] = "rack",
) -> dict[str, Any]:
    """Put offcuts up under the labels they carry; all of them, or none when one is refused."""
    rack = lib.rack_from_document(read_json(await request.body()), name="body")
    new = [
        Piece(
            label=item.id,
            material=material,
            length=item.length,
            width=None,
            height=None,
            place=place,
        )
        for material, item in rack.lengths
    ]
    new += [
        Piece(
            label=board.id,
            material=material,
            length=None,
            width=board.width,
            height=board.height,
            place=place,
        )
        for material, board in rack.sheets
    ]
    return await run_in_threadpool(_put_up, store, caller, new)


def _put_up(store: Store, caller: Caller, new: list[Piece]) -> dict[str, Any]:
    with store.write() as connection:
        why = Entry(who=caller.who, why="put up by hand")
        racked = ledger.put_up(connection, caller.firm, new, why)
        papers.note(
            connection, caller.firm, caller.who, "put up", counted(len(racked), "offcut", "offcuts")
        )
    return {"racked": [_document(piece) for piece in racked]}


@router.post("/rack/{label}/corrections", status_code=201)
def correct(label: str, correction: Correction, store: TheStore, caller: Buyer) -> dict[str, Any]:
    """Say that a piece was scrapped, lost or found again; the ledger keeps who and why."""
    with store.write() as connection:
        entry = Entry(who=caller.who, why=correction.why)
        ledger.correct(connection, caller.firm, label, correction.kind, entry)
        papers.note(connection, caller.firm, caller.who, correction.kind, label[:200])
        (*_, line) = ledger.events(connection, caller.firm, label=label)
    return _line(line)


@router.get("/rack/{label}/events")
def list_events(label: str, store: TheStore, caller: Reader) -> dict[str, Any]:
    """List all that ever happened to a piece, oldest first."""
    with store.read() as connection:
        lines = ledger.events(connection, caller.firm, label=label)
    if not lines:
        raise Missing("offcut", label)
    return {"items": [_line(line) for line in lines]}


@router.get("/ledger")
def list_ledger(
    store: TheStore, caller: Reader, limit: Lines = 1000, after: AfterLine = 0
) -> dict[str, Any]:
    """List the ledger, oldest first; begin after the last line seen to hear what is new."""
    with store.read() as connection:
        lines = ledger.events(connection, caller.firm, after=after, most=limit)
    return {"items": [_line(line) for line in lines]}


@router.get("/audit", tags=["service"])
def list_audit(
    store: TheStore, caller: Admin, limit: Lines = 1000, after: AfterLine = 0
) -> dict[str, Any]:
    """List who changed what, oldest first."""
    with store.read() as connection:
        rows = papers.audit_lines(connection, caller.firm, after=after, most=limit)
    lines = [
        {
            "id": row.id,
            "at": moment(row.at),
            "who": row.who,
            "action": row.action,
            "thing": row.thing,
        }
        for row in rows
    ]
    return {"items": lines}


def _document(piece: Piece) -> dict[str, Any]:
    return {
        **ledger.piece_document(piece),
        "place": piece.place,
        "held_by": piece.held_by,
        "racked": moment(piece.racked),
    }


def _line(line: Event) -> dict[str, Any]:
    return {
        "id": line.id,
        "offcut": line.label,
        "kind": line.kind,
        "on_rack": line.on_rack,
        "held": line.held,
        "plan": line.plan,
        "who": line.who,
        "at": moment(line.at),
        "why": line.why,
    }
