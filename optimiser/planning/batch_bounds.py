"""What a batch of jobs costs at least, before it is planned: weights from one plan of all jobs.

A solver that plans all jobs together proves its bound by weighing parts; no stock piece yields more
than so much weight. That holds for any of the jobs by themselves, so a batch's own weight says how
much stock it takes at least: the ratio of price and weight that is least, and whole pieces where
only one stock is sold.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from optimiser.domain.request import LengthMaterial, SheetMaterial
from optimiser.planning.until import Trial
from optimiser.units import ceiling
from optimiser.verify.weighing import FillTable


@dataclass(frozen=True, slots=True)
class Reason:
    """What each job weighs, and by stock its price and the most weight that it yields."""

    jobs: Counter[str]
    stock: tuple[tuple[int, int], ...]

    def least(self, jobs: Iterable[str]) -> int:
        """Return the least money for stock that yields the weight of these jobs, in pence."""
        weight = sum(self.jobs[job] for job in jobs)
        useful = [(price, most) for price, most in self.stock if most > 0]
        if weight == 0 or not useful:
            return 0
        if len(useful) == 1:
            price, most = useful[0]
            return price * -(-weight // most)
        return ceiling(min(Fraction(price * weight, most) for price, most in useful))


def reasons_of(material: LengthMaterial | SheetMaterial, trial: Trial | None) -> tuple[Reason, ...]:
    """Return the reasons of one material, from a plan of all jobs; plain size is always one."""
    if isinstance(material, LengthMaterial):
        by_size = (tuple(part.length + material.kerf for part in material.parts), 1)
        rows = [by_size, *(trial.length_rows if trial is not None else ())]
        return tuple(_length_reason(material, weights) for weights, _ in rows)
    sizes = sorted({size for part in material.parts for size in (part.width, part.height)})
    by_area = tuple((int(size), size + material.kerf) for size in sizes)
    tables = [(by_area, by_area), *(trial.sheet_rows if trial is not None else ())]
    return tuple(_sheet_reason(material, dict(a), dict(b)) for a, b in tables)


def _length_reason(material: LengthMaterial, weights: tuple[int, ...]) -> Reason:
    jobs: Counter[str] = Counter()
    items = []
    for part, weight in zip(material.parts, weights, strict=True):
        jobs[part.job] += weight * part.quantity
        if weight:
            items.append((part.length + material.kerf, weight, part.quantity))
    rooms = [item.length - 2 * material.end_trim + material.kerf for item in material.stock]
    table = FillTable(items, max(rooms)) if items else None
    return Reason(
        jobs,
        tuple(
            (item.price, 0 if table is None else table.most(room))
            for item, room in zip(material.stock, rooms, strict=True)
        ),
    )


def _sheet_reason(material: SheetMaterial, across: dict[int, int], along: dict[int, int]) -> Reason:
    jobs: Counter[str] = Counter()
    for part in material.parts:
        ways = [(part.width, part.height), *([(part.height, part.width)] if part.turn else [])]
        weight = min(across.get(w, 0) * along.get(h, 0) for w, h in ways)
        jobs[part.job] += weight * part.quantity
    usable = [material.edge_trim.inside(item.width, item.height) for item in material.stock]
    wide = [width + material.kerf for width, _ in usable]
    high = [height + material.kerf for _, height in usable]
    most_across, most_along = (
        _table(material, across, max(wide)),
        _table(material, along, max(high)),
    )
    return Reason(
        jobs,
        tuple(
            (item.price, most_across.most(w) * most_along.most(h))
            for item, w, h in zip(material.stock, wide, high, strict=True)
        ),
    )


def _table(material: SheetMaterial, weights: dict[int, int], room: int) -> FillTable:
    return FillTable(
        [
            (size + material.kerf, weight, room // (size + material.kerf))
            for size, weight in weights.items()
            if weight and size + material.kerf <= room
        ],
        room,
    )
