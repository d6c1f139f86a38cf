"""What a batch of jobs costs at least, before it is planned: weights from one plan of all jobs.

A solver that plans all jobs together proves its bound by weighing parts; no stock piece yields more
than so much weight. That holds for any of the jobs by themselves, so a batch's own weight says how
much stock it takes at least: the ratio of price and weight that is least, and whole pieces where
only one stock is sold. Where cut-outs may hold parts, a job weighs less by all that its own can
hold: that much comes from no sheet.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from optimiser.domain.plan import LengthWeights, PartWeights, SheetWeights
from optimiser.domain.request import CuttingRequest, Keep, LengthMaterial, SheetMaterial
from optimiser.planning.until import Trial
from optimiser.units import ceiling
from optimiser.verify.board_bounds import sheet_reasons
from optimiser.verify.bounds import length_reasons
from optimiser.verify.cut_outs import trim_of
from optimiser.verify.filling import MOST_WORK, Rectangle, most_weights
from optimiser.verify.wanted_once import TooManySets, WantedPart, most_of_sets
from optimiser.verify.weighing import BadCertificate, FillTable

if TYPE_CHECKING:
    from numpy.typing import NDArray

# Of the stock of best value; beyond, whole pieces say little more than parts of them.
MOST_PIECES = 12
# Reasons of one material that are kept, and of them those that are counted in whole pieces.
MOST_GROUNDS = 80
COUNTED = 4
# Reasons that need a table over cuts, and pairs of shapes looked at for one that lists sets.
TABLES = 8
PAIRS = 20_000
# Boxes of counts that the bound of a batch's material may take; the checker takes more.
BOXES = 12


@dataclass(frozen=True, slots=True)
class Reason:
    """What each job asks of stock, and by stock its price, most weight that it yields and length.

    A job asks for less than nothing where its cut-outs can hold more than its parts weigh.
    """

    jobs: Counter[str]
    stock: tuple[tuple[int, int, int], ...]

    def weight(self, jobs: Iterable[str]) -> int:
        """Return what the jobs ask of stock together."""
        return sum(self.jobs[job] for job in jobs)

    def useful(self, limit: int | None = None) -> list[tuple[int, int]]:
        """Return price and most weight of stock up to the limit, best value first."""
        best: dict[int, int] = {}
        for price, most, long in self.stock:
            if most > 0 and (limit is None or long <= limit):
                best[price] = max(most, best.get(price, 0))
        return sorted(best.items(), key=lambda pair: Fraction(*pair))


class Grounds:
    """All reasons of one material, those of every plan made so far: what holds for one batch holds
    for all, and a batch asks for the most that any of them says."""

    def __init__(self, material: LengthMaterial | SheetMaterial) -> None:
        self._material = material
        self._jobs = sorted({part.job for part in material.parts})
        self._rows: set[object] = set()
        self._reasons: list[Reason] = []
        self._weights = np.zeros((0, len(self._jobs)))
        self._rates: dict[int | None, NDArray[np.float64]] = {}
        self._stock: dict[int | None, list[list[tuple[int, int]]]] = {}
        # How many were taken that weigh parts as wholes: of parts wanted once, and others.
        self._tables = {True: 0, False: 0}

    def learn(self, trial: Trial | None, own: LengthMaterial | SheetMaterial) -> None:
        """Take the reasons of a plan of some of the parts, `own`."""
        fresh = []
        for row in _rows_of(self._material, trial, own):
            if row not in self._rows and len(self._rows) < MOST_GROUNDS:
                self._rows.add(row)
                fresh.append(_reason(self._material, row))
        if isinstance(own, SheetMaterial) and trial is not None:
            fresh += self._by_part(trial, own)
        self._reasons += fresh
        if fresh:
            # Floats only say which reasons to count out.
            self._weights = np.array(
                [[float(one.jobs[job]) for job in self._jobs] for one in self._reasons]
            )
            self._rates.clear()
            self._stock.clear()

    def _by_part(self, trial: Trial, own: SheetMaterial) -> Iterator[Reason]:
        """Yield reasons that weigh parts as wholes; those that take long to count are few.

        Of parts wanted once a batch cuts no more than all jobs want, so they hold for any.
        """
        for once, rows, most in ((True, trial.once, MOST_GROUNDS), (False, trial.weights, TABLES)):
            for weights in rows:
                row = (once, tuple(zip((part.id for part in own.parts), weights, strict=True)))
                if row in self._rows or self._tables[once] >= most:
                    continue
                self._rows.add(row)
                self._tables[once] += 1
                with suppress(TooManySets):
                    yield _part_reason(self._material, own, weights, once=once)

    @property
    def count(self) -> int:
        """Return how many reasons there are."""
        return len(self._reasons)

    def least(self, jobs: Collection[str], limit: int | None = None, since: int = 0) -> int:
        """Return the least money for stock up to the limit that these jobs take, in pence.

        By the reasons taken `since` there were so many. Whole pieces are counted for those that ask
        most; where no stock is of use nothing is said.
        """
        if since >= len(self._reasons):
            return 0
        if limit not in self._stock:
            self._stock[limit] = [one.useful(limit) for one in self._reasons]
            self._rates[limit] = np.array(
                [stock[0][0] / stock[0][1] if stock else 0.0 for stock in self._stock[limit]]
            )
        mine = np.array([job in jobs for job in self._jobs])
        asked = self._rates[limit][since:] * self._weights[since:, mine].sum(axis=1)
        best = 0
        for place in np.argsort(-asked)[:COUNTED] + since:
            stock = self._stock[limit][place]
            weight = self._reasons[place].weight(jobs)
            if weight > 0 and stock:
                best = max(best, _least_money(weight, stock))
        return best


def _least_money(weight: int, stock: list[tuple[int, int]]) -> int:
    """Return the least price of whole pieces that together yield a weight; best value first.

    Where the pieces are many, parts of pieces are allowed: less, and therefore still a bound.
    """
    price, most = stock[0]
    count = -(-weight // most)
    if len(stock) == 1:
        return price * count
    if count > MOST_PIECES:
        return ceiling(Fraction(price * weight, most))
    best = price * count
    for taken in range(count):
        rest = weight - taken * most
        # No piece yields more for its price than the next best.
        if price * taken + Fraction(stock[1][0] * rest, stock[1][1]) < best:
            best = min(best, price * taken + _least_money(rest, stock[1:]))
    return best


def proven_bound(
    request: CuttingRequest, material: LengthMaterial | SheetMaterial, trial: Trial
) -> int:
    """Return what no plan of the material costs less than, by the checker's own count."""
    keep = request.keep_for(material)
    if isinstance(material, LengthMaterial):
        by_length = tuple(part.length + material.kerf for part in material.parts)
        rows = dict.fromkeys((*trial.length_rows, (by_length, 1)))
        lengths = tuple(LengthWeights(weights=weights, scale=scale) for weights, scale in rows)
        return length_reasons(material, keep, (), lengths).least_of((), BOXES)
    sizes = sorted({size for part in material.parts for size in (part.width, part.height)})
    by_area = tuple((int(size), size + material.kerf) for size in sizes)
    tables = dict.fromkeys((*trial.sheet_rows, (by_area, by_area)))
    sheets: tuple[SheetWeights | PartWeights, ...] = tuple(
        SheetWeights(across=across, along=along) for across, along in tables
    )
    bound = sheet_reasons(material, keep, (), sheets).least_of((), BOXES)
    for once, by_part in ((True, trial.once), (False, trial.weights)):
        # The dearest to count come last, and only where they may say more.
        if bound < min(trial.bound, trial.cost):
            sheets += tuple(PartWeights(weights=weights, once=once) for weights in by_part)
            bound = max(bound, _counted(material, keep, sheets))
    return bound


