"""The order as it is sent, and the delivery note with what each job takes of the delivery."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from optimiser.documents.booklet import ranges
from optimiser.documents.flow import Block, Column, Heading, Paragraph, Table, flow
from optimiser.documents.pdf import pdf_bytes
from optimiser.documents.placed import part_lines, stock_name
from optimiser.domain.job import Job
from optimiser.domain.order import Order
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.drawing.letters import plain
from optimiser.drawing.scene import Paper
from optimiser.units import metres, pounds, square_metres

ORDER_FOOT = "Prices as in the price book, without VAT unless said; the merchant's invoice counts."
DELIVERY_FOOT = (
    "Lifting: two people for anything over 25 kg and for each sheet over 20 kg; boards on edge. "
    "Check against the merchant's own note before signing."
)


def order_pdf(order: Order, *, number: str = "", dated: str = "", paper: Paper = Paper.A4) -> bytes:
    """Return the order as PDF. `number` and `dated` are printed where they are given."""
    title = f"Order to {order.merchant}" if order.merchant else "Order"
    rows: list[tuple[str, ...]] = [
        (
            str(place),
            line.item,
            line.description,
            str(line.quantity),
            pounds(line.price),
            pounds(line.total),
            ", ".join(line.jobs),
            line.needed,
        )
        for place, line in enumerate(order.lines, start=1)
    ]
    blocks: list[Block] = [
        Table(
            (
                Column("line", 8, "end"),
                Column("item", 36),
                Column("description", 52),
                Column("qty", 8, "end"),
                Column("each", 14, "end"),
                Column("total", 16, "end"),
                Column("for jobs", 21),
                Column("needed", 20),
            ),
            rows,
            [
                ("", "", f"net, {order.currency}", "", "", pounds(order.net), "", ""),
                ("", "", f"VAT {order.vat_rate / 100:g} %", "", "", pounds(order.vat), "", ""),
                ("", "", f"total, {order.currency}", "", "", pounds(order.total), "", ""),
            ],
        ),
        Paragraph("Deliver to: ______________________________    Contact: ____________________"),
    ]
    facts = (*_numbered(number, dated), f"{len(order.lines)} lines", f"money in {order.currency}")
    pages = flow(blocks, title=title, facts=facts, foot=ORDER_FOOT, paper=paper)
    return pdf_bytes(pages, title=title)


def delivery_note_pdf(
    request: CuttingRequest,
    plan: CuttingPlan,
    orders: Sequence[Order],
    jobs: Sequence[Job],
    *,
    number: str = "",
    dated: str = "",
    paper: Paper = Paper.A4,
) -> bytes:
    """Return the delivery note: what comes from each merchant, to be ticked, and for which job."""
    blocks: list[Block] = [block for order in orders for block in _goods(order)]
    blocks += [
        Paragraph("Missing or damaged: ____________________________________________________"),
        Paragraph("Received by: __________________________    On: ____________________"),
    ]
    names = sorted({line.first.job for line in part_lines(request, plan)} | {j.name for j in jobs})
    known = {job.name: job for job in jobs}
    for name in names:
        blocks += _split(request, plan, name, known.get(name))
    facts = (
        *_numbered(number, dated),
        "1 job" if len(names) == 1 else f"{len(names)} jobs",
        "sizes in mm",
    )
    title = "Delivery note"
    pages = flow(blocks, title=title, facts=facts, foot=DELIVERY_FOOT, paper=paper)
    return pdf_bytes(pages, title=title)


def _goods(order: Order) -> Iterator[Block]:
    """Yield what one merchant brings; what he takes for bringing it is no goods."""
    goods = [line for line in order.lines if not line.charge]
    yield Heading(f"From {order.merchant}" if order.merchant else "Delivered")
    yield Table(
        (
            Column("here", 9),
            Column("qty", 9, "end"),
            Column("item", 38),
            Column("description", 60),
            Column("for jobs", 30),
        ),
        [
            (1, str(line.quantity), line.item, line.description, ", ".join(line.jobs))
            for line in goods
        ],
    )


def _numbered(number: str, dated: str) -> tuple[str, ...]:
    return tuple(text for text in (plain(number), plain(dated)) if text)


def _split(
    request: CuttingRequest, plan: CuttingPlan, name: str, job: Job | None
) -> Iterator[Block]:
    """Yield what one job takes: its stock, its cut parts, and its share of the packs."""
    client = f", {job.client}" if job is not None and job.client else ""
    needed = f", needed {job.needed}" if job is not None and job.needed else ""
    yield Heading(f"Job {name}{client}{needed}")
    stock = list(_stock(plan, name))
    if stock:
        yield Table(
            (
                Column("stock and offcuts", 50),
                Column("material", 40),
                Column("its own", 16, "end"),
                Column("shared", 16, "end"),
                Column("shared with", 40),
            ),
            stock,
        )
    rows = [
        (
            1,
            str(line.quantity),
            line.first.part,
            line.first.name,
            line.first.size,
            line.first.material,
            ranges(line.layouts),
        )
        for line in part_lines(request, plan)
        if line.first.job == name
    ]
    if rows:
        yield Table(
            (
                Column("cut", 8),
                Column("qty", 8, "end"),
                Column("part", 30),
                Column("what for", 34),
                Column("size", 28, "end"),
                Column("material", 30),
                Column("layouts", 18),
            ),
            rows,
        )
    if job is not None and job.quantities:
        packs = [(1, q.item, amount_text(q.amount, q.unit)) for q in job.quantities if q.amount]
        yield Table(
            (Column("out", 8), Column("from packs", 60), Column("amount", 30, "end")), packs
        )


def _stock(plan: CuttingPlan, name: str) -> Iterator[tuple[str, ...]]:
    """Count the stock that only this job is cut from, and that which it shares."""
    for material in plan.materials:
        own: Counter[str] = Counter()
        shared: Counter[str] = Counter()
        others: dict[str, set[str]] = {}
        for layout in material.layouts:
            jobs = {part.job for part in layout.parts}
            if name not in jobs:
                continue
            stock = stock_name(layout)
            (own if jobs == {name} else shared)[stock] += layout.count
            others.setdefault(stock, set()).update(jobs - {name})
        for stock, with_ in others.items():
            yield (
                stock,
                material.material,
                str(own[stock] or "–"),
                str(shared[stock] or "–"),
                ", ".join(sorted(with_)),
            )


def amount_text(amount: int, unit: str) -> str:
    """Write an amount of what is bought by pack as people do: metres, kilograms, litres."""
    if unit == "mm":
        return f"{metres(amount * 10)} m"
    if unit in ("mm²", "mm2"):
        return f"{square_metres(amount * 100)} m²"
    if unit in ("g", "ml") and amount >= 1000:
        whole, rest = divmod(amount, 1000)
        return f"{whole}.{rest:03d}".rstrip("0").rstrip(".") + (" kg" if unit == "g" else " l")
    return f"{amount}" if unit == "each" else f"{amount} {unit}"
