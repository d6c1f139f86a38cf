"""How many walls frame, how fast, and what stops the rest: seeded walls of every shape.

Run `python -m benchmarks.walls --count N --seed S --out FILE.json`. Walls are those that fitters
write, slips included: some do not fit and must be refused with reasons, never crash. Each wall is
framed in all its ways and each way is inspected, all within the time measured; outside it, of every
fifth wall a mixture of ways is inspected, such as a cutting plan may choose. `median_cpu_ms` and
`max_cpu_ms` are free of what else the machine does; `slowest` is the number of the latter's wall;
`peak_mb` is the most memory that the process held, interpreter and libraries included.
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import sys
import time
from collections import Counter
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

from optimiser.domain.fault import Fault
from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.domain.price_book import LengthItem, PriceBook, SheetItem
from optimiser.domain.request import Cutting
from optimiser.domain.stock import NO_EDGE_TRIM, StockLength, StockSheet
from optimiser.domain.wall import Wall
from optimiser.errors import InvalidInput
from optimiser.formats.wall import wall_from_document
from optimiser.framing.build import frame_wall
from optimiser.framing.ways import frame_of
from optimiser.inspection.inspect import inspect_frame
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


# A mixture of ways is inspected for every so many walls.
MIXED = 5


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


def random_wall(luck: Random) -> Wall:
    """Return one wall of the benchmark."""
    return wall_from_document(random_document(luck), name="wall")


def _mixed(frame: Frame, luck: Random) -> Frame:
    """Return the wall with any way of each of its choices."""
    return frame_of(frame, frame.choices, [luck.randrange(len(c.ways)) for c in frame.choices])


def measure(count: int, seed: int) -> dict[str, Any]:
    """Frame `count` walls and return the row that the command writes."""
    luck, mixing = Random(seed), Random(seed)
    book = price_book()
    spent: list[float] = []
    worked: list[float] = []
    stops: Counter[str] = Counter()
    framed = stopped = crashed = failed = 0
    for number in range(count):
        wall = random_wall(luck)
        start, begun = time.perf_counter(), time.process_time()
        frame: Frame | None = None
        stop: set[str] = set()
        faults: tuple[Fault, ...] = ()
        try:
            frame = frame_wall(wall, book)
            stop = {f.rule for f in frame.findings if f.severity is Severity.STOP}
            faults = () if stop else inspect_frame(frame, wall)
        except InvalidInput as refused:
            stopped += 1
            stops.update({problem.field for problem in refused.problems})
        except Exception as fault:
            crashed += 1
            print(f"wall {number} crashed: {fault!r}", file=sys.stderr)
        spent.append((time.perf_counter() - start) * 1_000)
        worked.append((time.process_time() - begun) * 1_000)
        if frame is None:
            continue
        stops.update(stop)
        stopped += bool(stop)
        framed += not stop
        if not stop and not faults and number % MIXED == 0:
            faults = inspect_frame(_mixed(frame, mixing), wall)
        failed += bool(faults)
        for found in faults[:3]:
            print(f"wall {number}: {found}", file=sys.stderr)
    return {
        "count": count,
        "framed": framed,
        "stopped": stopped,
        "crashed": crashed,
        "failed_verification": failed,
        "median_ms": round(statistics.median(spent), 3),
        "max_ms": round(max(spent), 3),
        "median_cpu_ms": round(statistics.median(worked), 3),
        "max_cpu_ms": round(max(worked), 3),
        "slowest": worked.index(max(worked)),
        "peak_mb": round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1_024, 1),
        "stop_rules": dict(stops.most_common()),
    }


def main() -> None:
    """Read the command line, measure, write the row."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=1_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    chosen = parser.parse_args()
    row = measure(chosen.count, chosen.seed)
    text = json.dumps(row, indent=2)
    print(text)
    if chosen.out is not None:
        chosen.out.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
