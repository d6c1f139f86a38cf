"""What one batch of jobs costs to buy and to bring: planned for real, within what a vehicle takes.

Offcuts earn nothing here and the rack stays out of it: what one delivery leaves must not be counted
on by the next. Each stock may be bought up to its availability in every delivery.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from optimiser.domain.deliveries import Terms
from optimiser.domain.job import Job
from optimiser.domain.plan import LengthLayout, SheetLayout
from optimiser.domain.price_book import PriceBook
from optimiser.domain.rack import Rack
from optimiser.domain.request import CuttingRequest, Keep, LengthMaterial, SheetMaterial
from optimiser.planning.batch_bounds import Reason, reasons_of
from optimiser.planning.jobs import request_for_jobs
from optimiser.planning.order import cost_of_packs
from optimiser.planning.until import Trial, try_plan

# Seconds for one material of one batch; measured on generated jobs, see benchmarks.deliveries.
TRIAL = 0.03
# Seconds for one material of all jobs together: its weights bound every batch.
WEIGHING = 0.5


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
        self, jobs: tuple[Job, ...], book: PriceBook, terms: Terms, keep: Keep, seed: int
    ) -> None:
        self._jobs = jobs
        self._terms = terms
        self._keep = replace(keep, credit=keep.credit * 0)
        self._seed = seed
        self._book = shortened(book, terms.length)
        self._masses = {item.material: item.mass for item in book.lengths}
        self._masses |= {item.material: item.mass for item in book.sheets}
        self._packs: dict[frozenset[int], int] = {}
        self._reasons: list[tuple[Reason, ...]] = []

    def weigh(self) -> None:
        """Plan all jobs together once, for the weights that bound every batch."""
        request = self.request(range(len(self._jobs)))
        self._reasons = [
            reasons_of(material, try_plan(request, material, WEIGHING))
            for material in request.materials
        ]

    def request(self, places: Iterable[int], book: PriceBook | None = None) -> CuttingRequest:
        """Return the cutting request of a batch."""
        jobs = tuple(self._jobs[place] for place in sorted(places))
        stock = self._book if book is None else book
        return request_for_jobs(
            jobs, stock, Rack(), keep=self._keep, seed=self._seed, seconds=TRIAL
        )

    def packs(self, places: frozenset[int]) -> int:
        """Return what the packs of a batch cost."""
        if places not in self._packs:
            jobs = tuple(self._jobs[place] for place in sorted(places))
            self._packs[places] = cost_of_packs(jobs, self._book)
        return self._packs[places]

    def least(self, places: frozenset[int]) -> int:
        """Return what a batch costs at least, charge included, in pence."""
        names = [self._jobs[place].name for place in places]
        goods = sum(max(one.least(names) for one in reasons) for reasons in self._reasons)
        return least_charge_and_goods(self._terms, goods + self.packs(places))

    def plan(self, places: frozenset[int]) -> Batch | None:
        """Plan a batch with all stock, then without the long items that cost more to bring.

        Return the cheapest that the vehicle takes; None when none was found.
        """
        limits = sorted((above for above, _ in self._terms.by_length), reverse=True)
        best: Batch | None = None
        longest: int | None = None
        for limit in (None, *limits):
            if limit is not None and longest is not None and longest <= limit:
                continue  # The plan before has nothing so long; without it nothing changes.
            book = self._book if limit is None else shortened(self._book, limit)
            planned = self._planned(places, book)
            if planned is None:
                continue
            longest = planned.longest
            fits = self._terms.mass is None or planned.mass <= self._terms.mass
            if fits and (best is None or planned.cost < best.cost):
                best = planned
        return best

    def _planned(self, places: frozenset[int], book: PriceBook) -> Batch | None:
        request = self.request(places, book)
        trials = []
        for material in request.materials:
            trial = try_plan(request, material, TRIAL) if material.stock else None
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
        taken: Counter[str] = Counter()
        for layout in layouts:
            taken[layout.stock] += layout.count
        rate = self._masses[material.material]
        if isinstance(material, LengthMaterial):
            long = {item.id: int(item.length) for item in material.stock}
            grams = sum(rate * long[id_] * count for id_, count in taken.items())
            return -(-grams // 10_000), max((long[id_] for id_ in taken), default=0)
        flat = {item.id: (int(item.width), int(item.height)) for item in material.stock}
        area = sum(flat[id_][0] * flat[id_][1] * count for id_, count in taken.items())
        # A square metre is 10 000 × 10 000 square tenths.
        return -(-rate * area // 10**8), max((max(flat[id_]) for id_ in taken), default=0)


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
