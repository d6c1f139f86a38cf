"""Requests and plans as documents: read in words, written back without loss."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import (
    Choice,
    Cutting,
    CuttingRequest,
    Direction,
    Keep,
    LengthMaterial,
    SheetMaterial,
)
from optimiser.domain.stock import EdgeTrim, LengthOffcut, SheetOffcut, StockLength, StockSheet
from optimiser.errors import InvalidInput
from optimiser.formats.plan import plan_document, plan_from_document, read_plan
from optimiser.formats.request import read_request, request_document, request_from_document
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths
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
        ("[" * 10_000 + "]" * 10_000, "nested too deeply"),
        ('{"lengths":' * 10_000 + "1" + "}" * 10_000, "nested too deeply"),
        ('{"seed": ' + "9" * 5_000 + "}", "not JSON"),
        (b'"\xc3("', "UTF-8"),
        ("[]", "request: list: this must be a group of named fields"),
        ('{"lengths": [[]]}', r"request: lengths\[0\]: list: this must be a group"),
        (" " * 10_000_001, "10 MB"),
    ],
)
def test_a_text_that_is_no_request_is_refused_in_words(text: str | bytes, says: str) -> None:
    with pytest.raises(InvalidInput, match=says):
        read_request(text)


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e400", "-1", "0.05", '"9"'])
def test_a_number_in_json_that_is_no_size_is_named_with_its_place(number: str) -> None:
    text = json.dumps(a_document(length_mm=12_345)).replace("12345", number)

    with pytest.raises(InvalidInput) as refusal:
        read_request(text)

    (problem,) = refusal.value.problems
    assert problem.field == "request: lengths[0].parts[0].length_mm"
    assert problem.trouble.startswith(repr(json.loads(number)))


@pytest.mark.parametrize("seconds", [True, "5", float("nan"), float("inf"), -1, 3_601, None])
def test_the_time_to_think_is_a_number_from_0_to_an_hour(seconds: object) -> None:
    text = problems_of({"seconds": seconds})

    assert text.startswith(f"request: seconds: {seconds!r}: ")


@pytest.mark.parametrize(
    "credit", ["1.5", "-0.5", "NaN", "Infinity", "", "half", "1e-9999999", "0." + "1" * 29, 0.5]
)
def test_a_credit_is_a_plain_decimal_from_0_to_1_in_quotes(credit: object) -> None:
    text = problems_of({"keep": {"credit": credit}})

    assert text.startswith(f"request: keep.credit: {credit!r}"[:60])


@pytest.mark.parametrize("digits", [21, 2_000_000])
def test_a_price_of_endless_digits_is_refused(digits: int) -> None:
    stock = {"id": "s", "length_mm": 2400, "price": "9" * digits}

    text = problems_of({"lengths": [{"material": "c16", "stock": [stock]}]})

    assert text.startswith("request: lengths[0].stock[0].price: '999")


EXAMPLE = """
{"seed": 1, "seconds": 5,
 "keep": {"length_mm": 600, "width_mm": 300, "height_mm": 300, "credit": "0.5"},
 "lengths": [{"material": "c16-38x63", "kerf_mm": 3, "end_trim_mm": 10,
   "stock":   [{"id": "c16-38x63-2400", "length_mm": 2400, "price": "3.60", "available": null}],
   "offcuts": [{"id": "R14", "length_mm": 1130}],
   "parts":   [{"id": "A/upright-1", "job": "A", "length_mm": 2281.5, "quantity": 4}]}],
 "sheets":  [{"material": "mdf-12", "kerf_mm": 3, "edge_trim_mm": 5, "max_stages": null,
   "cutting": "saw",
   "stock":   [{"id": "mdf-12-2440x1220", "width_mm": 1220, "height_mm": 2440, "price": "24.00",
                "available": 10}],
   "offcuts": [{"id": "R3", "width_mm": 610, "height_mm": 900}],
   "parts":   [{"id": "A/backboard", "job": "A", "width_mm": 1500, "height_mm": 900, "quantity": 1,
                "turn": true,
                "cut_outs": [{"x_mm": 0, "y_mm": 0, "width_mm": 200, "height_mm": 300}]}]}],
 "choices": [{"id": "A/front-boarding", "options": [["A/front-v1"], ["A/front-h1"]]}]}
