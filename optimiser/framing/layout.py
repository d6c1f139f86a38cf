"""Where the boards of a front lie before openings are cut out: stretches, joints and rows.

Chosen before any upright, since uprights stand where joints fall. Boards on end have their joints
from floor to ceiling and are joined in height where no sheet is high enough; boards along the wall
lie in rows, each with joints of its own, staggered.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from optimiser.domain.price_book import SheetItem
from optimiser.framing.openings import Hole
from optimiser.framing.setting_out import CORNER, STRIP, Joint, Run, joints
from optimiser.framing.settings import FLOOR_GAP, Bare, Settings, usable_sheets
from optimiser.framing.styles import Style
from optimiser.framing.surfaces import Rect

_STEP = 500
# From an opening's edge: lining, rail and half the noggin behind a joint, the widest of each.
_NOGGIN_ROOM = 1_000

# A horizontal board joint: from x to x, at z.
Row = tuple[int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of a front: its boards as whole rectangles, and the joints between them."""

    number: int
    across: bool
    places: tuple[Rect, ...]
    joints: tuple[Joint, ...]
    rows: tuple[Row, ...]
    seams: tuple[tuple[int, int, int], ...]


def room(settings: Settings, x0: int, x1: int) -> tuple[int, int]:
    """Return the lowest and highest level that a board from x0 to x1 reaches."""
    if settings.board_base is not None:
        bottom = settings.board_base
    else:
        bottom = settings.levels.lowest_floor(x0, x1) + FLOOR_GAP
    if settings.board_top is not None:
        return bottom, settings.board_top
    return bottom, settings.levels.highest_ceiling(x0, x1)


def end_room(settings: Settings, side: str, stretch: Bare) -> tuple[int, int]:
    """Return the lowest and highest level of the board on one bare stretch of an end."""
    x0 = settings.start if side == "left" else settings.end - settings.skin
    bottom, top = room(settings, x0, x0 + settings.skin)
    return (max(bottom, stretch.z0) if stretch.z0 > settings.base else bottom), min(top, stretch.z1)


def sheet_for(item: SheetItem, height: int, *, short: bool = False) -> tuple[int, int]:
    """Return width and height of the sheet to board with: wide, and high enough if any is."""
    sheets = usable_sheets(item)
    high_enough = [sheet for sheet in sheets if sheet[1] >= height]
    if short:
        widest = max(width for width, _ in sheets)
        return min((sheet for sheet in sheets if sheet[0] == widest), key=lambda sheet: sheet[1])
    if high_enough:
        return max(high_enough, key=lambda sheet: (sheet[0], -sheet[1]))
    return max(sheets, key=lambda sheet: (sheet[1], sheet[0]))


def lay_out(
    settings: Settings, holes: list[Hole], style: Style, first: tuple[Layer, ...] = ()
) -> tuple[Layer, ...]:
    """Return every layer of a front in one way; `first` are the layers of the first way."""
    made: list[Layer] = []
    for number in range(1, settings.layers + 1):
        avoid = first[number - 1].joints if style.moved and first else ()
        # Under boards along the wall the first layer stands on end, and joints cross.
        if style.across and number == settings.layers:
            made.append(_along(settings, holes, made))
        else:
            made.append(_on_end(settings, holes, made, avoid, short=style.short))
    return tuple(made)


def _on_end(
    settings: Settings,
    holes: list[Hole],
    under: list[Layer],
    avoid: tuple[Joint, ...],
    *,
    short: bool,
) -> Layer:
    number = len(under) + 1
    bottom, top = room(settings, settings.start, settings.end)
    width, height = sheet_for(settings.board, top - bottom, short=short)
    others = tuple(joint for layer in under for joint in layer.joints)
    run = Run(holes=holes, reach=width, bound=width, others=others, avoid=avoid)
    found = joints(run, settings, holes)
    edges = [settings.start, *(joint.x for joint in found), settings.end]
    rows: list[Row] = []
    places: list[Rect] = []
    beside: list[int] = []
    for i, (x0, x1) in enumerate(itertools.pairwise(edges)):
        bottom, top = room(settings, x0, x1)
        low = _lowest_top(settings, x0, x1)
        # Neighbours start from floor and ceiling in turn, so that no four corners meet.
        near = [z for hole in holes if _crosses(hole.cut, x0, x1) for z in _ends(hole.cut)]
        near += [z for layer in under for a, b, z in layer.rows if a < x1 and x0 < b]
        splits = row_joints(
            (bottom, low, top), height, near + beside, from_floor=(i + number) % 2 == 1
        )
        beside = splits
        rows += [(x0, x1, z) for z in splits]
        places += [Rect(x0, z0, x1, z1) for z0, z1 in itertools.pairwise([bottom, *splits, top])]
    seams = tuple((joint.x, *room(settings, joint.x, joint.x)) for joint in found)
    return Layer(
        number=number,
        across=False,
        places=tuple(places),
        joints=found,
        rows=tuple(rows),
        seams=seams,
    )


