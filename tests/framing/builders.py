"""A price book and walls for tests: sizes of the trade, invented prices, no merchant's name."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from optimiser.domain.frame import Frame
from optimiser.domain.price_book import LengthItem, PackItem, PriceBook, SheetItem
from optimiser.domain.request import Cutting
from optimiser.domain.stock import NO_EDGE_TRIM, StockLength, StockSheet
from optimiser.domain.wall import Extent, Fire, Materials, Niche, Site, Soundbar, Tv, Wall
from optimiser.framing.build import frame_wall
from optimiser.units import Pence, Tenths, tenths

LENGTHS = (2_400, 3_000, 3_600, 4_800)


def a_section(
    material: str, thickness: float, width: float, *, grade: str = "", lengths: Any = LENGTHS
) -> LengthItem:
    return LengthItem(
        material=material,
        description=material,
        thickness=tenths(thickness),
        width=tenths(width),
        grade=grade,
        mass=1_100,
        kerf=Tenths(30),
        end_trim=Tenths(0),
        stock=tuple(
            StockLength(id=f"{material}-{size}", length=tenths(size), price=Pence(size // 10))
            for size in lengths
        ),
    )


def a_board(
    material: str,
    thickness: float,
    sizes: Any,
    *,
    mass: int,
    cutting: Cutting = Cutting.KNIFE,
    burns: str = "",
) -> SheetItem:
    return SheetItem(
        material=material,
        description=material,
        thickness=tenths(thickness),
        mass=mass,
        cutting=cutting,
        kerf=Tenths(0 if cutting is Cutting.KNIFE else 30),
        edge_trim=NO_EDGE_TRIM,
        reaction_to_fire=burns,
        stock=tuple(
            StockSheet(
                id=f"{material}-{high}x{wide}",
                width=tenths(wide),
                height=tenths(high),
                price=Pence(1_000),
            )
            for wide, high in sizes
        ),
    )


def a_price_book() -> PriceBook:
    return PriceBook(
        merchant="a merchant",
        currency="GBP",
        vat=2_000,
        lengths=(
            a_section("c16-38x63", 38, 63, grade="C16"),
            a_section("c24-38x89", 38, 89, grade="C24"),
            a_section("corner-bead", 3, 25, lengths=(2_400, 3_000)),
            a_section("stop-bead", 3, 20, lengths=(3_000,)),
        ),
        sheets=(
            a_board("plasterboard-12.5", 12.5, ((1_200, 2_400), (1_200, 3_000)), mass=8_000),
            a_board("plasterboard-9.5", 9.5, ((900, 1_800), (1_200, 2_400)), mass=6_300),
            a_board("mdf-12", 12, ((1_220, 2_440),), mass=8_640, cutting=Cutting.SAW),
            a_board(
                "silicate-12",
                12,
                ((1_220, 2_440),),
                mass=10_800,
                cutting=Cutting.SAW,
                burns="A1",
            ),
        ),
        packs=(
            PackItem(item="screw-80", unit="each", packs=()),
            PackItem(item="plaster", unit="g", packs=()),
        ),
    )


def a_site(**changes: Any) -> Site:
    return replace(Site(clear_width=tenths(3_600), height_left=tenths(2_400)), **changes)


def a_fire(**changes: Any) -> Fire:
    usual = Fire(
        body_width=tenths(1_270),
        body_height=tenths(480),
        body_depth=tenths(200),
        clearance_top=tenths(10),
        clearance_side=tenths(5),
        clearance_back=tenths(10),
        opening_width=tenths(1_250),
        opening_height=tenths(450),
    )
    return replace(usual, **changes)


def a_tv(**changes: Any) -> Tv:
    usual = Tv(width=tenths(1_450), height=tenths(830), depth=tenths(50), mass=25_000)
    return replace(usual, **changes)


def a_niche(**changes: Any) -> Niche:
    usual = Niche(
        name="niche",
        x=tenths(200),
        z=tenths(900),
        width=tenths(350),
        height=tenths(900),
        depth=tenths(180),
        shelves=2,
    )
    return replace(usual, **changes)


def a_soundbar(**changes: Any) -> Soundbar:
    usual = Soundbar(width=tenths(900), height=tenths(70), depth=tenths(110))
    return replace(usual, **changes)


def a_wall(**changes: Any) -> Wall:
    """A wall of 3600 between two side walls, 300 deep, with nothing in it."""
    usual = Wall(job="A", site=a_site(), extent=an_extent())
    return replace(usual, **changes)


def an_extent(**changes: Any) -> Extent:
    return replace(Extent(depth=tenths(300)), **changes)


def materials(**changes: Any) -> Materials:
    return replace(Materials(), **changes)


def framed(**changes: Any) -> Frame:
    return frame_wall(a_wall(**changes), a_price_book())
