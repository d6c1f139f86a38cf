"""What makes a request impossible to even begin with, all of it at once, before any solving.

Values that come through the readers have passed this in part; a library user may build a request by
hand, so everything that solvers and checker rely on is held here once more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from math import isfinite

from optimiser.domain.parts import BoardPart, CutOut
from optimiser.domain.request import Choice, Cutting, CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.errors import InvalidInput, Problem
from optimiser.planning.access import access_problems
from optimiser.units import LARGEST, mm

# The solvers and the checker are sized for this; more wants splitting by date or by material.
MOST_PART_TYPES = 20_000
MOST_PARTS = 1_000_000


def require_sane(request: CuttingRequest) -> None:
    """Raise InvalidInput with every reason why the request cannot be planned as it stands."""
    problems = tuple(_problems(request))
    if problems:
        raise InvalidInput(problems)


def _problems(request: CuttingRequest) -> Iterator[Problem]:
    if not isfinite(request.seconds) or not 0 <= request.seconds <= 3600:
        yield Problem(
            "seconds", f"{request.seconds} is not from 0 to 3600", "Give seconds to think"
        )
    if request.seed < 0:
        yield Problem("seed", f"{request.seed} is below 0", "Give a whole number of 0 or more")
    if not 0 <= request.keep.credit < 1:
        yield Problem(
            "keep.credit",
            f"{request.keep.credit} is not from 0 to below 1",
            "An offcut is worth less than new stock: give a share such as 0.5",
        )
    materials = request.materials
    if not any(material.parts for material in materials):
        yield Problem("parts", "there is no part to cut", "List at least one part")
    yield from _twice("material", (material.material for material in materials))
    for item in materials:
        yield from _twice("stock id", (stock.id for stock in item.stock))
        yield from _twice("offcut id", (offcut.id for offcut in item.offcuts))
    ids = [part.id for material in materials for part in material.parts]
    yield from _twice("part id", ids)
    if len(ids) > MOST_PART_TYPES:
        yield Problem("parts", f"{len(ids)} different parts", f"Plan at most {MOST_PART_TYPES}")
    total = sum(part.quantity for material in materials for part in material.parts)
    if total > MOST_PARTS:
        yield Problem("parts", f"{total} parts in all", f"Plan at most {MOST_PARTS} at once")
    for number, lengths in enumerate(request.lengths):
        yield from _length_problems(f"lengths[{number}]", lengths)
    for number, sheets in enumerate(request.sheets):
        yield from _sheet_problems(f"sheets[{number}]", sheets)
    yield from _choice_problems(request.choices, set(ids))
    yield from access_problems(request)


def _twice(what: str, names: Iterable[str]) -> Iterator[Problem]:
    for name, count in Counter(names).items():
        if count > 1:
            yield Problem(
                f"{what} {name!r}", f"stands {count} times", "Give each a name of its own"
            )


def _sizes(field: str, **sizes: int) -> Iterator[Problem]:
    for name, size in sizes.items():
        if not 0 < size <= LARGEST:
            yield Problem(
                f"{field}.{name}_mm",
                f"{mm(size)} is not a size above 0 and up to 100 m",
                "Give the size in mm",
            )


def _not_below_zero(field: str, **sizes: int) -> Iterator[Problem]:
    for name, size in sizes.items():
        if not 0 <= size <= LARGEST:
            yield Problem(
                f"{field}.{name}_mm",
                f"{mm(size)} is not a size from 0 to 100 m",
                "Give 0 or more in mm",
            )


def _count(field: str, count: int | None, *, least: int) -> Iterator[Problem]:
    if count is not None and count < least:
        yield Problem(field, f"{count} is too few", f"Give a whole number from {least}")


def _ease(field: str, ease: int, **sizes: int) -> Iterator[Problem]:
    for name, size in sizes.items():
        if not 0 <= ease < max(1, size):
            yield Problem(
                f"{field}.ease_mm",
                f"{mm(ease)} is not from 0 to less than its {name} of {mm(size)}",
                "Give how many mm the part may be smaller without harm",
            )
            return


def _length_problems(field: str, material: LengthMaterial) -> Iterator[Problem]:
    yield from _not_below_zero(field, kerf=material.kerf, end_trim=material.end_trim)
    longest, named = 0, "nothing: there is no stock and no offcut"
    for number, stock in enumerate(material.stock):
        here = f"{field}.stock[{number}]"
        yield from _sizes(here, length=stock.length)
        yield from _count(f"{here}.available", stock.available, least=0)
        if stock.price < 0:
            yield Problem(f"{here}.price", "is below 0", "Give the price without VAT")
        if 0 < stock.length <= 2 * material.end_trim:
            yield Problem(
                f"{field}.end_trim_mm",
                f"{mm(material.end_trim)} off each end leaves nothing of stock {stock.id!r}",
                "Trim less or take this stock out",
            )
        if stock.length - 2 * material.end_trim > longest:
            longest = stock.length - 2 * material.end_trim
            named = f"stock {stock.id!r} with {mm(longest)} usable"
    for number, offcut in enumerate(material.offcuts):
        here = f"{field}.offcuts[{number}]"
        yield from _sizes(here, length=offcut.length)
        yield from _not_below_zero(here, end_trim=offcut.end_trim)
        if offcut.length - 2 * offcut.end_trim > longest:
            longest = offcut.length - 2 * offcut.end_trim
            named = f"offcut {offcut.id!r} with {mm(longest)} usable"
    for part in material.parts:
        here = f"part {part.id!r}"
        yield from _sizes(here, length=part.length)
        yield from _ease(here, part.ease, length=part.length)
        yield from _count(f"{here}.quantity", part.quantity, least=1)
        if 0 < part.length <= LARGEST and part.length > longest:
            yield Problem(
                f"{here}.length_mm",
                f"{mm(part.length)} fits no {material.material}; the longest tried is {named}",
                "Add longer stock, or join the part from two",
            )


def _sheet_problems(field: str, material: SheetMaterial) -> Iterator[Problem]:
    yield from _not_below_zero(field, kerf=material.kerf, edge_trim=material.edge_trim)
    if material.cutting is Cutting.KNIFE and material.kerf != 0:
        yield Problem(
            f"{field}.kerf_mm",
            f"{mm(material.kerf)} with a knife, which takes nothing away",
            'Give 0, or cutting = "saw"',
        )
    if material.max_stages is not None and material.max_stages < 1:
        yield Problem(
            f"{field}.max_stages", f"{material.max_stages} is too few", "Give 1 or more, or null"
        )
    usable: list[tuple[int, int, str]] = []
    for number, stock in enumerate(material.stock):
        here = f"{field}.stock[{number}]"
        yield from _sizes(here, width=stock.width, height=stock.height)
        yield from _count(f"{here}.available", stock.available, least=0)
        if stock.price < 0:
            yield Problem(f"{here}.price", "is below 0", "Give the price without VAT")
        trim = 2 * material.edge_trim
        if 0 < min(stock.width, stock.height) <= trim:
            yield Problem(
                f"{field}.edge_trim_mm",
                f"{mm(material.edge_trim)} off each edge leaves nothing of stock {stock.id!r}",
                "Trim less or take this stock out",
            )
        usable.append((stock.width - trim, stock.height - trim, f"stock {stock.id!r}"))
    for number, offcut in enumerate(material.offcuts):
        here = f"{field}.offcuts[{number}]"
        yield from _sizes(here, width=offcut.width, height=offcut.height)
        yield from _not_below_zero(here, edge_trim=offcut.edge_trim)
        trim = 2 * offcut.edge_trim
        usable.append((offcut.width - trim, offcut.height - trim, f"offcut {offcut.id!r}"))
    for part in material.parts:
        yield from _board_problems(material, part, usable)


def _board_problems(
    material: SheetMaterial, part: BoardPart, usable: list[tuple[int, int, str]]
) -> Iterator[Problem]:
    here = f"part {part.id!r}"
    yield from _sizes(here, width=part.width, height=part.height)
    yield from _ease(here, part.ease, width=part.width, height=part.height)
    yield from _count(f"{here}.quantity", part.quantity, least=1)
    for number, hole in enumerate(part.cut_outs):
        yield from _cut_out_problems(f"{here}.cut_outs[{number}]", part, hole)
    if _overlap(part.cut_outs):
        yield Problem(f"{here}.cut_outs", "overlap each other", "Give each its own rectangle")
    ways = [(part.width, part.height), *([(part.height, part.width)] if part.turn else [])]
    if not any(w <= width and h <= height for w, h in ways for width, height, _ in usable):
        largest = max(usable, key=lambda sheet: sheet[0] * sheet[1], default=None)
        tried = (
            "there is no stock and no offcut"
            if largest is None
            else f"the largest tried is {largest[2]}, usable {mm(largest[0])} × {mm(largest[1])}"
        )
        yield Problem(
            f"{here}.width_mm × height_mm",
            f"{mm(part.width)} × {mm(part.height)} fits no {material.material}; {tried}",
            "Add a larger sheet, allow the part to be turned, or join it from two",
        )


def _cut_out_problems(field: str, part: BoardPart, hole: CutOut) -> Iterator[Problem]:
    yield from _sizes(field, width=hole.width, height=hole.height)
    if (
        min(hole.x, hole.y) < 0
        or hole.x + hole.width > part.width
        or hole.y + hole.height > part.height
    ):
        yield Problem(field, "reaches outside its part", "Keep the cut-out within the part")
    elif hole.width == part.width or hole.height == part.height:
        yield Problem(
            field,
            "runs from edge to edge and leaves no one part",
            "Make it two parts or smaller",
        )


def _overlap(holes: tuple[CutOut, ...]) -> bool:
    return any(
        one.x < two.x + two.width
        and two.x < one.x + one.width
        and one.y < two.y + two.height
        and two.y < one.y + one.height
        for index, one in enumerate(holes)
        for two in holes[:index]
    )


def _choice_problems(choices: tuple[Choice, ...], parts: set[str]) -> Iterator[Problem]:
    yield from _twice("choice id", (choice.id for choice in choices))
    owner: dict[str, str] = {}
    for choice in choices:
        here = f"choice {choice.id!r}"
        if not choice.options:
            yield Problem(here, "has no option", "Give at least one option")
        for number, option in enumerate(choice.options):
            for id_ in option:
                if id_ not in parts:
                    yield Problem(
                        f"{here}.options[{number}]",
                        f"names part {id_!r}, which is not in the request",
                        "List the part or take it out of the option",
                    )
                if owner.setdefault(id_, choice.id) != choice.id:
                    yield Problem(
                        here, f"part {id_!r} is in two choices", "Put it in one choice only"
                    )


def quantities(request: CuttingRequest, chosen: tuple[int, ...]) -> dict[str, int]:
    """Return how often each part must be cut when these options are chosen."""
    optional = {id_ for choice in request.choices for option in choice.options for id_ in option}
    wanted = {
        id_
        for choice, option in zip(request.choices, chosen, strict=True)
        for id_ in choice.options[option]
    }
    return {
        part.id: 0 if part.id in optional and part.id not in wanted else part.quantity
        for material in request.materials
        for part in material.parts
    }
