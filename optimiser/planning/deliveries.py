"""Which jobs to buy and bring together so that stock, packs and deliveries cost least.

Every batch whose days of need allow a common delivery is a candidate with a lower bound. The
cheapest way to deal the jobs to candidates is found exactly, by dynamic programming over the jobs
in order of need; the batches it uses are planned for real, and it is found again, until all batches
that it uses are planned: then no way to deal the jobs is cheaper.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import combinations
from math import isfinite

from optimiser.domain.deliveries import Deliveries, Delivery, Terms
from optimiser.domain.job import Job
from optimiser.domain.price_book import PriceBook
from optimiser.domain.request import Keep
from optimiser.errors import InvalidInput, NoPlan, Problem, invalid
from optimiser.planning.assemble import added_up, assembled
from optimiser.planning.batches import LONGER, Batch, Batches, Places
from optimiser.planning.days import day_number, day_text, weekday
from optimiser.solvers.protocol import Budget, never
from optimiser.units import Pence, Tenths, mm
from optimiser.verify.check import require_sound

# Jobs that could share one delivery with a given one; beyond, there are too many batches to bound.
MOST_COMPANIONS = 10
MOST_SECONDS = 3600
# Of the time, for finding the cheapest dealing; the rest is for its plans and for the bound.
DEALING = 0.7


def plan_deliveries(
    jobs: tuple[Job, ...],
    book: PriceBook,
    terms: Terms,
    *,
    keep: Keep,
    today: str,
    seed: int = 1,
    seconds: float = 40.0,
    workers: int = 1,
    cancelled: Callable[[], bool] = never,
) -> Deliveries:
    """Deal the jobs to deliveries at the least cost; every delivery's plan has passed the checker.

    Batches are planned by so many `workers`, processes forked from this one where the system forks.
    Once `cancelled` returns True the best dealing of what is planned is returned, after the batches
    under way. `today` is an ISO date; jobs have one way of boarding each and the day they are
    needed. Raises InvalidInput for dates that are none, past, or without a day of delivery in their
    window, and for more jobs within one window than can be looked into; NoPlan when one job alone
    is more than a vehicle takes.
    """
    if not isfinite(seconds) or not 0 <= seconds <= MOST_SECONDS:
        raise invalid("seconds", f"{seconds} is not from 0 to 3600", "Give seconds to think")
    budget = Budget.of(seconds, cancelled)
    windows = _windows(jobs, terms, today)
    order = sorted(range(len(jobs)), key=lambda place: (windows[place][-1], jobs[place].name))
    jobs = tuple(jobs[place] for place in order)
    days = tuple(windows[place] for place in order)
    _require_short_enough(jobs, book, terms)
    batches = Batches(jobs, book, terms, keep, seed, workers)
    with batches.crew:
        return _Search(jobs, days, batches, terms, budget).deliveries()


def _windows(jobs: tuple[Job, ...], terms: Terms, today: str) -> list[tuple[int, ...]]:
    """Return each job's days of delivery; the last is the latest that will do."""
    try:
        first = day_number(today)
    except ValueError as trouble:
        raise invalid("today", str(trouble), "Give the date as 2026-12-01") from None
    windows: list[tuple[int, ...]] = []
    problems: list[Problem] = []
    if not jobs:
        problems.append(Problem("jobs", "there is no job", "Give at least one job"))
    for job in jobs:
        window = _window(job, terms, first, today)
        if isinstance(window, Problem):
            problems.append(window)
        else:
            windows.append(window)
    if problems:
        raise InvalidInput(tuple(problems))
    return windows


def _window(job: Job, terms: Terms, first: int, today: str) -> tuple[int, ...] | Problem:
    here = f"job {job.name!r}: needed"
    if job.choices:
        remedy = "Plan it first and take it as planned"
        return Problem(f"job {job.name!r}", "still has ways of boarding to choose from", remedy)
    try:
        needed = day_number(job.needed)
    except ValueError:
        said = f"{job.needed!r} is no date" if job.needed else "is not given"
        return Problem(here, said, "Give a date as 2026-12-01")
    if needed < first:
        return Problem(here, f"{job.needed} is before today, {today}", "Give a day from today on")
    opens = max(first, needed - terms.storage_days)
    days = tuple(day for day in range(opens, needed + 1) if weekday(day) in terms.weekdays)
    if not days:
        return Problem(
            here,
            f"from {day_text(opens)} to {job.needed} the merchant does not deliver "
            f"(storage_days is {terms.storage_days})",
            "Store for longer, add a weekday or move the day",
        )
    return days


