"""Weights for parts of options not taken, so that a proof speaks of every option.

A solver weighs the parts it cuts and nothing else. A part it does not cut may weigh as much as what
it cuts would weigh in the same room: no layout can then hold more weight than before (what fits
into the rooms of two parts side by side fits into both rooms together).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from optimiser.domain.request import Keep, LengthMaterial, SheetMaterial
from optimiser.planning.worth import sheet_credit
from optimiser.solvers.sheets.rooms import weights_of_rooms
from optimiser.verify.credited import MOST_SUMS, most_with_credit
from optimiser.verify.filling import Rectangle
from optimiser.verify.weighing import FillTable

if TYPE_CHECKING:
    from optimiser.solvers.sheets.problem import SheetsProblem

# A share of what the checker may look through: rooms of parts are many.
_ROOMS = MOST_SUMS // 12


def lifted_lengths(material: LengthMaterial, weights: tuple[int, ...]) -> tuple[int, ...]:
    """Return one weight a part of the material, none below the one it has."""
    sizes = [part.length + material.kerf for part in material.parts]
    room = max(sizes, default=0)
    table = FillTable(
        [
            (size, weight, room // size)
            for size, weight in zip(sizes, weights, strict=True)
            if weight and size <= room
        ],
        room,
    )
    return tuple(weight or table.most(size) for size, weight in zip(sizes, weights, strict=True))


def lifted_table(kerf: int, weights: dict[int, int], sizes: list[int]) -> tuple[int, ...]:
    """Return the weight of each size along one side of a sheet."""
    room = max(sizes, default=0) + kerf
    table = FillTable(
        [
            (size + kerf, weight, room // (size + kerf))
            for size, weight in weights.items()
            if weight
        ],
        room,
    )
    return tuple(weights.get(size) or table.most(size + kerf) for size in sizes)


def lifted_boards(
    material: SheetMaterial, problem: SheetsProblem, weights: tuple[int, ...]
) -> tuple[int, ...]:
    """Return one weight a part of the board, none below the one it has.

    `problem` is the board with the parts of all options wanted.
    """
    kerf = material.kerf
    light = [part for part, weight in zip(material.parts, weights, strict=True) if not weight]
    if not light or not any(weights):
        return weights
    rooms = [(int(part.width) + kerf, int(part.height) + kerf) for part in light]
    turned = [
        (height, width) if part.turn else (width, height)
        for part, (width, height) in zip(light, rooms, strict=True)
    ]
    most = weights_of_rooms(problem, weights, [*rooms, *turned])
    lifted = {
        part.id: min(both)
        for part, *both in zip(light, most[: len(light)], most[len(light) :], strict=True)
    }
    return tuple(
        weight or lifted[part.id] for part, weight in zip(material.parts, weights, strict=True)
    )


def lifted_prices(
    material: SheetMaterial,
    keep: Keep,
    prices: tuple[int, ...],
    scale: int,
    wanted: Mapping[str, int],
) -> tuple[int, ...]:
    """Return one price a part of the board: of one that is not cut, what its room would yield.

    In prices of parts and in credit; `scale` prices are a penny.
    """
    kerf = material.kerf
    lying = [
        Rectangle(across + kerf, along + kerf, price)
        for part, price in zip(material.parts, prices, strict=True)
        for across, along in ((part.width, part.height), (part.height, part.width))[
            : 2 if part.turn else 1
        ]
        if price
    ]
    light = [part for part in material.parts if not wanted[part.id]]
    if not light or not lying:
        return prices
    rooms = {part.id: (part.width + kerf, part.height + kerf) for part in light}
    turned = {part.id: (part.height + kerf, part.width + kerf) for part in light if part.turn}
    asked = tuple(sorted({*rooms.values(), *turned.values()}))
    most = dict(
        zip(
            asked,
            most_with_credit(
                tuple(lying),
                asked,
                kerf,
                (keep.width, keep.height),
                sheet_credit(material, keep),
                scale,
                _ROOMS,
            ),
            strict=True,
        )
    )
    return tuple(
        price
        if wanted[part.id]
        else min(most[rooms[part.id]], most[turned.get(part.id, rooms[part.id])])
        for part, price in zip(material.parts, prices, strict=True)
    )


def shared_weights(material: SheetMaterial, weights: tuple[int, ...]) -> tuple[int, ...]:
    """Return one weight a part: one that has none weighs what the lightest of its size does."""

    def size(place: int) -> tuple[int, int, bool]:
        part = material.parts[place]
        width, height = int(part.width), int(part.height)
        return (
            (max(width, height), min(width, height), True) if part.turn else (width, height, False)
        )

    known: dict[tuple[int, int, bool], int] = {}
    for place, weight in enumerate(weights):
        if weight:
            known[size(place)] = min(weight, known.get(size(place), weight))
    return tuple(weight or known.get(size(place), 0) for place, weight in enumerate(weights))
