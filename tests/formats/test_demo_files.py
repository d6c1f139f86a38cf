"""The files of the demo are examples to copy from: each reads without a fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from optimiser.formats.part_list import read_part_list
from optimiser.formats.price_book import read_price_book
from optimiser.formats.rack import read_rack
from optimiser.formats.wall import read_wall
from optimiser.framing.build import frame_wall

FOLDER = Path(__file__).parents[2] / "api" / "demo"
PRICES = read_price_book((FOLDER / "price-book.toml").read_text(encoding="utf-8"), name="prices")
SECTIONS = {item.material for item in PRICES.lengths}
BOARDS = {item.material for item in PRICES.sheets}


def test_everything_on_the_demo_rack_is_of_a_material_that_the_demo_merchant_sells() -> None:
    rack = read_rack((FOLDER / "rack.csv").read_bytes(), name="rack")

    assert {material for material, _ in rack.lengths} <= SECTIONS
    assert {material for material, _ in rack.sheets} <= BOARDS
    assert rack.lengths
    assert rack.sheets


def test_every_part_of_the_demo_list_is_of_a_material_that_the_demo_merchant_sells() -> None:
    parts = read_part_list((FOLDER / "parts.csv").read_bytes(), name="parts", job="D")

    assert {material for material, _ in parts.lengths} <= SECTIONS
    assert {material for material, _ in parts.boards} <= BOARDS
    assert [part.length for _, part in parts.lengths] == [22_815, 5_620]
    assert [(part.width, part.height) for _, part in parts.boards] == [
        (4_500, 18_000),
        (3_000, 6_050),
    ]


@pytest.mark.parametrize("path", sorted(FOLDER.glob("wall-*.toml")), ids=lambda path: path.stem)
def test_a_demo_wall_reads_and_is_framed(path: Path) -> None:
    wall = read_wall(path.read_text(encoding="utf-8"), name=path.name)

    assert frame_wall(wall, PRICES).members
