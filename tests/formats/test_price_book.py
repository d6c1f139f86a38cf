"""A merchant's price book as written in TOML: read whole, or refused with every fault named."""

from __future__ import annotations

import copy
import json
import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.domain.price_book import LengthItem, Pack, PackItem, PriceBook, SheetItem
from optimiser.domain.request import Cutting
from optimiser.domain.stock import NO_EDGE_TRIM, EdgeTrim, StockLength, StockSheet
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.price_book import price_book_from_document, read_price_book
from optimiser.units import Pence, Tenths

BOOK = """
merchant = "Merchant M"
currency = "GBP"
vat_percent = 17.5

[[lengths]]
material = "c16-38x63"
description = "C16 studding, 38 × 63 finished"
thickness_mm = 38
width_mm = 63
grade = "C16"
mass_kg_per_m = 1.1
stock = [
  { id = "c16-38x63-2400", length_mm = 2400, price = "3.60" },
  { id = "c16-38x63-3000", length_mm = 3000, price = "4,5", available = 20 },
]

[[lengths]]
material = "bead"
description = "Corner bead"
thickness_mm = 0.5
width_mm = 25
mass_kg_per_m = 0.12
kerf_mm = 0
end_trim_mm = 2.5
stock = [{ id = "bead-2400", length_mm = 2400, price = "2" }]

[[sheets]]
material = "plasterboard-12.5"
description = "Plasterboard 12.5"
thickness_mm = 12.5
mass_kg_per_m2 = 8.0
cutting = "knife"
stock = [{ id = "pb-1200", width_mm = 1200, height_mm = 2400, price = "8.40", available = 0 }]

[[sheets]]
material = "mdf-12"
description = "MDF 12"
thickness_mm = 12
mass_kg_per_m2 = 8.8
cutting = "saw"
edge_trim_mm = 5
stock = [{ id = "mdf-1220", width_mm = 1220, height_mm = 2440, price = "24.00" }]

[[packs]]
item = "screw-80"
unit = "each"
packs = [
  { id = "screw-80-200", description = "Screws 80, 200", size = 200, price = "9.80" },
  { id = "screw-80-1000", description = "Screws 80, 1000", size = 1000, price = "39.00" },
]
"""

STUDDING = LengthItem(
    material="c16-38x63",
    description="C16 studding, 38 × 63 finished",
    thickness=Tenths(380),
    width=Tenths(630),
    grade="C16",
    mass=1100,
    kerf=Tenths(30),
    end_trim=Tenths(0),
    stock=(
        StockLength(id="c16-38x63-2400", length=Tenths(24000), price=Pence(360)),
        StockLength(id="c16-38x63-3000", length=Tenths(30000), price=Pence(450), available=20),
    ),
)
BEAD = LengthItem(
    material="bead",
    description="Corner bead",
    thickness=Tenths(5),
    width=Tenths(250),
    grade="",
    mass=120,
    kerf=Tenths(0),
    end_trim=Tenths(25),
    stock=(StockLength(id="bead-2400", length=Tenths(24000), price=Pence(200)),),
)
PLASTERBOARD = SheetItem(
    material="plasterboard-12.5",
    description="Plasterboard 12.5",
    thickness=Tenths(125),
    mass=8000,
    cutting=Cutting.KNIFE,
    kerf=Tenths(0),
    edge_trim=NO_EDGE_TRIM,
    stock=(
        StockSheet(
            id="pb-1200",
            width=Tenths(12000),
            height=Tenths(24000),
            price=Pence(840),
            available=0,
        ),
    ),
)
MDF = SheetItem(
    material="mdf-12",
    description="MDF 12",
    thickness=Tenths(120),
    mass=8800,
    cutting=Cutting.SAW,
    kerf=Tenths(30),
    edge_trim=EdgeTrim.all_round(50),
    stock=(
        StockSheet(id="mdf-1220", width=Tenths(12200), height=Tenths(24400), price=Pence(2400)),
    ),
)
SCREWS = PackItem(
    item="screw-80",
    unit="each",
    packs=(
        Pack(id="screw-80-200", description="Screws 80, 200", size=200, price=Pence(980)),
        Pack(id="screw-80-1000", description="Screws 80, 1000", size=1000, price=Pence(3900)),
    ),
)


