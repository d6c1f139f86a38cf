"""Marks held against their plan: every contradiction by name, before anything is replanned."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from optimiser.domain.marks import Mark, Marks, State
from optimiser.domain.plan import CuttingPlan, LengthLayout, SheetLayout
from optimiser.domain.request import CuttingRequest
from optimiser.errors import InvalidInput, Problem
from optimiser.verify.check import check_plan


def require_fitting(request: CuttingRequest, plan: CuttingPlan, marks: Marks) -> None:
    """Raise InvalidInput for a plan that its request does not bear out, and for odd marks."""
    faults = check_plan(request, plan)
    if faults:
        remedy = "Mark the plan that was made for this request, unchanged"
        raise InvalidInput(tuple(Problem(f.where, f.what, remedy) for f in faults))
    problems = (*_mark_problems(plan, marks), *_floor_problems(request, marks))
    problems = problems or tuple(_donor_problems(request, plan, marks))
    if problems:
        raise InvalidInput(problems)


def parts_off(layout: LengthLayout | SheetLayout, mark: Mark) -> tuple[str, ...]:
    """Return the ids of the parts that have come off one piece so marked."""
    # The last cut of a length may leave nothing but the last part.
    if mark.state is State.CUT or (mark.state is State.STARTED and mark.cuts == len(layout.cuts)):
        return tuple(part.part for part in layout.parts)
    if isinstance(layout, LengthLayout):
        return tuple(part.part for part in layout.parts[: mark.cuts])
    made = {f"{cut.n}{side}" for cut in layout.cuts[: mark.cuts] for side in "ab"}
    return tuple(part.part for part in layout.parts if part.piece in made)


class Freed:
    """How many cut-outs have come off with their parts, as the layouts are gone through in order.

    A spoiled part was cut as well: what is cut out of it lies there unless it is marked damaged.
    Pieces that are marked have taken theirs; what is left goes to the others in order.
    """

    def __init__(
        self, layouts: Sequence[LengthLayout | SheetLayout], marks: Iterable[Mark]
    ) -> None:
        self._cut: Counter[str] = Counter()
        self._taken: Counter[tuple[str, int]] = Counter()
        for mark in marks:
            layout = layouts[mark.layout - 1]
            if isinstance(layout, SheetLayout) and layout.cut_out is not None:
                self._taken[layout.stock, layout.cut_out] += mark.pieces

    def cut_by(self, layout: LengthLayout | SheetLayout, marks: Iterable[Mark]) -> None:
        """Count the parts that have come off the pieces of a layout so marked."""
        for mark in marks:
            if mark.state is not State.DAMAGED:
                for part in parts_off(layout, mark):
                    self._cut[part] += mark.pieces

    def take(self, layout: SheetLayout, most: int) -> int:
        """Take as many as lie there and no more than `most`; below 0: so many too few were cut."""
        assert layout.cut_out is not None
        key = (layout.stock, layout.cut_out)
        taken = min(most, self._cut[layout.stock] - self._taken[key])
        self._taken[key] += max(0, taken)
        return taken


def _donor_problems(request: CuttingRequest, plan: CuttingPlan, marks: Marks) -> Iterator[Problem]:
    """Name each cut-out that is marked before the part that it comes from is cut."""
    for material, drawn in zip(request.sheets, plan.sheets, strict=True):
        own = [mark for mark in marks.marks if mark.material == material.material]
        freed = Freed(drawn.layouts, own)
        for number, layout in enumerate(drawn.layouts, start=1):
            of_layout = [mark for mark in own if mark.layout == number]
            freed.cut_by(layout, of_layout)
            if layout.cut_out is None:
                continue
            if of_layout and freed.take(layout, 0) < 0:
                yield Problem(
                    f"marks of {material.material} layout {number}",
                    f"say that cut-out {layout.cut_out + 1} of {layout.stock!r} was used or lost, "
                    "more often than that part is marked as cut",
                    "Mark the piece that the part comes from as well",
                )


def _mark_problems(plan: CuttingPlan, marks: Marks) -> Iterator[Problem]:
    layouts = {item.material: item.layouts for item in plan.materials}
    taken: Counter[tuple[str, int]] = Counter()
    for number, mark in enumerate(marks.marks):
        here = f"marks[{number}]"
        if mark.material not in layouts:
            known = ", ".join(repr(name) for name in layouts)
            yield Problem(
                f"{here}.material", f"the plan cuts no {mark.material!r}", f"Name one of {known}"
            )
            continue
        drawn = layouts[mark.material]
        if not 1 <= mark.layout <= len(drawn):
            yield Problem(
                f"{here}.layout",
                f"{mark.material} has layouts 1 to {len(drawn)}, not {mark.layout}",
                "Give the number on the diagram",
            )
            continue
        layout = drawn[mark.layout - 1]
        taken[mark.material, mark.layout] += mark.pieces
        if taken[mark.material, mark.layout] > layout.count or mark.pieces < 1:
            yield Problem(
                f"{here}.pieces",
                f"{taken[mark.material, mark.layout]} pieces of {mark.material} layout "
                f"{mark.layout} are marked, and it is cut from {layout.count}",
                "Mark each piece once",
            )
        yield from _state_problems(here, mark, layout)


def _state_problems(here: str, mark: Mark, layout: LengthLayout | SheetLayout) -> Iterator[Problem]:
    where = f"{mark.material} layout {mark.layout}"
    if mark.state is State.STARTED:
        most = len(layout.cuts)
        if not 1 <= mark.cuts <= most:
            yield Problem(
                f"{here}.cuts",
                f"{where} has {most} cuts, so its last cut made cannot be {mark.cuts}",
                "Give the number of the last cut made, or leave the piece unmarked",
            )
            return
    elif mark.cuts:
        yield Problem(
            f"{here}.cuts",
            f"is given for pieces that are {mark.state.value}",
            'Leave it out, or give state = "started"',
        )
    if mark.spoiled and mark.state is State.DAMAGED:
        yield Problem(
            f"{here}.spoiled",
            "names parts of a piece that was never cut",
            "Leave it out: a damaged piece yields no part",
        )
    elif mark.spoiled and mark.pieces != 1:
        yield Problem(
            f"{here}.spoiled",
            f"does not say in which of the {mark.pieces} pieces",
            "Mark the piece with spoiled parts by itself",
        )
    elif mark.spoiled:
        off = Counter(parts_off(layout, mark))
        for part, count in Counter(mark.spoiled).items():
            if count > off[part]:
                yield Problem(
                    f"{here}.spoiled",
                    f"{count} of part {part!r} are marked; by then {off[part]} have come off "
                    f"{where}",
                    "Name parts that are cut by then, each as often as it was spoiled",
                )


def _floor_problems(request: CuttingRequest, marks: Marks) -> Iterator[Problem]:
    by_length = {item.material for item in request.lengths}
    by_sheet = {item.material for item in request.sheets}
    ids: Counter[tuple[str, str]] = Counter()
    for kind, known, named in (
        ("lengths", by_length, [(name, piece.id) for name, piece in marks.floor.lengths]),
        ("sheets", by_sheet, [(name, piece.id) for name, piece in marks.floor.sheets]),
    ):
        for name, id_ in named:
            ids[name, id_] += 1
            if name not in known:
                yield Problem(
                    f"floor: piece {id_!r}",
                    f"{name!r} is not among the {kind} of the request",
                    "Name a material of the request",
                )
    racked = {(item.material, piece.id) for item in request.materials for piece in item.offcuts}
    for (name, id_), count in ids.items():
        if count > 1 or (name, id_) in racked:
            where = "on the rack as well" if count == 1 else f"{count} times"
            yield Problem(f"floor: piece {id_!r}", f"stands {where}", "Give it a name of its own")
