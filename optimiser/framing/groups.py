"""Which box of the wall a member belongs to, in a fitter's words: base, pier, top box."""

from __future__ import annotations

from collections.abc import Iterable

from optimiser.domain.frame import Member
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings


def groups_of(members: Iterable[Member], settings: Settings, holes: list[Hole]) -> list[str]:
    """Return the name of the group of each member of one box of the wall."""
    main = [hole for hole in holes if hole.kind in ("fire", "tv")]
    before = f"{settings.name}, " if settings.name else ""
    return [before + _group(one, main) for one in members]


def _group(one: Member, main: list[Hole]) -> str:
    if one.kind.endswith("plate") or one.kind == "ledger":
        return "plates and ledgers"
    if not main:
        return "frame"
    box = one.box
    middle_x, middle_z = box.x + box.dx // 2, box.z + box.dz // 2
    if middle_x < min(hole.frame.x0 for hole in main):
        return "left pier"
    if middle_x > max(hole.frame.x1 for hole in main):
        return "right pier"
    return _storey(middle_z, main)


def _storey(z: int, main: list[Hole]) -> str:
    beside = [hole for hole in main if hole.frame.z0 <= z <= hole.frame.z1]
    if beside:
        return f"round the {beside[0].kind}"
    if z < min(hole.frame.z0 for hole in main):
        return "base"
    if z > max(hole.frame.z1 for hole in main):
        return "top box"
    return "between fire and tv"
