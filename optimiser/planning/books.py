"""Several merchants' price books as one, for framing and for settling ways of boarding."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from optimiser.domain.price_book import NO_TERMS, LengthItem, PackItem, PriceBook, SheetItem
from optimiser.errors import InvalidInput, Problem
from optimiser.units import mm


def merged_book(books: tuple[PriceBook, ...]) -> PriceBook:
    """Return one book with each material as that merchant sells it whose stock is cheapest.

    Cheapest is the least price of a metre or square metre. Pack items are of the first who sells
    them; breaks and terms are left out. Raises InvalidInput for books that do not go together: two
    of one merchant or currency, or a material that is not the same thing in both.
    """
    problems = tuple(_problems(books))
    if problems:
        raise InvalidInput(problems)
    first, *others = books
    lengths: dict[str, LengthItem] = {}
    sheets: dict[str, SheetItem] = {}
    packs: dict[str, PackItem] = {}
    for book in (first, *others):
        for item in book.lengths:
            lengths[item.material] = min(lengths.get(item.material, item), item, key=_by_metre)
        for board in book.sheets:
            sheets[board.material] = min(sheets.get(board.material, board), board, key=_by_area)
        for pack in book.packs:
            packs.setdefault(pack.item, pack)
    return replace(
        first,
        merchant=" and ".join(book.merchant for book in books),
        lengths=tuple(lengths.values()),
        sheets=tuple(sheets.values()),
        packs=tuple(packs.values()),
        breaks=(),
        terms=NO_TERMS,
    )


def _by_metre(item: LengthItem) -> Fraction:
    return min(Fraction(stock.price, stock.length) for stock in item.stock)


def _by_area(item: SheetItem) -> Fraction:
    return min(Fraction(stock.price, stock.width * stock.height) for stock in item.stock)


def _problems(books: tuple[PriceBook, ...]) -> Iterator[Problem]:
    if not books:
        yield Problem("price books", "are missing", "Give at least one")
        return
    names = [book.merchant for book in books]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield Problem(f"merchant {name!r}", "has two price books here", "Give one of them")
    currencies = sorted({book.currency for book in books})
    if len(currencies) > 1:
        trouble = f"are in {' and '.join(currencies)}"
        yield Problem("price books", trouble, "Give books in one currency")
    known: dict[str, tuple[str, str]] = {}
    for book in books:
        things = {item.material: _length_words(item) for item in book.lengths}
        things |= {board.material: _sheet_words(board) for board in book.sheets}
        for material, words in things.items():
            merchant, before = known.setdefault(material, (book.merchant, words))
            if words != before:
                yield Problem(
                    f"material {material!r}",
                    f"is {before} at {merchant!r} and {words} at {book.merchant!r}",
                    "Give each thing its own name, or the same sizes in both books",
                )


def _length_words(item: LengthItem) -> str:
    return f"a length of {mm(item.thickness)} × {mm(item.width)} {item.grade}".strip()


def _sheet_words(item: SheetItem) -> str:
    return f"a sheet of {mm(item.thickness)}, cut by {item.cutting.value}"