def _counted(
    material: SheetMaterial, keep: Keep, reasons: tuple[SheetWeights | PartWeights, ...]
) -> int:
    """Return what reasons prove; 0 where the checker would find too many sets of parts."""
    try:
        return sheet_reasons(material, keep, (), reasons).least_of((), BOXES)
    except BadCertificate:
        return 0


def _rows_of(
    material: LengthMaterial | SheetMaterial,
    trial: Trial | None,
    own: LengthMaterial | SheetMaterial,
) -> Iterator[tuple[tuple[tuple[str, int], ...], ...]]:
    """Yield weights by part, or by size across and along, of a plan; plain size is always one."""
    if isinstance(material, LengthMaterial):
        yield (tuple((part.id, part.length + material.kerf) for part in material.parts),)
        ids = [part.id for part in own.parts]
        for weights, _ in () if trial is None else trial.length_rows:
            yield (tuple(zip(ids, weights, strict=True)),)
        return
    sizes = sorted({size for part in material.parts for size in (part.width, part.height)})
    by_area = tuple((str(size), size + material.kerf) for size in sizes)
    yield by_area, by_area
    for across, along in () if trial is None else trial.sheet_rows:
        yield (
            tuple((str(size), weight) for size, weight in across),
            tuple((str(size), weight) for size, weight in along),
        )


