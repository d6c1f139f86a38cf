"""Whom to order a batch from: the cheapest merchant, or two where that saves more than stated.

Each material is planned on each merchant's stock, each pack item counted in its packs; then the
goods are dealt to merchants exactly (`solvers/dealing.py`), with all that an order costs. A
material comes whole from one merchant: two lots of one section seldom match (common practice, no
source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from optimiser.domain.job import Job
from optimiser.domain.merchants import Buying, Quote
from optimiser.domain.order import Order
from optimiser.domain.plan import CuttingPlan, LengthPlan, SheetPlan
from optimiser.domain.price_book import NO_TERMS, LengthItem, PriceBook, SheetItem
from optimiser.domain.rack import Rack
from optimiser.domain.request import (
    CuttingRequest,
    LengthMaterial,
    SheetMaterial,
    with_keep_rules,
)
from optimiser.errors import InvalidInput, NoPlan, Problem
from optimiser.planning.assemble import StockT, added_up, request_with
from optimiser.planning.books import merged_book
from optimiser.planning.jobs import request_for_jobs
from optimiser.planning.order import breaks_of, longest_bought, order_for, pack_cost
from optimiser.planning.plan import plan_cutting
from optimiser.solvers.dealing import Dealt, Offer, Seller, deal
from optimiser.solvers.protocol import never
from optimiser.units import Pence
from optimiser.verify.check import require_sound

Material = LengthMaterial | SheetMaterial


@dataclass(frozen=True, slots=True)
class _Planned:
    """One material on one merchant's stock."""

    request: CuttingRequest
    plan: CuttingPlan
    goods: int
    extra: int


def buy_from(
    jobs: tuple[Job, ...],
    books: tuple[PriceBook, ...],
    rack: Rack,
    request: CuttingRequest,
    *,
    split_saves: Pence,
    cancelled: Callable[[], bool] = never,
) -> Buying:
    """Return whom to order from, with the plan and an order for each; the plan has been checked.

    `jobs` have one way of boarding each; `request` says how they are planned (seed, seconds, what
    is kept, access); of its materials only their own keep rules count. Two merchants are ordered
    from where that saves more than `split_saves`. Raises InvalidInput for books that do not go
    together or for a thing that nobody sells, NoPlan when the goods cannot be had from any two
    merchants.
    """
    union = merged_book(books)
    whole = _with_rules(
        request_for_jobs(jobs, union, rack, keep=request.keep, seed=0, seconds=0), request
    )
    search = _Search(jobs, books, rack, whole, cancelled)
    single = search.dealt(most=1)
    double = search.dealt(most=2)
    if double is None:
        raise NoPlan(search.troubles())
    is_split = single is None or single.total - double.total > split_saves
    dealt = double if is_split or single is None else single
    return search.buying(dealt, union, double)


def _with_rules(whole: CuttingRequest, request: CuttingRequest) -> CuttingRequest:
    rules = {material.material: material.keep for material in request.materials}
    return replace(
        with_keep_rules(whole, rules),
        seed=request.seed,
        seconds=request.seconds,
        access=request.access,
        fewer_layouts=request.fewer_layouts,
    )


