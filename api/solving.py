"""From a run's document to all that is kept of its plan; no database, no network.

Used by the service for small work and by a process of its own for long work, so that both answer
the same.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import optimiser as lib
from api.batch import Batch, History, framed_jobs, plan_batch
from api.bodies import BatchBody, read_batch
from api.continuing import continue_plan
from api.dealing import deal, deliveries_document, read_deal
from api.drawings import Drawn, wall_drawings
from api.store.ledger import Piece, as_rack, piece_document
from api.store.plans import Made, Picture
from api.store.results import Found
from api.store.runs import Progress
from api.values import batch_document

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest, PlanProgress

# What is kept of a batch beside request, plan and first order.
_KEPT = ("orders", "merchants", "shares", "comparison", "walls")


def solve(
    kind: str,
    document: str,
    held: tuple[Piece, ...] | None,
    *,
    at_most: float | None = None,
    history: Callable[[], History] | None = None,
    watch: Callable[[CuttingPlan], None] | None = None,
    tell: Callable[[PlanProgress], None] | None = None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Made:
    """Plan a cutting request or a batch. `held`: rack offcuts instead of those in the document.

    `at_most` seconds are thought, where the document asks for more. `history` is asked for where
    a batch's keep rules follow from it. Raises as the library does.
    """
    if kind == "replan":
        return continue_plan(document, held or (), at_most)
    if kind == "request":
        request = lib.request_from_document(_with_offcuts(document, held), name="body")
        request = replace(request, seconds=_least(request.seconds, at_most))
        plan = lib.plan_cutting(request, watch=watch, tell=tell, cancelled=cancelled)
        return _made(request, plan, extra={}, held=held)
    asked = read_batch(document.encode())
    batch = plan_batch(
        asked.walls,
        asked.part_lists,
        asked.book,
        asked.rack if held is None else as_rack(held),
        replace(
            asked.rules,
            seconds=_least(asked.rules.seconds, at_most),
            history=_with_coming(history(), asked)
            if asked.by_history and history is not None
            else None,
        ),
        merchants=asked.merchants,
        dates=asked.dates,
        compare=asked.compare,
        watch=watch,
        tell=tell,
        cancelled=cancelled,
    )
    return made_of_batch(batch, held)


def _with_coming(history: History, asked: BatchBody) -> History:
    """Add the parts of jobs to come, walls boarded in their first way."""
    frames, _ = framed_jobs(asked.coming_walls, (), asked.book)
    parts = (lib.job_of_frame(replace(frame, alternatives=())).parts for frame in frames)
    return replace(history, coming=(*history.coming, *parts, *asked.coming_lists))


def find_deliveries(
    document: str,
    *,
    at_most: float | None = None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Found:
    """Deal the jobs of a document to deliveries. Raises as the library does."""
    began = time.monotonic()
    found = deal(read_deal(document.encode()), at_most=at_most, cancelled=cancelled)
    return Found(
        result=_text(deliveries_document(found)),
        progress=Progress(
            cost=found.cost,
            bound=found.bound,
            layouts=sum(layouts_of(one.plan) for one in found.deliveries),
            spent=round(time.monotonic() - began, 3),
        ),
    )


def made_of_batch(
    batch: Batch, held: tuple[Piece, ...] | None, walls: Sequence[Drawn] | None = None
) -> Made:
    """Return all that is kept of a planned batch. `held`: the rack's pieces that it could use.

    `walls` are the drawings of its walls where they have been made.
    """
    whole = batch_document(batch)
    made = _made(
        batch.request,
        batch.plan,
        extra={name: whole[name] for name in _KEPT},
        held=held,
    )
    drawings = wall_drawings(batch.frames) if walls is None else walls
    drawn = (Picture(name=d.name, title=d.title, svg=d.svg) for d in drawings)
    return replace(
        made,
        pictures=tuple(drawn),
        order=_text(lib.order_document(batch.order)),
        order_csv=lib.order_csv(batch.order),
        more_orders=tuple(
            (_text(lib.order_document(order)), lib.order_csv(order)) for order in batch.orders[1:]
        ),
    )


def layouts_of(plan: CuttingPlan) -> int:
    """Count the different layouts of a plan."""
    return sum(len(material.layouts) for material in plan.materials)


def _made(
    request: CuttingRequest,
    plan: CuttingPlan,
    *,
    extra: dict[str, Any],
    held: tuple[Piece, ...] | None,
) -> Made:
    used = {layout.stock for item in plan.materials for layout in item.layouts if layout.offcut}
    return Made(
        request=_text(lib.request_document(request)),
        plan=_text(lib.plan_document(plan)),
        extra=_text(extra),
        pictures=(),
        order=None,
        order_csv=None,
        offcuts_used=frozenset(used if held is not None else ()),
        progress=Progress(
            cost=plan.money.net, bound=plan.bound, layouts=layouts_of(plan), spent=plan.seconds
        ),
    )


def _with_offcuts(document: str, held: tuple[Piece, ...] | None) -> dict[str, Any]:
    """Put the rack's offcuts in the place of those that a request names."""
    request: dict[str, Any] = json.loads(document)
    if held is None:
        return request
    for kind, sizes in (("lengths", {"length_mm"}), ("sheets", {"width_mm", "height_mm"})):
        for material in request.get(kind, ()):
            described = [
                piece_document(piece) for piece in held if piece.material == material["material"]
            ]
            material["offcuts"] = [
                {"id": piece["id"], **{name: piece[name] for name in sizes}}
                for piece in described
                if sizes <= set(piece)
            ]
    return request


def _least(seconds: float, at_most: float | None) -> float:
    return seconds if at_most is None else min(seconds, at_most)


def _text(document: dict[str, Any]) -> str:
    return json.dumps(document)
