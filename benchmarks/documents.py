"""How long documents take and how large they are: a plan of so many different sheet layouts.

Run `python -m benchmarks.documents --sheets 100 --out FILE.json`. The parts are seeded and no two
alike, so that every sheet is a layout of its own; planning is not counted. Seconds are those of the
clock and of the processor, each document made once after one small one that loads the libraries.
"""

from __future__ import annotations

import argparse
import json
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

import optimiser as lib
from optimiser import CuttingPlan, CuttingRequest

_SHEET = {"id": "mdf-12-sheet", "width_mm": 1220, "height_mm": 2440, "price": "24.00"}
# As many parts of these sizes fill a sheet, about.
_PARTS_PER_SHEET = 7


def a_plan(sheets: int, seed: int) -> tuple[CuttingRequest, CuttingPlan]:
    """Plan seeded parts until the plan has at least that many sheets, and keep so many layouts."""
    luck = Random(seed)
    parts = [
        {
            "id": f"{'ABCDE'[number % 5]}/P{number}",
            "job": "ABCDE"[number % 5],
            "width_mm": luck.randint(150, 900),
            "height_mm": luck.randint(200, 1400),
            "quantity": 1,
        }
        for number in range(_PARTS_PER_SHEET * sheets)
    ]
    board = {"material": "mdf-12", "kerf_mm": 3, "edge_trim_mm": 5, "stock": [_SHEET]}
    request = lib.request_from_document(
        {"seconds": 2.0, "sheets": [{**board, "cutting": "saw", "parts": parts}]}, name="benchmark"
    )
    return request, lib.plan_cutting(request)


def main() -> None:
    """Make every document of one plan and print a line for each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sheets", type=int, default=100)
    parser.add_argument("--seed", type=int, default=3)
    parser.add_argument("--out", type=Path)
    arguments = parser.parse_args()
    small = a_plan(1, arguments.seed)
    lib.booklet_pdf(*small, title="x")
    lib.layouts_dxf(*small)
    lib.plan_xlsx(*small)
    request, plan = a_plan(arguments.sheets, arguments.seed)
    sheet = lib.USUAL_SHEET
    made: dict[str, Callable[[], bytes]] = {
        "booklet.pdf": lambda: lib.booklet_pdf(request, plan, title="Booklet"),
        "booklet-a3.pdf": lambda: lib.booklet_pdf(
            request, plan, title="Booklet", paper=lib.Paper.A3
        ),
        "labels.pdf": lambda: lib.part_labels_pdf(request, plan, sheet, title="Labels"),
        "plan.xlsx": lambda: lib.plan_xlsx(request, plan),
        "layouts.dxf": lambda: lib.layouts_dxf(request, plan),
    }
    rows = []
    for name, make in made.items():
        began, worked = time.perf_counter(), time.process_time()
        content = make()
        rows.append(
            {
                "document": name,
                "sheets": len(plan.sheets[0].layouts),
                "seconds": round(time.perf_counter() - began, 2),
                "cpu_seconds": round(time.process_time() - worked, 2),
                "kilobytes": round(len(content) / 1000),
            }
        )
        print(json.dumps(rows[-1]))
    if arguments.out is not None:
        arguments.out.write_text("".join(f"{json.dumps(row)}\n" for row in rows), encoding="utf-8")


if __name__ == "__main__":
    main()
