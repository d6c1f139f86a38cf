"""Openings: how large, where, and what each leaves between the timbers.

Every opening is three rectangles on the front: what stays `clear` of linings, the hole that is
`cut` in the boards, and the space between the timbers of the `frame`. Sides of openings that lie
nearly in line are brought in line, as two uprights cannot stand in the same place.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from optimiser.domain.finding import Severity
from optimiser.framing.bearing import MOST_OVERHANG
from optimiser.framing.notes import Notes
from optimiser.framing.rules import finding
from optimiser.framing.settings import SHORTEST, Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# A recess hardly deeper than its boards cannot be lined: common practice, no source.
SHALLOWEST = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One opening. `depth` is clear, from the front of the boards; `panel` its back's thickness.

    `to_left`, `to_right`: it runs to that free end, where no upright stands beside it.
    `double_left`, `double_right`: how many more boards line that cheek, to narrow it. `wanted` is
    the clear rectangle that was asked for, where it was.
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
    return GlassEdge(behind - thick, wide, thick) if behind >= thick else None


def lined_hole(
    name: str,
    kind: str,
    clear: Rect,
    depth: int,
    panel: int,
    settings: Settings,
    *,
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
    )


def _widened(hole: Hole, settings: Settings, *, left: int = 0, right: int = 0) -> Hole:
    """Widen an opening's frame; where that is a board's thickness or more, board takes it up."""
    frame = replace(hole.frame, x0=hole.frame.x0 - left, x1=hole.frame.x1 + right)
    if not hole.lined:
        return replace(hole, frame=frame)
    board = settings.board.thickness
    more_left, more_right = left // board, right // board
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


def check_holes(holes: list[Hole], settings: Settings, notes: Notes) -> None:
    """Record every opening that does not fit the wall, and every two that are too near."""
    for hole in holes:
        _check_sides(hole, settings, notes)
        _check_heights(hole, settings, notes)
        if hole.lined and hole.depth < settings.skin + SHALLOWEST:
            notes.problem(
                f"{hole.name}.depth",
                f"{mm(hole.depth)} is not deeper than the front boards, {mm(settings.skin)}, by"
                f" {mm(SHALLOWEST)}",
                f"make it at least {mm(settings.skin + SHALLOWEST)} deep",
            )
        behind = hole.back(settings)
        if hole.lined and behind < 0:
            notes.problem(
                f"{hole.name}.depth",
                f"wall.depth {mm(settings.depth)}{_breast(settings)} is less than"
                f" {hole.name} depth {mm(hole.depth)}"
                f" + back {mm(hole.panel)} + strut {mm(settings.thick)}",
                f"make the wall {mm(-behind)} deeper or the recess shallower",
            )
        _check_shelves(hole, settings, notes)
    for i, one in enumerate(holes):
        for other in holes[i + 1 :]:
            if not _apart(one, other, settings.thick):
                notes.problem(
                    one.name,
                    f"overlaps {other.name} or is too near it: {_place(one)}, {_place(other)}",
                    f"leave {mm(settings.thick)} beside or {mm(2 * settings.thick)} above between"
                    " their frames",
                )


def _check_shelves(hole: Hole, settings: Settings, notes: Notes) -> None:
    """Refuse shelves so near one another that no return finds room behind each one's ends."""
    least = settings.wide * 3 // 2 - settings.lining
    spacing = hole.clear.height // (hole.shelves + 1)
    if hole.shelves and spacing < least:
        notes.problem(
            f"{hole.name}.shelves",
            f"{hole.shelves} in a height of {mm(hole.clear.height)} lie {mm(spacing)} apart; the"
            f" timbers that carry their ends, {mm(settings.wide)} high, need {mm(least)}",
            f"make it {max(hole.clear.height // least - 1, 0)} at the most, or choose a narrower"
            " timber",
        )


def check_lining(holes: list[Hole], settings: Settings, notes: Notes) -> None:
    """Record a fire whose lining overhead has no room for the returns that hold its ends."""
    fire = next((hole for hole in holes if hole.kind == "fire"), None)
    narrow = settings.wide <= 2 * settings.thick
    if fire is None or settings.fire_lining is None or fire.blocks_back(settings) or narrow:
        # A narrow timber lies on the flat where a return on edge is too high.
        return
    thick = settings.thick
    outers = [hole.outer(settings) for hole in holes if hole is not fire]
    for x in (fire.frame.x0 - thick, fire.frame.x1):
        over = [o.z0 for o in outers if o.x0 < x + thick and x < o.x1 and o.z0 >= fire.frame.z1]
        plate = settings.levels.lowest_ceiling(x, x + thick) - thick - settings.fit
        # A strut's return beside the same upright stands at the foot of its recess.
        strutted = [
            hole.frame.z0
            for hole in holes
            if hole.lined
            and hole.frame.z0 >= fire.frame.z1
            and x in (hole.frame.x0 - thick, hole.frame.x1)
        ]
        room = min([plate, *(z + thick for z in over), *strutted])
        if room - fire.frame.z1 < settings.wide:
            notes.problem(
                "fire.lining",
                f"over the fire's frame {mm(room - fire.frame.z1)} is left for the returns that"
                f" hold the lining's ends; they are {mm(settings.wide)} high",
                f"leave {mm(settings.wide - room + fire.frame.z1)} more over the fire, or choose a"
                " narrower timber",
            )
            return


