"""Further parts cut from what a drawn layout leaves, without moving anything already drawn.

Each remainder of a layout is offered as an offcut of its own (a gap); what a plan cuts from gaps is
put back into the layouts they belong to, cuts and pieces renumbered after those that stand there.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.plan import Leftover, LengthCut, LengthLayout, SheetLayout, Stretch
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.planning.floor import Layout, remainders
from optimiser.units import Tenths

OffcutT = TypeVar("OffcutT", LengthOffcut, SheetOffcut)


@dataclass(frozen=True, slots=True)
class Gap:
    """One remainder of one drawn layout, by their places."""

    layout: int
    remainder: int


def gaps_of(layouts: list[Layout]) -> dict[str, tuple[Gap, LengthOffcut | SheetOffcut]]:
    """Return what the layouts leave, as offcuts under ids of their own."""
    found: dict[str, tuple[Gap, LengthOffcut | SheetOffcut]] = {}
    for number, layout in enumerate(layouts):
        for place, left in enumerate(remainders(layout)):
            # No id of a document can begin with a blank, so this meets none of them.
            id_ = f" gap {number}.{place}"
            offcut: LengthOffcut | SheetOffcut
            if isinstance(left, Stretch):
                offcut = LengthOffcut(id=id_, length=left.length)
            else:
                offcut = SheetOffcut(id=id_, width=left.width, height=left.height)
            found[id_] = (Gap(number, place), offcut)
    return found


def holds(offcut: LengthOffcut | SheetOffcut, part: LengthPart | BoardPart) -> bool:
    """Return whether a part can be cut from an offcut, trims taken off."""
    if isinstance(offcut, LengthOffcut):
        assert isinstance(part, LengthPart)
        return part.length <= offcut.length - 2 * offcut.end_trim
    assert isinstance(part, BoardPart)
    width, height = offcut.edge_trim.inside(offcut.width, offcut.height)
    return (part.width <= width and part.height <= height) or (
        part.turn and part.height <= width and part.width <= height
    )


def worth_offering(
    offcuts: Iterable[OffcutT], parts: Sequence[LengthPart | BoardPart]
) -> tuple[OffcutT, ...]:
    """Return for each part the smallest offcuts that hold it, two more than there are of it.

    More of them would take the planner long to weigh and hardly ever help.
    """
    by_size = sorted(offcuts, key=_size)
    chosen: set[str] = set()
    for part in parts:
        fitting = [offcut.id for offcut in by_size if holds(offcut, part)]
        chosen.update(fitting[: part.quantity + 2])
    return tuple(offcut for offcut in by_size if offcut.id in chosen)


def _size(offcut: LengthOffcut | SheetOffcut) -> tuple[int, str]:
    if isinstance(offcut, LengthOffcut):
        return offcut.length, offcut.id
    return offcut.width * offcut.height, offcut.id


def filled(
    layouts: list[Layout], cut_from_gaps: Mapping[Gap, Layout]
) -> tuple[list[Layout], set[int]]:
    """Return the layouts with what is cut from their gaps, and the places of those that took it."""
    result = list(layouts)
    for number in {gap.layout for gap in cut_from_gaps}:
        own = {gap: more for gap, more in cut_from_gaps.items() if gap.layout == number}
        base = layouts[number]
        # Remainders by what they are, not by place: filling one moves the others up.
        for gap, more in sorted(own.items(), key=lambda pair: pair[0].remainder):
            left = remainders(base)[gap.remainder]
            current = result[number]
            if isinstance(current, LengthLayout):
                assert isinstance(left, Stretch)
                assert isinstance(more, LengthLayout)
                result[number] = _with_length(current, left, more)
            else:
                assert isinstance(left, Leftover)
                assert isinstance(more, SheetLayout)
                result[number] = _with_sheet(current, left, more)
    return result, {gap.layout for gap in cut_from_gaps}


def _with_length(base: LengthLayout, left: Stretch, more: LengthLayout) -> LengthLayout:
    start = left.start
    drawn = len(base.cuts)
    return replace(
        base,
        parts=base.parts
        + tuple(replace(part, start=Tenths(part.start + start)) for part in more.parts),
        cuts=base.cuts
        + tuple(LengthCut(n=drawn + cut.n, at=Tenths(cut.at + start)) for cut in more.cuts),
        offcuts=tuple(replace(piece, start=Tenths(piece.start + start)) for piece in more.offcuts),
        scrap=tuple(replace(piece, start=Tenths(piece.start + start)) for piece in more.scrap),
    )


def _with_sheet(base: SheetLayout, left: Leftover, more: SheetLayout) -> SheetLayout:
    drawn = len(base.cuts)
    names = {"sheet": left.piece}
    for cut in more.cuts:
        names |= {f"{cut.n}{side}": f"{drawn + cut.n}{side}" for side in "ab"}

    def moved(pieces: tuple[Leftover, ...]) -> tuple[Leftover, ...]:
        return tuple(
            replace(one, piece=names[one.piece], x=Tenths(one.x + left.x), y=Tenths(one.y + left.y))
            for one in pieces
        )

    return replace(
        base,
        cuts=base.cuts
        + tuple(replace(cut, n=drawn + cut.n, of=names[cut.of]) for cut in more.cuts),
        parts=base.parts
        + tuple(
            replace(
                part, piece=names[part.piece], x=Tenths(part.x + left.x), y=Tenths(part.y + left.y)
            )
            for part in more.parts
        ),
        offcuts=tuple(one for one in base.offcuts if one != left) + moved(more.offcuts),
        scrap=tuple(one for one in base.scrap if one != left) + moved(more.scrap),
    )
