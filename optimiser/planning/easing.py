"""Near misses: the smallest set of easings that saves stock, ranked by saving per millimetre.

Each part says how much smaller it may be. With everything eased the purchase is as low as it gets;
from there easings are given back by halves and one by one while the saving holds, then single
easings and pairs are tried, and at last each easing is made as small as it can be. Only purchase
counts: a few pence of credit for a longer offcut are no reason to plane a board.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from math import isfinite
from typing import TypeVar

from optimiser.domain.easing import Easing, NearMiss
from optimiser.domain.parts import NO_EASE, BoardPart, LengthPart
from optimiser.domain.plan import CuttingPlan, LengthLayout, SheetLayout
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.errors import InvalidInput, PlanRefused, Problem, invalid
from optimiser.planning.assemble import added_up, assembled, parts_left, request_with
from optimiser.planning.sanity import quantities, require_sane
from optimiser.planning.until import Trial, try_plan
from optimiser.solvers.protocol import Budget
from optimiser.units import Pence, Tenths
from optimiser.verify.check import check_plan, require_sound
from optimiser.verify.easing import check_easing

# Seconds for one trial; measured on generated batches, most end proven before.
TRIAL = 0.1
MOST_SECONDS = 3600
A_PENNY = Pence(1)
# Share of the time for what the parts cost as asked and with everything eased.
KNOWING = 0.3
# Share of the time gone when single easings and pairs are no longer tried.
TRYING = 0.8

Material = LengthMaterial | SheetMaterial
# Part id and dimension, and by how much it is smaller.
Amounts = dict[tuple[str, str], int]
PartT = TypeVar("PartT", LengthPart, BoardPart)


def near_misses(
    request: CuttingRequest, plan: CuttingPlan, *, saving: Pence = A_PENNY, seconds: float = 8.0
) -> tuple[NearMiss, ...]:
    """Return the sets of easings found that save `saving` pence of purchase or more, best first.

    For each material with ease the least set for that saving, and the least for the largest saving
    there is, against what the plan buys; of choices the plan's options stay. Raises InvalidInput
    for a request that cannot be planned as it stands, that has no part with ease, or that the plan
    does not answer.
    """
    if not isfinite(seconds) or not 0 <= seconds <= MOST_SECONDS:
        raise invalid("seconds", f"{seconds} is not from 0 to 3600", "Give seconds to think")
    if saving < 1:
        raise invalid("saving", f"{saving} pence is no saving", "Give a sum above 0")
    require_sane(request)
    if not any(part.ease for material in request.materials for part in material.parts):
        remedy = "Say for some part by how many mm it may be smaller, e.g. ease_mm = 3"
        raise invalid("ease_mm", "is 0 for every part", remedy)
    budget = Budget.of(seconds)
    if faults := check_plan(request, plan):
        remedy = "Give the plan that was made for this request"
        raise InvalidInput(tuple(Problem(f.where, f.what, remedy) for f in faults))
    bare = request.without_credit()
    materials = _as_chosen(request, plan)
    bought = {item.material: item.money.purchase for item in plan.materials}
    found: list[NearMiss] = []
    for place, material in enumerate(materials):
        share = Budget.of(budget.left / (len(materials) - place))
        found += _Search(bare, material, bought[material.material], share).found(saving)
    return tuple(sorted(found, key=lambda miss: (-miss.per_mm, miss.material, miss.eased)))


def _as_chosen(request: CuttingRequest, plan: CuttingPlan) -> list[Material]:
    """Return the materials with ease, with the parts of the options that the plan takes."""
    options = quantities(request, tuple(one.option for one in plan.chosen))
    wanted = {id_: count for id_, count in options.items() if count}
    result: list[Material] = []
    for item in request.lengths:
        result.append(replace(item, parts=parts_left(item.parts, wanted)))
    for board in request.sheets:
        result.append(replace(board, parts=parts_left(board.parts, wanted)))
    return [item for item in result if any(part.ease for part in item.parts)]


class _Search:
    """The near misses of one material."""

    def __init__(
        self, request: CuttingRequest, material: Material, bought: int, budget: Budget
    ) -> None:
        self._request = request
        self._material = material
        self._bought = bought
        self._budget = budget
        self._all: Amounts = dict(_limits(material))
        # Whether every set that saved too little was proven to.
        self._proven = True

    def found(self, saving: int) -> Iterator[NearMiss]:
        """Yield the least set for that saving, and for the largest saving there is."""
        share = self._budget.seconds * KNOWING / 2
        base = self._planned({}, share, -1)
        most = self._planned(self._all, share, -1)
        if base is None or most is None:
            return
        # A better plan of the parts as asked saves nothing that the easings could claim.
        asked = min(self._bought, base.cost)
        if most.cost > asked - saving:
            return
        target = asked - saving
        for enough in sorted({target, most.cost}, reverse=True):
            self._proven = True
            amounts = self._fewest(enough, most)
            fewest = self._proven
            if not amounts:
                continue  # A better plan of the parts as asked: no easing did this.
            amounts = self._smallest(amounts, enough)
            trial = self._planned(amounts, TRIAL, enough)
            if trial is None or trial.cost > enough:
                continue  # A trial that the clock ended before: nothing is claimed.
            yield self._miss(amounts, trial, asked, certain=base.bound > trial.cost, fewest=fewest)
            if trial.cost <= most.cost:
                return

    def _miss(
        self, amounts: Amounts, trial: Trial, asked: int, *, certain: bool, fewest: bool
    ) -> NearMiss:
        eased = _eased(self._material, amounts)
        faults = check_easing(self._material, eased)
        if faults:
            remedy = "This is a fault of the program: please report it with the request"
            raise PlanRefused(tuple(Problem(f.where, f.what, remedy) for f in faults))
        parts = {part.id: part for part in self._material.parts}
        request = request_with(self._request, (eased,))
        drawn = assembled(request, eased, trial.layouts, None)
        return NearMiss(
            material=self._material.material,
            easings=tuple(
                Easing(
                    part=id_,
                    job=parts[id_].job,
                    name=parts[id_].name,
                    dimension=dimension,
                    asked=Tenths(getattr(parts[id_], dimension)),
                    eased=Tenths(getattr(parts[id_], dimension) - by),
                    fields=_fields(parts[id_], dimension),
                )
                for (id_, dimension), by in amounts.items()
            ),
            purchase=drawn.money.purchase,
            saving=Pence(asked - drawn.money.purchase),
            certain=certain,
            fewest=fewest,
            request=request,
            plan=require_sound(request, added_up(request, (drawn,))),
        )

    def _planned(self, amounts: Amounts, seconds: float, enough: int) -> Trial | None:
        return try_plan(self._request, _eased(self._material, amounts), seconds, enough)

    def _saves(self, amounts: Amounts, enough: int) -> bool:
        if self._budget.is_spent:
            self._proven = False
            return False
        trial = self._planned(amounts, TRIAL, enough)
        if trial is not None and trial.cost <= enough:
            return True
        self._proven = self._proven and trial is not None and trial.bound > enough
        return False

    def _fewest(self, enough: int, most: Trial) -> Amounts:
        """Give easings back by halves, quarters and one by one; then try one and two alone."""
        kept = list(self._all)
        if isinstance(self._material, LengthMaterial):
            needed = _needed(self._material, most.layouts)
            kept = needed if self._saves(self._of(needed), enough) else kept
        step = max(1, len(kept) // 2)
        while True:
            end = len(kept)
            while end > 0:
                fewer = kept[: max(0, end - step)] + kept[end:]
                if fewer != kept and self._saves(self._of(fewer), enough):
                    kept = fewer
                end -= step
            if step == 1:
                break
            step //= 2
        self._proven = True
        early = self._budget.until(self._budget.seconds * TRYING)
        for size in range(1, min(3, len(kept))):
            for few in combinations(self._all, size):
                if early.is_spent:
                    self._proven = False
                    return self._of(kept)
                if self._saves(self._of(list(few)), enough):
                    return self._of(list(few))
        self._proven = self._proven and len(kept) <= 3
        return self._of(kept)

    def _of(self, keys: list[tuple[str, str]]) -> Amounts:
        return {key: self._all[key] for key in keys}

    def _smallest(self, amounts: Amounts, enough: int) -> Amounts:
        """Make each easing as small as the saving allows, by halving, one after the other."""
        for key, allowed in list(amounts.items()):
            least, most = 0, allowed
            while most - least > 1:
                middle = (least + most) // 2
                if self._saves({**amounts, key: middle}, enough):
                    most = middle
                else:
                    least = middle
            amounts = {**amounts, key: most}
        return amounts


def _fields(part: LengthPart | BoardPart, dimension: str) -> tuple[str, ...]:
    """Return the fields of the wall's file that a dimension comes from, none where unknown."""
    known = (one.fields for one in part.dimension_from if one.dimension == dimension)
    return next(known, ())


