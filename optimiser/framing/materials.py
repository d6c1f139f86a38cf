"""Which timber, boards and beads of the price book a wall is built from: as chosen, or by use."""

from __future__ import annotations

from typing import TypeVar

from optimiser.domain.price_book import LengthItem, PriceBook, SheetItem
from optimiser.domain.request import Cutting
from optimiser.domain.wall import Wall
from optimiser.framing.notes import Notes

Item = TypeVar("Item", LengthItem, SheetItem)


def choose_materials(
    wall: Wall, book: PriceBook, notes: Notes
) -> tuple[
    LengthItem | None, SheetItem | None, SheetItem | None, LengthItem | None, LengthItem | None
]:
    """Return timber, board, backboard, corner bead and stop bead, as `pick` does each."""
    chosen = wall.materials
    timbers = [item for item in book.lengths if item.grade]
    beads = [item for item in book.lengths if not item.grade]
    boards = [item for item in book.sheets if item.cutting is Cutting.KNIFE]
    sawn = sorted(
        # A board that does not burn is bought to line a fire, and holds no bracket's screws.
        (i for i in book.sheets if i.cutting is Cutting.SAW and not i.is_non_combustible),
        key=lambda item: (abs(item.thickness - 120), item.material),
    )
    return (
        pick("timber", chosen.timber, book.lengths, timbers, notes),
        pick("board", chosen.board, book.sheets, boards, notes),
        pick("backboard", chosen.backboard, book.sheets, sawn, notes),
        pick("corner_bead", chosen.corner_bead, book.lengths, _named(beads, "corner"), notes),
        pick("stop_bead", chosen.stop_bead, book.lengths, _named(beads, "stop"), notes),
    )


def _named(items: list[LengthItem], word: str) -> list[LengthItem]:
    return [item for item in items if word in f"{item.material} {item.description}".lower()]


def pick(
    name: str, given: str | None, known: tuple[Item, ...], fitting: list[Item], notes: Notes
) -> Item | None:
    """Return the item of the price book that was asked for, or the first that fits the use.

    Where it is amiss, which is recorded, some other item, or None when the price book has none.
    """
    where = name if "." in name else f"materials.{name}"
    if given is None:
        if fitting:
            return notes.take(where, None, fitting[0], lambda item: item.material)
        notes.problem(
            where, f"{where} is left out, and the price book has none", "add one to the price book"
        )
        return None
    for item in known:
        if item.material == given:
            return item
    names = ", ".join(item.material for item in known) or "none"
    notes.problem(where, f'{where} "{given}" is not in the price book', f"choose one of: {names}")
    # Something of its kind, so that further faults of the file come in the same answer.
    return next(iter(fitting), None) or next(iter(known), None)
