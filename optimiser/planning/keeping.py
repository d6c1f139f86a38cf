"""What is worth keeping: a keep rule for each material from what became of its offcuts.

For each class of sizes the chance that a piece is used within the horizon is the share of those
seen that were, with a few made-up lives of the usual rule mixed in (a Beta prior), so that one
lucky piece settles nothing; a piece still lying there counts by the part of the horizon that it has
lain. Parts of jobs planned but not bought, more of them than pieces racked for them, make a use
likely. A used piece is worth the stock it stands in for, less what does not become parts. The rule
keeps from the class on from which the most is earned after handling, and credits that much.

Must not know: plans, solvers, where history is stored.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from optimiser.domain.keeping import KeepAdvice, KeepTerms, OffcutLife, SizeClass
from optimiser.domain.part_list import PartList
from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.request import (
    CuttingRequest,
    Keep,
    LengthMaterial,
    SheetMaterial,
    with_keep_rules,
)
from optimiser.errors import InvalidInput, Problem
from optimiser.units import Pence, Tenths

# Where classes begin, in tenths: lengths, and shorter sides of boards (common practice, no source).
LENGTHS = (1_500, 3_000, 4_500, 6_000, 9_000, 12_000, 18_000, 24_000)
SIDES = (1_000, 1_500, 2_000, 3_000, 4_500, 6_000, 9_000)
# Made-up lives mixed into each class (common practice, no source).
PRIOR_LIVES = 4
# How much of a used piece becomes parts, measured over a simulated year (benchmarks.year).
USED_SHARE = Fraction(4, 5)
# A piece that more parts to come ask for than are racked is all but sure to go.
WANTED = Fraction(9, 10)
MOST_CREDIT = Fraction(19, 20)

Part = LengthPart | BoardPart
Material = LengthMaterial | SheetMaterial


def keep_advice(
    materials: Sequence[Material],
    lives: Iterable[OffcutLife],
    coming: Iterable[PartList],
    terms: KeepTerms,
    *,
    today: int,
) -> tuple[KeepAdvice, ...]:
    """Return a keep rule for each material that has stock to compare a piece with.

    `materials` give the prices; `coming` the parts of jobs not bought yet. Raises
    InvalidInput for a life that ends before it begins, lies ahead of today or is of no size, and
    for terms that say nothing.
    """
    lives = tuple(lives)
    asked: dict[str, list[Part]] = {}
    for parts in coming:
        for name, length in parts.lengths:
            asked.setdefault(name, []).append(length)
        for name, board in parts.boards:
            asked.setdefault(name, []).append(board)
    problems = (*_bad_terms(terms), *_bad_lives(lives, today))
    if problems:
        raise InvalidInput(problems)
    return tuple(
        _advice(
            material,
            [life for life in lives if life.material == material.material],
            asked.get(material.material, ()),
            terms,
            today,
        )
        for material in materials
        if material.stock
    )


def with_advice(request: CuttingRequest, advice: Iterable[KeepAdvice]) -> CuttingRequest:
    """Return the request with each material's own keep rule."""
    return with_keep_rules(request, {item.material: item.keep for item in advice})


def _bad_terms(terms: KeepTerms) -> Iterable[Problem]:
    if terms.horizon < 1:
        yield Problem("horizon", f"{terms.horizon} days", "Give 1 day or more")
    if terms.handling < 0:
        yield Problem("handling", f"{terms.handling} pence", "Give 0 or more")


def _bad_lives(lives: tuple[OffcutLife, ...], today: int) -> Iterable[Problem]:
    for number, life in enumerate(lives, start=1):
        field = f"offcut {number} of the history, {life.material!r}"
        if life.racked > today or (life.ended is not None and life.ended > today):
            yield Problem(field, "has a day ahead of today", "Give days up to today")
        elif life.ended is not None and life.ended < life.racked:
            yield Problem(field, "ended before it was racked", "Give the days the other way round")
        if min(life.size) <= 0:
            yield Problem(field, "has a size that is not above 0", "Give its size in mm")


