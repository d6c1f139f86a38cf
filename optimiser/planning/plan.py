"""One request, one verified plan: first a quick plan of everything, then the time where it pays.

The budget is shared in two passes: a quick one, so that a complete plan exists within a fraction of
a second, and a longer one over the materials that are not yet proven. Each complete plan is checked
before it is shown to anyone.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.plan import Chosen, CuttingPlan, LengthPlan, Money, SheetPlan
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.errors import NoPlan, Problem
from optimiser.planning.lengths import lengths_plan, lengths_problem
from optimiser.planning.sanity import quantities, require_sane
from optimiser.planning.sheets import sheets_plan, sheets_problem
from optimiser.solvers.lengths.solve import solve as solve_lengths
from optimiser.solvers.protocol import Budget, Status
from optimiser.solvers.sheets.solve import solve as solve_sheets
from optimiser.units import Pence, mm
from optimiser.verify.check import require_sound

if TYPE_CHECKING:
    from optimiser.solvers.lengths.problem import LengthsOutcome
    from optimiser.solvers.sheets.problem import SheetsOutcome

# Seconds for a first plan of one material: measured on the demo, enough for a plan within 2 % of
# the one after seconds, and six materials are through in a quarter of a second.
QUICK = 0.03
# Share of the time that deciding between options may take; not measured, the rest is for cutting.
CHOOSING = 0.4

Watch = Callable[[CuttingPlan], None]


def plan_cutting(request: CuttingRequest, *, watch: Watch | None = None) -> CuttingPlan:
    """Return the best plan found in the request's seconds; it has passed the checker.

    `watch` is called with each complete, checked plan as it is found, the last one included.
    Raises InvalidInput for a request that cannot be planned as it stands, NoPlan when stock and
    rack cannot yield the parts, PlanRefused if a plan failed its check (a fault of the program).
    """
    require_sane(request)
    return _Planner(request, watch).plan()


class _NotFound(NoPlan):
    """No plan was found, and none was ruled out: more time may help."""


@dataclass(frozen=True, slots=True)
class _Draft:
    """The options chosen and the plan of every material, by material name."""

    chosen: tuple[int, ...]
    plans: dict[str, LengthPlan | SheetPlan]

    @property
    def cost(self) -> int:
        return sum(plan.money.net for plan in self.plans.values())


class _Planner:
    def __init__(self, request: CuttingRequest, watch: Watch | None) -> None:
        self._request = request
        self._watch = watch
        self._budget = Budget.of(request.seconds)
        self._materials: dict[str, LengthMaterial | SheetMaterial] = {
            material.material: material for material in request.materials
        }

    def plan(self) -> CuttingPlan:
        draft = self._quick()
        if self._watch is not None and not self._is_finished(draft):
            self._watch(self._checked(draft))
        if self._request.choices:
            draft = self._choose(draft)
        draft = self._improve(draft)
        plan = self._checked(draft)
        if self._watch is not None:
            self._watch(plan)
        return plan

    def _is_finished(self, draft: _Draft) -> bool:
        return not self._request.choices and all(plan.proven for plan in draft.plans.values())

    def _quick(self) -> _Draft:
        """Plan everything with the first options that can be cut."""
        chosen = [0 for _ in self._request.choices]
        plans: dict[str, LengthPlan | SheetPlan] = {}
        while True:
            try:
                for name in self._materials:
                    plans[name] = self._first(name, tuple(chosen))
            except NoPlan:
                # Count on through the options; when there are no more, the last fault stands.
                if not self._count_on(chosen) or self._budget.is_spent:
                    raise
            else:
                return _Draft(tuple(chosen), plans)

    def _first(self, name: str, chosen: tuple[int, ...]) -> LengthPlan | SheetPlan:
        """Plan one material quickly; where that finds nothing, with all the time there is."""
        share = self._request.seconds / max(1, len(self._materials)) / 2
        try:
            return self._solve(name, chosen, min(QUICK, share))
        except _NotFound:
            return self._solve(name, chosen, self._budget.left)

    def _count_on(self, chosen: list[int]) -> bool:
        """Move to the next combination of options; False when all have been tried."""
        for place, choice in enumerate(self._request.choices):
            chosen[place] += 1
            if chosen[place] < len(choice.options):
                return True
            chosen[place] = 0
        return False

    def _choose(self, draft: _Draft) -> _Draft:
        """Try the other options one by one and keep what costs less, until none does."""
        deadline = self._request.seconds * CHOOSING
        improved = True
        while improved and self._budget.used < deadline:
            improved = False
            for place, choice in enumerate(self._request.choices):
                for option in range(len(choice.options)):
                    if option == draft.chosen[place] or self._budget.used >= deadline:
                        continue
                    other = self._with_option(draft, place, option)
                    if other is not None and other.cost < draft.cost:
                        draft, improved = other, True
        return draft

    def _with_option(self, draft: _Draft, place: int, option: int) -> _Draft | None:
        chosen = (*draft.chosen[:place], option, *draft.chosen[place + 1 :])
        choice = self._request.choices[place]
        moved = {*choice.options[option], *choice.options[draft.chosen[place]]}
        plans = dict(draft.plans)
        for name, material in self._materials.items():
            if any(part.id in moved for part in material.parts):
                try:
                    plans[name] = self._solve(name, chosen, QUICK)
                except NoPlan:
                    return None
        return _Draft(chosen, plans)

    def _improve(self, draft: _Draft) -> _Draft:
        """Give the time that is left to the materials that are not proven, dearest gap last."""
        plans = dict(draft.plans)
        waiting = sorted(
            (name for name, plan in plans.items() if not plan.proven),
            key=lambda name: plans[name].money.net - plans[name].bound,
        )
        while waiting:
            share = self._budget.left / len(waiting)
            name = waiting.pop(0)
            if share <= QUICK:
                break
            # Scarce stock may leave a search without a plan; then the quick one stands.
            with suppress(_NotFound):
                plans[name] = _better(plans[name], self._solve(name, draft.chosen, share))
        return _Draft(draft.chosen, plans)

    def _solve(self, name: str, chosen: tuple[int, ...], seconds: float) -> LengthPlan | SheetPlan:
        request = self._request
        material = self._materials[name]
        wanted = quantities(request, chosen)
        budget = Budget.of(seconds)
        if isinstance(material, LengthMaterial):
            lengths = lengths_problem(material, request.keep, wanted)
            outcome = solve_lengths(lengths, budget=budget, seed=request.seed)
            _require_plan(material, outcome)
            return lengths_plan(material, request.keep, request.choices, outcome)
        sheets = sheets_problem(material, request.keep, wanted)
        found = solve_sheets(sheets, budget=budget, seed=request.seed)
        _require_plan(material, found)
        return sheets_plan(material, request.keep, request.choices, found)

    def _checked(self, draft: _Draft) -> CuttingPlan:
        lengths: list[LengthPlan] = []
        sheets: list[SheetPlan] = []
        for plan in draft.plans.values():
            if isinstance(plan, LengthPlan):
                lengths.append(plan)
            else:
                sheets.append(plan)
        both: list[LengthPlan | SheetPlan] = [*lengths, *sheets]
        money = Money.of(
            purchase=sum(plan.money.purchase for plan in both),
            offcuts_used=sum(plan.money.offcuts_used for plan in both),
            credit=sum(plan.money.credit for plan in both),
        )
        bound = sum(plan.bound for plan in both)
        return require_sound(
            self._request,
            CuttingPlan(
                seed=self._request.seed,
                lengths=tuple(lengths),
                sheets=tuple(sheets),
                chosen=tuple(
                    Chosen(choice=choice.id, option=option)
                    for choice, option in zip(self._request.choices, draft.chosen, strict=True)
                ),
                money=money,
                bound=Pence(bound),
                proven=bound == money.net,
                seconds=round(self._budget.used, 3),
            ),
        )


def _better(old: LengthPlan | SheetPlan, new: LengthPlan | SheetPlan) -> LengthPlan | SheetPlan:
    """Take the cheaper plan (the new one at equal cost) with the better proof of the two."""
    plan, other = (new, old) if new.money.net <= old.money.net else (old, new)
    seconds = round(old.seconds + new.seconds, 3)
    if other.bound <= plan.bound:
        return replace(plan, seconds=seconds)
    proven = other.bound == plan.money.net
    if isinstance(plan, LengthPlan) and isinstance(other, LengthPlan):
        return replace(
            plan,
            bound=other.bound,
            certificate=other.certificate,
            proven=proven,
            seconds=seconds,
        )
    assert isinstance(plan, SheetPlan)
    assert isinstance(other, SheetPlan)
    return replace(
        plan, bound=other.bound, certificate=other.certificate, proven=proven, seconds=seconds
    )


def _require_plan(
    material: LengthMaterial | SheetMaterial, outcome: LengthsOutcome | SheetsOutcome
) -> None:
    """Raise NoPlan, naming what is missing, when a solver comes back without a plan."""
    if outcome.status in (Status.OPTIMAL, Status.FEASIBLE):
        return
    proven = outcome.status is Status.IMPOSSIBLE
    trouble = (
        "the stock and the rack cannot yield it"
        if proven
        else "no plan was found in the time given, and none was ruled out"
    )
    remedy = (
        "Add stock, a longer or larger size, or more of it"
        if proven
        else "Give more seconds, or more stock"
    )
    parts: tuple[LengthPart | BoardPart, ...] = material.parts
    fault = NoPlan if proven else _NotFound
    raise fault(
        tuple(
            Problem(
                f"{material.material}: part {part.id!r}",
                f"{missing} of {part.quantity} × {_size(part)} are left over: {trouble}",
                remedy,
            )
            for part, missing in zip(parts, outcome.missing, strict=True)
            if missing
        )
        or (Problem(material.material, trouble, remedy),)
    )


def _size(part: LengthPart | BoardPart) -> str:
    if isinstance(part, LengthPart):
        return mm(part.length)
    return f"{mm(part.width)} × {mm(part.height)}"
