"""Seeded walls of every shape, as fitters write them, slips included, and what they are built from.

Two thirds and more can be built; the rest do not fit and are to be refused with reasons.
"""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import Any

from optimiser.domain.price_book import LengthItem, PriceBook, SheetItem
from optimiser.domain.request import Cutting
from optimiser.domain.stock import NO_EDGE_TRIM, StockLength, StockSheet
from optimiser.domain.wall import Wall
from optimiser.formats.wall import wall_from_document
from optimiser.units import Pence, tenths


def _section(material: str, thickness: int, width: int, grade: str, sizes: Any) -> LengthItem:
    return LengthItem(
        material=material,
        description=material,
        thickness=tenths(thickness),
        width=tenths(width),
        grade=grade,
        mass=1_100,
        kerf=tenths(3),
        end_trim=tenths(0),
        stock=tuple(
            StockLength(id=f"{material}-{size}", length=tenths(size), price=Pence(size // 10))
            for size in sizes
        ),
    )


def _board(material: str, thickness: float, mass: int, cutting: Cutting, sizes: Any) -> SheetItem:
    return SheetItem(
        material=material,
        description=material,
        thickness=tenths(thickness),
        mass=mass,
        cutting=cutting,
        kerf=tenths(0 if cutting is Cutting.KNIFE else 3),
        edge_trim=NO_EDGE_TRIM,
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


def price_book() -> PriceBook:
    """Return the price book of the benchmark: sizes of the trade, invented prices."""
    sizes = (2_400, 3_000, 3_600, 4_800)
    return PriceBook(
        merchant="a merchant",
        currency="GBP",
        vat=2_000,
        lengths=(
            _section("c16-38x63", 38, 63, "C16", sizes),
            _section("c24-38x89", 38, 89, "C24", sizes),
            _section("corner-bead", 3, 25, "", (2_400, 3_000)),
            _section("stop-bead", 3, 20, "", (3_000,)),
        ),
        sheets=(
            _board("board-12.5", 12.5, 8_000, Cutting.KNIFE, ((1_200, 2_400), (1_200, 3_000))),
            _board("board-9.5", 9.5, 6_300, Cutting.KNIFE, ((900, 1_800), (1_200, 2_400))),
            _board("mdf-12", 12, 8_640, Cutting.SAW, ((1_220, 2_440),)),
            replace(
                _board("silicate-12", 12, 10_800, Cutting.SAW, ((1_220, 2_440),)),
                reaction_to_fire="A1",
            ),
        ),
        packs=(),
    )


SHAPES = (
    "plain",
    "plain",
    "plain",
    "centre deeper",
    "sides deeper",
    "alcoves",
    "before a breast",
    "short of the ceiling",
    "upper part built out",
    "ledge",
    "low between piers",
)


def random_document(luck: Random) -> dict[str, Any]:
    """Return one wall as a fitter would write it, a plausible one more often than not."""
    clear = luck.randrange(2_400, 5_001, 10)
    site = _site(luck, clear)
    depth = luck.randrange(240, 451, 5)
    left, right = luck.choice(
        (("abuts", "abuts"), ("free", "abuts"), ("abuts", "free"), ("free", "free"))
    )
    offset = 0 if left == "abuts" else luck.randrange(0, clear // 6)
    rest = 0 if right == "abuts" else luck.randrange(1, clear // 6)
    width = clear - offset - rest
    extent = {
        "depth_mm": depth,
        "left": left,
        "right": right,
        "offset_mm": offset,
        "width_mm": width,
    }
    document: dict[str, Any] = {"job": "J", "site": site, "wall": extent}
    shape = luck.choice(SHAPES)
    inner = _shape(luck, shape, document)
    ends = (left, right) if inner == width else ("abuts", "abuts")
    if luck.random() < 0.8 and shape != "alcoves":
        document["fire"] = _fire(luck, inner, *ends)
    hung = shape not in ("alcoves", "short of the ceiling", "low between piers")
    if luck.random() < 0.85 and hung:
        document["tv"] = _tv(luck, inner, over_fire="fire" in document)
        if "steps" in document and shape in ("upper part built out", "ledge"):
            step = document["steps"][0]
            document["tv"].pop("above_fire_mm", None)
            low = step.get("z_mm", 0) + step.get("height_mm", 0)
            high = document["tv"]["diagonal_in"] * 12.5
            document["tv"]["centre_height_mm"] = round(low + 140 + high / 2)
        elif luck.random() < 0.3:
            document["soundbar"] = {
                "width_mm": min(900, inner - 300),
                "height_mm": 70,
                "depth_mm": 110,
            }
    if shape == "plain":
        document["niches"] = _niches(luck, width)
    document["materials"] = {
        "timber": luck.choice(("c16-38x63", "c16-38x63", "c24-38x89")),
        "board": luck.choice(("board-12.5", "board-12.5", "board-9.5")),
        "layers": luck.choice((1, 1, 2)),
        "centres_mm": luck.choice((400, 400, 400, 450, 600)),
        "skim": luck.random() < 0.9,
    }
    return document


def _site(luck: Random, clear: int) -> dict[str, Any]:
    height = luck.randrange(2_300, 2_801)
    site: dict[str, Any] = {"clear_width_mm": clear}
    if luck.random() < 0.3:
        inner = sorted(luck.sample(range(100, clear - 100, 10), luck.randrange(1, 5)))
        site["levels"] = [
            {
                "x_mm": x,
                "floor_mm": luck.randint(-12, 12),
                "height_mm": height + luck.randint(-12, 12),
            }
            for x in (0, *inner, clear)
        ]
    else:
        site |= {
            "height_left_mm": height,
            "height_middle_mm": height + luck.randint(-15, 15),
            "height_right_mm": height + luck.randint(-15, 15),
            "floor_fall_mm": luck.randint(-15, 15),
        }
    if luck.random() < 0.3:
        site |= {"lean_left_mm": luck.randint(-15, 15), "lean_right_mm": luck.randint(-15, 15)}
    if luck.random() < 0.2:
        site["skirting_mm"] = luck.choice((15, 18, 22))
    if luck.random() < 0.3:
        site["accessories"] = [
            {"x_mm": luck.randrange(0, clear), "z_mm": luck.choice((300, 450, 1_050))}
            for _ in range(luck.randrange(1, 4))
        ]
    if luck.random() < 0.4:
        site["kind"] = "studs"
        first = luck.randrange(50, 400)
        site["stud_positions_mm"] = list(range(first, clear, luck.choice((400, 600))))
    return site


def _shape(luck: Random, shape: str, document: dict[str, Any]) -> int:
    """Give the wall its shape, and return how wide the part is that fire and TV lie in."""
    extent = document["wall"]
    width: int = extent["width_mm"]
    depth: int = extent["depth_mm"]
    side = luck.randrange(400, max(401, width // 4), 10)
    middle = {"name": "centre", "x_mm": side, "width_mm": width - 2 * side}
    more = luck.randrange(60, 300, 5)
    whole = shape in ("upper part built out", "ledge") and luck.random() < 0.5
    step = {"name": "centre", "x_mm": 0, "width_mm": width} if whole else middle
    if shape == "plain":
        return width
    if shape == "short of the ceiling":
        extent["height_mm"] = luck.randrange(1_000, 2_001, 10)
        return width
    if shape == "centre deeper":
        step |= {"depth_mm": depth + more}
    elif shape == "sides deeper":
        extent["depth_mm"] = depth + more
        step |= {"depth_mm": depth}
    elif shape in ("alcoves", "before a breast"):
        breast = luck.randrange(80, 350, 10)
        document["site"]["projections"] = [
            {"x_mm": extent["offset_mm"] + side, "width_mm": width - 2 * side, "depth_mm": breast}
        ]
        step |= {"depth_mm": breast + depth if shape == "before a breast" else 0}
    elif shape == "upper part built out":
        step |= {"z_mm": luck.randrange(900, 1_101, 10), "depth_mm": depth + more}
    elif shape == "ledge":
        step |= {"height_mm": luck.randrange(900, 1_101, 10), "depth_mm": depth + more}
    else:
        step |= {"z_mm": luck.randrange(900, 1_301, 10), "depth_mm": 0}
    document["steps"] = [step]
    return width if whole else width - 2 * side


def _fire(luck: Random, width: int, left: str, right: str) -> dict[str, Any]:
    body = luck.randrange(750, 1_801, 10)
    most = max(300, width - 300)
    glasses = ["front", "front"]
    if left == "free":
        glasses.append("left")
    if right == "free":
        glasses.append("right")
    if left == right == "free":
        glasses.append("both")
    glass = luck.choice(glasses)
    fire = {
        "body_width_mm": width if glass == "both" else min(body, most),
        "body_height_mm": luck.randrange(350, 601, 5),
        "body_depth_mm": luck.randrange(140, 231, 5),
        "base_height_mm": luck.randrange(140, 351, 10),
        "clearance_top_mm": luck.choice((0, 10, 25)),
        "clearance_side_mm": luck.choice((0, 5, 10)),
        "clearance_back_mm": luck.choice((0, 10, 25)),
        "glass": glass,
    }
    if luck.random() < 0.15:
        fire["lining"] = "silicate-12"
    return fire


def _tv(luck: Random, width: int, *, over_fire: bool) -> dict[str, Any]:
    fitting = [inches for inches in (43, 50, 55, 65, 75) if inches * 22.2 + 200 < width]
    tv: dict[str, Any] = {
        "diagonal_in": luck.choice(fitting or [43]),
        "depth_mm": luck.randrange(30, 80),
        "mass_kg": luck.randrange(10, 45),
        "recess_depth_mm": luck.randrange(80, 171, 5),
    }
    if luck.random() < 0.3 and over_fire:
        tv["above_fire_mm"] = luck.randrange(200, 400)
    return tv


def _niches(luck: Random, width: int) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = []
    if luck.random() < 0.4 and width > 2_800:
        wide = luck.randrange(200, 401)
        shape = {
            "z_mm": luck.randrange(400, 1_000),
            "width_mm": wide,
            "height_mm": luck.randrange(400, 1_200),
            "depth_mm": luck.randrange(100, 190),
            "shelves": luck.randrange(0, 4),
            "lit": luck.random() < 0.3,
        }
        for name, x in (("left niche", 120), ("right niche", width - 120 - wide)):
            found.append({"name": name, "x_mm": x, **shape})
    return found


def _more(luck: Random, document: dict[str, Any]) -> None:
    """Add to a wall what batches of walls do without: the kind of floor, sockets behind the TV, a
    hole smaller than the fire, glass round a part built out, niches beside such a part."""
    width: int = document["wall"]["width_mm"]
    step = document.get("steps", [{}])[0]
    if luck.random() < 0.6:
        document["site"]["floor"] = luck.choice(("timber", "solid"))
    if "fire" in document:
        _more_of_fire(luck, document["fire"], step)
    beside = step.get("x_mm", 0) > 0 and "z_mm" not in step and "height_mm" not in step
    if beside and document["wall"].get("depth_mm", 0) and luck.random() < 0.5:
        document["niches"] = _niches_beside(luck, step["x_mm"], width)
    if "tv" in document and luck.random() < 0.3:
        document["tv"]["sockets"] = _sockets(luck, document, width)


def _more_of_fire(luck: Random, fire: dict[str, Any], step: dict[str, Any]) -> None:
    wide: int = step.get("width_mm", 0)
    if step.get("x_mm") and step.get("depth_mm") and luck.random() < 0.5:
        # What stands before the parts beside it shows its ends.
        fire["glass"] = luck.choice(("left", "right", "both"))
        if fire["glass"] == "both":
            fire["body_width_mm"] = wide
    if fire["glass"] != "front" and luck.random() < 0.4:
        fire["return_depth_mm"] = fire["body_depth_mm"] - luck.randrange(0, 31, 5)
    if luck.random() < 0.4:
        # The hole in the facing board lies within the body, whose lip covers its edge.
        less = luck.randrange(5, 41, 5)
        fire["opening_height_mm"] = fire["body_height_mm"] - less
        if fire["glass"] != "both":
            fire["opening_width_mm"] = fire["body_width_mm"] - less


def _niches_beside(luck: Random, side: int, width: int) -> list[dict[str, Any]]:
    """Return a niche with shelves in each of the parts beside a centre, or none."""
    wide = side - luck.randrange(120, 261, 10)
    shape: dict[str, Any] = {
        "z_mm": luck.randrange(500, 1_000),
        "width_mm": wide,
        "height_mm": luck.randrange(400, 1_200),
        "depth_mm": luck.randrange(80, 140),
        "shelves": luck.randrange(0, 4),
        "lit": luck.random() < 0.3,
    }
    middle = (side - wide) // 2
    places = (("left niche", middle), ("right niche", width - side + middle))
    if wide < 150:
        return []
    return [{"name": name, "x_mm": x, **shape} for name, x in places]


def _sockets(luck: Random, document: dict[str, Any], width: int) -> list[dict[str, Any]]:
    """Return a socket beside the bracket, some of them behind it or before a strut."""
    tv, fire = document["tv"], document.get("fire")
    high = tv["diagonal_in"] * 12.5
    middle = 1_100.0
    if "centre_height_mm" in tv:
        middle = tv["centre_height_mm"]
    elif fire is not None:
        top = fire["base_height_mm"] + fire.get("opening_height_mm", fire["body_height_mm"])
        middle = top + tv.get("above_fire_mm", 300) + high / 2
    along = luck.choice((-1, 1)) * luck.randrange(250, 400, 10)
    return [
        {
            "x_mm": width // 2 + along,
            "z_mm": round(middle - luck.choice((-60, 80, 150, 260))),
            "width_mm": luck.choice((90, 150)),
            "height_mm": 90,
        }
    ]


def any_document(luck: Random) -> dict[str, Any]:
    """Return one wall of any shape and with anything in it."""
    document = random_document(luck)
    _more(luck, document)
    return document


def random_wall(luck: Random) -> Wall:
    """Return one wall of the benchmark."""
    return wall_from_document(any_document(luck), name="wall")
