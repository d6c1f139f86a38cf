"""Sheets: cost, bound and time on published instances and on batches like a small firm's.

    python -m benchmarks.sheets --instances DIR --sets bwmv,furniture_a --seconds 2 --out FILE
    python -m benchmarks.sheets --sets batches --seconds 5 --out FILE

DIR holds JSON lines: `{"set", "name", "sheets": [{"w", "h", "stock", "cost"}], "items": [{"w", "h",
"demand"}]}`. One JSON line is written per instance and variant: set, instance, variant (2BP|O|G:
as given, 2BP|R|G: turned at will), cost, bound, proven, seconds, peak_mb. With one sheet size the
cost is the number of sheets. The set `batches` is made here, from seeds: 0.1 mm sizes, kerf, prices
in pence, two sizes of sheet.
"""

from __future__ import annotations

import argparse
import json
import resource
from collections.abc import Iterator
from fractions import Fraction
from math import lcm
from pathlib import Path
from random import Random
from typing import Any

from optimiser.solvers.protocol import Budget, Status
from optimiser.solvers.sheets.problem import Sheet, SheetsProblem
from optimiser.solvers.sheets.solve import solve, warm

_SKIPPED = ("value", "demand_max")
_VARIANTS = {"no": ("2BP|O|G",), "yes": ("2BP|R|G",), "both": ("2BP|O|G", "2BP|R|G")}


def main() -> None:
    """Run the instances asked for, one after another."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--instances", type=Path)
    parser.add_argument("--sets", default="bwmv")
    parser.add_argument("--every", type=int, default=1, help="take every n-th instance only")
    parser.add_argument("--seconds", type=float, default=2.0)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--turn", choices=tuple(_VARIANTS), default="both")
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    warm()
    wanted = options.sets.split(",")
    with options.out.open("w", encoding="utf-8") as out:
        for set_, name, variant, problem in _problems(options, wanted):
            outcome = solve(problem, budget=Budget.of(options.seconds), seed=options.seed)
            line = {
                "set": set_,
                "instance": name,
                "variant": variant,
                "cost": outcome.cost,
                "bound": outcome.bound,
                "proven": outcome.status is Status.OPTIMAL,
                "seconds": round(outcome.seconds, 3),
                "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
            }
            out.write(json.dumps(line) + "\n")
            out.flush()
            print(line)


def _problems(
    options: argparse.Namespace, wanted: list[str]
) -> Iterator[tuple[str, str, str, SheetsProblem]]:
    if "batches" in wanted:
        for name, batch in batches():
            yield "batches", name, "2BP|R|G", batch
    if options.instances is None:
        return
    records = [
        record
        for path in sorted(options.instances.rglob("*.jsonl"))
        for record in map(json.loads, path.read_text(encoding="utf-8").splitlines())
        if record["set"] in wanted and not any(k in i for i in record["items"] for k in _SKIPPED)
    ]
    for record in records[:: options.every]:
        for variant in _VARIANTS[options.turn]:
            yield record["set"], record["name"], variant, read(record, turn="R" in variant)


def read(record: dict[str, Any], *, turn: bool) -> SheetsProblem:
    """Read one instance; fractions of a unit are scaled to whole ones.

    Any: the values are whatever the JSON line holds.
    """
    items, sheets = record["items"], record["sheets"]
    sizes = [Fraction(str(entry[side])) for entry in items + sheets for side in ("w", "h")]
    scale = lcm(*(size.denominator for size in sizes))
    return SheetsProblem(
        widths=tuple(int(Fraction(str(item["w"])) * scale) for item in items),
        heights=tuple(int(Fraction(str(item["h"])) * scale) for item in items),
        demands=tuple(int(item["demand"]) for item in items),
        turns=(turn,) * len(items),
        kerf=0,
        sheets=tuple(
            Sheet(
                width=int(Fraction(str(sheet["w"])) * scale),
                height=int(Fraction(str(sheet["h"])) * scale),
                cost=int(sheet["cost"]) if len(sheets) > 1 else 1,
                available=sheet["stock"],
            )
            for sheet in sheets
        ),
        max_stages=None,
        keep=(1, 1),
        credit=Fraction(0),
    )


def batches() -> Iterator[tuple[str, SheetsProblem]]:
    """Make batches of walls: knife-cut boards and sawn boards, 60 to 3,000 parts."""
    for parts in (60, 100, 300, 600, 3000):
        for seed in (1, 2):
            yield f"boards-{parts}-{seed}", boards(parts, seed)
            yield f"sawn-{parts}-{seed}", sawn(parts, seed)


def boards(parts: int, seed: int) -> SheetsProblem:
    """Wall boards cut with a knife: tall fields, reveals and linings; two sheet sizes."""
    rng = Random(seed)
    sizes = []
    for _ in range(parts):
        tall = rng.choice((23_000, 23_400, 24_000, 20_500)) - 5 * rng.randrange(60)
        sizes.append(
            rng.choice(
                (
                    (12_000 - 10 * rng.randrange(400), min(tall, 24_000)),
                    (3_000 + 10 * rng.randrange(300), min(tall, 24_000)),
                    (1_000 + 10 * rng.randrange(250), 6_000 + 10 * rng.randrange(900)),
                    (4_000 + 10 * rng.randrange(600), 5_000 + 10 * rng.randrange(700)),
                )
            )
        )
    return _batch(sizes, 0, ((12_000, 24_000, 1_150), (12_000, 30_000, 1_520)))


def sawn(parts: int, seed: int) -> SheetsProblem:
    """Sawn boards: backboards, shelves, niche sides; one sheet size and three rack offcuts."""
    rng = Random(seed)
    sizes = [
        rng.choice(
            (
                (9_000 + 10 * rng.randrange(900), 6_000 + 10 * rng.randrange(400)),
                (3_000 + 10 * rng.randrange(600), 1_500 + 10 * rng.randrange(200)),
                (6_000 + 10 * rng.randrange(600), 2_000 + 10 * rng.randrange(300)),
            )
        )
        for _ in range(parts)
    ]
    offcuts = ((12_000, 8_000, 190), (6_100, 9_000, 110), (12_200, 4_000, 95))
    return _batch(sizes, 30, ((12_200, 24_400, 2_400),), offcuts)


def _batch(
    sizes: list[tuple[int, int]],
    kerf: int,
    stock: tuple[tuple[int, int, int], ...],
    offcuts: tuple[tuple[int, int, int], ...] = (),
) -> SheetsProblem:
    sheets = [Sheet(width=w, height=h, cost=cost) for w, h, cost in stock]
    sheets += [Sheet(width=w, height=h, cost=cost, available=1) for w, h, cost in offcuts]
    return SheetsProblem(
        widths=tuple(width for width, _ in sizes),
        heights=tuple(height for _, height in sizes),
        demands=(1,) * len(sizes),
        turns=(True,) * len(sizes),
        kerf=kerf,
        sheets=tuple(sheets),
        max_stages=None,
        keep=(3_000, 3_000),
        credit=Fraction(0),
    )


if __name__ == "__main__":
    main()
