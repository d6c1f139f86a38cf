"""One request, one verified plan: first a quick plan of everything, then the time where it pays.

The budget is shared in two passes: a quick one, so that a complete plan exists within a fraction of
a second, and a longer one over the materials that are not yet proven. Each complete plan is checked
before it is shown to anyone.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from math import sqrt
from typing import TypeAlias

from optimiser.domain.plan import Chosen, CuttingPlan, LengthPlan, Money, SheetPlan
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.errors import NoPlan, Problem
from optimiser.planning.access import open_options
from optimiser.planning.better import better_plan, has_fewer_layouts
from optimiser.planning.deciding import QUICK, Decider
from optimiser.planning.lengths import lengths_plan, lengths_problem
from optimiser.planning.progress import Tell, Teller
from optimiser.planning.sanity import quantities, require_sane
from optimiser.planning.sheets import sheets_plan, sheets_problem
from optimiser.planning.shortage import shortage_problems
from optimiser.solvers.lengths.problem import LengthsOutcome
from optimiser.solvers.lengths.solve import solve as solve_lengths
from optimiser.solvers.protocol import Budget, Status, never
from optimiser.solvers.sheets.problem import SheetsOutcome
from optimiser.solvers.sheets.solve import solve as solve_sheets
from optimiser.units import Pence
from optimiser.verify.check import require_sound, whole_bound

Outcome: TypeAlias = LengthsOutcome | SheetsOutcome

# Share of the time that deciding between options may take; not measured, the rest is for cutting.
CHOOSING = 0.5
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
        self._decider = Decider(request, self._open, self._try, self._budget)
        self._materials: dict[str, LengthMaterial | SheetMaterial] = {
            material.material: material for material in request.materials
        }

    def plan(self) -> CuttingPlan:
        try:
            chosen = self._quick()
        except _Short as short:
            raise NoPlan(self._shortage(short)) from None
        draft = None
        if self._watch is not None or not self._request.choices:
            draft = self._draft(chosen)
            if self._watch is not None and not self._is_finished(draft):
                self._watch(self._checked(draft))
        if self._request.choices:
            way = self._decider.decide(chosen, self._request.seconds * CHOOSING)
            if draft is None or way != chosen:
                draft = self._draft(way)
        assert draft is not None
        for name, known in draft.plans.items():
            self._teller.settle(name, known.money.net, known.bound)
        draft = self._improve(draft)
        plan = self._checked(draft)
        if self._watch is not None:
            self._watch(plan)
        return plan

    def _is_finished(self, draft: _Draft) -> bool:
        return not self._request.choices and all(plan.proven for plan in draft.plans.values())

    def _quick(self) -> tuple[int, ...]:
        """Plan everything with the first options that can be cut; return which they are."""
        places = [0 for _ in self._request.choices]
        while True:
            chosen = tuple(open_[at] for open_, at in zip(self._open, places, strict=True))
            try:
                for name in self._materials:
                    if self._decider.outcome(name, chosen) is None:
                        began = self._budget.used
                        outcome = self._first(name, chosen)
                        self._decider.take(name, chosen, outcome, self._budget.used - began)
            except _Short:
                # Count on through the options; when there are no more, the last fault stands.
                if not self._count_on(places) or self._budget.is_spent:
                    raise
            else:
                return chosen

    def _first(self, name: str, chosen: tuple[int, ...]) -> Outcome:
        """Plan one material quickly; where that finds nothing, with all the time there is."""
        share = self._request.seconds / max(1, len(self._materials)) / 2
        try:
            return self._solve(name, chosen, min(QUICK, share))
        except _Short as short:
            if short.proven:
                raise
            return self._solve(name, chosen, self._budget.left)

    def _draft(self, chosen: tuple[int, ...]) -> _Draft:
        """Lay out the best plans there are for these options, each with its proof."""
        plans = {}
        for name in self._materials:
            outcome = self._decider.outcome(name, chosen)
            assert outcome is not None
            plans[name] = self._laid_out(name, outcome)
        return _Draft(chosen, plans)

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

    def _try(self, name: str, chosen: tuple[int, ...], seconds: float) -> Outcome | None:
        try:
            return self._solve(name, chosen, seconds)
        except _Short:
            return None

    def _improve(self, draft: _Draft) -> _Draft:
        """Give the time left to the materials that are not proven, more to those with more to gain.

        The root of the gap is what counts: some gaps are only the bound's.
        """
        plans = dict(draft.plans)
        gaps = {name: self._gap(name, draft) for name, plan in plans.items() if not plan.proven}
        waiting = sorted(gaps, key=lambda name: gaps[name])
        while waiting:
            roots = [sqrt(max(1, gaps[name])) for name in waiting]
            share = self._budget.left * roots[0] / sum(roots)
            name = waiting.pop(0)
            if self._budget.left <= QUICK:
                break
            if share <= QUICK:
                continue
            # Scarce stock may leave a search without a plan; then the quick one stands.
            with suppress(_Short):
                found = self._laid_out(name, self._solve(name, draft.chosen, share))
                plans[name] = self._better(plans[name], found)
            self._teller.settle(name, plans[name].money.net, plans[name].bound)
        return _Draft(draft.chosen, plans)

    def _gap(self, name: str, draft: _Draft) -> int:
        """Return what a better plan of a material could save at most with these options."""
        outcome = self._decider.outcome(name, draft.chosen)
        bound = draft.plans[name].bound if outcome is None else outcome.bound
        return draft.plans[name].money.net - bound

    def _better(
        self, old: LengthPlan | SheetPlan, new: LengthPlan | SheetPlan
    ) -> LengthPlan | SheetPlan:
        if self._request.fewer_layouts and isinstance(old, LengthPlan):
            assert isinstance(new, LengthPlan)
            return better_plan(old, new, is_better=has_fewer_layouts(old, new))
        return better_plan(old, new, is_better=new.money.net <= old.money.net)

    def _solve(self, name: str, chosen: tuple[int, ...], seconds: float) -> Outcome:
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
            return outcome
        sheets = sheets_problem(material, request.keep_for(material), wanted)
        found = solve_sheets(sheets, budget=budget, seed=request.seed, progress=progress)
        if found.status not in (Status.OPTIMAL, Status.FEASIBLE):
            raise _Short(name, wanted, found)
        return found

    def _laid_out(self, name: str, outcome: Outcome) -> LengthPlan | SheetPlan:
        """Lay a solver's outcome out as a plan, and let the checker derive its bound."""
        material = self._materials[name]
        if isinstance(material, LengthMaterial):
            assert isinstance(outcome, LengthsOutcome)
            return lengths_plan(material, self._request, outcome)
        assert isinstance(outcome, SheetsOutcome)
        keep = self._request.keep_for(material)
        return sheets_plan(material, keep, self._request.choices, outcome)

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
        chosen = draft.chosen
        bound = whole_bound(self._request, tuple(lengths), tuple(sheets), chosen)
        return require_sound(
            self._request,
            CuttingPlan(
                seed=self._request.seed,
                lengths=tuple(lengths),
                sheets=tuple(sheets),
                chosen=tuple(
                    Chosen(choice=choice.id, option=option)
                    for choice, option in zip(self._request.choices, chosen, strict=True)
                ),
                money=money,
                bound=Pence(bound),
                proven=bound == money.net,
                seconds=round(self._budget.used, 3),
                choices_saved=Pence(self._decider.saved),
            ),
        )
