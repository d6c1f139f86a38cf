"""Requests and plans as documents: read in words, written back without loss."""

from __future__ import annotations

import csv
import io
import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.order import Order, OrderLine
from optimiser.domain.request import Cutting
from optimiser.errors import InvalidInput
from optimiser.formats.order import order_csv, order_table
from optimiser.formats.plan import plan_document, plan_from_document, read_plan
from optimiser.formats.request import read_request, request_document, request_from_document
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)


def a_document(**changes: Any) -> dict[str, Any]:
    part = {"id": "A/upright-1", "job": "A", "length_mm": 2281.5, "quantity": 4}
    stock = {"id": "c16-2400", "length_mm": 2400, "price": "3.60", "available": None}
    material = {"material": "c16", "kerf_mm": 3, "end_trim_mm": 10, "stock": [stock]}
    return {"lengths": [{**material, "parts": [{**part, **changes}]}]}


def problems_of(document: object) -> str:
    with pytest.raises(InvalidInput) as refusal:
        request_from_document(document)
    return str(refusal.value)


def test_a_request_is_read_in_tenths_and_pence() -> None:
    request = request_from_document(a_document())

    material = request.lengths[0]
    assert (material.kerf, material.end_trim) == (30, 100)
    assert material.parts[0].length == 22_815
    assert (material.stock[0].price, material.stock[0].available) == (360, None)
    assert (request.keep.length, request.keep.credit) == (6_000, Fraction(1, 2))


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (float("nan"), "nan"),
        (float("inf"), "inf"),
        (-5, "-5"),
        (0, "above 0"),
        (0.05, "finer than 0.1 mm"),
        (200_000, "longer than 100 m"),
        ("2.4 m", "without quotes"),
        (True, "True"),
        (None, "None"),
    ],
)
def test_a_size_that_is_none_is_named_with_its_place_and_value(value: object, says: str) -> None:
    text = problems_of(a_document(length_mm=value))

    assert "lengths[0].parts[0].length_mm" in text
    assert says in text


def test_every_fault_of_a_request_is_told_at_once() -> None:
    text = problems_of(a_document(length_mm=-1, quantity=0, colour="red"))

    assert all(field in text for field in ("length_mm", "quantity", "colour"))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "not JSON"),
        ("{", "not JSON"),
        ("[" * 100_000, "nested too deeply"),
        (b'"\xc3("', "UTF-8"),
        ("[]", "request"),
        (" " * 10_000_001, "10 MB"),
    ],
)
def test_a_text_that_is_no_request_is_refused_in_words(text: str | bytes, says: str) -> None:
    with pytest.raises(InvalidInput, match=says):
        read_request(text)


def test_a_knife_takes_no_kerf_and_a_saw_takes_3_where_none_is_given() -> None:
    material = {"material": "b", "stock": [], "parts": []}

    request = request_from_document(
        {
            "sheets": [
                {**material, "cutting": "knife"},
                {**material, "material": "m", "cutting": "saw"},
            ]
        }
    )

    assert [item.kerf for item in request.sheets] == [0, 30]
    assert request.sheets[0].cutting is Cutting.KNIFE


SIZES = st.integers(min_value=1, max_value=60_000).map(lambda tenths: tenths / 10)


@settings(max_examples=60, deadline=None)
@given(
    lengths=st.lists(SIZES, min_size=1, max_size=5),
    boards=st.lists(st.tuples(SIZES, SIZES, st.booleans()), max_size=4),
    seed=st.integers(0, 1_000),
)
def test_a_request_survives_being_written_and_read(
    lengths: list[float], boards: list[tuple[float, float, bool]], seed: int
) -> None:
    request = request_from_document(
        {
            "seed": seed,
            "lengths": [
                {
                    "material": "t",
                    "offcuts": [{"id": "r", "length_mm": lengths[0]}],
                    "parts": [
                        {"id": f"t{n}", "job": "j", "length_mm": size}
                        for n, size in enumerate(lengths)
                    ],
                }
            ],
            "sheets": [
                {
                    "material": "b",
                    "max_stages": 2,
                    "parts": [
                        {"id": f"b{n}", "job": "j", "width_mm": w, "height_mm": h, "turn": turn}
                        for n, (w, h, turn) in enumerate(boards)
                    ],
                }
            ],
            "choices": [{"id": "c", "options": [["t0"], []]}],
        }
    )

    text = json.dumps(request_document(request))

    assert read_request(text) == request


def test_a_plan_survives_being_written_and_read() -> None:
    plan = plan_cutting(
        a_request(
            a_length_material(
                a_length_part("a", 7005, 3),
                stock=[a_stock_length("1000", 10_000, 99)],
                offcuts=[a_length_offcut("r", 8_000)],
                kerf=3,
            ),
            a_sheet_material(
                a_board_part("b", 3003, 5000, 2, cut_outs=(a_cut_out(0, 0, 50, 60),)),
                stock=[a_stock_sheet("s", 10_000, 10_000, 500)],
                kerf=3,
                trim=5,
            ),
            seconds=0.1,
        )
    )

    document = plan_document(plan)

    assert read_plan(json.dumps(document)) == plan
    assert plan_from_document(document) == plan
    assert document["lengths"][0]["layouts"][0]["parts"][0]["length_mm"] == 700.5


def test_a_plan_with_a_field_missing_is_refused_by_name() -> None:
    with pytest.raises(InvalidInput, match="net_cost"):
        plan_from_document({"seed": 1})


def an_order(*lines: OrderLine) -> Order:
    net = sum(line.total for line in lines)
    return Order(
        merchant="a merchant",
        currency="GBP",
        lines=lines,
        net=Pence(net),
        vat_rate=2_000,
        vat=Pence(net // 5),
        total=Pence(net + net // 5),
    )


def a_line(item: str, description: str) -> OrderLine:
    return OrderLine(
        item=item, description=description, quantity=3, price=Pence(250), jobs=("A",), needed=""
    )


def test_an_order_reads_back_from_csv_with_its_sums() -> None:
    order = an_order(a_line("s-1", 'Screws, "5.0"\nbox'), a_line("s-2", "plain"))

    rows = list(csv.reader(io.StringIO(order_csv(order), newline="")))

    assert rows[1][1:6] == ["s-1", 'Screws, "5.0"\nbox', "3", "2.50", "7.50"]
    assert [row[5] for row in rows[-3:]] == ["15.00", "3.00", "18.00"]


def test_a_text_that_a_spreadsheet_would_run_is_defused() -> None:
    rows = list(csv.reader(io.StringIO(order_csv(an_order(a_line("=1+1", "@sum"))), newline="")))

    assert rows[1][1:3] == ["'=1+1", "'@sum"]


def test_the_printed_order_stands_in_columns() -> None:
    lines = order_table(an_order(a_line("a", "short"), a_line("b", "a longer one"))).splitlines()

    assert lines[2].index("2.50") == lines[3].index("2.50")
    assert lines[-1].strip().startswith("total, GBP")
    assert lines[-1].endswith("18.00")
