"""The order says each line and sum; the delivery note deals it out to the jobs, each part once."""

from __future__ import annotations

import re

import pytest

from optimiser.documents.orders import amount_text, delivery_note_pdf, order_pdf
from optimiser.domain.frame import Quantity
from optimiser.domain.job import Job
from optimiser.domain.part_list import PartList
from tests.documents.builders import Planned, an_order
from tests.documents.reading import Pdf


def a_job(name: str, *amounts: tuple[str, int, str]) -> Job:
    return Job(
        name=name,
        client=f"Client {name}",
        needed="2026-12-07",
        parts=PartList(lengths=(), boards=()),
        quantities=tuple(
            Quantity(item=item, amount=amount, unit=unit, working="", rule="test")
            for item, amount, unit in amounts
        ),
    )


def test_the_order_has_each_line_the_sums_and_what_it_is() -> None:
    pdf = Pdf(order_pdf(an_order(), number="order-12", dated="2026-11-26"))
    lines = pdf.text.splitlines()

    assert lines[0] == "Order to Demo Merchant"
    assert lines[1].startswith("order-12 · 2026-11-26 · 2 lines")
    assert "1 c16-38x63-2400 Timber 38 × 63 7 3.58 25.06 A, B 2026-12-07" in lines
    assert "2 screw-80-200 Screws 5.0 × 80, box of 200 2 11.90 23.80 A" in lines
    for sums in ("net, GBP 48.86", "VAT 20 % 9.77", "total, GBP 58.63"):
        assert sums in lines


def test_an_order_of_many_lines_repeats_its_heads_and_keeps_every_word() -> None:
    long = " ".join(f"word{n}" for n in range(60))

    pdf = Pdf(order_pdf(an_order(description=long)))

    words = [word for word in pdf.text.split() if word.startswith("word")]
    assert words == long.split()


def test_each_jobs_parts_stand_under_the_job_once_with_their_number(planned: Planned) -> None:
    jobs = (a_job("A", ("screw-80", 512, "each"), ("plaster", 18_215, "g")), a_job("B"))

    pdf = Pdf(
        delivery_note_pdf(planned.request, planned.plan, [an_order()], jobs, number="order-1")
    )

    first, second = re.split(r"Job B, Client B, needed 2026-12-07", pdf.text)
    for material in planned.request.materials:
        for part in material.parts:
            own, other = (first, second) if part.job == "A" else (second, first)
            assert re.search(rf"^{part.quantity} {part.id} ", own, re.MULTILINE), part.id
            assert pdf.text.count(f" {part.id} ") == 1
            assert part.id not in other
    assert "screw-80 512" in first
    assert "plaster 18.215 kg" in first


def test_the_split_counts_stock_of_ones_own_and_stock_that_is_shared(planned: Planned) -> None:
    pdf = Pdf(delivery_note_pdf(planned.request, planned.plan, [an_order()], ()))
    part_a = pdf.text.split("Job B")[0]

    (sheets,) = (s for s in planned.plan.sheets if s.material == "plasterboard-12.5")
    own = sum(lay.count for lay in sheets.layouts if {p.job for p in lay.parts} == {"A"})
    shared = sum(lay.count for lay in sheets.layouts if {p.job for p in lay.parts} == {"A", "B"})
    figures = f"{own or '–'} {shared or '–'}" + (" B" if shared else "")
    assert f"pb-2400 plasterboard-12.5 {figures}" in part_a


@pytest.mark.parametrize(
    ("amount", "unit", "text"),
    [
        (512, "each", "512"),
        (6420, "mm", "6.42 m"),
        (1_500_000, "mm²", "1.50 m²"),
        (18_215, "g", "18.215 kg"),
        (25_000, "g", "25 kg"),
        (867, "ml", "867 ml"),
    ],
)
def test_amounts_are_written_in_the_unit_that_people_use(amount: int, unit: str, text: str) -> None:
    assert amount_text(amount, unit) == text
