"""How many spare lengths and sheets keep the chance of a second trip low enough, and their cost.

Every stock piece may break before it is cut, spares too, and every part may be spoiled once. A
broken piece takes one good spare of its stock. Spoiled parts take spares by how many of the largest
part one yields; of small parts, as many as the kept offcuts hold of the largest are replaced
without. Both rules ask for too many spares rather than too few, so the chance printed is never too
low. The losses are independent, their numbers binomial; floats are rounded up at the end.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.plan import CuttingPlan, LengthPlan, SheetLayout, SheetPlan
from optimiser.domain.request import Cutting, CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.domain.spares import Breakage, Exposure, Handling, SpareLevel, SparesTable
from optimiser.domain.stock import LengthOffcut, SheetOffcut, StockLength, StockSheet
from optimiser.errors import InvalidInput, Problem
from optimiser.planning.until import try_plan
from optimiser.units import Pence, Tenths
from optimiser.verify.check import check_plan

# Common practice, no source: shares that break or are spoiled with usual handling. Board corners
# suffer most; the firm's own counts are better and may replace each of them.
USUAL = {
    "knife": (Fraction(2, 100), Fraction(2, 100)),
    "saw": (Fraction(1, 100), Fraction(1, 100)),
    "length": (Fraction(1, 100), Fraction(1, 100)),
}
# Common practice, no source.
FACTOR = {
    Handling.CAREFUL: Fraction(1, 2),
    Handling.USUAL: Fraction(1),
    Handling.ROUGH: Fraction(2),
}
LEVELS = tuple(Fraction(n, 100) for n in (20, 10, 5, 2, 1))

MOST_SPARES = 15
MOST_FROM_OFFCUTS = 30
# Rounding of some thousand float operations is far below this.
ROUNDING = 1e-9
# Seconds to see whether parts go on the offcuts.
TRIAL = 0.05


def usual_breakage(
    request: CuttingRequest, handling: Handling = Handling.USUAL
) -> tuple[Breakage, ...]:
    """Return the default breakage of each material: common practice, no source."""
    kinds = [(item.material, "length") for item in request.lengths]
    kinds += [
        (item.material, "knife" if item.cutting is Cutting.KNIFE else "saw")
        for item in request.sheets
    ]
    factor = FACTOR[handling]
    return tuple(
        Breakage(material=name, piece=factor * USUAL[kind][0], part=factor * USUAL[kind][1])
        for name, kind in kinds
    )


def spares_by_risk(
    request: CuttingRequest,
    plan: CuttingPlan,
    breakage: tuple[Breakage, ...],
    levels: tuple[Fraction, ...] = LEVELS,
) -> SparesTable:
    """Return for each level the cheapest spares over all materials together.

    Raises InvalidInput for a plan that does not answer the request, and for rates and levels that
    are no chance.
    """
    _require_fitting(request, plan, breakage, levels)
    rates = {item.material: item for item in breakage}
    exposures = tuple(
        exposure
        for material, drawn in zip(request.materials, plan.materials, strict=True)
        for exposure in _exposures(request, material, drawn, rates[material.material])
    )
    frontier = _frontier(exposures)
    return SparesTable(
        chance_without=_chance(frontier[0].kept),
        exposures=exposures,
        levels=tuple(
            _level(level, exposures, frontier) for level in sorted(set(levels), reverse=True)
        ),
    )


def _require_fitting(
    request: CuttingRequest,
    plan: CuttingPlan,
    breakage: tuple[Breakage, ...],
    levels: tuple[Fraction, ...],
) -> None:
    remedy = "Give the plan that was made for this request"
    problems = [Problem(f.where, f.what, remedy) for f in check_plan(request, plan)]
    named = Counter(item.material for item in breakage)
    for material in request.materials:
        if named[material.material] != 1:
            trouble = f"material {material.material!r} has {named[material.material]} rates"
            problems.append(Problem("breakage", trouble, "Give each material its rates once"))
    for item in breakage:
        for name, rate in (("piece", item.piece), ("part", item.part)):
            if not 0 <= rate < 1:
                problems.append(
                    Problem(
                        f"breakage {item.material!r}.{name}",
                        f"{float(rate):g} is no chance from 0 to below 1",
                        "Give a share such as 0.02",
                    )
                )
    for level in levels:
        if not 0 < level < 1:
            trouble = f"{float(level):g} is no chance between 0 and 1"
            problems.append(Problem("level", trouble, "Give a chance such as 0.05"))
    if problems:
        raise InvalidInput(tuple(problems))


def _exposures(
    request: CuttingRequest,
    material: LengthMaterial | SheetMaterial,
    drawn: LengthPlan | SheetPlan,
    breakage: Breakage,
) -> list[Exposure]:
    """Group a material's pieces by the stock that a spare for them would be."""
    if not material.stock:
        return []
    stands_in = {(item.id, False): item.id for item in material.stock}
    stands_in |= {(offcut.id, True): _spare_for(material, offcut) for offcut in material.offcuts}
    pieces: Counter[str] = Counter()
    parts: dict[str, Counter[str]] = {}
    for layout in drawn.layouts:
        if isinstance(layout, SheetLayout) and layout.cut_out is not None:
            continue  # breaks with the part it is cut out of, or not at all
        spare = stands_in[layout.stock, layout.offcut]
        pieces[spare] += layout.count
        for placed in layout.parts:
            parts.setdefault(spare, Counter())[placed.part] += layout.count
    known = {part.id: part for part in material.parts}
    small, held = _small(request, material, drawn)
    found: list[Exposure] = []
    for item in material.stock:
        if not pieces[item.id]:
            continue
        own = parts[item.id]
        small_here = sum(count for id_, count in own.items() if id_ in small)
        found.append(
            Exposure(
                material=material.material,
                stock=item.id,
                price=item.price,
                pieces=pieces[item.id],
                large=sum(own.values()) - small_here,
                small=small_here,
                from_offcuts=min(held, small_here),
                yields=min(_yields(material, item, known[id_]) for id_ in own),
                breakage=breakage,
            )
        )
        # An offcut replaces a part once, so the next stock has what is left.
        held -= found[-1].from_offcuts
    return found


