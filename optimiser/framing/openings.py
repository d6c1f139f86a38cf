"""Openings: how large, where, and what each leaves between the timbers.

Every opening is three rectangles on the front: what stays `clear` of linings, the hole that is
`cut` in the boards, and the space between the timbers of the `frame`. Sides of openings that lie
nearly in line are brought in line, as two uprights cannot stand in the same place.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from optimiser.domain.finding import Change, Severity
from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.figures import (
    UNTOLD,
    Told,
    box_width,
    listed,
    timber,
)
from optimiser.framing.notes import Notes
from optimiser.framing.rules import finding
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One opening. `depth` is clear, from the front of the boards; `panel` its back's thickness.

    `to_left`, `to_right`: it runs to that free end, where no upright stands beside it.
    `double_left`, `double_right`: how many more boards line that cheek, to narrow it. `wanted` is
    the clear rectangle that was asked for, where it was; `told` are the figures behind all this.
    """

    name: str
    kind: str
    frame: Rect
    cut: Rect
    clear: Rect
    depth: int
    panel: int
    shelves: int = 0
    to_left: bool = False
    to_right: bool = False
    double_left: int = 0
    double_right: int = 0
    lit: bool = False
    wanted: Rect | None = None
    told: Told = UNTOLD

    @property
    def lined(self) -> bool:
        """Whether board lines its sides and its back."""
        return self.panel > 0

    def back(self, settings: Settings) -> int:
        """Return how near to the existing wall it reaches, panel and struts included."""
        struts = settings.thick if self.lined else 0
        return settings.depth - self.depth - self.panel - struts

    def blocks_back(self, settings: Settings) -> bool:
        """Return whether it reaches into the back timbers, which then frame round it."""
        return self.back(settings) < settings.wide

    def outer(self, settings: Settings) -> Rect:
        """Return the space it takes with its sill and its head; a plate may serve as the sill."""
        thick = settings.thick
        sill = thick if self.frame.z0 > settings.sole else 0
        return Rect(self.frame.x0, self.frame.z0 - sill, self.frame.x1, self.frame.z1 + thick)


@dataclass(frozen=True, slots=True)
class GlassEdge:
    """The upright at the end board's edge beside returning glass: where it begins, its section."""

    y: int
    across: int
    deep: int
    in_back_frame: bool = False


def behind_glass(behind: int, settings: Settings) -> GlassEdge | None:
    """Return what holds the end board's edge where a fire leaves `behind` to the wall.

    The back frame's own upright where no other fits before it; on the flat, between that frame's
    sill and head, where the fire reaches into it; None where there is no room for that either.
    """
    thick, wide = settings.thick, settings.wide
    # Across, it bears with its thickness on the returns: too little of a wide section.
    across, deep = (wide, thick) if behind < 2 * wide <= 4 * thick else (thick, wide)
    if behind - deep >= wide:
        return GlassEdge(behind - deep, across, deep)
    if behind >= wide:
        return GlassEdge(0, thick, wide, in_back_frame=True)
    if behind < thick:
        return None
    # Over a kept skirting the board runs on to the wall, past that upright no further than it may.
    skirting = settings.wall.site.skirting or 0
    furthest = max(MOST_OVERHANG - skirting, 0) if skirting else behind - thick
    return GlassEdge(min(behind - thick, furthest), wide, thick)


def lined_hole(
    name: str,
    kind: str,
    clear: Rect,
    depth: int,
    panel: int,
    settings: Settings,
    *,
    told: Told,
    shelves: int = 0,
    lit: bool = False,
) -> Hole:
    """Make an opening whose sides are lined with one board and skim."""
    return Hole(
        name=name,
        kind=kind,
        frame=clear.grown(settings.lining),
        cut=clear.grown(settings.skim),
        clear=clear,
        depth=depth,
        panel=panel,
        shelves=shelves,
        lit=lit,
        wanted=clear,
        told=told,
    )


def _widened(hole: Hole, settings: Settings, *, left: int = 0, right: int = 0) -> Hole:
    """Widen an opening's frame; where that is a board's thickness or more, board takes it up."""
    frame = replace(hole.frame, x0=hole.frame.x0 - left, x1=hole.frame.x1 + right)
    if not hole.lined:
        return replace(hole, frame=frame)
    board = settings.board.thickness
    more_left, more_right = left // board, right // board
    if hole.shelves:
        # A shelf's screws reach the timber through two boards, through no more.
        more_left = min(more_left, 1 - min(hole.double_left, 1))
        more_right = min(more_right, 1 - min(hole.double_right, 1))
    cut = replace(
        hole.cut,
        x0=hole.cut.x0 - left + more_left * board,
        x1=hole.cut.x1 + right - more_right * board,
    )
    return replace(
        hole,
        frame=frame,
        cut=cut,
        clear=cut.grown(-settings.skim),
        double_left=hole.double_left + more_left,
        double_right=hole.double_right + more_right,
    )


