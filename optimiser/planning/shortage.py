"""Says what is missing when stock and rack cannot yield the parts, and proves how much.

The same problem is solved once more with pieces of stock beyond those available, each at a price
above all the money that the rest can cost: its cost then counts extra pieces first, and its bound
proves how few could do. Must not know: how either is solved.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.request import Keep, LengthMaterial, SheetMaterial
from optimiser.domain.stock import StockLength, StockSheet
from optimiser.errors import Problem
from optimiser.planning.lengths import lengths_problem
from optimiser.planning.sheets import sheets_problem
from optimiser.solvers.lengths.solve import solve as solve_lengths
from optimiser.solvers.protocol import Budget, Status
from optimiser.solvers.sheets.solve import solve as solve_sheets
from optimiser.units import mm

# An extra piece weighs this many times the price of everything there is.
BEYOND = 2


# Parts named one by one where the stock that would do for all is named too.
_MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class _Extra:
    """What the second solve says: extra pieces by stock index, and the least number proven."""

    pieces: Counter[int]
    least: int


def shortage_problems(
    material: LengthMaterial | SheetMaterial,
    keep: Keep,
    wanted: Mapping[str, int],
    missing: Iterable[int],
    budget: Budget,
    seed: int,
    *,
    proven: bool,
) -> tuple[Problem, ...]:
    """Return one problem for the stock to add, and one for each part left over without it.

    Of many parts a few are named where that stock serves them all.

    `missing[i]` of the material's part i are left over in the best attempt. `proven`: it is known
    already that there is no plan.
    """
    extra = _extra(material, keep, wanted, budget, seed)
    least = max(int(proven), 0 if extra is None else extra.least)
    if least:
        trouble = "the stock and the rack cannot yield it"
        remedy = "Add stock, a longer or larger size, or more of it"
    else:
        trouble = "no plan was found in the time given, and none was ruled out"
        remedy = "Give more seconds, or more stock"
    parts: tuple[LengthPart | BoardPart, ...] = material.parts
    left_over = tuple(
        Problem(
            f"{material.material}: part {part.id!r}",
            f"{short} of {wanted[part.id]} × {_size(part)} are left over: {trouble}",
            remedy,
        )
        for part, short in zip(parts, missing, strict=True)
        if short
    )
    if extra is None:
        return left_over or (Problem(material.material, trouble, remedy),)
    named = ", ".join(
        f"{count} × {material.stock[index].id!r}" for index, count in sorted(extra.pieces.items())
    )
    total = extra.pieces.total()
    if least == 0:
        how_short = "the stock may be short"
    elif least == total:
        how_short = f"the stock is short of {total} piece{'s' * (total > 1)}, and fewer cannot do"
    else:
        how_short = f"the stock is short: {least} more at least are needed, {total} are enough"
    enough = Problem(
        material.material, how_short, f"With {named} more everything is cut: make that available"
    )
    return (enough, *_shortened(material.material, left_over))


def _shortened(material: str, left_over: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Name some of many parts: which are left over is chance where more stock helps them all."""
    others = len(left_over) - _MOST_NAMED
    if others < 2:
        return left_over
    trouble = f"{others} more parts are left over like these"
    return (*left_over[:_MOST_NAMED], Problem(material, trouble, left_over[0].remedy))


def _extra(
    material: LengthMaterial | SheetMaterial,
    keep: Keep,
    wanted: Mapping[str, int],
    budget: Budget,
    seed: int,
) -> _Extra | None:
    """Solve with extra pieces of all stock on sale; None when even those do not help."""
    stocks: tuple[StockLength | StockSheet, ...] = material.stock
    scarce = [index for index, stock in enumerate(stocks) if stock.available is not None]
    if not scarce:
        return None
    parts = sum(wanted[part.id] for part in material.parts)
    # No plan cuts more pieces of stock than there are parts, so this is above what any can cost.
    dear = BEYOND * parts * max(1, *(stock.price for stock in stocks))
    if isinstance(material, LengthMaterial):
        lengths = lengths_problem(material, keep, wanted)
        offered = len(lengths.stocks)
        extra = tuple(
            replace(stock, cost=dear + stock.cost, available=None)
            for stock in (lengths.stocks[index] for index in scarce)
        )
        cut = solve_lengths(
            replace(lengths, stocks=lengths.stocks + extra), budget=budget, seed=seed
        )
        used = [(pattern.stock, pattern.times) for pattern in cut.patterns]
        status, bound = cut.status, cut.bound
    else:
        sheets = sheets_problem(material, keep, wanted)
        offered = len(sheets.sheets)
        more = tuple(
            replace(sheet, cost=dear + sheet.cost, available=None)
            for sheet in (sheets.sheets[index] for index in scarce)
        )
        found = solve_sheets(replace(sheets, sheets=sheets.sheets + more), budget=budget, seed=seed)
        used = [(pattern.sheet, pattern.times) for pattern in found.patterns]
        status, bound = found.status, found.bound
    if status not in (Status.OPTIMAL, Status.FEASIBLE):
        return None
    pieces: Counter[int] = Counter()
    for index, times in used:
        if index >= offered:
            pieces[scarce[index - offered]] += times
    # A plan with m extra pieces costs less than (m + 1) · dear, the rest of the money included.
    return _Extra(pieces, bound // dear) if pieces else None


def _size(part: LengthPart | BoardPart) -> str:
    if isinstance(part, LengthPart):
        return mm(part.length)
    return f"{mm(part.width)} × {mm(part.height)}"