def _along(settings: Settings, holes: list[Hole], under: list[Layer]) -> Layer:
    number = len(under) + 1
    x0, x1 = settings.start, settings.end
    bottom, top = room(settings, x0, x1)
    low = _lowest_top(settings, x0, x1)
    sheets = usable_sheets(settings.board)
    long_enough = [sheet for sheet in sheets if sheet[1] >= x1 - x0]
    wide, reach = (
        min(long_enough, key=lambda sheet: (-sheet[0], sheet[1]))
        if long_enough
        else max(sheets, key=lambda sheet: (sheet[0], sheet[1]))
    )
    near = [z for hole in holes for z in _ends(hole.cut)]
    near += [z for layer in under for _, _, z in layer.rows]
    splits = row_joints((bottom, low, top), wide, near, from_floor=True)
    levels = [bottom, *splits, top]
    others = tuple(joint for layer in under for joint in layer.joints)
    places: list[Rect] = []
    found: list[Joint] = []
    seams: list[tuple[int, int, int]] = []
    for z0, z1 in itertools.pairwise(levels):
        beside = [h for h in holes if h.cut.z0 < z1 + CORNER and z0 - CORNER < h.cut.z1]
        run = Run(holes=beside, reach=reach, others=(*others, *found))
        row = joints(run, settings, holes)
        edges = [x0, *(joint.x for joint in row), x1]
        for a, b in itertools.pairwise(edges):
            low_end, high_end = room(settings, a, b)
            places.append(
                Rect(a, low_end if z0 == bottom else z0, b, high_end if z1 == top else z1)
            )
        found += row
        seams += [(joint.x, z0, z1) for joint in row]
    return Layer(
        number=number,
        across=True,
        places=tuple(places),
        joints=tuple(found),
        rows=tuple((x0, x1, z) for z in splits),
        seams=tuple(seams),
    )


def _lowest_top(settings: Settings, x0: int, x1: int) -> int:
    if settings.board_top is not None:
        return settings.board_top
    return settings.levels.lowest_ceiling(x0, x1)


def _crosses(cut: Rect, x0: int, x1: int) -> bool:
    return cut.x0 < x1 and x0 < cut.x1


def _ends(cut: Rect) -> tuple[int, int]:
    return cut.z0, cut.z1


def row_joints(
    span: tuple[int, int, int], sheet_height: int, near: list[int], *, from_floor: bool
) -> list[int]:
    """Return the heights of horizontal joints: few, and none close to the heights in `near`.

    `span` is where the boards begin, the lowest ceiling over them and the highest.
    """
    bottom, low, top = span
    found: list[int] = []
    start = bottom
    while top - start > sheet_height:
        rest = start, low, top
        clear, joint = _clearest(rest, sheet_height, 0, near, from_floor=from_floor)
        # Beside a rail no noggin finds room behind the joint: there one more board is worth it.
        if clear < _NOGGIN_ROOM:
            more, other = _clearest(rest, sheet_height, 1, near, from_floor=from_floor)
            joint = joint if clear >= more else other
        start = joint
        found.append(start)
    return found


def _clearest(
    span: tuple[int, int, int], sheet_height: int, more: int, near: list[int], *, from_floor: bool
) -> tuple[int, int]:
    """Return the next joint with as few boards over it as can be and `more`, and how far it keeps
    from the heights in `near`: the first that keeps clear of all, else the clearest."""
    start, low, top = span
    pieces = -(-(top - start) // sheet_height) + more
    most = start + sheet_height
    least = max(top - (pieces - 1) * sheet_height, start + STRIP)
    most = min(most, max(low - STRIP, least))
    tried = [*list(range(least, most, _STEP)), most]
    if from_floor:
        tried.reverse()
    tried += sorted(z for o in near for z in (o - CORNER, o + CORNER) if least <= z <= most)
    best: tuple[int, int] | None = None
    for z in tried:
        clear = min([abs(z - other) for other in near], default=CORNER)
        if best is None or clear > best[0]:
            best = clear, z
        if clear >= CORNER:
            break
    assert best is not None
    return best
