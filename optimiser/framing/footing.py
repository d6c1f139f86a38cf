"""What is bought for under the sole plates: packers, and on a solid floor fixings and a strip.

Counted from the places where plates and uprights stand.
"""

from __future__ import annotations

from optimiser.domain.frame import Member, Quantity
from optimiser.domain.wall import Floor
from optimiser.framing.settings import Settings
from optimiser.framing.spaces import packing
from optimiser.framing.survey import FIXING
from optimiser.units import counted, metres, mm

# Flat packers come from 1 to 6 thick: from memory. Thinner than half a millimetre none is made.
THICKEST_PACKER = 60
THINNEST_PACKER = 5
# So much more strip for each plate, to lap at its ends: common practice, no source.
LAP = 1_000

Standing = list[tuple[Settings, tuple[Member, ...]]]


def footing(boxes: Standing) -> list[Quantity]:
    """Return what each box of a wall with these members needs under its sole plates."""
    packs = [
        int(pack.height)
        for settings, members in boxes
        if settings.base == 0
        for pack in packing(settings, members)
        if pack.height >= THINNEST_PACKER
    ]
    solid = [
        plate
        for settings, members in boxes
        if settings.base == 0 and settings.wall.site.floor is Floor.SOLID
        for plate in members
        if plate.kind == "sole plate"
    ]
    fixings = sum(one.count for plate in solid for one in plate.fixings if one.end == "along")
    run = sum(plate.length for plate in solid)
    # Returns at the foot lie on the floor too, between the plates.
    between = [
        one.length
        for settings, members in boxes
        if settings.base == 0 and settings.wall.site.floor is Floor.SOLID
        for one in members
        if one.kind == "return" and one.box.z == 0
    ]
    across = sum(between)
    wide = mm(boxes[0][0].wide)
    return [
        Quantity(
            item="packer",
            amount=sum(-(-height // THICKEST_PACKER) for height in packs),
            unit="each",
            working=f"under {counted(len(packs), 'upright')}, up to"
            f" {mm(max(packs, default=0))} high, of {mm(THICKEST_PACKER)} thick at most",
            rule="quantity.packer",
        ),
        Quantity(
            item="hammer-fixing",
            amount=fixings,
            unit="each",
            working=f"{fixings} through {len(solid)} sole plates into the solid floor, at"
            f" {mm(FIXING)} at most",
            rule="quantity.hammer-fixing",
        ),
        Quantity(
            item="damp-proof-strip",
            amount=-(-(run + across + len(solid) * LAP) // 10),
            unit="mm",
            working=f"{metres(run)} m under {len(solid)} sole plates + {mm(LAP)} for each, to lap"
            + (
                f", and {metres(across)} m under {counted(len(between), 'return')}"
                if across
                else ""
            )
            + f"; {wide} wide at least",
            rule="quantity.damp-proof-strip",
        ),
    ]
