"""One request, one verified plan: first a quick plan of everything, then the time where it pays.

The budget is shared in two passes: a quick one, so that a complete plan exists within a fraction of
a second, and a longer one over the materials that are not yet proven. Each complete plan is checked
before it is shown to anyone.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from optimiser.domain.plan import Chosen, CuttingPlan, LengthPlan, Money, SheetPlan
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.errors import NoPlan, Problem
from optimiser.planning.access import open_options
from optimiser.planning.better import better_plan, has_fewer_layouts
from optimiser.planning.lengths import lengths_plan, lengths_problem
from optimiser.planning.progress import Tell, Teller
from optimiser.planning.sanity import quantities, require_sane
from optimiser.planning.sheets import sheets_plan, sheets_problem
from optimiser.planning.shortage import shortage_problems
from optimiser.solvers.lengths.solve import solve as solve_lengths
from optimiser.solvers.protocol import Budget, Status, never
from optimiser.solvers.sheets.solve import solve as solve_sheets
from optimiser.units import Pence
from optimiser.verify.check import require_sound

if TYPE_CHECKING:
    from optimiser.solvers.lengths.problem import LengthsOutcome
    from optimiser.solvers.sheets.problem import SheetsOutcome

    Outcome: TypeAlias = LengthsOutcome | SheetsOutcome

# Seconds for a first plan of one material: measured on the demo, enough for a plan within 2 % of
# the one after seconds, and six materials are through in a quarter of a second.
QUICK = 0.03
# Share of the time that deciding between options may take; not measured, the rest is for cutting.
CHOOSING = 0.4
# Seconds at least for working out what stock is missing.
SHORTAGE = 1.0

Watch = Callable[[CuttingPlan], None]


def plan_cutting(
    request: CuttingRequest,
    *,
    watch: Watch | None = None,
    tell: Tell | None = None,
    cancelled: Callable[[], bool] = never,
) -> CuttingPlan:
    """Return the best plan found in the request's seconds; it has passed the checker.

    `watch` is called with each complete, checked plan as it is found, the last one included; `tell`
    with cost and bound as they improve, 20 times a second at most. Once `cancelled` returns True,
    the best plan so far is checked and returned. Raises InvalidInput for a request that cannot be
    planned as it stands, NoPlan when stock and rack cannot yield the parts, PlanRefused if a plan
    failed its check (a fault of the program).
    """
    require_sane(request)
    return _Planner(request, watch, tell, cancelled).plan()


class _Short(NoPlan):
    """A material has no plan, proven or not; what is missing is worked out for the caller."""

    def __init__(self, name: str, wanted: dict[str, int], outcome: Outcome) -> None:
        super().__init__(())
        self.name = name
        self.wanted = wanted
        self.missing = outcome.missing
        self.proven = outcome.status is Status.IMPOSSIBLE


@dataclass(frozen=True, slots=True)
class _Draft:
    """The options chosen and the plan of every material, by material name."""

    chosen: tuple[int, ...]
    plans: dict[str, LengthPlan | SheetPlan]

    @property
    def cost(self) -> int:
        return sum(plan.money.net for plan in self.plans.values())


class _Planner:
    def __init__(
        self,
        request: CuttingRequest,
        watch: Watch | None,
        tell: Tell | None,
        cancelled: Callable[[], bool],
    ) -> None:
        self._request = request
        self._watch = watch
        self._budget = Budget.of(request.seconds, cancelled)
        self._open = open_options(request)
        self._teller = Teller(self._budget, tell, len(request.materials))
        self._materials: dict[str, LengthMaterial | SheetMaterial] = {
            material.material: material for material in request.materials
        }

    def plan(self) -> CuttingPlan:
        try:
            draft = self._quick()
        except _Short as short:
            raise NoPlan(self._shortage(short)) from None
        if self._watch is not None and not self._is_finished(draft):
            self._watch(self._checked(draft))
        if self._request.choices:
            draft = self._choose(draft)
        for name, known in draft.plans.items():
            self._teller.settle(name, known.money.net, known.bound)
        draft = self._improve(draft)
        plan = self._checked(draft)
        if self._watch is not None:
            self._watch(plan)
        return plan

    def _is_finished(self, draft: _Draft) -> bool:
        return not self._request.choices and all(plan.proven for plan in draft.plans.values())

    def _quick(self) -> _Draft:
        """Plan everything with the first options that can be cut."""
        places = [0 for _ in self._request.choices]
        plans: dict[str, LengthPlan | SheetPlan] = {}
        while True:
            chosen = tuple(open_[at] for open_, at in zip(self._open, places, strict=True))
            try:
                for name in self._materials:
                    plans[name] = self._first(name, chosen)
            except _Short:
                # Count on through the options; when there are no more, the last fault stands.
                if not self._count_on(places) or self._budget.is_spent:
                    raise
            else:
                return _Draft(chosen, plans)

    def _first(self, name: str, chosen: tuple[int, ...]) -> LengthPlan | SheetPlan:
        """Plan one material quickly; where that finds nothing, with all the time there is."""
        share = self._request.seconds / max(1, len(self._materials)) / 2
        try:
            return self._solve(name, chosen, min(QUICK, share))
        except _Short as short:
            if short.proven:
                raise
            return self._solve(name, chosen, self._budget.left)

    def _shortage(self, short: _Short) -> tuple[Problem, ...]:
        request = self._request
        return shortage_problems(
            self._materials[short.name],
            request.keep_for(self._materials[short.name]),
            short.wanted,
            short.missing,
            Budget.of(max(SHORTAGE, self._budget.left), self._budget.cancelled),
            request.seed,
            proven=short.proven,
        )

    def _count_on(self, places: list[int]) -> bool:
        """Move to the next combination of open options; False when all have been tried."""
        for place, open_ in enumerate(self._open):
            places[place] += 1
            if places[place] < len(open_):
                return True
            places[place] = 0
        return False

    def _choose(self, draft: _Draft) -> _Draft:
        """Try the other options one by one and keep what costs less, until none does."""
        deadline = self._request.seconds * CHOOSING
        improved = True
        while improved and self._budget.used < deadline:
            improved = False
            for place, open_ in enumerate(self._open):
                for option in open_:
                    is_late = self._budget.used >= deadline or self._budget.is_spent
                    if option == draft.chosen[place] or is_late:
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
                except _Short:
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
            with suppress(_Short):
                found = self._solve(name, draft.chosen, share)
                plans[name] = self._better(plans[name], found)
            self._teller.settle(name, plans[name].money.net, plans[name].bound)
        return _Draft(draft.chosen, plans)

    def _better(
        self, old: LengthPlan | SheetPlan, new: LengthPlan | SheetPlan
    ) -> LengthPlan | SheetPlan:
        if self._request.fewer_layouts and isinstance(old, LengthPlan):
            assert isinstance(new, LengthPlan)
            return better_plan(old, new, is_better=has_fewer_layouts(old, new))
        return better_plan(old, new, is_better=new.money.net <= old.money.net)

    def _solve(self, name: str, chosen: tuple[int, ...], seconds: float) -> LengthPlan | SheetPlan:
        request = self._request
        material = self._materials[name]
        wanted = quantities(request, chosen)
        budget = Budget.of(seconds, self._budget.cancelled)

        def progress(cost: int, bound: int) -> None:
            self._teller.hear(name, cost, bound)

        if isinstance(material, LengthMaterial):
            lengths = lengths_problem(material, request.keep_for(material), wanted)
            outcome = solve_lengths(lengths, budget=budget, seed=request.seed, progress=progress)
            if outcome.status not in (Status.OPTIMAL, Status.FEASIBLE):
                raise _Short(name, wanted, outcome)
            return lengths_plan(material, request, outcome)
        sheets = sheets_problem(material, request.keep_for(material), wanted)
        found = solve_sheets(sheets, budget=budget, seed=request.seed, progress=progress)
        if found.status not in (Status.OPTIMAL, Status.FEASIBLE):
            raise _Short(name, wanted, found)
        return sheets_plan(material, request.keep_for(material), request.choices, found)

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
