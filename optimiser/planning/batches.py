"""What one batch of jobs costs to buy and to bring: planned for real, within what a vehicle takes.

Offcuts earn nothing here and the rack stays out of it: what one delivery leaves must not be counted
on by the next. Each stock may be bought up to its availability in every delivery. Batches share
what they have in common: a material is planned once for all batches whose jobs with that material
are the same, and where two smaller plans together cost less than a larger one, they are it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from optimiser.domain.deliveries import Terms
from optimiser.domain.job import Job
from optimiser.domain.plan import LengthLayout, SheetLayout
from optimiser.domain.price_book import LengthItem, PriceBook, SheetItem
from optimiser.domain.rack import Rack
from optimiser.domain.request import CuttingRequest, Keep, LengthMaterial, SheetMaterial
from optimiser.domain.stock import StockSheet
from optimiser.planning.batch_bounds import Grounds, proven_bound
from optimiser.planning.crew import Crew
from optimiser.planning.jobs import request_for_jobs
from optimiser.planning.order import cost_of_packs
from optimiser.planning.until import Trial, try_plan

# Seconds for one material of one batch; measured on generated jobs, see benchmarks.deliveries.
TRIAL = 0.03
# Seconds for one material of all jobs together: its weights bound every batch.
WEIGHING = 0.25
# Seconds for one material of a batch that is used or that the bound rests on.
LONGER = 0.2

Places: TypeAlias = frozenset[int]
# A material, the longest stock allowed, the jobs it is cut for, and seconds.
Task: TypeAlias = tuple[str, "int | None", Places, float]


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch as planned: its money, its load, and how each material is cut."""

    goods: int
    charge: int
    mass: int
    longest: int
    request: CuttingRequest
    trials: tuple[Trial, ...]

    @property
    def cost(self) -> int:
        """Return goods and charge in pence."""
        return self.goods + self.charge


@dataclass(slots=True)
class _Cut:
    """The best plan of one material for some jobs, what it cannot cost less than, and seconds."""

    trial: Trial | None
    bound: int
    seconds: float


def charge_for(terms: Terms, goods: int, longest: int) -> int:
    """Return what bringing goods for so many pence costs when the longest item is so long."""
    free = terms.free_over is not None and goods >= terms.free_over
    more = max((extra for above, extra in terms.by_length if longest > above), default=0)
    return (0 if free else terms.charge) + more


def least_charge_and_goods(terms: Terms, goods: int) -> int:
    """Return the least of goods and charge together when goods cost so much or more."""
    if terms.free_over is None:
        return goods + terms.charge
    return min(goods + terms.charge, max(goods, terms.free_over))


