"""Who pays for what: each job's part of a plan, and what planning together saves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import replace

from optimiser.domain.job import Comparison, JobShare, Outlay
from optimiser.domain.plan import Chosen, CuttingPlan, LengthPlan, SheetPlan
from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.access import open_options
from optimiser.planning.adopting import cheaper_of
from optimiser.planning.crew import Crew
from optimiser.planning.plan import plan_cutting
from optimiser.planning.sanity import quantities
from optimiser.solvers.protocol import never


def job_shares(request: CuttingRequest, plan: CuttingPlan) -> tuple[JobShare, ...]:
    """Share each material's net cost over the jobs by the net length or area they take.

    Net area is without cut-outs. Whole pence are dealt out by largest remainder, so that the
    shares of all jobs sum to the plan's net cost to the penny.
    """
    holes = {
        part.id: sum(hole.width * hole.height for hole in part.cut_outs)
        for material in request.sheets
        for part in material.parts
    }
    cost: Counter[str] = Counter()
    lengths: dict[str, list[tuple[str, int]]] = {}
    areas: dict[str, list[tuple[str, int]]] = {}
    jobs = sorted({part.job for material in request.materials for part in material.parts})
    for material in plan.materials:
        taken: Counter[str] = Counter()
        if isinstance(material, LengthPlan):
            for length_layout in material.layouts:
                for length in length_layout.parts:
                    taken[length.job] += length.length * length_layout.count
            where = lengths
        else:
            for sheet_layout in material.layouts:
                for board in sheet_layout.parts:
                    net = board.width * board.height - holes[board.part]
                    taken[board.job] += net * sheet_layout.count
            where = areas
        for job, size in taken.items():
            where.setdefault(job, []).append((material.material, size))
        cost.update(_shared(material.money.net, taken))
    return tuple(
        JobShare(
            job=job,
            lengths=tuple(lengths.get(job, ())),
            areas=tuple(areas.get(job, ())),
            cost=cost[job],
        )
        for job in jobs
    )


def _shared(sum_: int, weights: Mapping[str, int]) -> dict[str, int]:
    """Deal a sum out in whole pence by weight, largest remainder first, ties by name."""
    total = sum(weights.values())
    if total == 0:
        return {}
    shares = {name: sum_ * weight // total for name, weight in weights.items()}
    by_remainder = sorted(weights, key=lambda name: (-(sum_ * weights[name] % total), name))
    for name in by_remainder[: sum_ - sum(shares.values())]:
        shares[name] += 1
    return shares


def compare_batch(
    request: CuttingRequest,
    plan: CuttingPlan,
    *,
    stands: bool = False,
    cancelled: Callable[[], bool] = never,
    workers: int = 1,
) -> tuple[CuttingPlan, Comparison]:
    """Plan the same jobs one at a time and together, without the rack, beside the given plan.

    Takes about two to three times the request's seconds, shared over the plans it makes, or half of
    that with two `workers`, processes that make these plans at once where the system forks. More
    freedom never comes out dearer: what was cut with less stands where a search found nothing
    better. So the given plan comes back, or a cheaper one, checked like it; where the given one
    `stands`, that one. Once `cancelled` returns True, the rest is planned as quickly as can be: a
    comparison that was cut short flatters the given plan.
    """
    bare = _without_rack(request)
    jobs = list(dict.fromkeys(part.job for item in bare.materials for part in item.parts))
    singles = [replace(_only(bare, job), seconds=request.seconds / len(jobs)) for job in jobs]
    wanted = [bare, *singles]
    if request.choices:
        first_ways = tuple(each[0] for each in open_options(request))
        wanted.append(_settled(bare, first_ways))
    together, *others = _planned(wanted, cancelled, workers)
    alone = others[: len(jobs)]
    outlays = [_outlay(*pair) for pair in zip(singles, alone, strict=True)]
    together = cheaper_of(bare, together, [alone])
    first = single = None
    if request.choices:
        first = _named(request, first_ways, others[-1])
        options = {one.choice: one.option for made in alone for one in made.chosen}
        own_ways = tuple(options[choice.id] for choice in request.choices)
        single = _decided(bare, own_ways, [alone], cancelled)
        together = cheaper_of(bare, together, [[first], [single]])
    if not stands:
        plan = _carried(request, plan, together, cancelled)
    return plan, Comparison(
        one_by_one=Outlay(
            purchase=sum(outlay.purchase for outlay in outlays),
            net=sum(outlay.net for outlay in outlays),
            lengths=sum(outlay.lengths for outlay in outlays),
            sheets=sum(outlay.sheets for outlay in outlays),
            length=sum(outlay.length for outlay in outlays),
            area=sum(outlay.area for outlay in outlays),
        ),
        together=_outlay(bare, together),
        with_rack=_outlay(request, plan),
        first_options=None if first is None else _outlay(bare, first),
        decided_alone=None if single is None else _outlay(bare, single),
    )


def _carried(
    request: CuttingRequest,
    plan: CuttingPlan,
    together: CuttingPlan,
    cancelled: Callable[[], bool],
) -> CuttingPlan:
    """Return the plan with the rack, or one made of that without it if that was better."""
    carried = cheaper_of(request, plan, [[together]])
    if carried is plan or not request.choices:
        return carried
    # What was found without the rack is better: look for what the rack adds to its options.
    taken = tuple(one.option for one in together.chosen)
    return cheaper_of(request, carried, [[_decided(request, taken, [], cancelled)]])


def _planned(
    requests: list[CuttingRequest], cancelled: Callable[[], bool], workers: int
) -> list[CuttingPlan]:
    """Return the plan of each request, made by so many processes; the first ones start first."""
    plans: dict[int, CuttingPlan] = {}

    def plan(place: int) -> CuttingPlan:
        return plan_cutting(requests[place], cancelled=cancelled)

    with Crew(plan, workers, cancelled) as crew:
        plans.update(crew.run(iter(range(len(requests)))))
    # Called off: what the others had not done is planned here, as quickly as can be.
    return [plans[place] if place in plans else plan(place) for place in range(len(requests))]


def _decided(
    request: CuttingRequest,
    options: tuple[int, ...],
    others: list[list[CuttingPlan]],
    cancelled: Callable[[], bool],
) -> CuttingPlan:
    """Return the plan of a request with these options, in half the time: nothing is to decide."""
    asked = _settled(request, options)
    plan = plan_cutting(asked, cancelled=cancelled)
    return _named(request, options, cheaper_of(asked, plan, _renumbered(others)))


def _settled(request: CuttingRequest, options: tuple[int, ...]) -> CuttingRequest:
    """Return the request with these options alone, and half its time."""
    wanted = quantities(request, options)
    settled = tuple(
        Choice(id=choice.id, options=(choice.options[option],))
        for choice, option in zip(request.choices, options, strict=True)
    )
    return replace(
        request,
        seconds=request.seconds / 2,
        lengths=tuple(
            replace(item, parts=tuple(part for part in item.parts if wanted[part.id]))
            for item in request.lengths
        ),
        sheets=tuple(
            replace(item, parts=tuple(part for part in item.parts if wanted[part.id]))
            for item in request.sheets
        ),
        choices=settled,
    )


def _named(request: CuttingRequest, options: tuple[int, ...], plan: CuttingPlan) -> CuttingPlan:
    """Return a plan of settled options with the numbers that they have in the request."""
    named = tuple(
        Chosen(choice=choice.id, option=option)
        for choice, option in zip(request.choices, options, strict=True)
    )
    return replace(plan, chosen=named)


def _renumbered(others: list[list[CuttingPlan]]) -> list[list[CuttingPlan]]:
    """Return plans that took the only option of every choice there is."""
    return [
        [
            replace(plan, chosen=tuple(replace(one, option=0) for one in plan.chosen))
            for plan in plans
        ]
        for plans in others
    ]


def _without_rack(request: CuttingRequest) -> CuttingRequest:
    return replace(
        request,
        lengths=tuple(replace(item, offcuts=()) for item in request.lengths),
        sheets=tuple(replace(item, offcuts=()) for item in request.sheets),
    )


def _only(request: CuttingRequest, job: str) -> CuttingRequest:
    lengths = tuple(
        replace(item, parts=tuple(part for part in item.parts if part.job == job))
        for item in request.lengths
    )
    sheets = tuple(
        replace(item, parts=tuple(part for part in item.parts if part.job == job))
        for item in request.sheets
    )
    ids = {part.id for item in lengths for part in item.parts}
    ids |= {part.id for item in sheets for part in item.parts}
    return replace(
        request,
        lengths=tuple(item for item in lengths if item.parts),
        sheets=tuple(item for item in sheets if item.parts),
        choices=tuple(
            Choice(
                id=choice.id,
                options=tuple(tuple(id_ for id_ in opt if id_ in ids) for opt in choice.options),
            )
            for choice in request.choices
            if any(id_ in ids for option in choice.options for id_ in option)
        ),
        access=tuple(limit for limit in request.access if limit.job == job),
    )


def _outlay(request: CuttingRequest, plan: CuttingPlan) -> Outlay:
    long = {
        (item.material, stock.id): stock.length for item in request.lengths for stock in item.stock
    }
    large = {
        (item.material, stock.id): stock.width * stock.height
        for item in request.sheets
        for stock in item.stock
    }
    bars = _bought(plan.lengths)
    boards = _bought(plan.sheets)
    return Outlay(
        purchase=plan.money.purchase,
        net=plan.money.net,
        lengths=sum(bars.values()),
        sheets=sum(boards.values()),
        length=sum(count * long[key] for key, count in bars.items()),
        area=sum(count * large[key] for key, count in boards.items()),
    )


def _bought(plans: tuple[LengthPlan, ...] | tuple[SheetPlan, ...]) -> Counter[tuple[str, str]]:
    """Count the stock bought by material and id."""
    counted: Counter[tuple[str, str]] = Counter()
    for item in plans:
        for layout in item.layouts:
            if layout.bought:
                counted[item.material, layout.stock] += layout.count
    return counted