class _Search:
    """Every material and pack item at every merchant, and the ways to deal them."""

    def __init__(
        self,
        jobs: tuple[Job, ...],
        books: tuple[PriceBook, ...],
        rack: Rack,
        whole: CuttingRequest,
        cancelled: Callable[[], bool],
    ) -> None:
        self._jobs = jobs
        self._books = books
        self._whole = whole
        self._cancelled = cancelled
        self._materials = [material.material for material in whole.materials]
        self._items = list(
            dict.fromkeys(q.item for job in jobs for q in job.quantities if q.amount)
        )
        self._missing: dict[int, list[Problem]] = {number: [] for number in range(len(books))}
        self._planned: dict[tuple[str, int], _Planned] = {}
        pairs = max(1, len(self._materials) * len(books))
        for number, book in enumerate(books):
            at_home = _requests(jobs, book, rack, whole)
            for material in self._materials:
                if material in at_home:
                    self._plan(material, number, at_home[material], whole.seconds / pairs)
                else:
                    self._lack(number, f"material {material!r}", "is not sold")
        self._groups = tuple(map(self._offers, self._materials)) + tuple(
            map(self._pack_offers, self._items)
        )
        self._require_sold()
        self._sellers = tuple(map(_seller, books))

    def dealt(self, *, most: int) -> Dealt | None:
        return deal(self._groups, self._sellers, most=most)

    def troubles(self) -> tuple[Problem, ...]:
        """Return why no two merchants together can be ordered from."""
        found = tuple(problem for problems in self._missing.values() for problem in problems)
        remedy = "Order more jobs together, or name another merchant's prices"
        return found or (Problem("merchants", "take no order as small as this", remedy),)

    def _lack(self, number: int, field: str, trouble: str) -> None:
        merchant = self._books[number].merchant
        remedy = "Add it to the price book, or name another merchant's as well"
        self._missing[number].append(Problem(f"{field} at {merchant!r}", trouble, remedy))

    def _plan(self, material: str, number: int, request: CuttingRequest, seconds: float) -> None:
        """Plan at list prices, and where breaks beckon at those too; keep what costs less."""
        book = self._books[number]
        cheap = _at_breaks(request, book)
        tries = [request] if cheap is None else [request, cheap]
        for one in tries:
            timed = replace(one, seconds=seconds / len(tries))
            try:
                plan = plan_cutting(timed, cancelled=self._cancelled)
            except NoPlan as short:
                self._missing[number] += short.problems
                return
            order = order_for(plan, (), replace(book, terms=NO_TERMS))
            extra = book.terms.extra_for(longest_bought(plan, book))
            known = self._planned.get((material, number))
            # A plan made at break prices counts only where every break was reached: its money
            # would be too little otherwise.
            is_true = one is request or plan.money.purchase == order.net
            if known is None or (is_true and order.net <= known.goods):
                self._planned[material, number] = _Planned(timed, plan, order.net, extra)

    def _offers(self, material: str) -> tuple[Offer | None, ...]:
        found = (self._planned.get((material, number)) for number in range(len(self._books)))
        return tuple(
            None if one is None else Offer(cost=one.goods, extra=one.extra) for one in found
        )

    def _pack_offers(self, item: str) -> tuple[Offer | None, ...]:
        offers: list[Offer | None] = []
        for number, book in enumerate(self._books):
            cost = pack_cost(self._jobs, book, item)
            if cost is None:
                self._lack(number, f"pack item {item!r}", "is not sold in that unit")
            offers.append(None if cost is None else Offer(cost=cost))
        return tuple(offers)

    def _require_sold(self) -> None:
        names = [*self._materials, *self._items]
        nowhere = [
            name
            for name, group in zip(names, self._groups, strict=True)
            if all(offer is None for offer in group)
        ]
        if not nowhere:
            return
        shorts = [p for problems in self._missing.values() for p in problems]
        concerned = tuple(p for p in shorts if any(repr(name) in p.field for name in nowhere))
        if all(" at " in problem.field for problem in concerned):
            raise InvalidInput(concerned)
        raise NoPlan(concerned or tuple(shorts))

    def buying(self, dealt: Dealt, union: PriceBook, double: Dealt) -> Buying:
        at = dict(zip([*self._materials, *self._items], dealt.sellers, strict=True))
        plans: list[LengthPlan | SheetPlan] = []
        materials: list[Material] = []
        for name in self._materials:
            one = self._planned[name, at[name]]
            plans += one.plan.materials
            materials += one.request.materials
        request = request_with(self._whole, tuple(materials))
        seconds = sum(one.plan.seconds for one in self._planned.values())
        plan = require_sound(request, added_up(request, tuple(plans), seconds=seconds))
        orders = tuple(
            self._order(number, at, request, plan) for number in sorted(set(dealt.sellers))
        )
        total = sum(order.total for order in orders)
        assert total == dealt.total, (total, dealt.total)
        return Buying(
            request=request,
            plan=plan,
            book=_dealt_book(union, self._books, at),
            orders=orders,
            total=Pence(total),
            split=Pence(double.total) if len(set(double.sellers)) > 1 else None,
            quotes=tuple(map(self._quote, range(len(self._books)))),
            proven=dealt.proven and double.proven,
        )

    def _order(
        self, number: int, at: dict[str, int], request: CuttingRequest, plan: CuttingPlan
    ) -> Order:
        own = [one for one in plan.materials if at[one.material] == number]
        jobs = tuple(
            replace(job, quantities=tuple(q for q in job.quantities if at.get(q.item) == number))
            for job in self._jobs
        )
        return order_for(added_up(request, tuple(own)), jobs, self._books[number])

    def _quote(self, number: int) -> Quote:
        alone = tuple((group[number],) for group in self._groups)
        found = deal(alone, (self._sellers[number],), most=1)
        lacking = [f"{p.field}: {p.trouble}" for p in self._missing[number]]
        trouble = "; ".join(lacking) or "takes no order as small as this"
        return Quote(
            merchant=self._books[number].merchant,
            total=None if found is None else Pence(found.total),
            trouble="" if found is not None else trouble,
        )


