"""The routes: each reads its input, asks the library, and answers; no logic of its own."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request
from fastapi.responses import PlainTextResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

import optimiser as lib
from api.batch import plan_batch
from api.bodies import read_batch, read_pair
from api.openapi import body_of
from api.shelf import Shelf, Shelved
from api.values import batch_document
from optimiser import InvalidInput, Problem

# Longer thinking wants a run that can be watched; until there are runs it is refused, not cut.
MOST_SECONDS = 30.0

router = APIRouter()


def _shelf_of(request: Request) -> Shelf:
    shelf = request.app.state.shelf
    assert isinstance(shelf, Shelf)
    return shelf


TheShelf = Annotated[Shelf, Depends(_shelf_of)]


@router.get("/health", tags=["service"])
def health() -> dict[str, str]:
    """Say that the service answers."""
    return {"status": "ok"}


@router.post("/plans", status_code=201, tags=["plans"], openapi_extra=body_of("cutting-request"))
async def plan_request(request: Request, shelf: TheShelf) -> dict[str, Any]:
    """Plan a cutting request. The answer carries the checked plan and its id."""
    asked = lib.read_request(await request.body(), name="body")
    _require_short(asked.seconds)
    plan = await run_in_threadpool(lib.plan_cutting, asked)
    return _shelve(shelf, Shelved(request=asked, plan=plan, extra={}))


@router.post("/batches", status_code=201, tags=["plans"], openapi_extra=body_of("batch"))
async def plan_jobs(request: Request, shelf: TheShelf) -> dict[str, Any]:
    """Frame walls, plan all jobs together, and work out the order and each job's share."""
    asked = read_batch(await request.body())
    _require_short(asked.rules.seconds)
    batch = await run_in_threadpool(
        lambda: plan_batch(
            asked.walls, (), asked.book, asked.rack, asked.rules, compare=asked.compare
        )
    )
    document = batch_document(batch)
    extra = {name: document[name] for name in ("shares", "comparison", "walls")}
    return _shelve(
        shelf,
        Shelved(
            request=batch.request,
            plan=batch.plan,
            frames=batch.frames,
            order=batch.order,
            extra=extra,
        ),
    )


@router.post("/checks", tags=["plans"], openapi_extra=body_of("check"))
async def check(request: Request) -> dict[str, Any]:
    """Check any plan against its request; lists every fault."""
    asked, plan = read_pair(await request.body())
    faults = await run_in_threadpool(lib.check_plan, asked, plan)
    return {
        "sound": not faults,
        "faults": [{"where": fault.where, "what": fault.what} for fault in faults],
    }


@router.get("/plans/{plan_id}", tags=["plans"])
def get_plan(plan_id: str, shelf: TheShelf) -> dict[str, Any]:
    """Return a plan made lately, with the request it answers."""
    return _answer(plan_id, _find(shelf, plan_id))


@router.get("/plans/{plan_id}/diagrams", tags=["plans"])
def list_diagrams(plan_id: str, shelf: TheShelf) -> dict[str, list[dict[str, str]]]:
    """List the diagrams of a plan and the drawings of its walls."""
    drawings = _find(shelf, plan_id).drawings().values()
    return {
        "diagrams": [
            {
                "name": drawing.name,
                "title": drawing.title,
                "href": f"/plans/{plan_id}/diagrams/{drawing.name}.svg",
            }
            for drawing in drawings
        ]
    }


@router.get(
    "/plans/{plan_id}/diagrams/{name}.svg",
    tags=["plans"],
    response_class=Response,
    responses={200: {"content": {"image/svg+xml": {}}}},
)
def get_diagram(plan_id: str, name: str, shelf: TheShelf) -> Response:
    """Return one diagram."""
    drawing = _find(shelf, plan_id).drawings().get(name)
    if drawing is None:
        raise HTTPException(404, f"plan {plan_id} has no diagram {name!r}")
    return Response(drawing.svg, media_type="image/svg+xml")


@router.get("/plans/{plan_id}/order", tags=["plans"])
def get_order(plan_id: str, shelf: TheShelf) -> dict[str, Any]:
    """Return the order of a batch."""
    return lib.order_document(_order(shelf, plan_id))


@router.get("/plans/{plan_id}/order.csv", tags=["plans"], response_class=PlainTextResponse)
def get_order_csv(plan_id: str, shelf: TheShelf) -> Response:
    """Return the order of a batch as CSV."""
    return Response(lib.order_csv(_order(shelf, plan_id)), media_type="text/csv; charset=utf-8")


def _shelve(shelf: Shelf, shelved: Shelved) -> dict[str, Any]:
    return _answer(shelf.put(shelved), shelved)


def _find(shelf: Shelf, plan_id: str) -> Shelved:
    shelved = shelf.get(plan_id)
    if shelved is None:
        raise HTTPException(404, f"there is no plan {plan_id!r}, or it is no longer kept")
    return shelved


def _order(shelf: Shelf, plan_id: str) -> lib.Order:
    order = _find(shelf, plan_id).order
    if order is None:
        raise HTTPException(404, "this plan came from a cutting request, which has no order")
    return order


def _answer(plan_id: str, shelved: Shelved) -> dict[str, Any]:
    return {
        "id": plan_id,
        "request": lib.request_document(shelved.request),
        "plan": lib.plan_document(shelved.plan),
        "order": None if shelved.order is None else lib.order_document(shelved.order),
        **shelved.extra,
    }


def _require_short(seconds: float) -> None:
    if seconds > MOST_SECONDS:
        trouble = f"{seconds:g} is more than {MOST_SECONDS:g}"
        remedy = "Give fewer seconds here, or use the command line"
        raise InvalidInput((Problem("seconds", trouble, remedy),))
