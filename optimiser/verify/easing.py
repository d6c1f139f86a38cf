"""Whether an eased request is the one that was asked, but for what its parts allow."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from optimiser.domain.fault import Fault
from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.request import LengthMaterial
from optimiser.units import mm

if TYPE_CHECKING:
    from optimiser.domain.request import SheetMaterial


def check_easing(
    asked: LengthMaterial | SheetMaterial, eased: LengthMaterial | SheetMaterial
) -> tuple[Fault, ...]:
    """Return what was changed beyond each part's ease: other sizes, parts, stock or rules."""
    name = asked.material
    if [part.id for part in asked.parts] != [part.id for part in eased.parts]:
        return (Fault(name, "the parts are not those that were asked for"),)
    faults = [] if _bare(asked) == _bare(eased) else [Fault(name, "stock or rules were changed")]
    before_after: zip[tuple[LengthPart | BoardPart, LengthPart | BoardPart]]
    before_after = zip(asked.parts, eased.parts, strict=True)
    for old, new in before_after:
        if _unsized(old) != _unsized(new):
            faults.append(Fault(name, f"part {old.id!r} was changed in more than its size"))
        for before, after in zip(_sizes(old), _sizes(new), strict=True):
            if not 0 <= before - after <= old.ease:
                faults.append(
                    Fault(
                        name,
                        f"part {old.id!r}: {mm(before)} was made {mm(after)}, its ease is "
                        f"{mm(old.ease)}",
                    )
                )
        holes = new.cut_outs if isinstance(new, BoardPart) else ()
        width, height = _sizes(new)[0], _sizes(new)[-1]
        if any(h.x + h.width > width or h.y + h.height > height for h in holes):
            faults.append(Fault(name, f"part {old.id!r} no longer holds its cut-outs"))
    return tuple(faults)


def _bare(material: LengthMaterial | SheetMaterial) -> LengthMaterial | SheetMaterial:
    if isinstance(material, LengthMaterial):
        return replace(material, parts=())
    return replace(material, parts=())


def _sizes(part: LengthPart | BoardPart) -> tuple[int, ...]:
    return (part.length,) if isinstance(part, LengthPart) else (part.width, part.height)


def _unsized(part: LengthPart | BoardPart) -> tuple[object, ...]:
    more = (part.turn, part.cut_outs) if isinstance(part, BoardPart) else ()
    return (part.id, part.job, part.quantity, part.name, *more)
