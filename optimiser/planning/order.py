"""From a plan to what is ordered: stock as cut, whole packs, charges, VAT once on the sum."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from optimiser.domain.frame import Quantity
from optimiser.domain.job import Job
from optimiser.domain.order import Order, OrderLine
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.price_book import NO_TERMS, Pack, PackItem, PriceBook
from optimiser.domain.stock import StockLength, StockSheet
from optimiser.errors import InvalidInput, NoPlan, Problem
from optimiser.units import Pence, half_up, mm, pounds

# For each id the quantities from which on a price holds, and that price.
Breaks = dict[str, list[tuple[int, Pence]]]


def order_for(plan: CuttingPlan, jobs: tuple[Job, ...], book: PriceBook) -> Order:
    """Return the order that a plan and its jobs' other quantities need from one merchant.

    Stock quantities are what the plan cuts; more only where a price break makes more cost less.
    VAT is taken once, on the net sum with the merchant's charges, rounded half up (charges for
    bringing goods bear the goods' rate: VAT Notice 700/24). Raises InvalidInput for a quantity that
    the price book sells no pack of, NoPlan for less than the merchant takes an order for.
    """
    needed = {job.name: job.needed for job in jobs}
    breaks = breaks_of(book)
    goods = [
        *_stock_lines(plan, book, needed, breaks),
        *_pack_lines(jobs, book, needed, breaks),
    ]
    lines = goods + charge_lines(goods, book, longest_bought(plan, book))
    net = sum(line.total for line in lines)
    vat = half_up(Fraction(net * book.vat, 10_000))
    return Order(
        merchant=book.merchant,
        currency=book.currency,
        lines=tuple(lines),
        net=Pence(net),
        vat_rate=book.vat,
        vat=Pence(vat),
        total=Pence(net + vat),
    )


def breaks_of(book: PriceBook) -> Breaks:
    """Return the price breaks of a book by id, in order of quantity."""
    found: Breaks = {}
    for one in sorted(book.breaks, key=lambda one: one.quantity):
        found.setdefault(one.id, []).append((one.quantity, one.price))
    return found


def cheapest_count(
    count: int, price: Pence, breaks: Iterable[tuple[int, Pence]], available: int | None = None
) -> tuple[int, Pence]:
    """Return how many to buy when `count` are needed, and the price of each, for the least money.

    Buying up to a break counts where it costs less than buying exactly.
    """
    options = [(count, max([(0, price), *(b for b in breaks if b[0] <= count)])[1])]
    options += [b for b in breaks if b[0] > count and (available is None or b[0] <= available)]
    return (
        min(options, key=lambda option: (option[0] * option[1], option[0])) if count else (0, price)
    )


def longest_bought(plan: CuttingPlan, book: PriceBook) -> int:
    """Return the longest side of what is bought, in tenths; 0 when nothing is."""
    sides = {stock.id: int(stock.length) for item in book.lengths for stock in item.stock}
    sides |= {s.id: int(max(s.width, s.height)) for item in book.sheets for s in item.stock}
    bought = {layout.stock for item in plan.materials for layout in item.layouts if layout.bought}
    return max((sides.get(id_, 0) for id_ in bought), default=0)


def charge_lines(goods: list[OrderLine], book: PriceBook, longest: int) -> list[OrderLine]:
    """Return what the merchant takes beside the goods. Raises NoPlan below its smallest order."""
    terms = book.terms
    if terms == NO_TERMS or not goods:
        return []
    worth = sum(line.total for line in goods)
    lines = []
    if worth < terms.minimum:
        if terms.small_order is None:
            trouble = f"takes no order below {pounds(terms.minimum)}, and this is {pounds(worth)}"
            remedy = "Order more jobs together, or name another merchant's prices"
            raise NoPlan((Problem(f"merchant {book.merchant!r}", trouble, remedy),))
        lines.append(_charge("small-order", "Charge for a small order", terms.small_order))
    is_free = terms.free_over is not None and worth >= terms.free_over
    bringing = Pence((0 if is_free else terms.charge) + terms.extra_for(longest))
    lines.append(_charge("delivery", "Delivery", bringing))
    return [line for line in lines if line.price]


def _charge(item: str, description: str, price: Pence) -> OrderLine:
    return OrderLine(
        item=item,
        description=description,
        quantity=1,
        price=price,
        jobs=(),
        needed="",
        charge=True,
    )


def _stock_lines(
    plan: CuttingPlan, book: PriceBook, needed: dict[str, str], breaks: Breaks
) -> list[OrderLine]:
    # By material and id: two materials may each have a "2400".
    bought: Counter[tuple[str, str]] = Counter()
    jobs: dict[tuple[str, str], set[str]] = {}
    for material in plan.materials:
        for layout in material.layouts:
            if layout.bought:
                key = (material.material, layout.stock)
                bought[key] += layout.count
                jobs.setdefault(key, set()).update(part.job for part in layout.parts)
    priced: list[tuple[str, StockLength | StockSheet, str]] = [
        (item.material, stock, f"{item.description}, {mm(stock.length)} mm")
        for item in book.lengths
        for stock in item.stock
    ]
    priced += [
        (
            item.material,
            sheet,
            f"{item.description}, {mm(sheet.width)} × {mm(sheet.height)} mm",
        )
        for item in book.sheets
        for sheet in item.stock
    ]
    lines = []
    for name, sold, description in priced:
        if cut := bought[name, sold.id]:
            prices = breaks.get(sold.id, ())
            count, price = cheapest_count(cut, sold.price, prices, sold.available)
            over = f" ({count - cut} more than is cut: together they cost less)"
            words = description if count == cut else description + over
            line = _line(sold.id, words, count, price, jobs[name, sold.id], needed)
            lines.append(replace(line, material=name))
    return lines


def cost_of_packs(jobs: tuple[Job, ...], book: PriceBook) -> Pence:
    """Return what the packs of these jobs cost together, in whole packs, without VAT.

    Raises InvalidInput for a quantity that the price book sells no pack of.
    """
    return Pence(sum(line.total for line in _pack_lines(jobs, book, {}, breaks_of(book))))


def pack_cost(jobs: tuple[Job, ...], book: PriceBook, item: str) -> int | None:
    """Return what one thing bought by pack costs for all jobs; None where it is not sold so."""
    needed = [q for job in jobs for q in job.quantities if q.item == item and q.amount]
    sold = next((one for one in book.packs if one.item == item), None)
    if not all(_serves(sold, quantity.unit) for quantity in needed) or sold is None:
        return None
    bought = fewest_pence(sold.packs, sum(q.amount for q in needed), breaks_of(book))
    return sum(count * price for _, count, price in bought)


def packs_for(quantity: Quantity, book: PriceBook) -> tuple[tuple[Pack, int], ...]:
    """Return the packs that hold one quantity for the least money, and how many of each.

    Empty where the price book sells no pack of it in its unit.
    """
    sold = next((one for one in book.packs if one.item == quantity.item), None)
    if sold is None or not _serves(sold, quantity.unit):
        return ()
    bought = fewest_pence(sold.packs, quantity.amount, breaks_of(book))
    return tuple((pack, count) for pack, count, _ in bought if count)


def _pack_lines(
    jobs: tuple[Job, ...], book: PriceBook, needed: dict[str, str], breaks: Breaks
) -> list[OrderLine]:
    amounts: Counter[str] = Counter()
    takers: dict[str, set[str]] = {}
    for job in jobs:
        for quantity in job.quantities:
            amounts[quantity.item] += quantity.amount
            takers.setdefault(quantity.item, set()).add(job.name)
    sold = {item.item: item for item in book.packs}
    units = {quantity.item: quantity.unit for job in jobs for quantity in job.quantities}
    missing = [
        name for name in amounts if amounts[name] and not _serves(sold.get(name), units[name])
    ]
    if missing:
        raise InvalidInput(
            tuple(
                Problem(
                    f"price book: pack item {name!r}",
                    f"{amounts[name]} {units[name]} are needed and no pack is sold in that unit",
                    f'Add [[packs]] with item = "{name}" and unit = "{units[name]}"',
                )
                for name in missing
            )
        )
    lines = []
    for item in book.packs:
        for pack, count, price in fewest_pence(item.packs, amounts[item.item], breaks):
            lines.append(_line(pack.id, pack.description, count, price, takers[item.item], needed))
    return lines


def _serves(item: PackItem | None, unit: str) -> bool:
    return item is not None and item.unit == unit and bool(item.packs)


def fewest_pence(
    packs: Iterable[Pack], amount: int, breaks: Breaks | None = None
) -> list[tuple[Pack, int, Pence]]:
    """Return the packs that hold the amount for the least money, how many and the price of each.

    At equal money the fewest packs. Exact: every useful number of each pack is tried, and of two
    ways that leave the same rest unfilled only the better one is followed. Sizes and amount in one
    unit.
    """
    if amount <= 0:
        return []
    cheaper = breaks or {}
    sizes = sorted(packs, key=lambda pack: (-pack.size, pack.price, pack.id))
    # By what is still unfilled: money, number of packs, and how many of each pack seen so far.
    frontier: dict[int, tuple[int, int, tuple[int, ...]]] = {amount: (0, 0, ())}
    for place, pack in enumerate(sizes):
        is_last = place == len(sizes) - 1
        following: dict[int, tuple[int, int, tuple[int, ...]]] = {}
        for rest, (paid, opened, counts) in frontier.items():
            most = max(0, -(-rest // pack.size))
            for wanted in (most,) if is_last else range(most + 1):
                count, price = cheapest_count(wanted, pack.price, cheaper.get(pack.id, ()))
                left = rest - count * pack.size
                key = max(0, left)
                option = (paid + count * price, opened + count, (*counts, count))
                if key not in following or option < following[key]:
                    following[key] = option
        frontier = following
    _, _, counts = frontier[0]
    return [
        (pack, count, cheapest_count(count, pack.price, cheaper.get(pack.id, ()))[1])
        for pack, count in zip(sizes, counts, strict=True)
        if count
    ]


def _line(
    item: str,
    description: str,
    quantity: int,
    price: Pence,
    jobs: set[str],
    needed: dict[str, str],
) -> OrderLine:
    dates = [needed[job] for job in jobs if needed.get(job)]
    return OrderLine(
        item=item,
        description=description,
        quantity=quantity,
        price=price,
        jobs=tuple(sorted(jobs)),
        needed=min(dates, default=""),
    )
