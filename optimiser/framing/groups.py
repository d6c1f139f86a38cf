"""Which box of the wall a member belongs to, in a fitter's words: base, pier, top box."""

from __future__ import annotations

from collections.abc import Iterable

from optimiser.domain.frame import Member
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect

_PLATES = "plates and ledgers"


def groups_of(members: Iterable[Member], settings: Settings, holes: list[Hole]) -> list[str]:
    """Return the name of the group of each member of one box of the wall."""
    main = [hole for hole in holes if hole.kind in ("fire", "tv")]
    before = f"{settings.name}, " if settings.name else ""
    if not main:
        return [before + (_PLATES if _is_plate(one) else "frame") for one in members]
    frames = [hole.frame for hole in main]
    around = Rect(
        min(one.x0 for one in frames),
        min(one.z0 for one in frames),
        max(one.x1 for one in frames),
        max(one.z1 for one in frames),
    )
    return [before + (_PLATES if _is_plate(one) else _group(one, main, around)) for one in members]


def _is_plate(one: Member) -> bool:
    return one.kind.endswith("plate") or one.kind == "ledger"


def _group(one: Member, main: list[Hole], around: Rect) -> str:
    box = one.box
    middle_x, middle_z = box.x + box.dx // 2, box.z + box.dz // 2
    if middle_x < around.x0:
        return "left pier"
    if middle_x > around.x1:
        return "right pier"
    beside = [hole for hole in main if hole.frame.z0 <= middle_z <= hole.frame.z1]
    if beside:
        return f"round the {beside[0].kind}"
    if middle_z < around.z0:
        return "base"
    if middle_z > around.z1:
        return "top box"
    return "between fire and tv"
