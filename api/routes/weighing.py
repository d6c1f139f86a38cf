"""Near misses and spares of a plan: figures to decide by."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

import optimiser as lib
from api.callers import Planner, TheStore
from api.near_misses import near_miss_document, with_ease
from api.openapi import Routes
from api.routes.plans import made_plan
from api.spares import spares_document
from api.store.engine import Store
from optimiser import InvalidInput, Problem

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest

router = Routes(prefix="/v1", tags=["planning"])
_Ease = Annotated[float, Field(gt=0, le=1000)]
_Percent = Annotated[float, Field(ge=0, lt=100)]


class EaseBody(BaseModel):
    """Which parts may shrink, by how much at most, and the least saving that counts."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={"examples": [{"ease": {"A/*": 3}, "saving": "0.01", "seconds": 1}]},
    )

    ease: Annotated[dict[str, _Ease], Field(max_length=100)] = Field(
        default_factory=dict, description="Pattern of part ids or names, and mm."
    )
    saving: Annotated[str, Field(max_length=20)] = "0.01"
    seconds: Annotated[float, Field(ge=0, le=20)] = 2.0


class SparesBody(BaseModel):
    """How stock is handled, own rates of breakage in percent, and the levels to keep within."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={"examples": [{"handling": "usual", "levels_percent": [10, 5, 1]}]},
    )

    handling: Literal["careful", "usual", "rough"] = "usual"
    rates_percent: Annotated[dict[str, tuple[_Percent, _Percent]], Field(max_length=200)] = Field(
        default_factory=dict, description="By material: pieces that break, parts that are spoiled."
    )
    levels_percent: Annotated[list[_Percent], Field(max_length=20)] = []


@router.post("/plans/{plan_id}/near-misses")
def find_near_misses(
    plan_id: str, body: EaseBody, store: TheStore, caller: Planner
) -> dict[str, Any]:
    """Find which dimensions, eased by a few mm, would save stock, best saving per mm first."""
    request, plan = _plan(store, caller.firm, plan_id)
    remedy = "Give a pattern of part ids or names, such as A/*, and whole tenths of a mm"
    for pattern, size in body.ease.items():
        field = f"ease.{pattern}"
        try:
            ease = lib.tenths(size)
        except ValueError as trouble:
            raise InvalidInput((Problem(field, str(trouble), remedy),)) from None
        request = with_ease(request, pattern, ease, field=field, remedy=remedy)
    try:
        saving = lib.pence(body.saving)
    except ValueError as trouble:
        raise InvalidInput((Problem("saving", str(trouble), "Give a sum such as 5.00"),)) from None
    found = lib.near_misses(request, plan, saving=saving, seconds=body.seconds)
    return {"items": [near_miss_document(miss) for miss in found]}


@router.post("/plans/{plan_id}/spares")
def weigh_spares(
    plan_id: str, body: SparesBody, store: TheStore, caller: Planner
) -> dict[str, Any]:
    """Say how many spares keep a second trip unlikely, and what each level costs."""
    request, plan = _plan(store, caller.firm, plan_id)
    breakage = lib.usual_breakage(request, lib.Handling(body.handling))
    known = {item.material for item in breakage}
    strange = sorted(set(body.rates_percent) - known)
    if strange:
        remedy = f"Name one of {', '.join(sorted(known))}"
        raise InvalidInput(
            tuple(
                Problem(f"rates_percent.{name}", "is no material of the plan", remedy)
                for name in strange
            )
        )
    shares = {
        name: tuple(_share(rate) for rate in rates) for name, rates in body.rates_percent.items()
    }
    breakage = tuple(
        replace(item, piece=shares[item.material][0], part=shares[item.material][1])
        if item.material in shares
        else item
        for item in breakage
    )
    levels = tuple(_share(level) for level in body.levels_percent)
    table = (
        lib.spares_by_risk(request, plan, breakage, levels)
        if levels
        else lib.spares_by_risk(request, plan, breakage)
    )
    chart = lib.draw_spares(table, title="Spares by risk")
    return {**spares_document(table), "chart_svg": chart}


def _share(percent: float) -> Fraction:
    return Fraction(str(percent)) / 100


def _plan(store: Store, firm: str, plan_id: str) -> tuple[CuttingRequest, CuttingPlan]:
    with store.read() as connection:
        row = made_plan(connection, firm, plan_id)
    request = lib.request_from_document(json.loads(row.request), name="request")
    return request, lib.plan_from_document(json.loads(row.plan), name="plan")
