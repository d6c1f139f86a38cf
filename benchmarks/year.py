"""What a rack saves over a year: seeded jobs, week by week, under four ways of keeping offcuts.

Run `python -m benchmarks.year --seeds 1,2,3 --weeks 50 --seconds T --out FILE.json`. Each week one
to three walls are planned with what lies on the rack, and what the keep rule keeps is racked. The
same jobs meet: no rack; everything from 150 (boards 100) kept, at no credit; the fixed rule, 600
and 300 at half the price of stock; the rule that follows from the rack's own history and the parts
of next week's jobs. Whatever has lain for half a year is thrown away, by all of them. What lies
there at the end counts by the price of stock and the share of the way's own pieces that were used.
Prices are invented. The file is written after each way, so that a run that is stopped has what it
found.
"""

from __future__ import annotations

import argparse
import json
import statistics
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import prod
from pathlib import Path
from random import Random
from typing import Any

from benchmarks.batches import KEEP, random_frames
from benchmarks.random_walls import price_book
from optimiser.domain.job import Job
from optimiser.domain.keeping import KeepTerms, OffcutLife
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.price_book import PriceBook
from optimiser.domain.rack import Rack
from optimiser.domain.request import CuttingRequest, Keep
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.planning.jobs import job_of_frame, request_for_jobs
from optimiser.planning.keeping import keep_advice, with_advice
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths

WEEK = 7
HALF_A_YEAR = 26 * WEEK
# A minute or two of a fitter's time to mark a piece and put it up (common practice, no source).
TERMS = KeepTerms(usual=KEEP, handling=Pence(40), horizon=13 * WEEK)
NOTHING = Keep(length=Tenths(10**6), width=Tenths(10**6), height=Tenths(10**6), credit=Fraction(0))
EVERYTHING = Keep(
    length=Tenths(1_500), width=Tenths(1_000), height=Tenths(1_000), credit=Fraction(0)
)

Ruling = Callable[["Yard", CuttingRequest, "tuple[Job, ...]"], CuttingRequest]


@dataclass
class Yard:
    """A rack, all that ever lay on it, and the sums of a year. `today` counts days."""

    today: int = 0
    pieces: dict[str, OffcutLife] = field(default_factory=dict)
    past: list[OffcutLife] = field(default_factory=list)
    made: int = 0
    bought: int = 0
    scrap: int = 0
    scrap_area: int = 0
    thrown: int = 0
    used: int = 0
    counts: list[int] = field(default_factory=list)

    def rack(self) -> Rack:
        """Return what lies there, lengths and boards."""
        lengths, sheets = [], []
        for label, life in self.pieces.items():
            if len(life.size) == 1:
                lengths.append((life.material, LengthOffcut(id=label, length=life.size[0])))
            else:
                width, height = life.size
                sheets.append((life.material, SheetOffcut(id=label, width=width, height=height)))
        return Rack(lengths=tuple(lengths), sheets=tuple(sheets))

    def clear(self) -> None:
        """Throw away what has lain too long."""
        for label, life in list(self.pieces.items()):
            if self.today - life.racked >= HALF_A_YEAR:
                self.past.append(replace(self.pieces.pop(label), ended=self.today))
                self.thrown += 1

    def cut(self, plan: CuttingPlan) -> None:
        """Take what the plan uses off the rack and put up what it keeps."""
        self.bought += plan.money.purchase
        for item in plan.materials:
            for layout in item.layouts:
                if layout.offcut:
                    life = replace(self.pieces.pop(layout.stock), ended=self.today, used=True)
                    self.past.append(life)
                    self.used += 1
        for lengths in plan.lengths:
            self.scrap += lengths.usage.scrap
            for piece in lengths.layouts:
                for left in piece.offcuts * piece.count:
                    self._put_up(lengths.material, (left.length,))
        for sheets in plan.sheets:
            self.scrap_area += sheets.usage.scrap
            for sheet in sheets.layouts:
                for over in sheet.offcuts * sheet.count:
                    self._put_up(sheets.material, (over.width, over.height))
        self.counts.append(len(self.pieces))

    def _put_up(self, material: str, size: tuple[Tenths] | tuple[Tenths, Tenths]) -> None:
        self.made += 1
        self.pieces[f"R{self.made}"] = OffcutLife(material=material, size=size, racked=self.today)


def main() -> None:
    """Play the year of each seed under each way and print what it bought, racked and threw away."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", default="1", help="numbers between commas")
    parser.add_argument("--weeks", type=int, default=50)
    parser.add_argument("--seconds", type=float, default=0.5)
    parser.add_argument("--out", type=Path, required=True)
    arguments = parser.parse_args()
    try:
        seeds = [int(text) for text in arguments.seeds.split(",")]
    except ValueError:
        parser.error(f"--seeds: {arguments.seeds!r} is no list of numbers: give them as 1,2,3")
    if arguments.weeks < 1:
        parser.error(f"--weeks: {arguments.weeks} is no number of weeks: give 1 or more")
    book = _priced_by_area(price_book())
    rows: list[dict[str, Any]] = []
    for seed in seeds:
        luck = Random(seed)
        # Framed once: every way meets the same jobs.
        weeks = [_week(luck, number, book) for number in range(arguments.weeks)]
        for name, ruling in RULINGS.items():
            yard = _played(weeks, book, ruling, arguments.seconds, racked=name != "no rack")
            rows.append(_row(name, yard, book) | {"seed": seed, "weeks": arguments.weeks})
            print(json.dumps(rows[-1]), flush=True)
            document = {"rows": rows, "mean": _means(rows)}
            arguments.out.write_text(json.dumps(document, indent=1) + "\n", encoding="utf-8")
    print(table(_means(rows)))


def _means(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return for each way the means over the seeds that it was played with."""
    ways = dict.fromkeys(row["way"] for row in rows)
    means = []
    for way in ways:
        own = [row for row in rows if row["way"] == way]
        figures = {
            key: round(statistics.mean(row[key] for row in own), 1)
            for key in rows[0]
            if key not in {"way", "seed", "weeks"}
        }
        means.append({"way": way, "seeds": len(own), **figures})
    return means


