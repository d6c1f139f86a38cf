"""The shelves of niches: what their screws hold, how far they sag, which screws are bought.

A shelf's screws go through the cheek into the returns behind. Board and skim are no timber: they
hold nothing, and a second board on a cheek takes longer screws.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.domain.frame import Quantity
from optimiser.framing.figures import listed
from optimiser.framing.loads import (
    FACTORS,
    GAMMA_PERMANENT,
    GRAVITY,
    STRENGTH_CLASSES,
    design_resistance,
    effective_diameter,
    grade_of,
    held_off,
    percent_up,
    rail_on_edge,
)
from optimiser.framing.openings import Hole
from optimiser.framing.rules import finding
from optimiser.framing.settings import Settings
from optimiser.units import counted, mm

# Books weigh 20 to 40 kg a metre: common practice, no source. Four screws of 4 mm a shelf, two at
# each end, and 25 of each in the returns, as much as a board's screws have: likewise.
SHELF_LOAD = 30
SHELF_SCREWS = 4
SHELF_SCREW = 4.0
SHELF_THREAD = 250
# MDF, N/mm², from memory; a sag of 1/200 of the span is seen: common practice, no source.
SHELF_MODULUS = 2_500
SHELF_SAG = 200


def _through(hole: Hole, settings: Settings) -> tuple[int, int]:
    """Return how much board and skim lies before the timber at the left and at the right cheek."""
    board = settings.board.thickness
    left, right = ((1 + more) * board for more in (hole.double_left, hole.double_right))
    return left + settings.skim, right + settings.skim


def shelf_screws(boxes: Iterable[tuple[Settings, list[Hole]]]) -> Quantity:
    """Return the screws of the shelves of all boxes of a wall, with how long they are at least."""
    counts: dict[int, int] = {}
    for settings, holes in boxes:
        for hole in holes:
            for through in _through(hole, settings):
                here = hole.shelves * SHELF_SCREWS // 2
                counts[through] = counts.get(through, 0) + here
    total = sum(counts.values())
    return Quantity(
        item="shelf-screw",
        amount=total,
        unit="each",
        working=f"{SHELF_SCREWS} at each of {counted(total // SHELF_SCREWS, 'shelf', 'shelves')}: "
        + " and ".join(
            f"{count} through {mm(through)} of board and skim, {mm(through + SHELF_THREAD)} long at"
            " least"
            for through, count in sorted(counts.items())
            if count
        ),
        rule="quantity.shelf-screw",
    )


def shelf_findings(settings: Settings, hole: Hole) -> Iterator[Finding]:
    """Yield what a shelf of books asks of the screws at its ends."""
    if not hole.shelves:
        return
    width = hole.clear.width / 10_000
    own = hole.clear.width * hole.depth * settings.backboard.mass / 100_000_000_000
    load = own + SHELF_LOAD * width
    through = max(_through(hole, settings))
    one = held_off(
        diameter=effective_diameter(SHELF_SCREW),
        away=through / 10,
        thread=SHELF_THREAD / 10,
        density=STRENGTH_CLASSES[grade_of(settings.timber)].density_characteristic,
    )
    share = GAMMA_PERMANENT * GRAVITY * load / (design_resistance(one) * SHELF_SCREWS)
    yield from _sag(settings, hole)
    used = percent_up(share)
    # Load and own mass grow with the width alike.
    width_held = int(hole.clear.width / share)
    screws = math.ceil(SHELF_SCREWS * share)
    yield finding(
        "check.shelf.fixing",
        Severity.WARNING if used > 100 else Severity.NOTE,
        f"each shelf of {hole.name} ({listed(hole.told.along)}) with {SHELF_LOAD} kg a metre weighs"
        f" {load:.1f} kg: {used} % of what {SHELF_SCREWS} screws of {SHELF_SCREW:g} mm hold through"
        f" {mm(through)} of board and skim, {mm(SHELF_THREAD)} in the returns ({FACTORS})",
        f"{screws} screws, a bearer under each end, or a niche {mm(width_held)} wide"
        if used > 100
        else "nothing to do",
        change=[Change(f"niches.{hole.name}.width", mm(width_held))] if used > 100 else (),
    )


def _sag(settings: Settings, hole: Hole) -> Iterator[Finding]:
    sag, most = _sag_of(hole.clear.width, settings, hole), hole.clear.width / 10 / SHELF_SAG
    if sag <= most:
        return
    # The sag grows with the fourth power of the span, what is allowed of it with the first.
    width = int(hole.clear.width * (most / sag) ** (1 / 3))
    while _sag_of(width + 1, settings, hole) <= (width + 1) / 10 / SHELF_SAG:
        width += 1
    yield finding(
        "check.shelf.sag",
        Severity.WARNING,
        f"a shelf of {hole.name} ({listed(hole.told.along)}) with {SHELF_LOAD} kg a metre sags"
        f" {sag:.1f} over {mm(hole.clear.width)}; at most 1/{SHELF_SAG} of its span, {most:.1f}",
        f"choose a thicker shelf, a lipping on edge, or a niche {mm(width)} wide"
        f" (niches.{hole.name}.width)",
        change=[Change(f"niches.{hole.name}.width", mm(width))],
    )


def _sag_of(width: int, settings: Settings, hole: Hole) -> float:
    """Return how far a shelf of a width in tenths sags, in mm."""
    return rail_on_edge(
        thickness=hole.depth / 10,
        depth=settings.backboard.thickness / 10,
        span=width / 10,
        load=SHELF_LOAD * GRAVITY / 1_000,
        modulus=SHELF_MODULUS,
    ).deflection
