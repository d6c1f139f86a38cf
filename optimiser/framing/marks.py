"""Marks: equal parts of a job share one, so that the fitter cuts six of N1 and not N1 to N6.

A letter for the kind and a number by descending size, ties by first appearance.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

from optimiser.domain.frame import Bead, Board, Member
from optimiser.domain.parts import DimensionFrom
from optimiser.framing.changed import changed

LETTERS = {
    "sole plate": "P",
    "head plate": "P",
    "upright": "U",
    "short upright": "K",
    "sill": "S",
    "head": "S",
    "noggin": "N",
    "return": "R",
    "strut": "T",
    "ledger": "L",
    "corner bead": "C",
    "stop bead": "E",
}
BOARD_LETTER = "B"

Part = TypeVar("Part")
Sources = tuple[DimensionFrom, ...]


def mark_members(members: Iterable[tuple[Member, Sources]]) -> tuple[Member, ...]:
    """Return the members with their marks, and with where their sizes come from."""
    listed, sources = _parted(members)
    marks = _marks(
        listed,
        lambda m: LETTERS[m.kind],
        lambda m: (LETTERS[m.kind], m.material, m.length),
        lambda m: m.length,
    )
    return tuple(
        changed(m, mark=mark, dimension_from=source)
        for m, mark, source in zip(listed, marks, sources, strict=True)
    )


def mark_boards(boards: Iterable[tuple[Board, Sources]]) -> tuple[Board, ...]:
    """Return the boards likewise; equal means equal cut-outs too."""
    listed, sources = _parted(boards)
    marks = _marks(
        listed,
        lambda _: BOARD_LETTER,
        lambda b: (b.material, b.width, b.height, b.cut_outs, b.turn),
        lambda b: b.width * b.height,
    )
    return tuple(
        changed(b, mark=mark, dimension_from=source)
        for b, mark, source in zip(listed, marks, sources, strict=True)
    )


def mark_beads(beads: Iterable[tuple[Bead, Sources]]) -> tuple[Bead, ...]:
    """Return the beads likewise."""
    listed, sources = _parted(beads)
    marks = _marks(
        listed,
        lambda b: LETTERS[b.kind],
        lambda b: (b.kind, b.material, b.length),
        lambda b: b.length,
    )
    return tuple(
        changed(b, mark=mark, dimension_from=source)
        for b, mark, source in zip(listed, marks, sources, strict=True)
    )


def _parted(parts: Iterable[tuple[Part, Sources]]) -> tuple[tuple[Part, ...], tuple[Sources, ...]]:
    listed = tuple(parts)
    return tuple(part for part, _ in listed), tuple(source for _, source in listed)


def _marks(
    parts: tuple[Part, ...],
    letter: Callable[[Part], str],
    same: Callable[[Part], Hashable],
    size: Callable[[Part], int],
) -> list[str]:
    first: dict[Hashable, Part] = {}
    for part in parts:
        first.setdefault(same(part), part)
    counted: dict[str, int] = {}
    marks: dict[Hashable, str] = {}
    # The sort is stable: equal sizes keep the order in which they appear.
    for key, part in sorted(first.items(), key=lambda entry: -size(entry[1])):
        name = letter(part)
        counted[name] = counted.get(name, 0) + 1
        marks[key] = f"{name}{counted[name]}"
    return [marks[same(part)] for part in parts]
