"""After a mishap: the rest of a plan from what lies there, with the least extra purchase.

Finished work stays as it is. What went missing is first fitted into what the unfinished pieces
leave as drawn; only where that costs more than need be are pieces reopened, as few as the search
finds, the ones that leave most first. Everything bought already costs nothing and no offcut earns
credit, so that money here is extra purchase and nothing else.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, replace
from math import isfinite

from optimiser.domain.continuation import Continuation, FloorPiece, InHand, Rest
from optimiser.domain.marks import Marks
from optimiser.domain.plan import CuttingPlan, LengthPlan, SheetLayout, SheetPlan
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.errors import PlanRefused, Problem, invalid
from optimiser.planning.assemble import added_up, assembled, parts_left, request_with, stock_left
from optimiser.planning.floor import Floor, Layout, Offcut, Unit, clear_up
from optimiser.planning.marking import require_fitting
from optimiser.planning.plan import plan_cutting
from optimiser.planning.refit import Gap, filled, gaps_of, worth_offering
from optimiser.planning.sanity import quantities
from optimiser.planning.until import try_plan
from optimiser.solvers.protocol import Budget
from optimiser.verify.continuation import check_continuation

# Seconds for one trial; measured on the demo, enough for a plan within a few pence of the best.
TRIAL = 0.1
MOST_SECONDS = 3600

Material = LengthMaterial | SheetMaterial


def replan(
    request: CuttingRequest,
    plan: CuttingPlan,
    marks: Marks,
    *,
    seconds: float = 1.0,
    withheld: Collection[str] = (),
) -> Continuation:
    """Plan the rest after the marks, checked as a continuation of the plan.

    `withheld` names rack offcuts of the request that the plan left and that cannot be had now.
    `seconds` is shared by the materials that lost a part. Raises InvalidInput for marks that
    contradict the plan, NoPlan when stock and floor cannot yield the rest, PlanRefused if the
    result failed its check (a fault of the program).
    """
    if not isfinite(seconds) or not 0 <= seconds <= MOST_SECONDS:
        raise invalid("seconds", f"{seconds} is not from 0 to 3600", "Give seconds to think")
    budget = Budget.of(seconds)
    require_fitting(request, plan, marks)
    wanted = quantities(request, tuple(one.option for one in plan.chosen))
    bare = replace(request.without_credit(), choices=())
    benches = [
        _Bench(bare, material, drawn, marks, wanted, frozenset(withheld))
        for material, drawn in zip(request.materials, plan.materials, strict=True)
    ]
    finished = sum((bench.floor.finished for bench in benches), Counter[str]())
    benches = [bench for bench in benches if bench.parts]
    troubled = [bench for bench in benches if not bench.goes_on_for_nothing()]
    for place, bench in enumerate(troubled):
        bench.search(Budget.of(budget.left / (len(troubled) - place)))
    cut_on = [bench.cut_on() for bench in benches]
    done = tuple((id_, finished[id_]) for id_ in wanted if finished[id_])
    continuation = Continuation(
        finished=done, rest=_rest(bare, cut_on, budget.used) if cut_on else None
    )
    faults = check_continuation(request, plan, marks, continuation)
    if faults:
        remedy = "This is a fault of the program: please report it with request, plan and marks"
        raise PlanRefused(tuple(Problem(f.where, f.what, remedy) for f in faults))
    return continuation


@dataclass(frozen=True, slots=True, kw_only=True)
class _CutOn:
    """The rest of one material: what is asked, its plan, and what became of unfinished pieces."""

    material: Material
    plan: LengthPlan | SheetPlan
    floor: tuple[FloorPiece, ...]
    in_hand: tuple[InHand, ...]
    as_planned: int
    filled: int
    changed: int


@dataclass(frozen=True, slots=True)
class _Trial:
    """One way to go on: which units are reopened, the layouts of all, how many units take further
    parts, and what is bought."""

    reopened: tuple[int, ...]
    layouts: tuple[Layout, ...]
    filled: int
    cost: int


class _Bench:
    """One material with its floor: makes sub-requests for what is open and puts results back."""

    def __init__(
        self,
        request: CuttingRequest,
        material: Material,
        drawn: LengthPlan | SheetPlan,
        marks: Marks,
        wanted: dict[str, int],
        withheld: frozenset[str],
    ) -> None:
        self._request = request
        self._material = material
        own = tuple(mark for mark in marks.marks if mark.material == material.material)
        laid = marks.floor.lengths if isinstance(drawn, LengthPlan) else marks.floor.sheets
        extra: list[Offcut] = [piece for name, piece in laid if name == material.material]
        hands: dict[str, str] = {}
        taken = {piece.id for piece in extra}
        self.floor: Floor = clear_up(material, drawn.layouts, own, hands, taken)
        self.floor.free = [one for one in self.floor.free if one.id not in withheld] + extra
        self.parts = {
            part.id: wanted[part.id] - self.floor.finished[part.id]
            for part in material.parts
            if wanted[part.id] > self.floor.finished[part.id]
        }
        self._hands = hands
        self._best: _Trial | None = None
        self._proof: LengthPlan | SheetPlan | None = None

    def goes_on_for_nothing(self) -> bool:
        """Try to go on with every piece as it was drawn; return whether that takes no purchase."""
        self._best = self._try((), 0)
        return self._best is not None and self._best.cost == 0

    def search(self, budget: Budget) -> None:
        """Find the least extra purchase, and for it as few pieces reopened as there is time for."""
        first = self._best
        # Half the time for what the rest costs at least, the other half for disturbing less.
        most, self._proof = self._all_open(max(TRIAL, budget.left / 2))
        if first is None or first.cost > max(most.cost, self._proof.bound):
            self._best = self._fewer_reopened(most, budget)

    def cut_on(self) -> _CutOn:
        """Return the best way to go on that was found, put together as one plan."""
        best, units = self._best, self.floor.units
        assert best is not None
        whole = self._asked(tuple(range(len(units))), {})
        return _CutOn(
            material=whole,
            plan=assembled(self._request, whole, best.layouts, self._proof),
            floor=tuple(self.floor.named),
            in_hand=tuple(
                InHand(material=whole.material, id=id_, stock=stock)
                for stock, id_ in self._hands.items()
            ),
            as_planned=len(units) - len(best.reopened) - best.filled,
            filled=best.filled,
            changed=len(best.reopened),
        )

    def _fewer_reopened(self, most: _Trial, budget: Budget) -> _Trial:
        """Reopen 1, 2, 4 … of the pieces that leave most until that costs no more; then close.

        Closing goes by halves, quarters and so on down to single pieces, least left first.
        """
        units = self.floor.units
        order = sorted(range(len(units)), key=lambda place: (-units[place].spare, place))
        best, size = most, 1
        while size < len(units) and not budget.is_spent:
            trial = self._try(tuple(order[:size]), most.cost)
            if trial is not None and trial.cost <= most.cost:
                best = trial
                break
            size *= 2
        step = max(1, len(best.reopened) // 2)
        end = len(best.reopened)
        while end > 0 and not budget.is_spent:
            open_ = best.reopened[: max(0, end - step)] + best.reopened[end:]
            trial = self._try(open_, most.cost)
            if trial is not None and trial.cost <= most.cost:
                best = trial
            end -= step
            if end <= 0 and step > 1:
                step, end = step // 2, len(best.reopened)
        return best

    def _try(self, reopened: tuple[int, ...], enough: int) -> _Trial | None:
        """Plan in a short time at most, until it costs no more than enough or cannot."""
        kept, asked, gaps = self._open(reopened)
        if asked is None:
            return _Trial(reopened, tuple(kept), 0, 0)
        found = try_plan(self._request, asked, TRIAL, enough)
        if found is None:
            return None
        return self._put_back(reopened, kept, gaps, found.layouts, found.cost)

    def _all_open(self, seconds: float) -> tuple[_Trial, LengthPlan | SheetPlan]:
        """Plan all that is left anew, with a proof."""
        everything = tuple(range(len(self.floor.units)))
        kept, asked, gaps = self._open(everything)
        assert asked is not None
        request = replace(request_with(self._request, (asked,)), seconds=seconds)
        plan = plan_cutting(request).materials[0]
        return self._put_back(everything, kept, gaps, plan.layouts, plan.money.purchase), plan

    def _open(
        self, reopened: tuple[int, ...]
    ) -> tuple[list[Layout], Material | None, dict[str, Gap]]:
        """Return what stays as drawn, what is then still asked (None: nothing), and its gaps."""
        kept: list[Layout] = [
            layout
            for place, unit in enumerate(self.floor.units)
            if place not in reopened
            for layout in unit.layouts
        ]
        missing = Counter(self.parts)
        for layout in kept:
            missing.subtract(part.part for part in layout.parts)
        open_parts = {id_: count for id_, count in missing.items() if count > 0}
        if not open_parts:
            return kept, None, {}
        # Cutting on within a piece may change direction once too often where stages count, and
        # begin it the wrong way where the saw asks for one.
        has_rules = isinstance(self._material, SheetMaterial) and (
            self._material.max_stages is not None or self._material.first_cut is not None
        )
        gaps = {} if has_rules else gaps_of(kept)
        asked = self._asked(reopened, open_parts, tuple(offcut for _, offcut in gaps.values()))
        if isinstance(asked, SheetMaterial):
            # What a drawn layout takes from a cut-out is not there twice.
            free = not any(isinstance(one, SheetLayout) and one.cut_out is not None for one in kept)
            asked = replace(asked, use_cut_outs=asked.use_cut_outs and free)
        return kept, asked, {id_: gap for id_, (gap, _) in gaps.items()}

    def _put_back(
        self,
        reopened: tuple[int, ...],
        kept: list[Layout],
        gaps: dict[str, Gap],
        found: tuple[Layout, ...],
        cost: int,
    ) -> _Trial:
        fresh = [item for item in found if item.stock not in gaps]
        from_gaps = {gaps[item.stock]: item for item in found if item.stock in gaps}
        drawn, touched = filled(kept, from_gaps)
        # A started sheet is one unfinished piece, in however many remnants it lies there.
        owners = [
            place
            for place, unit in enumerate(self.floor.units)
            if place not in reopened
            for _ in unit.layouts
        ]
        units = {owners[number] for number in touched}
        return _Trial(reopened, (*drawn, *fresh), len(units), cost)

    def _asked(
        self,
        reopened: tuple[int, ...],
        parts: dict[str, int],
        gaps: tuple[Offcut, ...] = (),
    ) -> Material:
        """Ask for parts (all that are left where none are named) from what is open and can be had.

        Stock in hand comes first, at no price; what may be bought more is less by what was.
        """
        material, floor = self._material, self.floor
        wanted = parts or self.parts
        open_units: list[Unit] = [floor.units[place] for place in reopened]
        own = [offcut for unit in open_units for offcut in unit.offcuts]
        around = [*floor.free, *gaps]
        held = Counter(unit.stock for unit in open_units if unit.stock is not None)
        if isinstance(material, LengthMaterial):
            long = parts_left(material.parts, wanted)
            return replace(
                material,
                stock=stock_left(material.stock, self._hands, held, floor.used),
                offcuts=(
                    *(offcut for offcut in own if isinstance(offcut, LengthOffcut)),
                    *worth_offering((o for o in around if isinstance(o, LengthOffcut)), long),
                ),
                parts=long,
            )
        flat = parts_left(material.parts, wanted)
        return replace(
            material,
            stock=stock_left(material.stock, self._hands, held, floor.used),
            offcuts=(
                *(offcut for offcut in own if isinstance(offcut, SheetOffcut)),
                *worth_offering((o for o in around if isinstance(o, SheetOffcut)), flat),
            ),
            parts=flat,
        )


def _rest(request: CuttingRequest, cut_on: list[_CutOn], seconds: float) -> Rest:
    whole = request_with(request, tuple(item.material for item in cut_on))
    return Rest(
        request=whole,
        plan=added_up(whole, tuple(item.plan for item in cut_on), seconds=seconds),
        floor=tuple(piece for item in cut_on for piece in item.floor),
        in_hand=tuple(piece for item in cut_on for piece in item.in_hand),
        as_planned=sum(item.as_planned for item in cut_on),
        filled=sum(item.filled for item in cut_on),
        changed=sum(item.changed for item in cut_on),
    )