def apart(one: Hole, other: Hole, thick: int) -> bool:
    """Return whether two openings leave room for the timbers between them."""
    a, b = one.frame, other.frame
    beside = max(b.x0 - a.x1, a.x0 - b.x1)
    above = max(b.z0 - a.z1, a.z0 - b.z1)
    return beside >= thick or above >= 2 * thick


@dataclass(frozen=True, slots=True)
class _Side:
    """An upright at the side of an opening, or at an end of the wall (`hole` None)."""

    x: int
    hole: int | None
    is_left: bool


def side_uprights(holes: list[Hole], settings: Settings) -> list[tuple[int, str]]:
    """Return x and role of the uprights at the wall's ends and at the sides of openings."""
    return [(side.x, "end" if side.hole is None else "side") for side in _sides(holes, settings)]


def _sides(holes: list[Hole], settings: Settings) -> list[_Side]:
    thick = settings.thick
    sides = [
        _Side(settings.left, None, is_left=True),
        _Side(settings.right - thick, None, is_left=False),
    ]
    for i, hole in enumerate(holes):
        if not hole.to_left:
            sides.append(_Side(hole.frame.x0 - thick, i, is_left=True))
        if not hole.to_right:
            sides.append(_Side(hole.frame.x1, i, is_left=False))
    return sorted(
        sides, key=lambda side: (side.x, side.is_left, -1 if side.hole is None else side.hole)
    )


def bring_in_line(holes: list[Hole], settings: Settings, notes: Notes) -> list[Hole]:
    """Widen openings, as little as possible, until no two side uprights overlap in part.

    Each widening is noted. Records a problem when it cannot be done.
    """
    holes = list(holes)
    clash: tuple[_Side, _Side] | None = None
    for _ in range(8 * len(holes) + 8):
        clash = _first_clash(_sides(holes, settings), settings.thick)
        if clash is None:
            return holes
        moved = _resolved(holes, *clash, settings, notes)
        if moved is None:
            break
        holes = moved
    near = {side.hole for side in clash or () if side.hole is not None}
    figures = [holes[i].told.along for i in sorted(near)]
    if len(figures) < 2:
        figures.append(box_width(settings))
    left, right = (mm(side.x) for side in clash) if clash is not None else ("", "")
    notes.problem(
        figures[0][0].field,
        f"{listed(*figures)}: their sides lie so that"
        f" uprights of {timber(settings)} would stand in one another, from {left} and from {right}"
        " on, and neither opening can be widened without meeting another",
        f"bring the sides in line or {mm(settings.thick)} apart",
    )
    return holes


def _as_framed(hole: Hole, shift: int, *, is_left: bool) -> list[Change]:
    """Return the change that asks for what is framed: none where both sides move together."""
    if hole.kind != "niche" or hole.wanted is None:
        return []
    here, wanted = f"niches.{hole.name}", hole.wanted
    wider = Change(f"{here}.width", mm(wanted.width + shift))
    return [Change(f"{here}.x", mm(wanted.x0 - shift)), wider] if is_left else [wider]


def _first_clash(sides: list[_Side], thick: int) -> tuple[_Side, _Side] | None:
    for i, first in enumerate(sides):
        for second in sides[i + 1 :]:
            if second.x - first.x >= thick:
                break
            if second.x > first.x:
                return first, second
    return None


def _resolved(
    holes: list[Hole], first: _Side, second: _Side, settings: Settings, notes: Notes
) -> list[Hole] | None:
    """Return the holes with the smallest widening that parts two uprights or makes them one."""
    between = second.x - first.x
    # One upright for both is worth more than a small widening that makes them two.
    ways: list[tuple[bool, bool, int, int, bool]] = []
    for side, together in ((first, not first.is_left), (second, second.is_left)):
        if side.hole is not None:
            shift = between if together else settings.thick - between
            is_tv = holes[side.hole].kind == "tv"
            ways.append((not together, is_tv, shift, side.hole, side.is_left))
    for _, _, shift, i, is_left in sorted(ways):
        left, right = (shift, 0) if is_left else (0, shift)
        wider = _widened(holes[i], settings, left=left, right=right)
        others = [hole for j, hole in enumerate(holes) if j != i]
        # The facing board may stand out so far and no further past the timber beside a fire.
        past = max(wider.cut.x0 - wider.frame.x0, wider.frame.x1 - wider.cut.x1)
        held = wider.lined or past <= MOST_OVERHANG
        if held and all(apart(wider, other, settings.thick) for other in others):
            notes.findings.append(
                finding(
                    "check.opening.aligned",
                    Severity.NOTE,
                    f"{wider.name} framed {mm(shift)} wider at its {'left' if is_left else 'right'}"
                    f" side, {mm(wider.frame.width)} in all, so that uprights do not meet in part",
                    "pack the lining out, or move the opening by as much",
                    change=_as_framed(wider, shift, is_left=is_left),
                )
            )
            return [*holes[:i], wider, *holes[i + 1 :]]
    return None