def _needed(
    material: LengthMaterial, layouts: tuple[LengthLayout | SheetLayout, ...]
) -> list[tuple[str, str]]:
    """Return parts which, eased, let layouts of eased parts hold the others as they were asked.

    For each layout that is too long, fullest first, those that yield most.
    """
    parts = {part.id: part for part in material.parts}
    usable = {(item.id, False): item.length - 2 * material.end_trim for item in material.stock}
    usable |= {(item.id, True): item.length - 2 * item.end_trim for item in material.offcuts}
    eased: dict[str, None] = {}
    over: list[tuple[int, Counter[str]]] = []
    for layout in layouts:
        counts = Counter(placed.part for placed in layout.parts)
        full = sum(parts[id_].length * n for id_, n in counts.items())
        full += material.kerf * (len(layout.parts) - 1)
        over.append((full - usable[layout.stock, layout.offcut], counts))
    for too_long, counts in sorted(over, key=lambda pair: -pair[0]):
        short = too_long - sum(parts[id_].ease * n for id_, n in counts.items() if id_ in eased)
        for id_, n in sorted(counts.items(), key=lambda pair: -parts[pair[0]].ease * pair[1]):
            if short > 0 and id_ not in eased:
                eased[id_] = None
                short -= parts[id_].ease * n
    return [(id_, "length") for id_ in eased if parts[id_].ease]


