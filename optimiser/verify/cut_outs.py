"""Parts cut from the cut-outs of others, held against the request: what is there, and when."""

from __future__ import annotations

from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault
from optimiser.domain.stock import EdgeTrim
from optimiser.units import Tenths

if TYPE_CHECKING:
    from optimiser.domain.parts import BoardPart, CutOut
    from optimiser.domain.plan import SheetLayout, SheetPlan
    from optimiser.domain.request import SheetMaterial


def cut_out_of(layout: SheetLayout, material: SheetMaterial) -> tuple[BoardPart, CutOut] | None:
    """Return the part and the cut-out that a layout says it cuts, None where there is none."""
    index = layout.cut_out
    for part in material.parts:
        if index is not None and part.id == layout.stock and 0 <= index < len(part.cut_outs):
            return part, part.cut_outs[index]
    return None


def trim_of(part: BoardPart, hole: CutOut, material: SheetMaterial) -> EdgeTrim:
    """Return what the sides sawn out of the part lose; a side on the part's edge loses nothing."""
    lost = int(material.cut_out_trim)
    right, top = hole.x + hole.width, hole.y + hole.height
    return EdgeTrim(
        left=Tenths(lost * (hole.x != 0)),
        right=Tenths(lost * (right != part.width)),
        bottom=Tenths(lost * (hole.y != 0)),
        top=Tenths(lost * (top != part.height)),
    )


def serves(part: BoardPart, material: SheetMaterial) -> bool:
    """Return whether what is cut out of a part may be used: allowed, and the grain known or free.

    Where a part must not be turned its donor must not be either, or the grain might run across.
    """
    return material.use_cut_outs and not (part.turn and any(not p.turn for p in material.parts))


def serving(material: SheetMaterial) -> list[tuple[BoardPart, CutOut]]:
    """List every cut-out that a plan may use, each once for every copy of its part."""
    return [
        (part, hole) for part in material.parts for hole in part.cut_outs if serves(part, material)
    ]


def check_cut_outs(plan: SheetPlan, material: SheetMaterial) -> list[Fault]:
    """Return faults of what is taken from cut-outs: in the order of the plan, donors come first."""
    faults: list[Fault] = []
    cut: dict[str, int] = {}
    taken: dict[tuple[str, int], int] = {}
    for number, layout in enumerate(plan.layouts, start=1):
        where = f"{material.material} layout {number}"
        if layout.cut_out is not None:
            faults += [Fault(where, what) for what in _faults_of(layout, material, cut, taken)]
        for placed in layout.parts:
            cut[placed.part] = cut.get(placed.part, 0) + layout.count
    return faults


def _faults_of(
    layout: SheetLayout,
    material: SheetMaterial,
    cut: dict[str, int],
    taken: dict[tuple[str, int], int],
) -> list[str]:
    found = cut_out_of(layout, material)
    name = f"cut-out {layout.cut_out} of {layout.stock!r}"
    if found is None:
        return [f"there is no {name}"]
    faults = []
    if layout.offcut:
        faults.append(f"{name} is said to lie on the rack")
    if layout.count < 1:
        faults.append(f"its count is {layout.count}, not 1 or more")
    if not material.use_cut_outs:
        faults.append(f"{name} is used, which the request does not allow")
    elif not serves(found[0], material):
        faults.append(f"{name} may have its grain either way, which not every part allows")
    if any(placed.part == layout.stock for placed in layout.parts):
        faults.append(f"{name} is said to hold the part it is cut out of")
    assert layout.cut_out is not None
    key = (layout.stock, layout.cut_out)
    taken[key] = taken.get(key, 0) + layout.count
    if taken[key] > cut.get(layout.stock, 0):
        faults.append(
            f"takes {name} for the {taken[key]}. time, when its part has been cut "
            f"{cut.get(layout.stock, 0)} times"
        )
    return faults
