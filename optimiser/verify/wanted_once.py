"""The most weight a sheet yields when no part is cut more often than wanted: small orders only.

The checker's own count, without a solver. Sets of parts grow by one part at a time; a set fits if
one cut parts it into two sets that lie beside each other or one above another, and for each set the
smallest rectangles that hold it are remembered. Exact, for cuts from edge to edge.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from optimiser.domain.request import Choice

# Pairs of rectangles looked at: a second or two.
MOST_PAIRS = 2_000_000

_Rectangles = list[tuple[int, int]]
_Counts = tuple[int, ...]
# Choices by their place, each with some of its options.
Options: TypeAlias = tuple[tuple[int, frozenset[int]], ...]


class TooManySets(ValueError):
    """The order is not small enough to list every set of parts."""


@dataclass(frozen=True, slots=True)
class WantedPart:
    """A part's ways to lie, sizes with one kerf added; its weight and how often it is wanted.

    `options` names the choices that decide whether it is cut, each with the options that cut it:
    parts that no option of a choice cuts both are never cut from one sheet.
    """

    ways: tuple[tuple[int, int], ...]
    weight: int
    quantity: int
    options: Options = ()


def are_apart(some: Options, others: Options) -> bool:
    """Return whether a choice never takes parts of both."""
    return any(
        choice == its and not mine & theirs for choice, mine in some for its, theirs in others
    )


def options_of(choices: Sequence[Choice], part: str) -> Options:
    """Return the choices that decide whether a part is cut, each with the options that cut it."""
    each = (
        (place, frozenset(o for o, option in enumerate(choice.options) if part in option))
        for place, choice in enumerate(choices)
    )
    return tuple((place, options) for place, options in each if options)


def most_of_sets(
    parts: Sequence[WantedPart], sheets: Sequence[tuple[int, int]], pairs: int = MOST_PAIRS
) -> list[int]:
    """Return for each sheet (sizes with one kerf added) the most weight that it yields.

    Raises TooManySets when more than `pairs` pairs of rectangles would have to be looked at.
    """
    weighing = _merged(parts)
    across = max(width for width, _ in sheets)
    along = max(height for _, height in sheets)
    known: dict[_Counts, _Rectangles] = {}
    grown = [
        tuple(int(place == one) for place in range(len(weighing))) for one in range(len(weighing))
    ]
    for counts, part in zip(grown, weighing, strict=True):
        known[counts] = _smallest([way for way in part.ways if _fits(way, across, along)])
    apart = [[are_apart(part.options, other.options) for other in weighing] for part in weighing]
    latest = [counts for counts in grown if known[counts]]
    left = pairs
    while latest:
        grown = []
        for counts in latest:
            highest = max(place for place, count in enumerate(counts) if count)
            for place in range(highest, len(weighing)):
                if any(count and apart[place][other] for other, count in enumerate(counts)):
                    continue
                more = (*counts[:place], counts[place] + 1, *counts[place + 1 :])
                if more[place] > weighing[place].quantity or not _lesser_fit(more, known):
                    continue
                rectangles, looked = _together(more, known, across, along)
                left -= looked
                if left < 0:
                    raise TooManySets("the order is too large for weights of parts wanted once")
                known[more] = rectangles
                if rectangles:
                    grown.append(more)
        latest = grown
    return [
        max(
            (
                sum(part.weight * count for part, count in zip(weighing, counts, strict=True))
                for counts, rectangles in known.items()
                if any(_fits(rectangle, *sheet) for rectangle in rectangles)
            ),
            default=0,
        )
        for sheet in sheets
    ]


def _merged(parts: Sequence[WantedPart]) -> list[WantedPart]:
    """Take equal parts together; leave out what weighs nothing."""
    wanted: Counter[WantedPart] = Counter()
    for part in parts:
        if part.weight > 0 and part.quantity > 0:
            kind = replace(part, ways=tuple(sorted(part.ways)), quantity=0)
            wanted[kind] += part.quantity
    return [replace(kind, quantity=quantity) for kind, quantity in wanted.items()]


def _fits(rectangle: tuple[int, int], across: int, along: int) -> bool:
    return rectangle[0] <= across and rectangle[1] <= along


def _lesser_fit(counts: _Counts, known: dict[_Counts, _Rectangles]) -> bool:
    """Return whether every set with one part less fits: else this one cannot."""
    return all(
        known.get((*counts[:place], count - 1, *counts[place + 1 :]))
        for place, count in enumerate(counts)
        if count
    )


def _together(
    counts: _Counts, known: dict[_Counts, _Rectangles], across: int, along: int
) -> tuple[_Rectangles, int]:
    """Return the smallest rectangles of a set by every first cut, and the pairs looked at."""
    found: set[tuple[int, int]] = set()
    looked = 0
    halves = list(product(*(range(count + 1) for count in counts)))
    # The first half of the list, without nothing: the other half holds what each leaves.
    for near in halves[1 : (len(halves) + 1) // 2]:
        far = tuple(whole - part for whole, part in zip(counts, near, strict=True))
        for width, height in known[near]:
            for other_width, other_height in known[far]:
                looked += 1
                beside = width + other_width, max(height, other_height)
                above = max(width, other_width), height + other_height
                found.update(shape for shape in (beside, above) if _fits(shape, across, along))
    return _smallest(list(found)), looked + len(halves)


def _smallest(rectangles: _Rectangles) -> _Rectangles:
    """Leave out rectangles that are as large as another both ways."""
    kept: _Rectangles = []
    for rectangle in sorted(rectangles):
        if not kept or rectangle[1] < kept[-1][1]:
            kept.append(rectangle)
    return kept
