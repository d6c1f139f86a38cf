"""Marks: equal parts of a job share one, so that the fitter cuts six of N1 and not N1 to N6.

A letter for the kind and a number by descending size, ties by first appearance.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import replace
from typing import TypeVar

from optimiser.domain.frame import Bead, Board, Member

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


def mark_members(members: Iterable[Member]) -> tuple[Member, ...]:
    """Return the members with their marks."""
    listed = tuple(members)
    marks = _marks(
        listed,
        lambda m: LETTERS[m.kind],
        lambda m: (LETTERS[m.kind], m.material, m.length),
        lambda m: m.length,
    )
    return tuple(replace(m, mark=mark) for m, mark in zip(listed, marks, strict=True))


def mark_boards(boards: Iterable[Board]) -> tuple[Board, ...]:
    """Return the boards with their marks; equal means equal cut-outs too."""
    listed = tuple(boards)
    marks = _marks(
        listed,
        lambda _: BOARD_LETTER,
        lambda b: (b.material, b.width, b.height, b.cut_outs, b.turn),
        lambda b: b.width * b.height,
    )
    return tuple(replace(b, mark=mark) for b, mark in zip(listed, marks, strict=True))


def mark_beads(beads: Iterable[Bead]) -> tuple[Bead, ...]:
    """Return the beads with their marks."""
    listed = tuple(beads)
    marks = _marks(
        listed,
        lambda b: LETTERS[b.kind],
        lambda b: (b.kind, b.material, b.length),
        lambda b: b.length,
    )
    return tuple(replace(b, mark=mark) for b, mark in zip(listed, marks, strict=True))


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