def _require_short_enough(jobs: tuple[Job, ...], book: PriceBook, terms: Terms) -> None:
    """Refuse parts for which no stock is short enough for the vehicle, by job and limit."""
    if terms.length is None:
        return
    problems = []
    trims = {item.material: item.end_trim for item in book.lengths}
    most: dict[str, int] = {}
    for item in book.lengths:
        short = [stock.length for stock in item.stock if stock.length <= terms.length]
        most[item.material] = max(short, default=0) - 2 * trims[item.material]
    for board in book.sheets:
        sides = [max(stock.width, stock.height) for stock in board.stock]
        most[board.material] = max((side for side in sides if side <= terms.length), default=0)
    for job in jobs:
        sizes = [(name, part.id, int(part.length)) for name, part in job.parts.lengths]
        sizes += [(name, p.id, int(max(p.width, p.height))) for name, p in job.parts.boards]
        for name, id_, size in sizes:
            if size > most.get(name, size):
                problems.append(
                    Problem(
                        f"job {job.name!r}: part {id_!r}",
                        f"is {mm(size)} long; the vehicle takes {mm(terms.length)} and of {name} "
                        f"no stock within that is long enough",
                        "Take a longer vehicle, or join the part from two",
                    )
                )
    if problems:
        raise InvalidInput(tuple(problems))


