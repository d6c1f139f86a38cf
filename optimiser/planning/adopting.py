"""A plan made for less freedom is a plan for more: its layouts and options carried over.

What was cut without the rack, or job by job, can be cut so with the rack and with all jobs at hand;
a search that finds nothing better then ends with that, and never with anything dearer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from optimiser.domain.plan import Chosen, CuttingPlan, LengthPlan, SheetPlan
from optimiser.domain.request import CuttingRequest
from optimiser.planning.assemble import Layouts, added_up, assembled
from optimiser.units import Pence
from optimiser.verify.check import check_plan, whole_bound


def cheaper_of(
    request: CuttingRequest, plan: CuttingPlan, others: Sequence[Sequence[CuttingPlan]]
) -> CuttingPlan:
    """Return the plan, or what one of the others makes of the request if that costs less.

    Each of the others is a set of plans that together cut the request's parts, made with less
    freedom: fewer jobs at a time, no rack, options settled. The answer has passed the checker, with
    the plan's proof. What does not fit the request (not so much stock is there) is passed over.
    """
    for plans in others:
        adopted = _adopted(request, plan, plans)
        if adopted is None or check_plan(request, adopted):
            continue
        if adopted.chosen == plan.chosen:
            better = [
                new if new.money.net < old.money.net else old
                for old, new in zip(plan.materials, adopted.materials, strict=True)
            ]
            adopted = _whole(request, plan, better, plan.chosen)
        if adopted.money.net < plan.money.net and not check_plan(request, adopted):
            plan = adopted
    return plan


def _adopted(
    request: CuttingRequest, proof: CuttingPlan, others: Sequence[CuttingPlan]
) -> CuttingPlan | None:
    """Return the others' layouts as one plan of the request; None where a choice is left open."""
    options = {one.choice: one.option for other in others for one in other.chosen}
    if any(choice.id not in options for choice in request.choices):
        return None
    layouts: dict[str, Layouts] = {}
    for other in others:
        for item in other.materials:
            layouts[item.material] = (*layouts.get(item.material, ()), *item.layouts)
    plans = [
        assembled(request, material, layouts.get(material.material, ()), known)
        for material, known in zip(request.materials, proof.materials, strict=True)
    ]
    chosen = tuple(
        Chosen(choice=choice.id, option=options[choice.id]) for choice in request.choices
    )
    return _whole(request, proof, plans, chosen)


def _whole(
    request: CuttingRequest,
    proof: CuttingPlan,
    plans: Sequence[LengthPlan | SheetPlan],
    chosen: tuple[Chosen, ...],
) -> CuttingPlan:
    plan = added_up(request, tuple(plans), chosen, proof.seconds)
    bound = whole_bound(
        request, plan.lengths, plan.sheets, tuple(one.option for one in plan.chosen)
    )
    return replace(
        plan,
        bound=Pence(bound),
        proven=bound == plan.money.net,
        choices_saved=proof.choices_saved,
    )
