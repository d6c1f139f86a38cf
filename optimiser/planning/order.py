"""From a plan to what is ordered: exact stock, whole packs, VAT once on the sum."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction

from optimiser.domain.job import Job
from optimiser.domain.order import Order, OrderLine
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.price_book import Pack, PackItem, PriceBook
from optimiser.errors import InvalidInput, Problem
from optimiser.units import Pence, half_up, mm


def order_for(plan: CuttingPlan, jobs: tuple[Job, ...], book: PriceBook) -> Order:
    """Return the order that a plan and its jobs' other quantities need from one merchant.

    Stock quantities are exactly what the plan cuts. VAT is taken once, on the net sum, rounded half
    up. Raises InvalidInput for a quantity that the price book sells no pack of.
    """
    needed = {job.name: job.needed for job in jobs}
    lines = [*_stock_lines(plan, book, needed), *_pack_lines(jobs, book, needed)]
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


def _stock_lines(plan: CuttingPlan, book: PriceBook, needed: dict[str, str]) -> list[OrderLine]:
    # By material and id: two materials may each have a "2400".
    bought: Counter[tuple[str, str]] = Counter()
    jobs: dict[tuple[str, str], set[str]] = {}
    for material in plan.materials:
        for layout in material.layouts:
            if not layout.offcut:
                key = (material.material, layout.stock)
                bought[key] += layout.count
                jobs.setdefault(key, set()).update(part.job for part in layout.parts)
    priced = [
        (item.material, stock.id, f"{item.description}, {mm(stock.length)} mm", stock.price)
        for item in book.lengths
        for stock in item.stock
    ] + [
        (
            item.material,
            stock.id,
            f"{item.description}, {mm(stock.width)} × {mm(stock.height)} mm",
            stock.price,
        )
        for item in book.sheets
        for stock in item.stock
    ]
    return [
        _line(id_, description, bought[material, id_], price, jobs[material, id_], needed)
        for material, id_, description, price in priced
        if (material, id_) in bought
    ]


def cost_of_packs(jobs: tuple[Job, ...], book: PriceBook) -> Pence:
    """Return what the packs of these jobs cost together, in whole packs, without VAT.

    Raises InvalidInput for a quantity that the price book sells no pack of.
    """
    return Pence(sum(line.total for line in _pack_lines(jobs, book, {})))


def _pack_lines(jobs: tuple[Job, ...], book: PriceBook, needed: dict[str, str]) -> list[OrderLine]:
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
        for pack, count in fewest_pence(item.packs, amounts[item.item]):
            lines.append(
                _line(pack.id, pack.description, count, pack.price, takers[item.item], needed)
            )
    return lines


def _serves(item: PackItem | None, unit: str) -> bool:
    return item is not None and item.unit == unit and bool(item.packs)


def fewest_pence(packs: Iterable[Pack], amount: int) -> list[tuple[Pack, int]]:
    """Return the packs that hold the amount for the least money; at equal money, fewest packs.

    Exact: every useful number of each pack is tried, and of two ways that leave the same rest
    unfilled only the better one is followed. Sizes and amount in one unit.
    """
    if amount <= 0:
        return []
    sizes = sorted(packs, key=lambda pack: (-pack.size, pack.price, pack.id))
    # By what is still unfilled: money, number of packs, and how many of each pack seen so far.
    frontier: dict[int, tuple[int, int, tuple[int, ...]]] = {amount: (0, 0, ())}
    for place, pack in enumerate(sizes):
        is_last = place == len(sizes) - 1
        following: dict[int, tuple[int, int, tuple[int, ...]]] = {}
        for rest, (paid, opened, counts) in frontier.items():
            most = max(0, -(-rest // pack.size))
            for count in (most,) if is_last else range(most + 1):
                left = rest - count * pack.size
                key = max(0, left)
                option = (paid + count * pack.price, opened + count, (*counts, count))
                if key not in following or option < following[key]:
                    following[key] = option
        frontier = following
    _, _, counts = frontier[0]
    return [(pack, count) for pack, count in zip(sizes, counts, strict=True) if count]


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