def _breast(settings: Settings) -> str:
    return f" before {mm(settings.back)} of breast or skirting" if settings.back else ""


def _place(hole: Hole) -> str:
    frame = hole.frame
    return f"{hole.name} frame x {mm(frame.x0)}-{mm(frame.x1)}, z {mm(frame.z0)}-{mm(frame.z1)}"


def _apart(one: Hole, other: Hole, thick: int) -> bool:
    a, b = one.frame, other.frame
    beside = max(b.x0 - a.x1, a.x0 - b.x1)
    above = max(b.z0 - a.z1, a.z0 - b.z1)
    return beside >= thick or above >= 2 * thick


def _check_sides(hole: Hole, settings: Settings, notes: Notes) -> None:
    frame, thick = hole.frame, settings.thick
    left = 0 if hole.to_left else thick
    right = 0 if hole.to_right else thick
    if frame.width <= 0 or hole.cut.width <= 0 or hole.cut.height <= 0:
        notes.problem(hole.name, "has no width or height", "give it a size above 0")
    elif frame.x0 - left < settings.left or frame.x1 + right > settings.right:
        notes.problem(
            hole.name,
            f"its frame {mm(frame.x0)} to {mm(frame.x1)} with an upright each side does not fit"
            f" wall.width {mm(settings.end - settings.start)} (timbers from"
            f" {mm(settings.left)} to {mm(settings.right)})",
            "make it narrower, move it, or widen the wall",
        )


def _check_heights(hole: Hole, settings: Settings, notes: Notes) -> None:
    frame, thick = hole.frame, settings.thick
    sole = settings.sole
    if frame.z0 != sole and frame.z0 < sole + thick:
        notes.problem(
            hole.name,
            f"its frame begins at {mm(frame.z0)}, within sole plate and sill",
            f"raise it to {mm(sole + thick)}, or to {mm(sole)} to stand on the sole plate",
        )
    elif hole.kind == "fire" and sole + thick < frame.z0 < sole + thick + SHORTEST:
        notes.problem(
            "fire.base_height",
            f"{mm(frame.z0)} leaves {mm(frame.z0 - sole - thick)} between sole plate and sill, too"
            " little for the short uprights that carry the fire",
            f"make it {mm(sole + thick)}, or at least {mm(sole + thick + SHORTEST)}",
        )
    inside = max(settings.start, frame.x0 - thick), min(settings.end, frame.x1 + thick)
    if inside[0] >= inside[1]:
        return
    room = settings.levels.lowest_ceiling(*inside) - thick - settings.fit
    if frame.z1 + thick > room:
        notes.problem(
            hole.name,
            f"its frame ends at {mm(frame.z1)}; head and head plate leave {mm(room - thick)}",
            f"lower it or make it {mm(frame.z1 + thick - room)} less high",
        )
    elif (hole.to_left or hole.to_right) and room - frame.z1 - thick < SHORTEST:
        notes.problem(
            "fire.glass",
            f"returns round an end, and {mm(room - frame.z1 - thick)} between head and head plate"
            f" is too little for the short upright that carries the head there, {mm(SHORTEST)}",
            f"lower fire.base_height by {mm(SHORTEST + frame.z1 + thick - room)}, or raise the top",
        )


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
    for _ in range(8 * len(holes) + 8):
        clash = _first_clash(_sides(holes, settings), settings.thick)
        if clash is None:
            return holes
        moved = _resolved(holes, *clash, settings, notes)
        if moved is None:
            break
        holes = moved
    notes.problem(
        "openings",
        "their sides lie so that uprights would stand in one another",
        f"bring sides in line or {mm(settings.thick)} apart",
    )
    return holes


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
    apart = second.x - first.x
    # One upright for both is worth more than a small widening that makes them two.
    ways: list[tuple[bool, bool, int, int, bool]] = []
    for side, together in ((first, not first.is_left), (second, second.is_left)):
        if side.hole is not None:
            shift = apart if together else settings.thick - apart
            is_tv = holes[side.hole].kind == "tv"
            ways.append((not together, is_tv, shift, side.hole, side.is_left))
    for _, _, shift, i, is_left in sorted(ways):
        left, right = (shift, 0) if is_left else (0, shift)
        wider = _widened(holes[i], settings, left=left, right=right)
        others = [hole for j, hole in enumerate(holes) if j != i]
        # The facing board may stand out so far and no further past the timber beside a fire.
        past = max(wider.cut.x0 - wider.frame.x0, wider.frame.x1 - wider.cut.x1)
        held = wider.lined or past <= MOST_OVERHANG
        if held and all(_apart(wider, other, settings.thick) for other in others):
            notes.findings.append(
                finding(
                    "check.opening.aligned",
                    Severity.NOTE,
                    f"{wider.name} framed {mm(shift)} wider at its {'left' if is_left else 'right'}"
                    f" side, {mm(wider.frame.width)} in all, so that uprights do not meet in part",
                    "pack the lining out, or move the opening by as much",
                )
            )
            return [*holes[:i], wider, *holes[i + 1 :]]
    return None
