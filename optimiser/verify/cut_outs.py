"""Parts cut from the cut-outs of others, held against the request: what is there, and when."""

from __future__ import annotations

from collections import Counter
from itertools import zip_longest
from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault
from optimiser.domain.stock import EdgeTrim
from optimiser.units import Tenths

if TYPE_CHECKING:
    from optimiser.domain.parts import BoardPart, CutOut
    from optimiser.domain.plan import SheetLayout, SheetPlan
    from optimiser.domain.request import Choice, SheetMaterial


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


def free_pieces(material: SheetMaterial, choices: tuple[Choice, ...]) -> list[tuple[int, int, int]]:
    """List (usable width, usable height, how many) that no plan's cut-outs go beyond.

    Of a choice only one option is cut. The cut-outs of each option, largest first, are laid over
    those of the others, and the widest and the tallest of each place taken: whichever option is
    cut, each of its cut-outs lies within a piece of its own. Those that hold no part are left out.
    """
    if not material.use_cut_outs:
        return []
    own = {part.id: _pieces_of(part, material) for part in material.parts if serves(part, material)}
    owners = Counter(
        id_ for choice in choices for id_ in {one for option in choice.options for one in option}
    )
    optional = {id_ for id_, count in owners.items() if count == 1}
    found = [piece for id_, pieces in own.items() if id_ not in optional for piece in pieces]
    for choice in choices:
        lists = [
            sorted(
                (p for id_ in dict.fromkeys(option) if id_ in optional for p in own.get(id_, ())),
                key=lambda size: (-size[0] * size[1], size),
            )
            for option in choice.options
        ]
        for place in zip_longest(*lists, fillvalue=(0, 0)):
            found.append((max(w for w, _ in place), max(h for _, h in place)))
    return [(width, height, count) for (width, height), count in Counter(found).items()]


def _pieces_of(part: BoardPart, material: SheetMaterial) -> list[tuple[int, int]]:
    inside = [
        trim_of(part, hole, material).inside(hole.width, hole.height) for hole in part.cut_outs
    ]
    return [size for size in inside if _holds_any(material, size)] * part.quantity


def _holds_any(material: SheetMaterial, inside: tuple[int, int]) -> bool:
    """Return whether some part fits; no layout holds none, so other pieces need no count."""
    across, along = inside
    return any(
        (part.width <= across and part.height <= along)
        or (part.turn and part.height <= across and part.width <= along)
        for part in material.parts
    )


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
