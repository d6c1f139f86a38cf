"""Beads: corner bead along every outside corner, stop bead where the skim ends at another surface.

Runs longer than the longest stock are joined; all others are whole lengths with neat mitres.
"""

from __future__ import annotations

from optimiser.domain.frame import Bead
from optimiser.domain.price_book import LengthItem
from optimiser.framing.boarding import room
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import FireChoice
from optimiser.framing.settings import Settings, longest_part
from optimiser.units import Tenths


def beads(settings: Settings, holes: list[Hole], fire: FireChoice | None) -> list[Bead]:
    """Return every length of bead; without skim only the corners are beaded."""
    made: list[Bead] = []
    fire_hole = next((hole for hole in holes if hole.kind == "fire"), None)
    for end, free, x0, x1 in (
        ("left end", settings.left_free, 0, settings.skin),
        ("right end", settings.right_free, settings.width - settings.skin, settings.width),
    ):
        bottom, top = room(settings, x0, x1)
        if not free:
            made += _stop(settings, f"{end}, at the side wall", top - bottom)
            continue
        gone = fire_hole if fire_hole is not None and _returns(fire_hole, end) else None
        if gone is None:
            made += _corner(settings, f"{end}, front corner", top - bottom)
        else:
            made += _corner(settings, f"{end}, front corner below the fire", gone.cut.z0 - bottom)
            made += _corner(settings, f"{end}, front corner above the fire", top - gone.cut.z1)
        made += _stop(settings, f"{end}, at the existing wall", top - bottom)
    for hole in holes:
        if hole.lined:
            for side in ("left", "right"):
                made += _corner(settings, f"{hole.name} mouth, {side}", hole.cut.height)
            for side in ("top", "bottom"):
                made += _corner(settings, f"{hole.name} mouth, {side}", hole.cut.width)
        else:
            made += _fire_stops(settings, hole, fire)
    return made


def _returns(fire: Hole, end: str) -> bool:
    return fire.to_left if end == "left end" else fire.to_right


def _fire_stops(settings: Settings, hole: Hole, fire: FireChoice | None) -> list[Bead]:
    """Skim stops round the hole for the fire, at the end faces too where its glass returns."""
    made: list[Bead] = []
    across = fire.return_depth if fire is not None else 0
    for side, to_end in (("left", hole.to_left), ("right", hole.to_right)):
        made += _stop(settings, f"fire opening, {side}", hole.cut.height)
        if to_end:
            for edge in ("top", "bottom"):
                made += _stop(settings, f"fire opening, {side} end, {edge}", across)
    for edge in ("top", "bottom"):
        made += _stop(settings, f"fire opening, {edge}", hole.cut.width)
    return made


def _corner(settings: Settings, place: str, length: int) -> list[Bead]:
    return _run(settings.corner_bead, "corner bead", "bead.corner", place, length)


def _stop(settings: Settings, place: str, length: int) -> list[Bead]:
    if not settings.skim:
        return []
    return _run(settings.stop_bead, "stop bead", "bead.stop", place, length)


def _run(item: LengthItem, kind: str, rule: str, place: str, length: int) -> list[Bead]:
    longest = longest_part(item)
    if longest <= 0:
        longest = length
    made: list[Bead] = []
    parts = -(-length // longest) if length > 0 else 0
    for i in range(parts):
        of = f" ({i + 1} of {parts})" if parts > 1 else ""
        made.append(
            Bead(
                mark="",
                kind=kind,
                material=item.material,
                length=Tenths(min(longest, length - i * longest)),
                place=place + of,
                rule=rule,
            )
        )
    return made