"""
HOLE = CutOut(x=Tenths(0), y=Tenths(0), width=Tenths(2_000), height=Tenths(3_000))
BACKBOARD = BoardPart(
    id="A/backboard",
    job="A",
    width=Tenths(15_000),
    height=Tenths(9_000),
    quantity=1,
    turn=True,
    cut_outs=(HOLE,),
)
TIMBER = LengthMaterial(
    material="c16-38x63",
    kerf=Tenths(30),
    end_trim=Tenths(100),
    stock=(StockLength(id="c16-38x63-2400", length=Tenths(24_000), price=Pence(360)),),
    offcuts=(LengthOffcut(id="R14", length=Tenths(11_300)),),
    parts=(LengthPart(id="A/upright-1", job="A", length=Tenths(22_815), quantity=4),),
)
SHEET = StockSheet(
    id="mdf-12-2440x1220",
    width=Tenths(12_200),
    height=Tenths(24_400),
    price=Pence(2_400),
    available=10,
)
BOARD = SheetMaterial(
    material="mdf-12",
    kerf=Tenths(30),
    edge_trim=EdgeTrim.all_round(50),
    max_stages=None,
    cutting=Cutting.SAW,
    stock=(SHEET,),
    offcuts=(SheetOffcut(id="R3", width=Tenths(6_100), height=Tenths(9_000)),),
    parts=(BACKBOARD,),
)


def test_every_field_of_a_request_is_read_as_written() -> None:
    keep = Keep(
        length=Tenths(6_000), width=Tenths(3_000), height=Tenths(3_000), credit=Fraction(1, 2)
    )

    assert read_request(EXAMPLE) == CuttingRequest(
        seed=1,
        seconds=5,
        keep=keep,
        lengths=(TIMBER,),
        sheets=(BOARD,),
        choices=(Choice(id="A/front-boarding", options=(("A/front-v1",), ("A/front-h1",))),),
    )


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


@pytest.mark.parametrize(
    ("written", "trim"),
    [
        (5, EdgeTrim.all_round(50)),
        ({"left": 5, "top": 2.5}, EdgeTrim(left=Tenths(50), top=Tenths(25))),
        ({}, EdgeTrim()),
    ],
)
def test_a_trim_is_one_size_or_one_for_each_edge_named(written: object, trim: EdgeTrim) -> None:
    material = {"material": "m", "edge_trim_mm": written, "first_cut": "rip"}

    request = request_from_document({"sheets": [material]})

    assert request.sheets[0].edge_trim == trim
    assert request.sheets[0].first_cut is Direction.RIP
    assert request_from_document(request_document(request)) == request


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ({"west": 5}, "a sheet has no edge 'west'; name left, right, bottom or top"),
        ({"left": "5"}, "a size is a number of mm"),
        ({"left": -5}, "-5"),
        ([5, 5, 5, 5], "a size is a number of mm"),
    ],
)
def test_a_trim_that_is_none_is_refused_with_its_place(written: object, says: str) -> None:
    with pytest.raises(InvalidInput) as refusal:
        request_from_document({"sheets": [{"material": "m", "edge_trim_mm": written}]})

    (problem,) = refusal.value.problems
    assert "sheets[0].edge_trim_mm" in problem.field
    assert says in problem.trouble


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


def a_plan() -> CuttingPlan:
    return plan_cutting(
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


def test_a_plan_survives_being_written_and_read() -> None:
    plan = a_plan()

    document = plan_document(plan)

    assert read_plan(json.dumps(document)) == plan
    assert plan_from_document(document) == plan
    assert document["lengths"][0]["layouts"][0]["parts"][0]["length_mm"] == 700.5


def test_a_plan_with_a_field_missing_is_refused_by_name() -> None:
    with pytest.raises(InvalidInput, match="net_cost"):
        plan_from_document({"seed": 1})


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf"), 1e308, -1, "9"])
@pytest.mark.parametrize(
    ("kind", "field"), [("lengths", "part_mm"), ("lengths", "kerf_mm"), ("sheets", "scrap_mm2")]
)
def test_a_plan_whose_usage_is_no_number_is_refused_by_field_and_value(
    kind: str, field: str, number: object
) -> None:
    document = plan_document(a_plan())
    document[kind][0]["usage"][field] = number

    with pytest.raises(InvalidInput) as refusal:
        plan_from_document(document)

    (problem,) = refusal.value.problems
    assert problem.field == f"plan: {kind}[0].usage.{field}"
    assert problem.trouble.startswith(f"{number!r}: ")
    assert "float" not in problem.trouble


def test_a_list_of_a_hundred_thousand_parts_is_refused_with_the_limit() -> None:
    part = {"id": "p", "job": "A", "width_mm": 100, "height_mm": 200, "quantity": 1}
    board = {"material": "b", "cutting": "saw", "parts": [part] * 100_000}

    with pytest.raises(InvalidInput) as refused:
        request_from_document({"seconds": 1, "sheets": [board]})

    (problem,) = (one for one in refused.value.problems if one.field.endswith("sheets[0].parts"))
    assert "20000 is the most" in problem.trouble
    assert problem.remedy == "Split it by date or by material"
