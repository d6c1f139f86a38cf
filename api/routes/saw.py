"""At the saw: what to cut, ticks as they come in, and a new plan after a mishap."""

from __future__ import annotations

import hashlib
import json
from typing import Annotated, Any, Literal

import sqlalchemy as sa
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field, model_validator

import optimiser as lib
from api import ticks as ticking
from api.answers import IfNoneMatch, moment, run_document, tagged
from api.callers import Planner, Reader, TheStore
from api.limits import require_within_limits
from api.openapi import Routes
from api.receiving import one_size
from api.replanning import read_plan, rest_of
from api.routes.planning import RUN_STARTED, SHORT_SECONDS, IdempotencyKey
from api.routes.plans import answer_plan, made_plan
from api.routes.runs import run_row
from api.store import papers, plans, runs, ticks
from api.store.engine import Store, lock_firm
from api.store.repeats import known_run
from api.working import work_here

router = Routes(prefix="/v1", tags=["at the saw"])
_Name = Annotated[str, Field(min_length=1, max_length=64, pattern=r"^[A-Za-z0-9_.:-]+$")]
_Count = Annotated[int, Field(ge=1, le=100_000)]
_Size = Annotated[float | None, Field(gt=0, le=100_000)]


# What ticks of one kind alone speak of.
_ONLY = {
    "cut": ("cut",),
    "spoiled": ("part",),
    "undo": ("undoes",),
    "floor": ("length_mm", "width_mm", "height_mm"),
}


class Tick(BaseModel):
    """One thing that happened to one piece, under a name that its phone made up.

    "cut": cut number `cut` is made; "done": the whole piece is cut; "spoiled": part number `part`
    of the layout came off and is no use; "damaged", "short": it came damaged, or not at all;
    "floor": another piece of this material lies there; "undo" takes back the tick `undoes`.
    """

    model_config = ConfigDict(extra="forbid")

    tick: _Name
    phone: _Name
    kind: Literal["cut", "done", "spoiled", "damaged", "short", "floor", "undo"]
    material: Annotated[str, Field(max_length=200)] = ""
    layout: _Count = 1
    piece: _Count = 1
    cut: _Count | None = None
    part: _Count | None = None
    undoes: _Name | None = None
    length_mm: _Size = None
    width_mm: _Size = None
    height_mm: _Size = None
    at: Annotated[str | None, Field(max_length=40)] = None

    @model_validator(mode="after")
    def _is_whole(self) -> Tick:
        needed = {"cut": "cut", "spoiled": "part", "undo": "undoes"}.get(self.kind)
        if needed and getattr(self, needed) is None:
            raise ValueError(f"a tick of kind {self.kind!r} needs {needed!r}")
        for kind, fields in _ONLY.items():
            strange = [name for name in fields if getattr(self, name) is not None]
            if strange and self.kind != kind:
                raise ValueError(f"a tick of kind {self.kind!r} says nothing of {strange[0]!r}")
        if self.kind == "floor" and not one_size(self.length_mm, self.width_mm, self.height_mm):
            raise ValueError("a piece on the floor needs length_mm, or width_mm and height_mm")
        return self


class TicksBody(BaseModel):
    """Ticks in the order in which they were made."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={
            "examples": [
                {
                    "ticks": [
                        {
                            "tick": "van-1",
                            "phone": "van",
                            "kind": "cut",
                            "material": "c16-38x63",
                            "layout": 1,
                            "piece": 1,
                            "cut": 1,
                        }
                    ]
                }
            ]
        },
    )

    ticks: Annotated[list[Tick], Field(min_length=1, max_length=2000)]


class ReplanBody(BaseModel):
    """How long to think about the rest."""

    model_config = ConfigDict(extra="forbid", json_schema_extra={"examples": [{"seconds": 1}]})

    seconds: Annotated[float, Field(ge=0, le=600)] = 1.0


@router.get("/plans/{plan_id}/saw")
def get_saw_document(
    plan_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return a plan as it is cut: layouts, pieces in their places, cuts one by one."""
    with store.read() as connection:
        row = made_plan(connection, caller.firm, plan_id)

    def text() -> str:
        asked, plan = read_plan(row)
        return json.dumps({"id": row.id, **lib.saw_document(asked, plan)})

    return tagged(if_none_match, row.version, text)


