"""One request, one verified plan: first a quick plan of everything, then the time where it pays.

The budget is shared in two passes: a quick one, so that a complete plan exists within a fraction of
a second, and a longer one over the materials that are not yet proven. Each complete plan is checked
before it is shown to anyone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias, cast

from optimiser.domain.plan import Chosen, CuttingPlan, LengthPlan, Money, SheetPlan
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.errors import NoPlan, Problem
from optimiser.planning.access import open_options
from optimiser.planning.crew import Crew
from optimiser.planning.deciding import QUICK, Decider, Task
from optimiser.planning.lengths import lengths_plan, lengths_problem
from optimiser.planning.pricing import further_reasons
from optimiser.planning.progress import Tell, Teller
from optimiser.planning.proofs import certificate_of, with_others
from optimiser.planning.sanity import quantities, require_sane
from optimiser.planning.sheets import sheets_plan, sheets_problem
from optimiser.planning.shortage import shortage_problems
from optimiser.solvers.lengths.problem import LengthsOutcome
from optimiser.solvers.lengths.solve import solve as solve_lengths
from optimiser.solvers.protocol import Budget, Status, never
from optimiser.solvers.sheets.outcome import simplified
from optimiser.solvers.sheets.problem import SheetsOutcome
from optimiser.solvers.sheets.solve import solve as solve_sheets
from optimiser.units import Pence
from optimiser.verify.check import require_sound, whole_bound

if TYPE_CHECKING:
    from optimiser.domain.plan import LengthWeights, PartWeights, SheetWeights

    LengthReasons: TypeAlias = tuple[LengthWeights, ...]
    BoardReasons: TypeAlias = tuple[SheetWeights | PartWeights, ...]

Outcome: TypeAlias = LengthsOutcome | SheetsOutcome

# Share of the time, and seconds at most, for drawing the plan and working out its bound.
PROVING = 0.2
MOST_PROVING = 6.0
# Of the time, and seconds at most, for further reasons of one board.
PRICING = 0.03
MOST_PRICING = 0.3
# Others are only asked to help where there is so much time: they take a moment to come.
HELPED = 1.0
# Seconds at least for working out what stock is missing.
SHORTAGE = 1.0

Watch = Callable[[CuttingPlan], None]


def plan_cutting(
    request: CuttingRequest,
    *,
    watch: Watch | None = None,
    tell: Tell | None = None,
    cancelled: Callable[[], bool] = never,
    workers: int = 1,
) -> CuttingPlan:
    """Return the best plan found in the request's seconds; it has passed the checker.

    With more than one of `workers`, materials and ways to choose are planned at once by so many
    processes forked from this one, where the system forks; the seconds stay the same.

    `watch` is called with each complete, checked plan as it is found, the last one included; `tell`
    with cost and bound as they improve, 20 times a second at most. Once `cancelled` returns True,
    the best plan so far is checked and returned. Raises InvalidInput for a request that cannot be
    planned as it stands, NoPlan when stock and rack cannot yield the parts, PlanRefused if a plan
    failed its check (a fault of the program).
    """
    require_sane(request)
    planner = _Planner(request, watch, tell, cancelled, workers)
    with planner.crew:
        return planner.plan()


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
        workers: int,
    ) -> None:
        self._request = request
        self._watch = watch
        self._budget = Budget.of(request.seconds, cancelled)
        self._open = open_options(request)
        self._teller = Teller(self._budget, tell, len(request.materials))
        helped = workers if request.seconds >= HELPED else 1
        self.crew: Crew[Task, Outcome | None] = Crew(self._try, helped, cancelled)
        self._decider = Decider(request, self._open, self.crew, self._budget, self._settle)
        self._materials: dict[str, LengthMaterial | SheetMaterial] = {
            material.material: material for material in request.materials
        }

    def plan(self) -> CuttingPlan:
        self.crew.start()
        try:
            chosen = self._quick()
        except _Short as short:
            raise NoPlan(self._shortage(short)) from None
        if self._watch is not None and not self._is_finished(chosen):
            self._watch(self._checked(self._draft(chosen)))
        seconds = self._request.seconds
        way = self._decider.decide(chosen, seconds - min(MOST_PROVING, PROVING * seconds))
        plan = self._checked(self._draft(way, last=True))
        if self._watch is not None:
            self._watch(plan)
        return plan

    def _settle(self, name: str, outcome: Outcome) -> None:
        self._teller.settle(name, outcome.cost, outcome.bound)

    def _is_finished(self, chosen: tuple[int, ...]) -> bool:
        """Return whether there is nothing to choose and the quick plans are proven."""
        outcomes = (self._decider.outcome(name, chosen) for name in self._materials)
        return not self._request.choices and all(
            outcome is not None and outcome.cost == outcome.bound for outcome in outcomes
        )

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

    def _draft(self, chosen: tuple[int, ...], *, last: bool = False) -> _Draft:
        """Lay out the best plans there are for these options, the `last` with all proofs."""
        plans = {}
        for name in self._materials:
            outcome = self._decider.outcome(name, chosen)
            assert outcome is not None
            plans[name] = self._laid_out(name, outcome, chosen, last=last)
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

    def _try(self, task: Task) -> Outcome | None:
        try:
            return self._solve(*task)
        except _Short:
            return None

    def _solve(
        self,
        name: str,
        chosen: tuple[int, ...],
        seconds: float,
        known: SheetsOutcome | None = None,
    ) -> Outcome:
        request = self._request
        material = self._materials[name]
        wanted = quantities(request, chosen)
        budget = Budget.of(seconds, self._budget.cancelled)

        def progress(cost: int, bound: int) -> None:
            if not self.crew.is_away:
                self._teller.hear(name, cost, bound)

        if isinstance(material, LengthMaterial):
            lengths = lengths_problem(material, request.keep_for(material), wanted)
            outcome = solve_lengths(lengths, budget=budget, seed=request.seed, progress=progress)
            if outcome.status not in (Status.OPTIMAL, Status.FEASIBLE):
                raise _Short(name, wanted, outcome)
            return outcome
        sheets = sheets_problem(material, request.keep_for(material), wanted)
        found = solve_sheets(
            sheets,
            budget=budget,
            seed=request.seed,
            progress=progress,
            known=known,
            simple=False,
            prices_first=bool(request.choices),
        )
        if found.status not in (Status.OPTIMAL, Status.FEASIBLE):
            raise _Short(name, wanted, found)
        return found

    def _laid_out(
        self, name: str, outcome: Outcome, chosen: tuple[int, ...], *, last: bool
    ) -> LengthPlan | SheetPlan:
        """Lay a solver's outcome out as a plan, and let the checker derive its bound."""
        request, material = self._request, self._materials[name]
        choices = request.choices
        own = certificate_of(request, material, outcome)
        if isinstance(material, SheetMaterial) and last:
            assert isinstance(outcome, SheetsOutcome)
            wanted = quantities(request, chosen)
            keep = request.keep_for(material)
            outcome = simplified(sheets_problem(material, keep, wanted), outcome)
            seconds = min(MOST_PRICING, PRICING * request.seconds)
            own += further_reasons(
                material,
                keep,
                choices,
                chosen,
                outcome,
                cast("BoardReasons", own),
                wanted,
                Budget.of(seconds, self._budget.cancelled),
            )
        if last:
            own = with_others(material, own, self._decider.proofs[name])
        if isinstance(material, LengthMaterial):
            assert isinstance(outcome, LengthsOutcome)
            return lengths_plan(material, request, outcome, cast("LengthReasons", own))
        assert isinstance(outcome, SheetsOutcome)
        keep = request.keep_for(material)
        return sheets_plan(material, keep, choices, outcome, cast("BoardReasons", own))

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
