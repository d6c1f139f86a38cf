"""What makes a board part impossible to cut: its size, its cut-outs, the rules of the saw."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from optimiser.domain.parts import BoardPart, CutOut
from optimiser.domain.request import Direction, SheetMaterial
from optimiser.errors import Problem
from optimiser.planning.measures import count_problems, ease_problems, size_problems
from optimiser.units import mm


@dataclass(frozen=True, slots=True)
class Usable:
    """A sheet or rack offcut less its trims, with what people call it."""

    name: str
    width: int
    height: int


def board_problems(
    field: str, material: SheetMaterial, part: BoardPart, usable: list[Usable]
) -> Iterator[Problem]:
    """Name everything about a part that no plan could put right."""
    here = f"part {part.id!r}"
    yield from size_problems(here, width=part.width, height=part.height)
    yield from ease_problems(here, part.ease, width=part.width, height=part.height)
    yield from count_problems(f"{here}.quantity", part.quantity, least=1)
    for number, hole in enumerate(part.cut_outs):
        yield from _cut_out_problems(f"{here}.cut_outs[{number}]", part, hole)
    if _overlap(part.cut_outs):
        yield Problem(f"{here}.cut_outs", "overlap each other", "Give each its own rectangle")
    elif _is_split(part):
        yield Problem(
            f"{here}.cut_outs",
            "leave no part in one piece: together they cut it apart",
            "Leave a way between them, or list the pieces as parts of their own",
        )
    if not any(True for _ in _cuts_needed(part, usable)):
        yield _too_large(here, material, part, usable)
    elif material.max_stages is not None or material.first_cut is not None:
        yield from _rule_problems(field, here, material, part, usable)


def _cuts_needed(part: BoardPart, usable: list[Usable]) -> Iterator[tuple[bool, bool]]:
    """Say of each sheet and way round that a part fits: does it need a rip, and a crosscut?"""
    for across, along in ((part.width, part.height), (part.height, part.width)):
        for sheet in usable:
            if across <= sheet.width and along <= sheet.height:
                yield across < sheet.width, along < sheet.height
        if not part.turn:
            return


def _too_large(
    here: str, material: SheetMaterial, part: BoardPart, usable: list[Usable]
) -> Problem:
    largest = max(usable, key=lambda sheet: sheet.width * sheet.height, default=None)
    tried = (
        "there is no stock and no offcut"
        if largest is None
        else f"the largest tried is {largest.name}, usable "
        f"{mm(largest.width)} × {mm(largest.height)}"
    )
    return Problem(
        f"{here}.width_mm × height_mm",
        f"{mm(part.width)} × {mm(part.height)} fits no {material.material}; {tried}",
        "Add a larger sheet, allow the part to be turned, or join it from two",
    )


def _rule_problems(
    field: str, here: str, material: SheetMaterial, part: BoardPart, usable: list[Usable]
) -> Iterator[Problem]:
    """Name the rule of the saw that keeps a part from every sheet that is large enough for it."""
    size = f"{mm(part.width)} × {mm(part.height)}"
    most, first = material.max_stages, material.first_cut
    needed = set(_cuts_needed(part, usable))
    if most is not None and all(sum(cuts) > most for cuts in needed):
        yield Problem(
            f"{field}.max_stages",
            f"{most} does not free {here} of {size}, which needs a rip and a crosscut everywhere",
            "Allow 2 stages or more",
        )
    elif first is not None and not any(
        _may_begin(first, rip=rip, crosscut=crosscut) for rip, crosscut in needed
    ):
        yield Problem(
            f"{field}.first_cut",
            f"{first.value} first does not free {here} of {size}, which fills every sheet that way",
            "Begin with the other cut, or make the part smaller",
        )


def _may_begin(first: Direction, *, rip: bool, crosscut: bool) -> bool:
    """Return whether a part that needs these cuts can be freed by beginning with `first`."""
    return (rip if first is Direction.RIP else crosscut) or not (rip or crosscut)


def _cut_out_problems(field: str, part: BoardPart, hole: CutOut) -> Iterator[Problem]:
    yield from size_problems(field, width=hole.width, height=hole.height)
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


def _is_split(part: BoardPart) -> bool:
    """Return whether what the cut-outs leave of a part is more than one piece, or nothing.

    The part is swept from below in bands between the cut-outs' edges; free stretches of
    neighbouring bands that share some width are one piece.
    """
    holes = part.cut_outs
    if len(holes) < 2:
        return False  # one alone splits a part only from edge to edge, which is named by itself
    levels = sorted({0, part.height, *(e for h in holes for e in (h.y, h.y + h.height))})
    pieces = 0
    below: list[tuple[int, int, int]] = []
    joined: dict[int, int] = {}

    def root(piece: int) -> int:
        while joined[piece] != piece:
            piece = joined[piece]
        return piece

    for low in levels[:-1]:
        crossing = sorted((int(h.x), h.x + h.width) for h in holes if h.y <= low < h.y + h.height)
        band: list[tuple[int, int, int]] = []
        x = 0
        for start, stop in [*crossing, (int(part.width), int(part.width))]:
            if start > x:
                joined[pieces] = pieces
                band.append((x, start, pieces))
                pieces += 1
            x = max(x, stop)
        for start, stop, piece in band:
            for other_start, other_stop, other in below:
                if start < other_stop and other_start < stop:
                    joined[root(other)] = root(piece)
        below = band
    return len({root(piece) for piece in joined}) != 1