def table(means: list[dict[str, Any]]) -> str:
    """Return the means as a Markdown table; money in pounds, against having no rack."""
    base = next((one["net"] for one in means if one["way"] == "no rack"), None)
    lines = [
        "| way | stock bought | handling | rack at the end | in all | saved | pieces racked | used "
        "| mean rack | most | scrap of lengths, m | of boards, m² |",
        "|" + " --- |" + " ---: |" * 11,
    ]
    for one in means:
        saved = "" if base is None else f"{100 * (1 - one['net'] / base):.1f} %"
        money = (one[key] / 100 for key in ("bought", "handling", "end_value", "net"))
        lines.append(
            f"| {one['way']} | {' | '.join(f'{sum_:.2f}' for sum_ in money)} | {saved} | "
            f"{one['racked']:.0f} | {one['used']:.0f} | {one['mean_rack']} | "
            f"{one['most_rack']:.0f} | {one['scrap_m']} | {one['scrap_m2']} |"
        )
    return "\n".join(lines)


def _by_history(yard: Yard, request: CuttingRequest, coming: tuple[Job, ...]) -> CuttingRequest:
    parts = [job.parts for job in coming]
    lives = [*yard.past, *yard.pieces.values()]
    return with_advice(
        request, keep_advice(request.materials, lives, parts, TERMS, today=yard.today)
    )


RULINGS: dict[str, Ruling] = {
    "no rack": lambda _, request, __: replace(request, keep=NOTHING),
    "everything": lambda _, request, __: replace(request, keep=EVERYTHING),
    "fixed credit": lambda _, request, __: replace(request, keep=KEEP),
    "by history": _by_history,
}


def _played(
    weeks: list[tuple[Job, ...]], book: PriceBook, ruling: Ruling, seconds: float, *, racked: bool
) -> Yard:
    yard = Yard()
    for number, jobs in enumerate(weeks):
        yard.today = number * WEEK
        yard.clear()
        rack = yard.rack() if racked else Rack()
        request = request_for_jobs(jobs, book, rack, keep=KEEP, seed=number, seconds=seconds)
        coming = weeks[number + 1] if number + 1 < len(weeks) else ()
        yard.cut(plan_cutting(ruling(yard, request, coming)))
    return yard


def _week(luck: Random, number: int, book: PriceBook) -> tuple[Job, ...]:
    frames = random_frames(luck, luck.choice((1, 1, 2, 3)), book)
    return tuple(
        replace(job_of_frame(replace(frame, alternatives=())), name=f"W{number}/{frame.job}")
        for frame in frames
    )


def _priced_by_area(book: PriceBook) -> PriceBook:
    """Return the book with sheets at 3.40 a square metre, so that no size is a gift."""
    return replace(
        book,
        sheets=tuple(
            replace(
                item,
                stock=tuple(
                    replace(size, price=Pence(round(size.width * size.height * 340 / 10**8)))
                    for size in item.stock
                ),
            )
            for item in book.sheets
        ),
    )


def _row(name: str, yard: Yard, book: PriceBook) -> dict[str, Any]:
    handled = TERMS.handling * yard.made
    value = _value(yard, book)
    return {
        "way": name,
        "bought": yard.bought,
        "handling": handled,
        "end_value": value,
        "net": yard.bought + handled - value,
        "racked": yard.made,
        "used": yard.used,
        "thrown": yard.thrown,
        "left": len(yard.pieces),
        "mean_rack": round(sum(yard.counts) / max(1, len(yard.counts)), 1),
        "most_rack": max(yard.counts, default=0),
        "scrap_m": round(yard.scrap / 10_000, 1),
        "scrap_m2": round(yard.scrap_area / 10**8, 1),
    }


def _value(yard: Yard, book: PriceBook) -> int:
    """Return what the pieces left are worth in pence: stock's price, by the chance of a use.

    The chance is the share of this way's own pieces that were used, of those whose end is known;
    none was used where none ended.
    """
    ended = len(yard.past)
    chance = Fraction(sum(life.used for life in yard.past), ended) if ended else Fraction(0)
    rates = {
        item.material: min(Fraction(one.price, one.length) for one in item.stock)
        for item in book.lengths
    }
    rates |= {
        item.material: min(Fraction(one.price, one.width * one.height) for one in item.stock)
        for item in book.sheets
    }
    return int(
        chance * sum(rates[life.material] * prod(life.size) for life in yard.pieces.values())
    )


if __name__ == "__main__":
    main()