def _requests(
    jobs: tuple[Job, ...], book: PriceBook, rack: Rack, whole: CuttingRequest
) -> dict[str, CuttingRequest]:
    """Return a request for each needed material that a merchant sells, that material alone."""
    sold = {item.material for item in book.lengths} | {item.material for item in book.sheets}
    known = tuple(_only(job, sold) for job in jobs)
    racked = Rack(
        lengths=tuple(pair for pair in rack.lengths if pair[0] in sold),
        sheets=tuple(pair for pair in rack.sheets if pair[0] in sold),
    )
    own = request_for_jobs(known, book, racked, keep=whole.keep, seed=0, seconds=0)
    own = _with_rules(own, whole)
    return {material.material: request_with(own, (material,)) for material in own.materials}


def _only(job: Job, materials: Iterable[str]) -> Job:
    known = set(materials)
    return replace(
        job,
        parts=replace(
            job.parts,
            lengths=tuple(pair for pair in job.parts.lengths if pair[0] in known),
            boards=tuple(pair for pair in job.parts.boards if pair[0] in known),
        ),
    )


def _at_breaks(request: CuttingRequest, book: PriceBook) -> CuttingRequest | None:
    """Return the request with every price as low as a break makes it; None where no break does."""
    lowest = {id_: found[-1][1] for id_, found in breaks_of(book).items()}

    changed = replace(
        request,
        lengths=tuple(
            replace(one, stock=tuple(_at(lowest, stock) for stock in one.stock))
            for one in request.lengths
        ),
        sheets=tuple(
            replace(one, stock=tuple(_at(lowest, stock) for stock in one.stock))
            for one in request.sheets
        ),
    )
    return None if changed == request else changed


def _at(prices: dict[str, Pence], stock: StockT) -> StockT:
    return replace(stock, price=prices.get(stock.id, stock.price))


def _seller(book: PriceBook) -> Seller:
    terms = book.terms
    return Seller(
        vat=book.vat,
        minimum=terms.minimum,
        small_order=terms.small_order,
        charge=terms.charge,
        free_over=terms.free_over,
    )


def _dealt_book(union: PriceBook, books: tuple[PriceBook, ...], at: dict[str, int]) -> PriceBook:
    """Return the union of the books with each material as the merchant sells it who was chosen."""
    lengths: dict[tuple[str, int], LengthItem] = {
        (item.material, number): item for number, book in enumerate(books) for item in book.lengths
    }
    sheets: dict[tuple[str, int], SheetItem] = {
        (item.material, number): item for number, book in enumerate(books) for item in book.sheets
    }
    return replace(
        union,
        lengths=tuple(
            lengths.get((item.material, at.get(item.material, -1)), item) for item in union.lengths
        ),
        sheets=tuple(
            sheets.get((item.material, at.get(item.material, -1)), item) for item in union.sheets
        ),
    )
