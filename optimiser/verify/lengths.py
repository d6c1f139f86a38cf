"""Walk every length from its left end, cut by cut, and list all that is not as it must be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault
from optimiser.domain.plan import LengthLayout, LengthPlan, Money, Stretch, Usage
from optimiser.units import mm
from optimiser.verify.supply import check_supply
from optimiser.verify.worth import length_is_kept, length_rate, worth

if TYPE_CHECKING:
    from optimiser.domain.parts import LengthPart
    from optimiser.domain.request import Keep, LengthMaterial


def check_length_layouts(
    plan: LengthPlan, material: LengthMaterial, keep: Keep
) -> tuple[list[Fault], dict[str, int], Money, Usage]:
    """Return the faults, how often each part is cut, and money and usage as walked."""
    faults: list[Fault] = []
    counted: dict[str, int] = {}
    sums = {"part": 0, "offcut": 0, "scrap": 0, "kerf": 0, "trim": 0}
    purchase = used = credit = 0
    rate = length_rate(material, keep)
    parts = {part.id: part for part in material.parts}
    bought = {stock.id: stock for stock in material.stock}
    racked = {offcut.id: offcut for offcut in material.offcuts}
    faults += check_supply(
        material.material,
        [(layout.stock, layout.offcut, layout.count) for layout in plan.layouts],
        {stock.id: stock.available for stock in material.stock},
        set(racked),
    )
    for number, layout in enumerate(plan.layouts, start=1):
        where = f"{material.material} layout {number}"
        piece = racked.get(layout.stock) if layout.offcut else bought.get(layout.stock)
        if piece is None or layout.count < 1:
            continue  # named by check_supply
        trim = racked[layout.stock].end_trim if layout.offcut else material.end_trim
        walk = _Walk(where, layout, piece.length, trim, material.kerf, keep)
        faults += walk.faults(parts)
        for placed in layout.parts:
            counted[placed.part] = counted.get(placed.part, 0) + layout.count
        for name, size in walk.usage().items():
            sums[name] += size * layout.count
        if layout.offcut:
            used += worth(rate, piece.length) * layout.count
        else:
            purchase += bought[layout.stock].price * layout.count
        credit += sum(worth(rate, stretch.length) for stretch in layout.offcuts) * layout.count
    money = Money.of(purchase=purchase, offcuts_used=used, credit=credit)
    return faults, counted, money, Usage(**sums)


class _Walk:
    """One length, measured from its left end."""

    def __init__(
        self, where: str, layout: LengthLayout, length: int, trim: int, kerf: int, keep: Keep
    ) -> None:
        self._where = where
        self._layout = layout
        self._length = length
        self._trim = trim
        self._kerf = kerf
        self._keep = keep
        self._end = length - trim
        self._cuts: list[int] = []

    def faults(self, parts: dict[str, LengthPart]) -> list[Fault]:
        found: list[str] = []
        position = self._trim
        if not self._layout.parts:
            found.append("no part is cut from it")
        for index, placed in enumerate(self._layout.parts):
            part = parts.get(placed.part)
            if part is None:
                found.append(f"part {placed.part!r} was never asked for")
            elif (part.length, part.job) != (placed.length, placed.job):
                found.append(f"part {placed.part!r} is not as asked (length or job)")
            if index:
                self._cuts.append(position)
                position += self._kerf
            if placed.start != position:
                found.append(
                    f"part {placed.part!r} starts at {mm(placed.start)} where the blade leaves off "
                    f"at {mm(position)}"
                )
            position = placed.start + placed.length
        if position > self._end:
            found.append(f"parts run {mm(position - self._end)} mm past the usable end")
        elif position < self._end:
            self._cuts.append(position)
        found += self._check_rest(position)
        cuts = [(cut.n, cut.at) for cut in self._layout.cuts]
        if cuts != list(enumerate(self._cuts, start=1)):
            found.append("the cut list does not match the parts")
        return [Fault(self._where, what) for what in found]

    def _check_rest(self, position: int) -> list[str]:
        start = position + self._kerf
        rest = self._end - start
        kept, scrap = self._layout.offcuts, self._layout.scrap
        if rest <= 0:
            return ["lists a remainder where there is none"] if kept or scrap else []
        should_keep = length_is_kept(self._keep, rest)
        listed, other = (kept, scrap) if should_keep else (scrap, kept)
        if other or [(piece.start, piece.length) for piece in listed] != [(start, rest)]:
            name = "an offcut" if should_keep else "scrap"
            return [f"must list {mm(rest)} mm from {mm(start)} as {name} and nothing else"]
        return []

    def usage(self) -> dict[str, int]:
        part = sum(placed.length for placed in self._layout.parts)
        offcut = _sum(self._layout.offcuts)
        scrap = _sum(self._layout.scrap)
        trim = 2 * self._trim
        return {
            "part": part,
            "offcut": offcut,
            "scrap": scrap,
            "trim": trim,
            "kerf": self._length - trim - part - offcut - scrap,
        }


def _sum(stretches: tuple[Stretch, ...]) -> int:
    return sum(stretch.length for stretch in stretches)