def _limits(material: Material) -> Iterator[tuple[tuple[str, str], int]]:
    """Yield by how much each dimension may shrink; a cut-out stays where it is, and whole."""
    for part in material.parts:
        if isinstance(part, LengthPart):
            room = {"length": int(part.ease)}
        else:
            across = max((hole.x + hole.width for hole in part.cut_outs), default=0)
            up = max((hole.y + hole.height for hole in part.cut_outs), default=0)
            room = {
                "width": min(part.ease, part.width - across),
                "height": min(part.ease, part.height - up),
            }
        for dimension, most in room.items():
            if most > 0:
                yield (part.id, dimension), most


def _eased(material: Material, amounts: Amounts) -> Material:
    if isinstance(material, LengthMaterial):
        return replace(material, parts=tuple(_smaller(part, amounts) for part in material.parts))
    return replace(material, parts=tuple(_smaller(part, amounts) for part in material.parts))


def _smaller(part: PartT, amounts: Amounts) -> PartT:
    """Return a part as eased; nothing is left of its ease."""
    if isinstance(part, LengthPart):
        length = part.length - amounts.get((part.id, "length"), 0)
        return replace(part, length=Tenths(length), ease=NO_EASE)
    width = part.width - amounts.get((part.id, "width"), 0)
    height = part.height - amounts.get((part.id, "height"), 0)
    return replace(part, width=Tenths(width), height=Tenths(height), ease=NO_EASE)