class Batches:
    """Plans batches of the jobs, and bounds them; jobs by their place in the tuple."""

    def __init__(
        self,
        jobs: tuple[Job, ...],
        book: PriceBook,
        terms: Terms,
        keep: Keep,
        seed: int,
        workers: int = 1,
    ) -> None:
        self._jobs = jobs
        self._terms = terms
        self._keep = replace(keep, credit=keep.credit * 0)
        self._seed = seed
        self._book = shortened(book, terms.length)
        self._masses = {item.material: item.mass for item in book.lengths}
        self._masses |= {item.material: item.mass for item in book.sheets}
        self._limits = sorted((above for above, _ in terms.by_length), reverse=True)
        self._needing: dict[str, set[int]] = {}
        for place, job in enumerate(jobs):
            for name, _ in (*job.parts.lengths, *job.parts.boards):
                self._needing.setdefault(name, set()).add(place)
        self._packs: dict[Places, int] = {}
        self._grounds: dict[str, Grounds] = {}
        # What is known by so many reasons.
        self._least: dict[tuple[str, int | None, Places], tuple[int, int]] = {}
        # By material, the limits that shut out some of its stock.
        self._biting = {item.material: _biting(item, self._limits) for item in book.lengths}
        self._biting |= {item.material: _biting(item, self._limits) for item in book.sheets}
        self._cuts: dict[tuple[str, int | None, Places], _Cut] = {}
        self.crew: Crew[Task, tuple[Trial | None, int]] = Crew(self._cut, workers)

    def weigh(self) -> None:
        """Plan all jobs together once; its weights and those of all other plans bound batches."""
        everyone = frozenset(range(len(self._jobs)))
        self._grounds = {
            material.material: Grounds(material) for material in self.request(everyone).materials
        }
        self._cut_all([everyone], None, WEIGHING)
        for key in self._cuts:
            self._learn(key)

    def _learn(self, key: tuple[str, int | None, Places]) -> None:
        """Take the reasons of a plan for those of its material."""
        name, limit, places = key
        if name not in self._grounds:
            return
        request = self.request(places, limit)
        own = next(item for item in request.materials if item.material == name)
        self._grounds[name].learn(self._cuts[key].trial, own)

    def request(self, places: Iterable[int], limit: int | None = None) -> CuttingRequest:
        """Return the cutting request of a batch, without stock that is longer than the limit."""
        jobs = tuple(self._jobs[place] for place in sorted(places))
        stock = shortened(self._book, limit)
        return request_for_jobs(
            jobs, stock, Rack(), keep=self._keep, seed=self._seed, seconds=TRIAL
        )

    def packs(self, places: Places) -> int:
        """Return what the packs of a batch cost."""
        if places not in self._packs:
            jobs = tuple(self._jobs[place] for place in sorted(places))
            self._packs[places] = cost_of_packs(jobs, self._book)
        return self._packs[places]

    def least(self, places: Places) -> int:
        """Return what a batch costs at least, charge included, in pence, however it is planned.

        By the weights of all jobs together; by the batch's own as far as it was planned.
        """
        goods = {
            limit: sum(
                self._least_of(self._key(name, limit, places))
                for name, needing in self._needing.items()
                if needing & places
            )
            + self.packs(places)
            for limit in (None, *self._limits)
        }
        # By the longest item that comes: above the largest limit, then between two, then below.
        steps = [None, *self._limits]
        extras = [
            max((extra for above, extra in self._terms.by_length if above <= limit), default=0)
            for limit in self._limits
        ]
        return min(
            least_charge_and_goods(self._terms, goods[step]) + extra
            for step, extra in zip(steps, [*extras, 0], strict=True)
        )

    def plan(self, places: Places) -> Batch | None:
        """Plan a batch: see plan_all."""
        return self.plan_all([places])[places]

    def plan_all(
        self, wanted: Sequence[Places], seconds: float | None = None
    ) -> dict[Places, Batch | None]:
        """Plan batches with all stock, then without the long items that cost more to bring.

        For each the cheapest plan that the vehicle takes; None when none was found.
        """
        best: dict[Places, Batch | None] = dict.fromkeys(wanted)
        longest: dict[Places, int] = {}
        for limit in (None, *self._limits):
            # A plan with nothing so long stays as it is without the long items.
            asked = [
                places
                for places in wanted
                if limit is None or longest.get(places, limit + 1) > limit
            ]
            self._cut_all(asked, limit, TRIAL if seconds is None else seconds)
            for places in asked:
                planned = self._planned(places, limit)
                if planned is None:
                    continue
                longest[places] = planned.longest
                known = best[places]
                fits = self._terms.mass is None or planned.mass <= self._terms.mass
                if fits and (known is None or planned.cost < known.cost):
                    best[places] = planned
        return best

    def _key(self, name: str, limit: int | None, places: Places) -> tuple[str, int | None, Places]:
        own = limit if limit in self._biting[name] else None
        return name, own, places & self._needing[name]

    def _cut_all(self, wanted: Iterable[Places], limit: int | None, seconds: float) -> None:
        """Plan each material for each of these batches that was not planned for so long yet."""
        tasks: dict[tuple[str, int | None, Places], Task] = {}
        for places in wanted:
            for name, needing in self._needing.items():
                key = self._key(name, limit, places)
                known = self._cuts.get(key)
                is_open = known is None or (
                    known.seconds < seconds
                    and known.trial is not None
                    and known.trial.cost > known.bound
                )
                if needing & places and is_open:
                    tasks.setdefault(key, (*key, seconds))
        for task, (trial, bound) in self.crew.run(iter(tasks.values())):
            self._take(task, trial, bound)

    def _take(self, task: Task, trial: Trial | None, bound: int) -> None:
        """Keep the better plan and the better bound."""
        name, limit, places, seconds = task
        key = (name, limit, places)
        known = self._cuts.get(key)
        if known is not None:
            bound = max(bound, known.bound)
            if trial is None or (known.trial is not None and known.trial.cost <= trial.cost):
                trial = known.trial
        self._cuts[key] = _Cut(trial, bound, seconds)
        self._learn(key)
        self._join(key)

    def _cut(self, task: Task) -> tuple[Trial | None, int]:
        name, limit, places, seconds = task
        request = self.request(places, limit)
        material = next(item for item in request.materials if item.material == name)
        trial = try_plan(request, material, seconds) if material.stock else None
        return trial, 0 if trial is None else proven_bound(request, material, trial)

    def _join(self, key: tuple[str, int | None, Places]) -> None:
        """Take two smaller plans for a larger one where they cost less and stock suffices."""
        name, limit, places = key
        cut = self._cuts[key]
        for (other, its_limit, some), near in list(self._cuts.items()):
            if (other, its_limit) != (name, limit) or not some < places or near.trial is None:
                continue
            far = self._cuts.get((name, limit, places - some))
            if far is None or far.trial is None:
                continue
            cost = near.trial.cost + far.trial.cost
            layouts = (*near.trial.layouts, *far.trial.layouts)
            if (cut.trial is None or cost < cut.trial.cost) and self._is_there(key, layouts):
                cut.trial = Trial(cost, cut.bound, layouts)

    def _is_there(
        self, key: tuple[str, int | None, Places], layouts: tuple[LengthLayout | SheetLayout, ...]
    ) -> bool:
        """Return whether the merchant has the stock that layouts are cut from."""
        taken = _bought(layouts)
        request = self.request(key[2], key[1])
        material = next(item for item in request.materials if item.material == key[0])
        there = {item.id: item.available for item in material.stock}
        return all(
            (available := there[id_]) is None or count <= available for id_, count in taken.items()
        )

    def _least_of(self, key: tuple[str, int | None, Places]) -> int:
        """Return what one material costs at least."""
        name, limit, places = key
        grounds = self._grounds.get(name)
        count = 0 if grounds is None else grounds.count
        least, seen = self._least.get(key, (0, 0))
        if grounds is not None and seen < count:
            names = {self._jobs[place].name for place in places}
            least = max(least, grounds.least(names, limit, seen))
            self._least[key] = (least, count)
        cut = self._cuts.get(key)
        # With less stock to choose from nothing costs less.
        more = 0 if limit is None else self._least_of((name, None, places))
        return max(least, more, 0 if cut is None else cut.bound)

    def _planned(self, places: Places, limit: int | None) -> Batch | None:
        request = self.request(places, limit)
        trials = []
        for material in request.materials:
            trial = self._cuts[self._key(material.material, limit, places)].trial
            if trial is None:
                return None
            trials.append(trial)
        goods = sum(trial.cost for trial in trials) + self.packs(places)
        loads = [
            self.load(material, trial.layouts)
            for material, trial in zip(request.materials, trials, strict=True)
        ]
        longest = max((long for _, long in loads), default=0)
        return Batch(
            goods=goods,
            charge=charge_for(self._terms, goods, longest),
            mass=sum(mass for mass, _ in loads),
            longest=longest,
            request=request,
            trials=tuple(trials),
        )

    def load(
        self,
        material: LengthMaterial | SheetMaterial,
        layouts: tuple[LengthLayout | SheetLayout, ...],
    ) -> tuple[int, int]:
        """Return mass in grams, rounded up, and longest item of what layouts are cut from."""
        taken = _bought(layouts)
        rate = self._masses[material.material]
        if isinstance(material, LengthMaterial):
            long = {item.id: int(item.length) for item in material.stock}
            grams = sum(rate * long[id_] * count for id_, count in taken.items())
            return -(-grams // 10_000), max((long[id_] for id_ in taken), default=0)
        flat = {item.id: (int(item.width), int(item.height)) for item in material.stock}
        area = sum(flat[id_][0] * flat[id_][1] * count for id_, count in taken.items())
        # A square metre is 10 000 × 10 000 square tenths.
        return -(-rate * area // 10**8), max((max(flat[id_]) for id_ in taken), default=0)


def _bought(layouts: Iterable[LengthLayout | SheetLayout]) -> Counter[str]:
    """Return how much of each stock is bought; cut-outs come with the parts they are cut from."""
    taken: Counter[str] = Counter()
    for layout in layouts:
        if layout.bought:
            taken[layout.stock] += layout.count
    return taken


def _biting(item: LengthItem | SheetItem, limits: Sequence[int]) -> frozenset[int]:
    """Return the limits that shut out some of an item's stock."""
    sizes = [
        max(one.width, one.height) if isinstance(one, StockSheet) else one.length
        for one in item.stock
    ]
    return frozenset(limit for limit in limits if any(size > limit for size in sizes))


def shortened(book: PriceBook, limit: int | None) -> PriceBook:
    """Return a price book without the stock that is longer than a limit."""
    if limit is None:
        return book
    return replace(
        book,
        lengths=tuple(
            replace(item, stock=tuple(one for one in item.stock if one.length <= limit))
            for item in book.lengths
        ),
        sheets=tuple(
            replace(
                item, stock=tuple(one for one in item.stock if max(one.width, one.height) <= limit)
            )
            for item in book.sheets
        ),
    )