def refused(text: str) -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as caught:
        read_price_book(text, name="prices")
    return caught.value.problems


def changed(old: str, new: str) -> str:
    assert BOOK.count(old) == 1
    return BOOK.replace(old, new)


def test_a_price_book_is_read_with_the_usual_kerfs_and_trims_where_none_is_given() -> None:
    assert read_price_book(BOOK, name="prices") == PriceBook(
        merchant="Merchant M",
        currency="GBP",
        vat=1750,
        lengths=(STUDDING, BEAD),
        sheets=(PLASTERBOARD, MDF),
        packs=(SCREWS,),
    )


def test_the_same_price_book_as_plain_values_reads_equal() -> None:
    document = json.loads(json.dumps(tomllib.loads(BOOK)))

    assert price_book_from_document(document, name="prices") == read_price_book(BOOK, name="p")


def test_a_merchant_may_sell_only_one_kind_of_thing() -> None:
    book = read_price_book('merchant = "M"\nvat_percent = 20\n', name="prices")

    assert (book.currency, book.vat, book.lengths, book.sheets, book.packs) == (
        "GBP",
        2000,
        (),
        (),
        (),
    )


def test_a_price_without_quotes_is_refused_and_the_quotes_are_shown() -> None:
    (problem,) = refused(changed('price = "3.60"', "price = 3.60"))

    assert problem.field == "prices: lengths[0].stock[0].price"
    assert '3.6: money is written as text, such as "3.60"' in problem.trouble