def _reason(
    material: LengthMaterial | SheetMaterial, row: tuple[tuple[tuple[str, int], ...], ...]
) -> Reason:
    if isinstance(material, LengthMaterial):
        weights = dict(row[0])
        return _length_reason(material, tuple(weights.get(part.id, 0) for part in material.parts))
    across, along = ({int(size): weight for size, weight in side} for side in row)
    return _sheet_reason(material, across, along)


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
            (item.price, 0 if table is None else table.most(room), int(item.length))
            for item, room in zip(material.stock, rooms, strict=True)
        ),
    )


def _sheet_reason(material: SheetMaterial, across: dict[int, int], along: dict[int, int]) -> Reason:
    jobs: Counter[str] = Counter()
    for part in material.parts:
        ways = [(part.width, part.height), *([(part.height, part.width)] if part.turn else [])]
        weight = min(across.get(w, 0) * along.get(h, 0) for w, h in ways)
        jobs[part.job] += weight * part.quantity
    rooms = _rooms(material)
    freed = _freed(material)
    sizes = [*rooms, *(size for _, _, size in freed)]
    most_across = _table(material, across, max(width for width, _ in sizes))
    most_along = _table(material, along, max(height for _, height in sizes))
    for job, count, (width, height) in freed:
        jobs[job] -= count * most_across.most(width) * most_along.most(height)
    return Reason(
        jobs,
        tuple(
            (item.price, most_across.most(w) * most_along.most(h), max(item.width, item.height))
            for item, (w, h) in zip(material.stock, rooms, strict=True)
        ),
    )


def _rooms(material: SheetMaterial) -> list[tuple[int, int]]:
    """Return what each stock has room for, one kerf added both ways."""
    usable = [material.edge_trim.inside(item.width, item.height) for item in material.stock]
    return [(width + material.kerf, height + material.kerf) for width, height in usable]


def _freed(material: SheetMaterial) -> list[tuple[str, int, tuple[int, int]]]:
    """Return job, count and room (one kerf added) of every cut-out that may hold parts.

    Also of parts that may be turned beside parts that may not: a batch may have none of the latter.
    """
    if not material.use_cut_outs:
        return []
    kerf = material.kerf
    inside = [
        (part, trim_of(part, hole, material).inside(hole.width, hole.height))
        for part in material.parts
        for hole in part.cut_outs
    ]
    return [
        (part.job, part.quantity, (width + kerf, height + kerf))
        for part, (width, height) in inside
        if min(width, height) > 0
    ]


def _part_reason(
    material: LengthMaterial | SheetMaterial,
    own: SheetMaterial,
    weights: tuple[int, ...],
    *,
    once: bool,
) -> Reason:
    """Return what the parts of some jobs, `own`, weigh as wholes; those of others weigh nothing.

    All stock is counted, also what was left out of `own` for being long.
    """
    assert isinstance(material, SheetMaterial)
    jobs: Counter[str] = Counter()
    parts = []
    for part, weight in zip(own.parts, weights, strict=True):
        jobs[part.job] += weight * part.quantity
        across, along = part.width + material.kerf, part.height + material.kerf
        ways = ((across, along), (along, across))[: 2 if part.turn else 1]
        parts.append(WantedPart(ways=ways, weight=weight, quantity=part.quantity))
    freed = _freed(material)
    rooms = [*_rooms(material), *(size for _, _, size in freed)]
    if once:
        most = most_of_sets(parts, rooms, PAIRS)
    else:
        lying = [Rectangle(*way, part.weight) for part in parts for way in part.ways]
        most = most_weights(lying, rooms, MOST_WORK // 8)
    stock = len(material.stock)
    for (job, count, _), value in zip(freed, most[stock:], strict=True):
        jobs[job] -= count * value
    return Reason(
        jobs,
        tuple(
            (item.price, value, max(item.width, item.height))
            for item, value in zip(material.stock, most[:stock], strict=True)
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