@router.get("/plans/{plan_id}/marks")
def get_marks(
    plan_id: str, store: TheStore, caller: Reader, if_none_match: IfNoneMatch = None
) -> Response:
    """Return all ticks of a plan, what they come to, and where they contradict.

    A tick stands until an undo names it. Where standing ticks contradict, the worse news counts.
    `too_late` counts ticks that came after the plan that goes on was made: they are kept, and count
    when that one is dropped and the rest planned anew.
    """
    with store.read() as connection:
        row = made_plan(connection, caller.firm, plan_id)
        found = ticks.of_plan(connection, caller.firm, plan_id)
        after = plans.continued_by(connection, plan_id), plans.continued_at(connection, plan_id)
    return tagged(
        if_none_match,
        f"{row.version}-{len(found)}-{after[0] or ''}",
        lambda: json.dumps(_marks(row, found, *after)),
    )


@router.post("/plans/{plan_id}/marks")
def add_ticks(plan_id: str, body: TicksBody, store: TheStore, caller: Planner) -> dict[str, Any]:
    """Take ticks in, each once however often it is sent; answers as GET does."""
    sent = [tick.model_dump(exclude_none=True) for tick in body.ticks]
    with store.write() as connection:
        row = made_plan(connection, caller.firm, plan_id)
        _, plan = read_plan(row)
        ticking.require_fitting(plan, sent)
        new = ticks.add(connection, caller.firm, plan_id, sent, caller.who)
        if new:
            papers.note(connection, caller.firm, caller.who, f"tick {new}", plan_id)
        found = ticks.of_plan(connection, caller.firm, plan_id)
        after = plans.continued_by(connection, plan_id), plans.continued_at(connection, plan_id)
    return {"new": new, **_marks(row, found, *after)}


@router.post("/plans/{plan_id}/replan", status_code=201, responses=RUN_STARTED)
def replan(
    plan_id: str,
    body: ReplanBody,
    store: TheStore,
    caller: Planner,
    idempotency_key: IdempotencyKey = None,
) -> Response:
    """Plan the rest of a confirmed plan from its ticks: a new plan, which continues this one.

    Finished work stays; the offcuts that this plan racked are held for the new one. Confirming the
    new plan settles the rack and places the order of what must be bought more; dropping it leaves
    everything as it was.
    """
    require_within_limits(seconds=body.seconds)
    hashed = hashlib.sha256(f"replan {plan_id} {body.seconds}".encode()).hexdigest()
    is_short = body.seconds <= SHORT_SECONDS
    claim = None
    with store.write() as connection:
        # Before the look whether it came before: of two of one call the second waits for the first.
        lock_firm(connection, caller.firm)
        run = known_run(connection, caller.firm, idempotency_key, hashed)
        if run is None:
            made_plan(connection, caller.firm, plan_id)
            asked = rest_of(connection, caller, plan_id, body.seconds, hashed, idempotency_key)
            run, claim = runs.ask(
                connection, caller.firm, asked, owner="service" if is_short else None
            )
            papers.note(connection, caller.firm, caller.who, "ask replan", run)
    if claim is not None:
        work_here(store, claim)
    return _answer(store, caller.firm, run)


def _answer(store: Store, firm: str, run: str) -> Response:
    found, plan = run_row(store, firm, run)
    if plan is not None:
        return answer_plan(store, firm, plan, status=201)
    return JSONResponse(
        run_document(found, None), status_code=202, headers={"Location": f"/v1/runs/{run}"}
    )


def _marks(
    row: sa.Row[Any], found: list[dict[str, Any]], successor: str | None, made_from: int | None
) -> dict[str, Any]:
    _, plan = read_plan(row)
    ticked = ticking.add_up(plan, found)
    return {
        "plan": row.id,
        "state": row.state,
        "continues": json.loads(row.extra).get("continues"),
        "continued_by": successor,
        # Ticks that came after the plan that goes on was made from those before: kept, not counted.
        "too_late": 0 if made_from is None else sum(tick["seq"] > made_from for tick in found),
        "ticks": [{**tick, "came": moment(tick["came"])} for tick in found],
        "pieces": [
            {
                "material": material,
                "layout": layout,
                "piece": piece,
                "cuts": state.cuts,
                "done": state.done,
                "spoiled": state.spoiled,
                "lost": state.lost,
            }
            for (material, layout, piece), state in ticked.pieces.items()
        ],
        "contradictions": list(ticked.contradictions),
    }
