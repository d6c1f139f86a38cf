"""The gate: no plan leaves the library unless it passes here.

Everything is recomputed from the request: each part cut exactly as often as asked, every piece
inside its stock, cuts and kerfs and trims paid, stock and rack not overdrawn, every tenth of a
millimetre accounted for, the money added up again, and the bound derived anew from its certificate.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault
from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.errors import PlanRefused, Problem
from optimiser.verify.access import check_access
from optimiser.verify.board_bounds import sheet_bound, sheet_reasons
from optimiser.verify.bounds import length_bound, length_reasons
from optimiser.verify.joint import joint_bound
from optimiser.verify.lengths import check_length_layouts
from optimiser.verify.sheets import check_sheet_layouts
from optimiser.verify.weighing import BadCertificate

if TYPE_CHECKING:
    from optimiser.domain.plan import CuttingPlan, LengthPlan, Money, SheetPlan, Usage
    from optimiser.domain.request import CuttingRequest


def check_plan(request: CuttingRequest, plan: CuttingPlan) -> tuple[Fault, ...]:
    """Return every fault of the plan, none if it is sound."""
    faults, unwanted = _check_choices(request, plan)
    for kind, asked, answered in (
        ("lengths", request.lengths, plan.lengths),
        ("sheets", request.sheets, plan.sheets),
    ):
        if [item.material for item in asked] != [item.material for item in answered]:
            faults.append(Fault(kind, "the plan does not answer each material once, in order"))
            return tuple(faults)
    for lengths, asked_lengths in zip(plan.lengths, request.lengths, strict=True):
        keep = request.keep_for(asked_lengths)
        found, counted, money, usage = check_length_layouts(lengths, asked_lengths, keep)
        faults += found
        faults += _check_demand(asked_lengths.parts, counted, unwanted, lengths.material)
        faults += _check_sums(lengths, money, usage)
        try:
            bound = length_bound(asked_lengths, keep, request.choices, lengths.certificate)
            faults += _check_bound(lengths, bound)
        except BadCertificate as trouble:
            faults.append(Fault(lengths.material, str(trouble)))
    for sheets, asked_sheets in zip(plan.sheets, request.sheets, strict=True):
        keep = request.keep_for(asked_sheets)
        found, counted, money, usage = check_sheet_layouts(sheets, asked_sheets, keep)
        faults += found
        faults += _check_demand(asked_sheets.parts, counted, unwanted, sheets.material)
        faults += _check_sums(sheets, money, usage)
        try:
            bound = sheet_bound(asked_sheets, keep, request.choices, sheets.certificate)
            faults += _check_bound(sheets, bound)
        except BadCertificate as trouble:
            faults.append(Fault(sheets.material, str(trouble)))
    faults += check_access(request, plan)
    faults += _check_totals(request, plan)
    return tuple(faults)


def whole_bound(
    request: CuttingRequest,
    lengths: Sequence[LengthPlan],
    sheets: Sequence[SheetPlan],
    chosen: Sequence[int],
) -> int:
    """Return the net cost in pence that no plan of the whole request is below: see joint.py.

    Worked out from the certificates of all materials; `chosen` are the options of the plan. Raises
    BadCertificate when one cannot be read.
    """
    choices = request.choices
    apart = sum(plan.bound for plan in lengths) + sum(plan.bound for plan in sheets)
    if not choices:
        return apart
    reasons = [
        length_reasons(asked, request.keep_for(asked), choices, plan.certificate)
        for asked, plan in zip(request.lengths, lengths, strict=True)
    ]
    reasons += [
        sheet_reasons(asked, request.keep_for(asked), choices, plan.certificate)
        for asked, plan in zip(request.sheets, sheets, strict=True)
    ]
    return max(apart, joint_bound(tuple(reasons), tuple(chosen)))


def require_sound(request: CuttingRequest, plan: CuttingPlan) -> CuttingPlan:
    """Return the plan if it is sound. Raises PlanRefused with every fault if it is not."""
    faults = check_plan(request, plan)
    if faults:
        remedy = "This is a fault of the program: please report it with the request"
        raise PlanRefused(tuple(Problem(fault.where, fault.what, remedy) for fault in faults))
    return plan


def _check_choices(request: CuttingRequest, plan: CuttingPlan) -> tuple[list[Fault], set[str]]:
    """Return the faults of the choices made, and the ids of the parts that were not chosen."""
    faults: list[Fault] = []
    if [choice.id for choice in request.choices] != [chosen.choice for chosen in plan.chosen]:
        return [Fault("choices", "the plan does not answer each choice once, in order")], set()
    optional: set[str] = set()
    wanted: set[str] = set()
    for choice, chosen in zip(request.choices, plan.chosen, strict=True):
        optional.update(id_ for option in choice.options for id_ in option)
        if 0 <= chosen.option < len(choice.options):
            wanted.update(choice.options[chosen.option])
        else:
            faults.append(Fault(choice.id, f"there is no option {chosen.option}"))
    return faults, optional - wanted


def _check_demand(
    parts: Sequence[LengthPart | BoardPart],
    counted: dict[str, int],
    unwanted: set[str],
    material: str,
) -> list[Fault]:
    faults = []
    for part in parts:
        wanted = 0 if part.id in unwanted else part.quantity
        found = counted.get(part.id, 0)
        if found != wanted:
            faults.append(Fault(material, f"part {part.id!r} is cut {found} times, asked {wanted}"))
    return faults


def _check_sums(plan: LengthPlan | SheetPlan, money: Money, usage: Usage) -> list[Fault]:
    faults = []
    if plan.money != money:
        faults.append(Fault(plan.material, f"money is {plan.money}, added up again {money}"))
    if plan.usage != usage:
        faults.append(Fault(plan.material, f"usage is {plan.usage}, measured again {usage}"))
    if min(usage.part, usage.offcut, usage.scrap, usage.kerf, usage.trim) < 0:
        faults.append(Fault(plan.material, "more is cut from the stock than it holds"))
    if not isfinite(plan.seconds) or plan.seconds < 0:
        faults.append(Fault(plan.material, f"seconds cannot be {plan.seconds}"))
    return faults


def _check_bound(plan: LengthPlan | SheetPlan, bound: int) -> list[Fault]:
    faults = []
    if plan.bound != bound:
        faults.append(
            Fault(plan.material, f"the bound is given as {plan.bound}, the proof yields {bound}")
        )
    if bound > plan.money.net:
        faults.append(Fault(plan.material, f"costs {plan.money.net}, below its bound {bound}"))
    if plan.proven != (plan.money.net == plan.bound):
        faults.append(Fault(plan.material, "proven must mean that net cost and bound are equal"))
    return faults


def _check_whole_bound(request: CuttingRequest, plan: CuttingPlan) -> list[Fault]:
    chosen = tuple(one.option for one in plan.chosen)
    counts = tuple(len(choice.options) for choice in request.choices)
    if len(chosen) != len(counts) or any(
        not 0 <= option < count for option, count in zip(chosen, counts, strict=False)
    ):
        return []  # named among the faults of the choices
    try:
        bound = whole_bound(request, plan.lengths, plan.sheets, chosen)
    except BadCertificate:
        return []  # named among the faults of its material
    if plan.bound != bound:
        return [
            Fault(
                "totals", f"the bound is given as {plan.bound}, the proofs together yield {bound}"
            )
        ]
    return []


def _check_totals(request: CuttingRequest, plan: CuttingPlan) -> list[Fault]:
    faults = []
    materials = plan.materials
    for name in ("purchase", "offcuts_used", "credit", "net"):
        if getattr(plan.money, name) != sum(getattr(item.money, name) for item in materials):
            faults.append(Fault("totals", f"{name} is not the sum over the materials"))
    faults += _check_whole_bound(request, plan)
    if plan.proven != (plan.money.net == plan.bound):
        faults.append(Fault("totals", "proven must mean that net cost and bound are equal"))
    if plan.choices_saved < 0:
        faults.append(Fault("totals", "what the options taken save cannot be below 0"))
    if plan.seed != request.seed:
        faults.append(Fault("totals", f"seed {plan.seed} is not the request's {request.seed}"))
    if not isfinite(plan.seconds) or plan.seconds < 0:
        faults.append(Fault("totals", f"seconds cannot be {plan.seconds}"))
    return faults
