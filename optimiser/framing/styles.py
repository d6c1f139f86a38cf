"""Ways to board a wall, each as good to build: the cutting plan chooses among them.

There is seldom one right boarding. A way fixes how the boards lie, where the first joint falls and
which sheet they come from; everything else of the frame follows from it. Whether plates are joined
is asked apart from that.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.framing.settings import Settings, usable_sheets


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """One way: its `name` as the fitter reads it.

    `across`: the outer boards lie along the wall. `moved`: their joints keep clear of those of the
    first way. `short`: boards come from the shortest sheet and are joined in height.
    """

    name: str
    across: bool = False
    moved: bool = False
    short: bool = False


def styles(settings: Settings) -> list[Style]:
    """Return the ways that make sense for a wall, the first the plainest; four at the most."""
    found = [
        Style(name="boards on end"),
        Style(name="boards on end, joints moved", moved=True),
        Style(name="boards along the wall", across=True),
    ]
    lowest = min(height for _, height in usable_sheets(settings.board))
    tallest = max(height for _, height in usable_sheets(settings.board))
    room = settings.levels.highest_ceiling(0, settings.width)
    if lowest < room and lowest < tallest:
        found.append(Style(name="boards on end, joined in height", short=True))
    return found


def joined_plate(settings: Settings) -> int | None:
    """Return the longest plate of a box if its plates are joined though one length would do.

    None where no stock is shorter than they are, or none is as long.
    """
    run = settings.right - settings.left
    lengths = (stock.length - 2 * settings.timber.end_trim for stock in settings.timber.stock)
    return (
        max((one for one in lengths if one < run), default=None)
        if run <= settings.longest
        else None
    )
