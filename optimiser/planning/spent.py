"""Where the money of a plan's stock goes: to parts, kept offcuts, scrap, kerf and trim.

A length or sheet is worth what it costs (a rack offcut what the plan counts for it), and each share
of its length or area that share of the money. What a layout wastes or keeps is dealt to the jobs
cut from it in the measure of their parts: who shares a sheet shares its waste. What is cut out of a
part is scrap; where other parts are cut from it, it stays with the part's job, who paid for it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from optimiser.domain.charted import Spent
from optimiser.domain.plan import CuttingPlan, SheetPlan
from optimiser.domain.request import CuttingRequest, SheetMaterial
from optimiser.planning.worth import length_credit, sheet_credit, value_of


@dataclass(frozen=True, slots=True)
class _Cut:
    """One layout: its money for all its copies, its size, and who takes how much of it."""

    material: str
    money: int
    size: int
    parts: dict[str, Fraction]
    kept: int
    scrap: Fraction


def spent_by_material(request: CuttingRequest, plan: CuttingPlan) -> tuple[Spent, ...]:
    """Return the money of each material's stock by where it goes, in the order of the plan."""
    found = {item.material: _nothing(item.material) for item in plan.materials}
    for cut in _cuts(request, plan):
        found[cut.material] = _added(found[cut.material], cut, Fraction(1))
    return tuple(found.values())


def spent_by_job(request: CuttingRequest, plan: CuttingPlan) -> tuple[Spent, ...]:
    """Return the money of each job's share of the stock by where it goes, by the jobs' names."""
    found: dict[str, Spent] = {}
    for cut in _cuts(request, plan):
        whole = sum(cut.parts.values())
        for job, size in cut.parts.items():
            found[job] = _added(found.get(job, _nothing(job)), cut, Fraction(size, whole))
    return tuple(found[job] for job in sorted(found))


def _nothing(name: str) -> Spent:
    none = Fraction(0)
    return Spent(name=name, parts=none, kept=none, scrap=none, saw=none)


def _added(spent: Spent, cut: _Cut, share: Fraction) -> Spent:
    each = Fraction(cut.money, cut.size) * share
    parts = sum(cut.parts.values())
    return Spent(
        name=spent.name,
        parts=spent.parts + each * parts,
        kept=spent.kept + each * cut.kept,
        scrap=spent.scrap + each * cut.scrap,
        saw=spent.saw + each * (cut.size - parts - cut.kept - cut.scrap),
    )


def _cuts(request: CuttingRequest, plan: CuttingPlan) -> Iterator[_Cut]:
    yield from _length_cuts(request, plan)
    yield from _sheet_cuts(request, plan)


def _length_cuts(request: CuttingRequest, plan: CuttingPlan) -> Iterator[_Cut]:
    for lengths, asked in zip(plan.lengths, request.lengths, strict=True):
        credit = length_credit(asked, request.keep_for(asked))
        stock = {item.id: (item.length, item.price) for item in asked.stock}
        rack = {item.id: (item.length, value_of(credit, item.length)) for item in asked.offcuts}
        for layout in lengths.layouts:
            size, money = (rack if layout.offcut else stock)[layout.stock]
            parts: dict[str, Fraction] = {}
            for part in layout.parts:
                parts[part.job] = parts.get(part.job, Fraction(0)) + part.length
            yield _Cut(
                lengths.material,
                money * layout.count,
                size,
                parts,
                sum(left.length for left in layout.offcuts),
                Fraction(sum(left.length for left in layout.scrap)),
            )


def _sheet_cuts(request: CuttingRequest, plan: CuttingPlan) -> Iterator[_Cut]:
    for sheets, asked in zip(plan.sheets, request.sheets, strict=True):
        credit = sheet_credit(asked, request.keep_for(asked))
        stock = {item.id: (item.width * item.height, item.price) for item in asked.stock}
        rack = {
            item.id: (item.width * item.height, value_of(credit, item.width * item.height))
            for item in asked.offcuts
        }
        wasted = _wasted(asked, sheets)
        for layout in sheets.layouts:
            if layout.cut_out is not None:
                # Paid for with the sheet that its part is cut from.
                continue
            size, money = (rack if layout.offcut else stock)[layout.stock]
            parts: dict[str, Fraction] = {}
            scrap = Fraction(sum(left.width * left.height for left in layout.scrap))
            for part in layout.parts:
                own = part.width * part.height - wasted[part.part]
                parts[part.job] = parts.get(part.job, Fraction(0)) + own
                scrap += wasted[part.part]
            yield _Cut(
                sheets.material,
                money * layout.count,
                size,
                parts,
                sum(left.width * left.height for left in layout.offcuts),
                scrap,
            )


def _wasted(asked: SheetMaterial, sheets: SheetPlan) -> dict[str, Fraction]:
    """Return by part the area cut out of it from which nothing is cut, on average of its copies."""
    used: Counter[tuple[str, int]] = Counter()
    for layout in sheets.layouts:
        if layout.cut_out is not None:
            used[layout.stock, layout.cut_out] += layout.count
    return {
        part.id: sum(
            (
                hole.width * hole.height * (1 - Fraction(used[part.id, n], part.quantity))
                for n, hole in enumerate(part.cut_outs)
            ),
            Fraction(0),
        )
        for part in asked.parts
    }
