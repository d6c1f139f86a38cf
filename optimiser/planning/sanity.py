"""What makes a request impossible to even begin with, all of it at once, before any solving.

Values that come through the readers have passed this in part; a library user may build a request by
hand, so everything that solvers and checker rely on is held here once more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from math import isfinite

from optimiser.domain.request import Choice, Cutting, CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.domain.stock import EdgeTrim
from optimiser.errors import InvalidInput, Problem
from optimiser.planning.access import access_problems
from optimiser.planning.measures import (
    count_problems,
    ease_problems,
    size_or_zero_problems,
    size_problems,
)
from optimiser.planning.sane_boards import Usable, board_problems
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
    materials = request.materials
    rules = [("keep.credit", request.keep)] + [
        (f"{item.material}: keep.credit", item.keep) for item in materials if item.keep
    ]
    for field, keep in rules:
        if not 0 <= keep.credit < 1:
            yield Problem(
                field,
                f"{keep.credit} is not from 0 to below 1",
                "An offcut is worth less than new stock: give a share such as 0.5",
            )
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


def _length_problems(field: str, material: LengthMaterial) -> Iterator[Problem]:
    yield from size_or_zero_problems(field, kerf=material.kerf, end_trim=material.end_trim)
    longest, named = 0, "nothing: there is no stock and no offcut"
    for number, stock in enumerate(material.stock):
        here = f"{field}.stock[{number}]"
        yield from size_problems(here, length=stock.length)
        yield from count_problems(f"{here}.available", stock.available, least=0)
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
        yield from size_problems(here, length=offcut.length)
        yield from size_or_zero_problems(here, end_trim=offcut.end_trim)
        if offcut.length - 2 * offcut.end_trim > longest:
            longest = offcut.length - 2 * offcut.end_trim
            named = f"offcut {offcut.id!r} with {mm(longest)} usable"
    for part in material.parts:
        here = f"part {part.id!r}"
        yield from size_problems(here, length=part.length)
        yield from ease_problems(here, part.ease, length=part.length)
        yield from count_problems(f"{here}.quantity", part.quantity, least=1)
        if 0 < part.length <= LARGEST and part.length > longest:
            yield Problem(
                f"{here}.length_mm",
                f"{mm(part.length)} fits no {material.material}; the longest tried is {named}",
                "Add longer stock, or join the part from two",
            )


def _sheet_problems(field: str, material: SheetMaterial) -> Iterator[Problem]:
    yield from size_or_zero_problems(field, kerf=material.kerf)
    yield from _trim_problems(field, material.edge_trim)
    if material.cutting is Cutting.KNIFE and material.kerf != 0:
        yield Problem(
            f"{field}.kerf_mm",
            f"{mm(material.kerf)} with a knife, which takes nothing away",
            'Give 0, or cutting = "saw"',
        )
    yield from size_or_zero_problems(field, cut_out_trim=material.cut_out_trim)
    if material.use_cut_outs and material.cut_out_trim < material.kerf:
        yield Problem(
            f"{field}.cut_out_trim_mm",
            f"{mm(material.cut_out_trim)} is less than the kerf of {mm(material.kerf)} that "
            "freeing a cut-out takes",
            "Give the kerf or more",
        )
    if material.max_stages is not None and material.max_stages < 1:
        yield Problem(
            f"{field}.max_stages", f"{material.max_stages} is too few", "Give 1 or more, or null"
        )
    trim = material.edge_trim
    usable: list[Usable] = []
    for number, stock in enumerate(material.stock):
        here = f"{field}.stock[{number}]"
        yield from size_problems(here, width=stock.width, height=stock.height)
        yield from count_problems(f"{here}.available", stock.available, least=0)
        if stock.price < 0:
            yield Problem(f"{here}.price", "is below 0", "Give the price without VAT")
        for side, size, lost, edges in (
            ("width", stock.width, trim.across, "left and right"),
            ("height", stock.height, trim.along, "bottom and top"),
        ):
            if 0 < size <= lost:
                yield Problem(
                    f"{field}.edge_trim_mm",
                    f"{mm(lost)} off {edges} leaves nothing of the {side} {mm(size)} "
                    f"of stock {stock.id!r}",
                    "Trim less or take this stock out",
                )
        usable.append(
            Usable(f"stock {stock.id!r}", stock.width - trim.across, stock.height - trim.along)
        )
    for number, offcut in enumerate(material.offcuts):
        here = f"{field}.offcuts[{number}]"
        yield from size_problems(here, width=offcut.width, height=offcut.height)
        yield from _trim_problems(here, offcut.edge_trim)
        usable.append(
            Usable(
                f"offcut {offcut.id!r}",
                offcut.width - offcut.edge_trim.across,
                offcut.height - offcut.edge_trim.along,
            )
        )
    for part in material.parts:
        yield from board_problems(field, material, part, usable)


def _trim_problems(field: str, trim: EdgeTrim) -> Iterator[Problem]:
    for edge in ("left", "right", "bottom", "top"):
        if getattr(trim, edge) < 0:
            yield Problem(f"{field}.edge_trim_mm.{edge}", "is below 0", "Give 0 or more")


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
