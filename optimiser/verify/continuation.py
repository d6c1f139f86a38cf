"""A continuation held against the plan it continues: nothing twice, nothing lost, nothing made up.

The rest's own plan passes the checker like any other. Beyond that, finished parts and the rest
together give every part exactly as often as asked, by the same rules and of the same size, every
remnant the rest cuts from is found in the layout it names, as its cut list leaves it, and stock in
hand is what was bought and not used.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault
from optimiser.domain.marks import State
from optimiser.domain.plan import LengthLayout, LengthPlan, SheetLayout
from optimiser.domain.request import LengthMaterial, SheetMaterial
from optimiser.units import mm
from optimiser.verify.check import check_plan
from optimiser.verify.cut_outs import cut_out_of, trim_of

if TYPE_CHECKING:
    from optimiser.domain.continuation import Continuation, Rest
    from optimiser.domain.marks import Mark, Marks
    from optimiser.domain.plan import CuttingPlan, SheetPlan
    from optimiser.domain.request import CuttingRequest
    from optimiser.domain.stock import EdgeTrim

# (width, height) of a piece; a length is (0, length).
_Size = tuple[int, int]


def check_continuation(
    request: CuttingRequest, plan: CuttingPlan, marks: Marks, continuation: Continuation
) -> tuple[Fault, ...]:
    """Return every fault of a continuation of a sound plan, none if it is sound."""
    faults: list[Fault] = []
    finished: Counter[str] = Counter()
    places = {
        material.material: _Place(material, drawn, marks)
        for material, drawn in zip(request.materials, plan.materials, strict=True)
    }
    for place in places.values():
        finished += place.good
    if dict(continuation.finished) != dict(finished):
        faults.append(Fault("finished", "is not what the marks say has come off and is good"))
    rest = continuation.rest
    cut: Counter[str] = Counter()
    if rest is not None:
        faults += check_plan(rest.request, rest.plan)
        for item in rest.plan.materials:
            for layout in item.layouts:
                for part in layout.parts:
                    cut[part.part] += layout.count
        for material in rest.request.materials:
            if material.material in places:
                faults += places[material.material].check(material, rest)
            else:
                faults.append(Fault(material.material, "is no material of the plan"))
    faults += _check_demand(request, plan, finished + cut)
    return tuple(faults)


def _check_demand(request: CuttingRequest, plan: CuttingPlan, found: Counter[str]) -> list[Fault]:
    chosen = {one.choice: one.option for one in plan.chosen}
    optional = {id_ for choice in request.choices for option in choice.options for id_ in option}
    wanted = {id_ for one in request.choices for id_ in one.options[chosen[one.id]]}
    asked = {
        part.id: part.quantity
        for material in request.materials
        for part in material.parts
        if part.id not in optional - wanted
    }
    return [
        Fault("parts", f"part {id_!r} comes {found[id_]} times in all, asked {asked.get(id_, 0)}")
        for id_ in {**asked, **found}
        if found[id_] != asked.get(id_, 0)
    ]


class _Place:
    """One material where it was left: good parts, pieces on the floor, stock never touched."""

    def __init__(
        self, material: LengthMaterial | SheetMaterial, drawn: LengthPlan | SheetPlan, marks: Marks
    ) -> None:
        self._material = material
        self.good: Counter[str] = Counter()
        self._lying: dict[tuple[int, int, str], _Size] = {}
        self._whole: Counter[str] = Counter()
        self._bought: Counter[str] = Counter()
        self._touched: set[str] = set()
        self._cut: Counter[str] = Counter()
        self._rough: dict[tuple[int, int, str], EdgeTrim] = {}
        own = [mark for mark in marks.marks if mark.material == material.material]
        layouts: Sequence[LengthLayout | SheetLayout] = drawn.layouts
        # Pieces that are marked have had their cut-outs, whichever layout comes first.
        self._freed = Counter(
            (layout.stock, layout.cut_out)
            for number, layout in enumerate(layouts, start=1)
            if isinstance(layout, SheetLayout) and layout.cut_out is not None
            for mark in own
            if mark.layout == number
            for _ in range(mark.pieces)
        )
        for number, layout in enumerate(layouts, start=1):
            piece = 0
            for mark in own:
                if mark.layout == number:
                    for _ in range(mark.pieces):
                        piece += 1
                        self._walk(layout, mark, (number, piece))
            if isinstance(layout, SheetLayout) and layout.cut_out is not None:
                self._lay_down_freed(layout, number, piece)
            elif layout.offcut:
                self._touched |= {layout.stock} if piece else set()
            else:
                self._bought[layout.stock] += layout.count
                self._whole[layout.stock] += layout.count - piece
        laid = marks.floor.lengths if isinstance(drawn, LengthPlan) else marks.floor.sheets
        self._floor = {piece.id: piece for name, piece in laid if name == material.material}

    def _lay_down_freed(self, layout: SheetLayout, number: int, used: int) -> None:
        """Lay down cut-outs that came off with their parts, spoiled or not, and were not used."""
        assert isinstance(self._material, SheetMaterial)
        found = cut_out_of(layout, self._material)
        if found is None:
            return
        trim = trim_of(*found, self._material)
        assert layout.cut_out is not None
        key = (layout.stock, layout.cut_out)
        for piece in range(used + 1, layout.count + 1):
            if self._cut[layout.stock] > self._freed[key]:
                self._freed[key] += 1
                self._lying[number, piece, "cut-out"] = (found[1].width, found[1].height)
                self._rough[number, piece, "cut-out"] = trim

    def _walk(self, layout: LengthLayout | SheetLayout, mark: Mark, at: tuple[int, int]) -> None:
        if mark.state is State.DAMAGED:
            return
        made = len(layout.cuts) if mark.state is State.CUT else mark.cuts
        before = Counter(self.good)
        if isinstance(layout, LengthLayout):
            self._walk_length(layout, made, at)
        else:
            self._walk_sheet(layout, made, at)
        self._cut = self._cut + self.good - before
        self.good.subtract(Counter(mark.spoiled))

    def _walk_length(self, layout: LengthLayout, made: int, at: tuple[int, int]) -> None:
        assert isinstance(self._material, LengthMaterial)
        all_cut = made == len(layout.cuts)
        off = layout.parts if all_cut else layout.parts[:made]
        self.good.update(part.part for part in off)
        if all_cut:
            for left in layout.offcuts:
                self._lying[*at, "rest"] = (0, left.length)
            return
        long = {(item.id, False): item.length for item in self._material.stock}
        trims = {(item.id, False): self._material.end_trim for item in self._material.stock}
        long |= {(item.id, True): item.length for item in self._material.offcuts}
        trims |= {(item.id, True): item.end_trim for item in self._material.offcuts}
        key = (layout.stock, layout.offcut)
        behind_blade = layout.cuts[made - 1].at + self._material.kerf
        self._lying[*at, "rest"] = (0, long[key] - trims[key] - behind_blade)

    def _walk_sheet(self, layout: SheetLayout, made: int, at: tuple[int, int]) -> None:
        material = self._material
        assert not isinstance(material, LengthMaterial)
        size = {
            (item.id, False): material.edge_trim.inside(item.width, item.height)
            for item in material.stock
        } | {
            (item.id, True): item.edge_trim.inside(item.width, item.height)
            for item in material.offcuts
        }
        if layout.cut_out is None:
            whole = size[layout.stock, layout.offcut]
        else:
            found = cut_out_of(layout, material)
            assert found is not None
            whole = trim_of(*found, material).inside(found[1].width, found[1].height)
        pieces: dict[str, _Size] = {"sheet": whole}
        for cut in layout.cuts[:made]:
            width, height = pieces.pop(cut.of)
            rest = (width if cut.direction == "rip" else height) - cut.at - material.kerf
            if cut.direction == "rip":
                pieces[f"{cut.n}a"], far = (cut.at, height), (rest, height)
            else:
                pieces[f"{cut.n}a"], far = (width, cut.at), (width, rest)
            if rest > 0:
                pieces[f"{cut.n}b"] = far
        self.good.update(part.part for part in layout.parts if part.piece in pieces)
        gone = {part.piece for part in layout.parts} | {left.piece for left in layout.scrap}
        for name, lying in pieces.items():
            if name not in gone:
                self._lying[*at, name] = lying

    def check(self, asked: LengthMaterial | SheetMaterial, rest: Rest) -> list[Fault]:
        """Return what the rest's request takes that is not there, of this material."""
        name = self._material.material
        faults: list[Fault] = []
        if _rules(asked) != _rules(self._material):
            faults.append(Fault(name, "is cut by other rules than were asked"))
        parts = {part.id: part for part in self._material.parts}
        for one in asked.parts:
            if (
                one.id not in parts
                or replace(one, quantity=parts[one.id].quantity) != parts[one.id]
            ):
                faults.append(Fault(name, f"part {one.id!r} is not as it was asked"))
        floor = {piece.id: piece for piece in rest.floor if piece.material == name}
        places = [(piece.layout, piece.piece, piece.name) for piece in floor.values()]
        if len(set(places)) != len(places):
            faults.append(Fault(name, "takes one piece from the floor twice"))
        racked = {offcut.id: offcut for offcut in self._material.offcuts}
        for offcut in asked.offcuts:
            size = (getattr(offcut, "width", 0), _long(offcut))
            if offcut.id in floor:
                piece = floor[offcut.id]
                there = self._lying.get((piece.layout, piece.piece, piece.name))
                if there != size:
                    shown = "nothing" if there is None else " × ".join(map(mm, there))
                    faults.append(
                        Fault(name, f"{offcut.id!r} is {' × '.join(map(mm, size))}, found {shown}")
                    )
                rough = self._rough.get((piece.layout, piece.piece, piece.name))
                if rough is not None and rough != getattr(offcut, "edge_trim", None):
                    faults.append(Fault(name, f"{offcut.id!r} keeps its sawn edges"))
            elif self._floor.get(offcut.id) != offcut and (
                racked.get(offcut.id) != offcut or offcut.id in self._touched
            ):
                faults.append(Fault(name, f"{offcut.id!r} is neither on the floor nor racked"))
        return faults + self._check_stock(asked, rest)

    def _check_stock(self, asked: LengthMaterial | SheetMaterial, rest: Rest) -> list[Fault]:
        name = self._material.material
        hands = {piece.id: piece.stock for piece in rest.in_hand if piece.material == name}
        known = {item.id: item for item in self._material.stock}
        faults = []
        if len(set(hands.values())) != len(hands):
            faults.append(Fault(name, "takes stock in hand twice"))
        for item in asked.stock:
            bought = known.get(hands.get(item.id, item.id))
            if bought is None or (getattr(bought, "width", 0), _long(bought)) != (
                getattr(item, "width", 0),
                _long(item),
            ):
                faults.append(Fault(name, f"stock {item.id!r} is not sold in that size"))
            elif item.id in hands:
                most = self._whole[bought.id]
                if item.price or item.available is None or item.available > most:
                    faults.append(
                        Fault(name, f"{item.id!r}: {most} pieces are in hand, for no money")
                    )
            elif item.price != bought.price or (
                bought.available is not None
                and item.available != max(0, bought.available - self._bought[item.id])
            ):
                faults.append(Fault(name, f"stock {item.id!r} is not what can still be bought"))
        return faults


def _rules(material: LengthMaterial | SheetMaterial) -> LengthMaterial | SheetMaterial:
    """Return a material without what changes when work stops: pieces, counts and credit."""
    if isinstance(material, LengthMaterial):
        return replace(material, stock=(), offcuts=(), parts=(), keep=None)
    return replace(material, stock=(), offcuts=(), parts=(), keep=None)


def _long(piece: object) -> int:
    """Return the length of a length or the height of a sheet."""
    size = getattr(piece, "length", None)
    return int(getattr(piece, "height", 0) if size is None else size)