def _spare_for(material: LengthMaterial | SheetMaterial, offcut: LengthOffcut | SheetOffcut) -> str:
    """Return the cheapest stock that can stand in for a rack offcut, else the largest."""
    large = [item for item in material.stock if _covers(item, offcut)]
    if large:
        return min(large, key=lambda item: (item.price, item.id)).id
    return max(material.stock, key=_extent).id


def _extent(item: StockLength | StockSheet) -> int:
    return item.length if isinstance(item, StockLength) else item.width * item.height


def _covers(item: StockLength | StockSheet, offcut: LengthOffcut | SheetOffcut) -> bool:
    if isinstance(item, StockLength):
        assert isinstance(offcut, LengthOffcut)
        return item.length >= offcut.length
    assert isinstance(offcut, SheetOffcut)
    return item.width >= offcut.width and item.height >= offcut.height


def _yields(
    material: LengthMaterial | SheetMaterial,
    item: StockLength | StockSheet,
    part: LengthPart | BoardPart,
) -> int:
    """Return how many of a part one stock piece yields side by side, 1 at least."""
    if isinstance(material, LengthMaterial):
        assert isinstance(item, StockLength)
        assert isinstance(part, LengthPart)
        usable = item.length - 2 * material.end_trim + material.kerf
        return max(1, usable // (part.length + material.kerf))
    assert isinstance(item, StockSheet)
    assert isinstance(part, BoardPart)
    width, height = material.edge_trim.inside(item.width, item.height)
    across, up = width + material.kerf, height + material.kerf
    ways = [(part.width, part.height), *([(part.height, part.width)] if part.turn else [])]
    return max(1, *((across // (w + material.kerf)) * (up // (h + material.kerf)) for w, h in ways))


def _small(
    request: CuttingRequest,
    material: LengthMaterial | SheetMaterial,
    drawn: LengthPlan | SheetPlan,
) -> tuple[set[str], int]:
    """Return the parts that kept offcuts can replace, and how many of them whichever they are.

    Held as often as copies of one part as long (as wide and as high) as any of them go on.
    """
    asked: LengthMaterial | SheetMaterial
    if isinstance(material, LengthMaterial):
        assert isinstance(drawn, LengthPlan)
        lengths = [
            left.length for layout in drawn.layouts for left in layout.offcuts * layout.count
        ]
        offcuts = tuple(LengthOffcut(id=f"{n}", length=size) for n, size in enumerate(lengths))
        fitting = [part for part in material.parts if part.length <= max(lengths, default=0)]
        if not fitting:
            return set(), 0
        longest = max(fitting, key=lambda part: part.length)
        asked = replace(material, stock=(), offcuts=offcuts, parts=(longest,))
        return {part.id for part in fitting}, _held(request, asked)
    assert isinstance(drawn, SheetPlan)
    boards = [left for layout in drawn.layouts for left in layout.offcuts * layout.count]
    rack = tuple(
        SheetOffcut(id=f"{n}", width=left.width, height=left.height)
        for n, left in enumerate(boards)
    )
    # By and by without the largest, until one board as wide and as high as any goes on an offcut.
    left_in = sorted(material.parts, key=lambda part: (part.area, part.id))
    while left_in:
        box = replace(
            left_in[0],
            width=Tenths(max(part.width for part in left_in)),
            height=Tenths(max(part.height for part in left_in)),
            turn=all(part.turn for part in left_in),
            cut_outs=(),
        )
        held = _held(request, replace(material, stock=(), offcuts=rack, parts=(box,)))
        if held:
            return {part.id for part in left_in}, held
        left_in.pop()
    return set(), 0


def _held(request: CuttingRequest, asked: LengthMaterial | SheetMaterial) -> int:
    """Return how many of the one part asked for the offcuts hold."""
    held = 0
    while held < MOST_FROM_OFFCUTS:
        if isinstance(asked, LengthMaterial):
            more: LengthMaterial | SheetMaterial = replace(
                asked, parts=(replace(asked.parts[0], quantity=held + 1),)
            )
        else:
            more = replace(asked, parts=(replace(asked.parts[0], quantity=held + 1),))
        if not asked.offcuts or try_plan(request, more, TRIAL, 10**9) is None:
            break
        held += 1
    return held


def binomial(trials: int, rate: Fraction, most: int) -> list[float]:
    """Return the chances of 0 to `most` losses in so many independent trials at that rate."""
    p = float(rate)
    chances = [(1.0 - p) ** trials]
    for lost in range(min(trials, most)):
        chances.append(chances[-1] * (trials - lost) / (lost + 1) * p / (1.0 - p))
    return chances + [0.0] * (most + 1 - len(chances))


def enough_chance(exposure: Exposure, spares: int) -> float:
    """Return the chance that so many spares are enough for one stock, never too high."""
    most_parts = spares * exposure.yields
    broken = binomial(exposure.pieces, exposure.breakage.piece, spares)
    lost_spares = binomial(spares, exposure.breakage.piece, spares)
    large = binomial(exposure.large, exposure.breakage.part, most_parts)
    small = binomial(exposure.small, exposure.breakage.part, most_parts + exposure.from_offcuts)
    # What offcuts replace costs no spare; the rest counts with the large parts.
    over = [sum(small[: exposure.from_offcuts + 1]), *small[exposure.from_offcuts + 1 :]]
    needs = [0.0] * (spares + 1)
    for spoiled, chance in enumerate(_convolved(large, over, most_parts)):
        needs[-(-spoiled // exposure.yields)] += chance
    lost = _convolved(_convolved(broken, needs, spares), lost_spares, spares)
    return max(0.0, sum(lost) - ROUNDING)


def _convolved(one: Sequence[float], two: Sequence[float], most: int) -> list[float]:
    """Return the chances of sums of 0 to `most`."""
    sums = [0.0] * (most + 1)
    for first, chance in enumerate(one[: most + 1]):
        if chance:
            for second, other in enumerate(two[: most + 1 - first]):
                sums[first + second] += chance * other
    return sums


@dataclass(frozen=True, slots=True)
class _Choice:
    """Spares of each stock so far: their cost, the chance that they are enough, the counts."""

    cost: int
    kept: float
    counts: tuple[int, ...]


def _frontier(exposures: tuple[Exposure, ...]) -> list[_Choice]:
    """Return every choice of spares that no other beats in both cost and chance, cheapest first."""
    best = [_Choice(0, 1.0, ())]
    for exposure in exposures:
        chances = [enough_chance(exposure, 0)]
        while len(chances) <= MOST_SPARES and chances[-1] < 1 - float(min(LEVELS)) / 100:
            chances.append(enough_chance(exposure, len(chances)))
        wider = sorted(
            (
                _Choice(one.cost + count * exposure.price, one.kept * chance, (*one.counts, count))
                for one in best
                for count, chance in enumerate(chances)
            ),
            key=lambda choice: (choice.cost, -choice.kept, choice.counts),
        )
        best = []
        for choice in wider:
            if not best or choice.kept > best[-1].kept:
                best.append(choice)
    return best


def _level(level: Fraction, exposures: tuple[Exposure, ...], frontier: list[_Choice]) -> SpareLevel:
    found = next((one for one in frontier if _chance(one.kept) <= level), None)
    choice = frontier[-1] if found is None else found
    return SpareLevel(
        level=level,
        chance=_chance(choice.kept),
        cost=Pence(choice.cost),
        spares=tuple(
            (exposure.material, exposure.stock, count)
            for exposure, count in zip(exposures, choice.counts, strict=True)
            if count
        ),
        reached=found is not None,
    )


def _chance(kept: float) -> float:
    return min(1.0, max(0.0, 1.0 - kept))