@pytest.mark.parametrize(
    ("old", "new", "field", "trouble"),
    [
        ('price = "3.60"', 'price = "3.605"', "lengths[0].stock[0].price", "'3.605'"),
        ('price = "3.60"', 'price = "-3.60"', "lengths[0].stock[0].price", "'-3.60'"),
        ('price = "3.60"', 'price = "£3.60"', "lengths[0].stock[0].price", "'£3.60'"),
        ('price = "3.60"', 'price = "1000000.01"', "lengths[0].stock[0].price", "a million"),
        ("length_mm = 3000, ", "", "lengths[0].stock[1].length_mm", "left out"),
        ("available = 20", "available = -1", "lengths[0].stock[1].available", "-1"),
        ("available = 20", "available = 2.5", "lengths[0].stock[1].available", "2.5"),
        ("available = 20", "avail = 20", "lengths[0].stock[1].avail", "not a field"),
        ("thickness_mm = 38", "thickness_mm = 0", "lengths[0].thickness_mm", "above 0"),
        ("thickness_mm = 38", "thickness_mm = 38.25", "lengths[0].thickness_mm", "finer than 0.1"),
        ("thickness_mm = 38", 'thickness_mm = "38"', "lengths[0].thickness_mm", "without quotes"),
        ("thickness_mm = 38", "thickness_mm = inf", "lengths[0].thickness_mm", "inf"),
        ("kerf_mm = 0", "kerf_mm = -1", "lengths[1].kerf_mm", "-1"),
        ("end_trim_mm = 2.5", "end_trim_mm = true", "lengths[1].end_trim_mm", "True"),
        ("mass_kg_per_m = 1.1", "mass_kg_per_m = 0", "lengths[0].mass_kg_per_m", "above 0"),
        ("mass_kg_per_m = 1.1", "mass_kg_per_m = nan", "lengths[0].mass_kg_per_m", "nan"),
        ("mass_kg_per_m = 1.1", "mass_kg_per_m = 1.1001", "lengths[0].mass_kg_per_m", "a gram"),
        ("vat_percent = 17.5", "vat_percent = 17.555", "vat_percent", "at most two decimals"),
        ("vat_percent = 17.5", "vat_percent = -1", "vat_percent", "from 0 to 100"),
        ("vat_percent = 17.5", "vat_percent = 101", "vat_percent", "from 0 to 100"),
        ("vat_percent = 17.5", 'vat_percent = "20"', "vat_percent", "number of percent"),
        ("vat_percent = 17.5", "", "vat_percent", "left out"),
        ('currency = "GBP"', 'currency = "pounds"', "currency", "'pounds'"),
        ('cutting = "knife"', 'cutting = "laser"', "sheets[0].cutting", "'laser'"),
        (
            'cutting = "knife"',
            'cutting = "knife"\nreaction_to_fire = "A2"',
            "sheets[0].reaction_to_fire",
            "'A2'",
        ),
        (
            'cutting = "knife"',
            'cutting = "knife"\nreaction_to_fire = 1',
            "sheets[0].reaction_to_fire",
            'reads "A1", "A2-s1,d0"',
        ),
        ('unit = "each"', 'unit = "box"', "packs[0].unit", "'box'"),
        ("size = 200,", "size = 0,", "packs[0].packs[0].size", "0"),
        ("size = 200,", "size = 1.5,", "packs[0].packs[0].size", "1.5"),
        ('material = "bead"', 'material = "be\\u0007ad"', "lengths[1].material", "match pattern"),
        ('material = "bead"', 'material = ""', "lengths[1].material", "at least 1 character"),
        ('id = "c16-38x63-2400"', "id = 2400", "lengths[0].stock[0].id", "2400"),
        ('grade = "C16"', "grade = 16", "lengths[0].grade", "16"),
    ],
)
def test_a_field_that_is_wrong_or_not_known_is_named_with_its_value_and_a_remedy(
    old: str, new: str, field: str, trouble: str
) -> None:
    (problem,) = refused(changed(old, new))

    assert problem.field == f"prices: {field}"
    assert trouble in problem.trouble
    assert problem.remedy


@pytest.mark.parametrize("burns", ["A1", "A2-s1,d0", "B-s3,d2", "E", "E-d2", "F", ""])
def test_a_board_says_its_class_of_reaction_to_fire(burns: str) -> None:
    text = changed('cutting = "knife"', f'cutting = "knife"\nreaction_to_fire = "{burns}"')

    board = read_price_book(text, name="prices").sheets[0]

    assert board.reaction_to_fire == burns
    assert board.is_non_combustible is (burns in ("A1", "A2-s1,d0"))


@pytest.mark.parametrize("number", ["9" * 400, "1e300", "-1e300"])
@pytest.mark.parametrize(
    "field", ["vat_percent = 17.5", "thickness_mm = 38", "mass_kg_per_m = 1.1", "size = 200"]
)
def test_a_number_beyond_all_measure_is_refused(field: str, number: str) -> None:
    name, end = field.split(" = ")[0], "," if field.startswith("size") else "\n"

    (problem,) = refused(changed(f"{field}{end}", f"{name} = {number}{end}"))

    assert problem.field.endswith(name)


def test_every_wrong_field_is_named_at_once() -> None:
    text = changed("vat_percent = 17.5", "vat_percent = 200").replace('"3.60"', "3.60")

    fields = {problem.field for problem in refused(text.replace("size = 200", "sise = 200"))}

    assert fields == {
        "prices: vat_percent",
        "prices: lengths[0].stock[0].price",
        "prices: packs[0].packs[0].size",
        "prices: packs[0].packs[0].sise",
    }


