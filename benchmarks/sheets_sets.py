"""What the sheets benchmark solves: published instances as files hold them, and batches made here.

Made batches come from seeds: 0.1 mm sizes, kerf, prices in pence, as a small firm would have them.
"""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import lcm
from pathlib import Path
from random import Random
from typing import Any

from optimiser.solvers.sheets.problem import Sheet, SheetsProblem

# Names of several sets at once.
GROUPS = {
    "furniture": ("furniture_a", "ma2000"),
    "repeated": ("cintra2008_gcsp", "silva2010"),
    "plates": ("mg1998", "yanasse1991", "brpb", "ss1976", "babu"),
}
# Left out: instances that ask for the most value on one sheet.
_SKIPPED = ("value", "demand_max")
VARIANTS = {"no": ("2BP|O|G",), "yes": ("2BP|R|G",), "both": ("2BP|O|G", "2BP|R|G")}
_LABELS = {"fixed": "2BP|O|G", "rotation": "2BP|R|G"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One problem to solve, with the best cost and bound known of it, if any."""

    set_: str
    name: str
    variant: str
    problem: SheetsProblem
    best_known: int | None = None


def cases(
    folder: Path | None, wanted: list[str], *, turn: str, stages: int | None, every: int
) -> Iterator[Case]:
    """Go over the sets asked for: made ones by their name here, published ones from files."""
    for name in wanted:
        if name in MADE:
            made = list(MADE[name]())
            for label, problem in made[::every]:
                variant = "2BP|R|G" if any(problem.turns) else "2BP|O|G"
                yield Case(
                    set_=name,
                    name=label,
                    variant=_staged(variant, stages),
                    problem=replace(problem, max_stages=stages),
                )
    if folder is not None:
        yield from _published(folder, wanted, turn=turn, stages=stages, every=every)


def _published(
    folder: Path, wanted: list[str], *, turn: str, stages: int | None, every: int
) -> Iterator[Case]:
    sets = {set_ for name in wanted for set_ in (name, *GROUPS.get(name, ()))}
    known = _best_known(folder)
    records = [
        record
        for path in sorted(folder.rglob("*.jsonl"))
        for record in map(json.loads, path.read_text(encoding="utf-8").splitlines())
        if record["set"] in sets and not any(k in i for i in record["items"] for k in _SKIPPED)
    ]
    for record in records[::every]:
        for variant in VARIANTS[turn]:
            problem = replace(read(record, turn="R" in variant), max_stages=stages)
            yield Case(
                set_=record["set"],
                name=record["name"],
                variant=_staged(variant, stages),
                problem=problem,
                best_known=known.get((record["name"], variant)) if stages is None else None,
            )


def _staged(variant: str, stages: int | None) -> str:
    return variant if stages is None else f"{variant}{stages}"


def _best_known(folder: Path) -> dict[tuple[str, str], int]:
    """Read the best costs known of guillotine plans."""
    path = folder / "best_known.csv"
    if not path.exists():
        return {}
    best = {}
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            variant = row["variant"]
            if variant.startswith("guillotine stock"):
                variant = next((v for word, v in _LABELS.items() if word in variant), variant)
            if variant in VARIANTS["both"] and row["best_known"].isdigit():
                best[row["instance"], variant] = int(row["best_known"])
    return best


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
    """Make batches of walls: knife-cut boards and sawn boards, 30 to 3,000 parts."""
    for parts in (30, 60, 100, 300, 600, 3000):
        for seed in (1, 2):
            yield f"boards-{parts}-{seed}", boards(parts, seed)
            yield f"sawn-{parts}-{seed}", sawn(parts, seed)


def growth() -> Iterator[tuple[str, SheetsProblem]]:
    """Make batches of boards from 10 parts to 10,000."""
    for parts in (10, 30, 100, 300, 1000, 3000, 10_000):
        yield f"boards-{parts}", boards(parts, 1)


def one_size() -> Iterator[tuple[str, SheetsProblem]]:
    """Make orders of 10 to 60 sizes, each up to 20 times, from one size of sheet."""
    for name, sizes, turn in _orders():
        problem = _batch(sizes, 30, ((24_400, 12_200, 1),))
        yield name, replace(problem, turns=(turn,) * len(sizes), demands=_demands(name, sizes))


def two_sizes() -> Iterator[tuple[str, SheetsProblem]]:
    """Make the same orders for two sizes of sheet with prices."""
    for name, sizes, turn in _orders():
        problem = _batch(sizes, 30, ((24_400, 12_200, 3_150), (30_500, 12_200, 4_080)))
        yield name, replace(problem, turns=(turn,) * len(sizes), demands=_demands(name, sizes))


def _orders() -> Iterator[tuple[str, list[tuple[int, int]], bool]]:
    for types in (10, 20, 30, 60):
        for seed in range(3):
            rng = Random(f"{types}/{seed}")
            sizes = [
                (10 * rng.randint(150, 1100), 10 * rng.randint(100, 700)) for _ in range(types)
            ]
            for turn in (False, True):
                yield f"{types}-sizes-{seed}-{'turned' if turn else 'as-given'}", sizes, turn


def _demands(name: str, sizes: list[tuple[int, int]]) -> tuple[int, ...]:
    rng = Random(name.rpartition("-")[0])
    return tuple(rng.randint(1, 20) for _ in sizes)


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


MADE = {
    "batches": batches,
    "growth": growth,
    "one_size": one_size,
    "two_sizes": two_sizes,
}