def _advice(
    material: Material,
    lives: list[OffcutLife],
    coming: Sequence[Part],
    terms: KeepTerms,
    today: int,
) -> KeepAdvice:
    edges = LENGTHS if isinstance(material, LengthMaterial) else SIDES
    rate = _price_rate(material)
    classes: list[SizeClass] = []
    value: list[Fraction] = []
    for least, beyond in pairwise((*edges, None)):
        assert least is not None
        inside = [
            life for life in lives if least <= min(life.size) and not _reaches(life.size, beyond)
        ]
        # A class nobody has seen is worth what its smallest piece is.
        sizes = [_extent(life.size) for life in inside] or [_least_extent(material, least)]
        stock_value = rate * sum(sizes) / len(sizes)
        found = _class(Tenths(least), inside, coming, terms, today, stock_value)
        classes.append(found)
        value.append(stock_value)
    return KeepAdvice(
        material=material.material,
        is_board=isinstance(material, SheetMaterial),
        keep=_best_rule(material, classes, value, terms),
        classes=tuple(classes),
    )


def _price_rate(material: Material) -> Fraction:
    """Return pence per tenth, or per square tenth, of the stock that costs least by it."""
    if isinstance(material, LengthMaterial):
        return min(Fraction(stock.price, stock.length) for stock in material.stock)
    return min(Fraction(stock.price, stock.width * stock.height) for stock in material.stock)


def _reaches(size: tuple[Tenths, ...], beyond: int | None) -> bool:
    return beyond is not None and min(size) >= beyond


def _extent(size: tuple[Tenths, ...]) -> int:
    return size[0] if len(size) == 1 else size[0] * size[1]


def _least_extent(material: Material, least: int) -> int:
    return least if isinstance(material, LengthMaterial) else least * least


def _class(
    least: Tenths,
    inside: list[OffcutLife],
    coming: Sequence[Part],
    terms: KeepTerms,
    today: int,
    stock_value: Fraction,
) -> SizeClass:
    used = sum(_used_in_time(life, terms.horizon) for life in inside)
    lives = sum((_life_seen(life, terms.horizon, today) for life in inside), Fraction(0))
    usual = min(Fraction(1), terms.usual.credit / USED_SHARE)
    chance = (used + PRIOR_LIVES * usual) / (lives + PRIOR_LIVES)
    racked = sum(life.ended is None for life in inside)
    wanted = _asked_for(least, coming) > racked
    if wanted:
        chance = max(chance, WANTED)
    worth = chance * USED_SHARE * stock_value - terms.handling
    return SizeClass(
        least=least,
        lives=lives,
        used=used,
        chance=chance,
        wanted=wanted,
        worth=Pence(worth.numerator // worth.denominator),
    )


def _used_in_time(life: OffcutLife, horizon: int) -> bool:
    return life.used and life.ended is not None and life.ended - life.racked <= horizon


def _life_seen(life: OffcutLife, horizon: int, today: int) -> Fraction:
    """Return 1 for a life whose end within the horizon is known, else the part of it seen."""
    if life.ended is not None:
        return Fraction(1)
    return min(Fraction(1), Fraction(today - life.racked, horizon))


def _asked_for(least: Tenths, coming: Sequence[Part]) -> int:
    """Count the parts to come that take more than half of the smallest piece of a class."""
    return sum(part.quantity for part in coming if least < 2 * _side(part) <= 2 * least)


def _side(part: Part) -> Tenths:
    return part.length if isinstance(part, LengthPart) else min(part.width, part.height)


def _best_rule(
    material: Material, classes: list[SizeClass], value: list[Fraction], terms: KeepTerms
) -> Keep:
    """Keep from the class on from which pieces, as many as were seen of each, earn the most."""
    numbers = [item.lives + 1 for item in classes]

    def earned(first: int) -> Fraction:
        return sum(
            (n * item.worth for n, item in zip(numbers[first:], classes[first:], strict=True)),
            Fraction(0),
        )

    first = max(range(len(classes)), key=lambda place: (earned(place), place))
    stock = sum(
        (n * each for n, each in zip(numbers[first:], value[first:], strict=True)), Fraction(0)
    )
    credit = max(Fraction(0), earned(first) / stock) if stock else Fraction(0)
    credit = min(MOST_CREDIT, Fraction(round(credit * 100), 100))
    least = classes[first].least
    if isinstance(material, LengthMaterial):
        return replace(terms.usual, length=least, credit=credit)
    return replace(terms.usual, width=least, height=least, credit=credit)