def test_an_item_that_nothing_is_sold_of_is_refused() -> None:
    text = changed('stock = [{ id = "bead-2400", length_mm = 2400, price = "2" }]', "stock = []")

    assert [problem.field for problem in refused(text)] == ["prices: lengths[1].stock"]


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ('material = "bead"', 'material = "c16-38x63"', "material 'c16-38x63'"),
        ('material = "mdf-12"', 'material = "bead"', "material 'bead'"),
        ('id = "c16-38x63-3000"', 'id = "c16-38x63-2400"', "id 'c16-38x63-2400'"),
        ('id = "mdf-1220"', 'id = "bead-2400"', "id 'bead-2400'"),
        ('id = "screw-80-1000"', 'id = "mdf-1220"', "id 'mdf-1220'"),
    ],
)
def test_a_material_or_an_id_that_stands_twice_anywhere_in_the_book_is_refused(
    old: str, new: str, what: str
) -> None:
    assert refused(changed(old, new)) == (
        Problem(f"prices: {what}", "stands more than once", "Give each its own name"),
    )


def test_a_pack_item_that_stands_twice_is_refused() -> None:
    again = BOOK[BOOK.index("[[packs]]") :].replace('id = "', 'id = "again-')

    assert [problem.field for problem in refused(BOOK + again)] == ["prices: pack item 'screw-80'"]


def test_a_knife_takes_nothing_away_so_a_kerf_beside_it_is_refused() -> None:
    (problem,) = refused(changed('cutting = "knife"', 'cutting = "knife"\nkerf_mm = 3'))

    assert problem.field == "prices: sheets 'plasterboard-12.5' kerf_mm"
    assert problem.trouble == "3 with a knife, which takes nothing away"
    assert problem.remedy == 'Give 0, or cutting = "saw"'


def test_a_knife_with_a_kerf_of_0_written_out_is_sound() -> None:
    book = read_price_book(changed('"knife"', '"knife"\nkerf_mm = 0'), name="prices")

    assert book.sheets == (PLASTERBOARD, MDF)


@pytest.mark.parametrize(
    "text", ["merchant = ", "merchant = 'M'\nmerchant = 'N'", "\x00", "[a", "a = " + "9" * 5000]
)
def test_a_text_that_is_not_toml_is_refused_at_its_line(text: str) -> None:
    (problem,) = refused(text)

    assert problem.field == "prices"
    assert problem.trouble.startswith("is not TOML: ")


def test_a_text_nested_without_end_or_too_large_is_refused() -> None:
    (nested,) = refused("a = " + "[" * 100_000)
    (large,) = refused("#" * 10_000_001)

    assert nested.trouble == "is nested too deeply"
    assert large.trouble == "is larger than 10 MB"


@given(st.text(max_size=200))
def test_no_text_does_more_than_be_refused(text: str) -> None:
    assert refused(text + "\nno_such_field = 1")


PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner),
    max_leaves=6,
)
PATHS: list[tuple[str | int, ...]] = [
    (),
    ("merchant",),
    ("vat_percent",),
    ("lengths",),
    ("lengths", 0),
    ("lengths", 0, "mass_kg_per_m"),
    ("lengths", 0, "stock", 0, "price"),
    ("lengths", 0, "stock", 1, "available"),
    ("sheets", 0, "cutting"),
    ("sheets", 1, "kerf_mm"),
    ("packs", 0, "packs", 1, "size"),
]


@given(st.sampled_from(PATHS), PLAIN)
def test_no_plain_value_anywhere_in_the_book_does_more_than_have_it_refused(
    path: tuple[str | int, ...], value: object
) -> None:
    root: dict[str, Any] = {"book": tomllib.loads(BOOK)}
    place: Any = root
    steps: list[str | int] = ["book", *path]
    for step in steps[:-1]:
        place = place[step]
    place[steps[-1]] = copy.deepcopy(value)
    try:
        book = price_book_from_document(root["book"], name="prices")
    except InvalidInput as refusal:
        found = len(refusal.problems)
    else:
        found = len(book.merchant) + len(book.packs)
    assert found > 0
