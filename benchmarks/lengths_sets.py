"""Lists to cut: published sets from their files, and seeded batches of our own.

Formats. One stock length: types, length, then "length demand" lines. Folders multi_*: stock types,
"length availability price" lines, types, "length demand" lines. generated_leftover: first "kerf
trim trim keep", then stock and parts as before, parts with a job's number. Availability of 100000
and more counts as unlimited. best_known.csv beside the folders: set, instance, best_known.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from random import Random

from optimiser.solvers.lengths.problem import LengthsProblem, Stock

UNLIMITED = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Instance:
    """One list to cut, where it comes from, and the best cost known: "infeasible" where none."""

    set_name: str
    name: str
    problem: LengthsProblem
    best_known: str = ""


def read(folder: Path, sets: list[str], every: int) -> Iterator[Instance]:
    """Yield the instances of the named sets, or of all."""
    known = _best_known(folder / "best_known.csv")
    names = sets or sorted(path.name for path in folder.iterdir() if path.is_dir())
    for name in names:
        for path in sorted((folder / name).glob("*.txt"))[::every]:
            numbers = [int(number) for number in path.read_text(encoding="utf-8").split()]
            yield Instance(
                set_name=name,
                name=path.stem,
                problem=_problem(name, numbers),
                best_known=known.get((name, path.stem), ""),
            )


def _best_known(path: Path) -> dict[tuple[str, str], str]:
    if not path.exists():
        return {}
    with path.open(encoding="utf-8", newline="") as rows:
        return {(r["set"], r["instance"]): r["best_known"] for r in csv.DictReader(rows)}


def _problem(set_name: str, numbers: list[int]) -> LengthsProblem:
    """Read one file's numbers; see the module's docstring for the formats."""
    if set_name == "generated_leftover":
        kerf, trim_one, trim_other, _ = numbers[:4]
        return _several(numbers[4:], width=3, kerf=kerf, trims=trim_one + trim_other)
    if set_name.startswith("multi_"):
        return _several(numbers, width=2, kerf=0, trims=0)
    types, length = numbers[:2]
    return _build(numbers[2 : 2 + 2 * types], 2, 0, (Stock(usable=length, cost=1, available=None),))


def _several(numbers: list[int], *, width: int, kerf: int, trims: int) -> LengthsProblem:
    kinds = numbers[0]
    rows = [numbers[1 + 3 * k : 4 + 3 * k] for k in range(kinds)]
    stocks = tuple(
        Stock(usable=length - trims, cost=price, available=None if count >= UNLIMITED else count)
        for length, count, price in rows
    )
    return _build(numbers[2 + 3 * kinds :], width, kerf, stocks)


def _build(parts: list[int], width: int, kerf: int, stocks: tuple[Stock, ...]) -> LengthsProblem:
    return LengthsProblem(
        sizes=tuple(parts[0::width]),
        demands=tuple(parts[1::width]),
        kerf=kerf,
        stocks=stocks,
        keep=0,
        credit=Fraction(0),
    )


def growth() -> Iterator[Instance]:
    """Yield seeded batches of feature walls: 1 to 50 jobs, a dozen offcuts, credit one half."""
    for jobs in (1, 3, 10, 25, 50):
        for seed in range(3):
            yield Instance(set_name="growth", name=f"jobs{jobs}_{seed}", problem=batch(jobs, seed))


def many_parts() -> Iterator[Instance]:
    """Yield lists that grow in parts at 50 lengths, and in lengths at 10,000 parts; and two large.

    No offcuts and no credit; four stock lengths, prices nearly in proportion.
    """
    for parts in (100, 1_000, 10_000, 100_000):
        yield Instance(set_name="parts", name=f"{parts} of 50", problem=_plain(parts, 50))
    for lengths in (10, 30, 100, 300, 1_000, 3_000):
        name = f"10000 of {lengths}"
        yield Instance(set_name="different lengths", name=name, problem=_plain(10_000, lengths))
    yield Instance(set_name="large", name="60000 of 2000", problem=_plain(60_000, 2_000))
    yield Instance(set_name="large", name="100000 of 100", problem=_plain(100_000, 100))


def _plain(parts: int, lengths: int) -> LengthsProblem:
    rng = Random(parts * 10_007 + lengths)
    sizes = rng.sample(range(2_500, 24_000), lengths)
    demands = [1] * lengths
    for _ in range(parts - lengths):
        demands[rng.randrange(lengths)] += 1
    prices = {2_400: 360, 3_000: 455, 3_600: 550, 4_800: 725}
    return LengthsProblem(
        sizes=tuple(sizes),
        demands=tuple(demands),
        kerf=30,
        stocks=tuple(Stock(usable=10 * mm - 200, cost=pence) for mm, pence in prices.items()),
        keep=6_000,
        credit=Fraction(0),
    )


def batch(jobs: int, seed: int) -> LengthsProblem:
    """Draw a batch in tenths of a millimetre: uprights, plates, noggings and short members."""
    rng = Random(seed)
    parts: dict[int, int] = {}
    for _ in range(jobs):
        height = 23_000 + rng.randrange(2_000)
        width = rng.randrange(24_000, 36_000)
        drawn = [(height + rng.randrange(-100, 100), rng.randrange(2, 5)) for _ in range(3)]
        drawn += [(width // 2, 2), (width - width // 2, 2)]
        drawn += [(rng.randrange(2_500, 16_000), rng.randint(1, 6)) for _ in range(10)]
        drawn += [(size, rng.randrange(2, 6)) for size in (5_620, 3_620)]
        for size, demand in drawn:
            parts[size] = parts.get(size, 0) + demand
    # Illustrative prices, pence a length; nearly but not quite in proportion.
    prices = {2_400: 360, 3_000: 455, 3_600: 550, 4_800: 725}
    credit = Fraction(360, 24_000) / 2
    stocks = [Stock(usable=10 * mm - 200, cost=pence) for mm, pence in prices.items()]
    for _ in range(12):
        length = rng.randrange(6_000, 20_000)
        cost = int(length * credit) + 1
        stocks.append(Stock(usable=length - 200, cost=cost, available=1))
    return LengthsProblem(
        sizes=tuple(parts),
        demands=tuple(parts.values()),
        kerf=30,
        stocks=tuple(stocks),
        keep=6_000,
        credit=credit,
    )