class _Search:
    """Deals jobs, in order of need, to batches; a batch is a set of their places."""

    def __init__(
        self,
        jobs: tuple[Job, ...],
        days: tuple[tuple[int, ...], ...],
        batches: Batches,
        terms: Terms,
        budget: Budget,
    ) -> None:
        self._jobs = jobs
        self._days = days
        self._batches = batches
        self._terms = terms
        self._budget = budget
        # By its first job: candidates that may come together.
        self._starting: list[list[Places]] = []
        self._planned: dict[Places, Batch | None] = {}
        # Batches that were planned for longer.
        self._longer: set[Places] = set()

    def deliveries(self) -> Deliveries:
        alone = [frozenset({place}) for place in range(len(self._jobs))]
        everyone = frozenset(range(len(self._jobs)))
        self._plan(alone)
        self._require_bringable()
        self._batches.weigh()
        self._starting = [list(self._candidates(place)) for place in range(len(self._jobs))]
        if self._common(everyone):
            self._plan([everyone])
        until = self._budget.seconds * DEALING
        _, dealt = self._cheapest(self._value)
        while (new := [b for b in dealt if b not in self._planned]) and not self._is_late(until):
            self._plan(new)
            _, dealt = self._cheapest(self._value)
        cost, dealt = self._cheapest(self._known)
        while self._plan_longer(dealt):
            cost, dealt = self._cheapest(self._known)
        lowest = self._raised()
        # Raising the bound may have come upon better batches.
        cost, dealt = self._cheapest(self._known)
        least, _ = self._cheapest(self._value)
        whole = self._planned.get(everyone)
        return Deliveries(
            deliveries=tuple(sorted(map(self._delivery, dealt), key=lambda one: one.day)),
            cost=Pence(cost),
            bound=Pence(min(cost, lowest)),
            proven=cost in (least, lowest),
            one_each=Pence(sum(map(self._cost, alone))),
            together=None if whole is None else Pence(whole.cost),
            batches=sum(map(len, self._starting)),
            planned=len(self._planned),
        )

    def _is_late(self, until: float) -> bool:
        return self._budget.cancelled() or self._budget.used >= until

    def _plan(self, batches: Sequence[Places], seconds: float | None = None) -> None:
        for places, batch in self._batches.plan_all(batches, seconds).items():
            known = self._planned.get(places)
            if known is None or (batch is not None and batch.cost < known.cost):
                self._planned[places] = batch

    def _plan_longer(self, batches: Sequence[Places]) -> bool:
        """Plan each for longer that was not and had a plan; return whether any was."""
        any_longer = False
        for places in batches:
            if places not in self._longer and not self._budget.is_spent:
                self._longer.add(places)
                self._plan([places], LONGER)
                any_longer = True
        return any_longer

    def _raised(self) -> int:
        """Return what no dealing costs less than, however its batches are planned.

        The batches that this rests on are planned, as that bounds them better, while time allows.
        """
        lowest, dealt = self._cheapest(self._batches.least)
        while self._plan_longer(dealt):
            lowest, dealt = self._cheapest(self._batches.least)
        return lowest

    def _require_bringable(self) -> None:
        problems = []
        for place, job in enumerate(self._jobs):
            if self._planned[frozenset({place})] is None:
                limit = "" if self._terms.mass is None else f" of {self._terms.mass // 1000} kg"
                problems.append(
                    Problem(
                        f"job {job.name!r}",
                        f"cannot be brought in one delivery within the vehicle's mass{limit} and "
                        "the stock there is",
                        "Take a larger vehicle, or split the job",
                    )
                )
        if problems:
            raise NoPlan(tuple(problems))

    def _common(self, batch: Places) -> set[int]:
        """Return the days on which all these jobs can have their delivery."""
        return set.intersection(*(set(self._days[place]) for place in batch))

    def _candidates(self, first: int) -> Iterator[Places]:
        """Yield every batch whose first job is that one."""
        own = set(self._days[first])
        others = [
            place for place in range(first + 1, len(self._jobs)) if own & set(self._days[place])
        ]
        if len(others) > MOST_COMPANIONS:
            raise invalid(
                "storage_days",
                f"{len(others)} jobs could come with job {self._jobs[first].name!r}, at most "
                f"{MOST_COMPANIONS} can be weighed",
                "Store for fewer days, or plan fewer jobs at once",
            )
        for size in range(len(others) + 1):
            for few in combinations(others, size):
                batch = frozenset({first, *few})
                if self._common(batch):
                    yield batch

    def _cost(self, batch: Places) -> int:
        planned = self._planned[batch]
        assert planned is not None
        return planned.cost

    def _value(self, batch: Places) -> int | None:
        """Return what a batch costs, or at least costs; None when it cannot be used."""
        return self._known(batch) if batch in self._planned else self._batches.least(batch)

    def _known(self, batch: Places) -> int | None:
        planned = self._planned.get(batch)
        return None if planned is None else planned.cost

    def _cheapest(self, value: Callable[[Places], int | None]) -> tuple[int, tuple[Places, ...]]:
        """Deal all jobs to batches at the least value: exact, over the sets of jobs dealt."""
        values = [
            [(worth, batch) for batch in starting if (worth := value(batch)) is not None]
            for starting in self._starting
        ]
        return _partition(len(self._jobs), values)

    def _delivery(self, batch: Places) -> Delivery:
        planned = self._planned[batch]
        assert planned is not None
        request = planned.request
        drawn = tuple(
            assembled(request, material, trial.layouts, None)
            for material, trial in zip(request.materials, planned.trials, strict=True)
        )
        return Delivery(
            day=day_text(max(self._common(batch))),
            jobs=tuple(self._jobs[place].name for place in sorted(batch)),
            goods=Pence(planned.goods),
            charge=Pence(planned.charge),
            mass=planned.mass,
            longest=Tenths(planned.longest),
            request=request,
            plan=require_sound(request, added_up(request, drawn)),
        )


def _partition(jobs: int, values: list[list[tuple[int, Places]]]) -> tuple[int, tuple[Places, ...]]:
    """Return the cheapest way to deal all jobs to batches; each job's own batch is among them.

    `values` holds by first job the batches and what they cost. The job dealt next is always the
    first that is left, so each way is seen once, and sets of jobs dealt are met again and again.
    """
    masks = [
        [(value, sum(1 << place for place in batch), batch) for value, batch in starting]
        for starting in values
    ]
    everyone = (1 << jobs) - 1

    @cache
    def least(dealt: int) -> tuple[int, Places | None]:
        if dealt == everyone:
            return 0, None
        first = next(place for place in range(jobs) if not dealt >> place & 1)
        best: tuple[int, Places | None] | None = None
        for value, mask, batch in masks[first]:
            if not mask & dealt:
                total = value + least(dealt | mask)[0]
                if best is None or total < best[0]:
                    best = (total, batch)
        assert best is not None
        return best

    dealt, chosen = 0, []
    while (batch := least(dealt)[1]) is not None:
        chosen.append(batch)
        dealt |= sum(1 << place for place in batch)
    return least(0)[0], tuple(chosen)
