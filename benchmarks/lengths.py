"""How good and how fast lengths are cut, on published and generated lists.

Run: python -m benchmarks.lengths --instances DIR [--sets A B …] --seconds S --out FILE.json
One JSON line an instance: set, instance, cost, bound, proven, seconds, peak_mb (of the process,
so far). Formats: one stock length: types, length, then "length demand" lines; folders multi_*:
stock types, "length availability price" lines, types, "length demand" lines; generated_leftover:
first "kerf trim trim keep", then stock and parts as before, parts with a job's number. Availability
of 100000 and more counts as unlimited. `--growth` measures seeded batches of rising size instead.
"""

from __future__ import annotations

import argparse
import gc
import json
import resource
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from random import Random
from time import perf_counter

from optimiser.solvers.lengths.problem import LengthsProblem, Stock
from optimiser.solvers.lengths.solve import solve, warm
from optimiser.solvers.protocol import Budget

UNLIMITED = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Instance:
    """One list to cut and where it comes from."""

    set_name: str
    name: str
    problem: LengthsProblem


def main() -> None:
    """Read the arguments, run the instances, write one line each."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--instances", type=Path)
    parser.add_argument("--sets", nargs="*", default=[])
    parser.add_argument("--every", type=int, default=1, help="take each n-th instance of a set")
    parser.add_argument("--growth", action="store_true")
    parser.add_argument("--seconds", type=float, default=5.0)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    warm()
    instances = growth() if options.growth else read(options.instances, options.sets, options.every)
    with options.out.open("w", encoding="utf-8") as out:
        for instance in instances:
            line = json.dumps(measure(instance, options.seconds, options.seed))
            print(line, file=out, flush=True)


def measure(instance: Instance, seconds: float, seed: int) -> dict[str, str | int | float | bool]:
    """Solve once and return the figures of one line."""
    gc.collect()
    first: list[float] = []
    started = perf_counter()
    outcome = solve(
        instance.problem,
        budget=Budget.of(seconds),
        seed=seed,
        progress=lambda _cost, _bound: first.append(perf_counter() - started),
    )
    return {
        "set": instance.set_name,
        "instance": instance.name,
        "cost": outcome.cost,
        "bound": outcome.bound,
        "proven": outcome.status.value in ("optimal", "impossible"),
        "status": outcome.status.value,
        "method": outcome.method,
        "first_seconds": round(first[0], 4) if first else -1.0,
        "best_seconds": round(first[-1], 4) if first else -1.0,
        "seconds": round(perf_counter() - started, 4),
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }


def read(folder: Path, sets: list[str], every: int) -> Iterator[Instance]:
    """Yield the instances of the named sets, or of all."""
    names = sets or sorted(path.name for path in folder.iterdir() if path.is_dir())
    for name in names:
        for path in sorted((folder / name).glob("*.txt"))[::every]:
            numbers = [int(number) for number in path.read_text(encoding="utf-8").split()]
            yield Instance(set_name=name, name=path.stem, problem=_problem(name, numbers))


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


if __name__ == "__main__":
    main()
