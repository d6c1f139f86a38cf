"""The wall with every choice made: what the fitter left out is filled here and named.

Everything after this module works on whole tenths of known sections, never on "perhaps".
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.price_book import LengthItem, PriceBook, SheetItem
from optimiser.domain.wall import End, Wall
from optimiser.framing.figures import (
    Figure,
    board,
    box_depth,
    ceiling,
    listed,
    size,
    summed,
    timber,
    wall_width,
)
from optimiser.framing.levels import Levels, levels_of
from optimiser.framing.materials import choose_materials, pick
from optimiser.framing.notes import Notes
from optimiser.framing.survey import check_survey
from optimiser.units import mm

# 2 to 3 by the UK glossary on skim coats; the larger, so that a clear size is kept.
SKIM = 30
_SKIMS: dict[bool | None, int] = {True: SKIM, False: 0}
# Timber between plates is cut exact or 1 short: common practice, no source.
FIT = 10
# A board is cut 13 short of the room and lifted: UK DIY data page on partition cladding.
FLOOR_GAP = 130
# The last board of a row goes in between two fixed ends with 3 to 5 less: common practice, no
# source.
CLOSING_EASE = 30
# Below this a timber is no use as a member: common practice, no source.
SHORTEST = 600
# Beyond these a figure is a slip of the keyboard or the unit: common practice, no source.
WIDEST_WALL = 500_000
HIGHEST_ROOM = 60_000
CLOSEST_CENTRES = 2_000
# 9.5 board at 450 and 12.5 or thicker at 600: NHBC Standards 9.2.4.
THICK_BOARD = 125
LIMIT_THIN = 4_500
LIMIT_THICK = 6_000


@dataclass(frozen=True, slots=True)
class Bare:
    """A stretch of a box's end that shows: from z to z, and from `y` (of the box) to its front.

    Below 0 where a skirting keeps the box off the house: the board runs on over it.
    """

    z0: int
    z1: int
    y: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Every choice that one box of the wall rests on, in tenths; `skim` is its thickness, or 0.

    A plain wall is one box. x and z are those of the wall: `start` to `end` over its boards, its
    timbers from `base` up; y and `depth` count from the box's own back, `back` from the existing
    wall; `step` names the step that it is part of. `left_bare`, `right_bare` are the parts of its
    ends that show, `top_bare` and `bottom_bare` from which y on its top and underside do.
    `board_base`, `board_top`: where its front board ends, None at floor and ceiling. `inset_*`:
    how far from a hidden end its timber stands, below 0 where it reaches to the next box's.
    `closes`: its front's last board goes in between two fixed ends.
    `plate_limit` is set where plates are to be joined though a longer stock would do. `thick` ×
    `wide` is the timber's section, `skin` the boards on one face, `front` the back of the front
    timbers, `left` to `right` where timbers may stand. `fire_boards` are the
    boards of the price book that do not burn.
    """

    wall: Wall
    levels: Levels
    offset: int
    width: int
    depth: int
    left_free: bool
    right_free: bool
    start: int
    end: int
    base: int = 0
    back: int = 0
    name: str = ""
    step: str = ""
    left_bare: tuple[Bare, ...] = ()
    right_bare: tuple[Bare, ...] = ()
    top_bare: int | None = None
    bottom_bare: int | None = None
    board_base: int | None = None
    board_top: int | None = None
    inset_left: int = 0
    inset_right: int = 0
    plate_limit: int | None = None
    closes: bool = False
    timber: LengthItem
    board: SheetItem
    backboard: SheetItem
    fire_lining: SheetItem | None = None
    fire_boards: tuple[str, ...] = ()
    corner_bead: LengthItem
    stop_bead: LengthItem
    layers: int
    centres: int
    limit: int
    skim: int
    fit: int

    @property
    def thick(self) -> int:
        """The timber's thickness."""
        return self.timber.thickness

    @property
    def wide(self) -> int:
        """The timber's width, which lies across the wall's depth."""
        return self.timber.width

    @property
    def skin(self) -> int:
        """The thickness of all board layers of one face."""
        return self.layers * self.board.thickness

    @property
    def left(self) -> int:
        """Where timbers begin: behind the end's board, or where the side wall leans to."""
        return self.start + (self.skin if self.left_bare else self.inset_left)

    @property
    def right(self) -> int:
        """Where timbers end."""
        return self.end - (self.skin if self.right_bare else self.inset_right)

    @property
    def flat_top(self) -> bool:
        """Whether it stops at a level of its own instead of the ceiling."""
        return self.levels.flat_ceiling is not None

    @property
    def sole(self) -> int:
        """The upper side of its sole plate."""
        return self.base + self.thick

    def face(self, side: str) -> str:
        """Name one of its faces: a wall of several boxes names the box too."""
        return f"{self.name}.{side}" if self.name else side

    @property
    def eased(self) -> int:
        """What the last board of its front is narrower than its place."""
        return CLOSING_EASE if self.closes else 0

    @property
    def front(self) -> int:
        """The back face of the front timbers, from the existing wall."""
        return self.depth - self.skin - self.wide

    @property
    def lining(self) -> int:
        """What board and skim take from each side of a lined opening."""
        return self.board.thickness + self.skim

    @property
    def longest(self) -> int:
        """The longest timber part that any stock gives."""
        return longest_part(self.timber)

    @property
    def longest_plate(self) -> int:
        """The longest plate that is cut in one."""
        return min(self.longest, self.plate_limit or self.longest)


def usable_sheets(item: SheetItem) -> list[tuple[int, int]]:
    """Return width and height of the largest part that each stock sheet gives."""
    return [item.edge_trim.inside(stock.width, stock.height) for stock in item.stock]


def longest_part(item: LengthItem) -> int:
    """Return the longest part that any stock of a section gives, 0 when there is none."""
    lengths = (stock.length - 2 * item.end_trim for stock in item.stock)
    return max(lengths, default=0)


def settle(wall: Wall, book: PriceBook, notes: Notes) -> Settings | None:
    """Make every choice that the whole wall shares; None when the price book has no such material.

    Faults are recorded; with them the settings serve no more than to find further faults.
    """
    extent = wall.extent
    offset = notes.size("wall.offset", extent.offset, 0)
    rest = wall.site.clear_width - offset
    width = notes.size("wall.width", extent.width, max(rest, 0))
    left = notes.take(
        "wall.left", extent.left, End.ABUTS if offset == 0 else End.FREE, lambda end: end.value
    )
    right = notes.take(
        "wall.right", extent.right, End.ABUTS if width == rest else End.FREE, lambda end: end.value
    )
    _check_extent(wall, offset, width, left, right, notes)
    check_survey(wall, notes)
    wood, boarding, backboard, corner, stop = choose_materials(wall, book, notes)
    if wood is None or boarding is None or backboard is None or corner is None or stop is None:
        return None
    fire_lining: SheetItem | None = None
    if wall.fire is not None and wall.fire.lining is not None:
        fire_lining = pick("fire.lining", wall.fire.lining, book.sheets, [], notes)
    thick_board = boarding.thickness >= THICK_BOARD
    settings = Settings(
        wall=wall,
        levels=levels_of(wall.site, offset=offset, width=width),
        offset=offset,
        width=width,
        depth=extent.depth,
        left_free=left is End.FREE,
        right_free=right is End.FREE,
        start=0,
        end=width,
        inset_left=max(wall.site.lean_left, 0) if left is End.ABUTS else 0,
        inset_right=max(wall.site.lean_right, 0) if right is End.ABUTS else 0,
        timber=wood,
        board=boarding,
        backboard=backboard,
        fire_lining=fire_lining,
        fire_boards=tuple(item.material for item in book.sheets if item.is_non_combustible),
        corner_bead=corner,
        stop_bead=stop,
        layers=notes.take("materials.layers", wall.materials.layers, 1, str),
        centres=notes.size("materials.centres", wall.materials.centres, 4_000),
        limit=LIMIT_THICK if thick_board else LIMIT_THIN,
        skim=notes.take("materials.skim", _SKIMS.get(wall.materials.skim), SKIM, _skim),
        fit=notes.size("materials.fit", wall.materials.fit, FIT),
    )
    _check_settings(settings, notes)
    return settings


def _skim(choice: int) -> str:
    return f"{mm(choice)} mm" if choice else "none"


def _check_extent(wall: Wall, offset: int, width: int, left: End, right: End, notes: Notes) -> None:
    clear = wall.site.clear_width
    room = f"site.clear_width {mm(clear)}"
    reach = summed(
        size("wall.offset", wall.extent.offset, offset),
        size("wall.width", wall.extent.width, width),
    )
    beyond = width <= 0 or offset + width > clear
    if beyond:
        notes.problem(
            "wall.width" if width > 0 else "wall.offset",
            f"{reach} is more than {room}"
            if width > 0
            else f"{reach} leaves nothing of {room} to build on",
            f"make wall.width {mm(clear - offset)} or less, or wall.offset smaller"
            if offset < clear
            else f"make wall.offset less than {mm(clear)}",
        )
    if left is End.ABUTS and offset != 0:
        notes.problem(
            "wall.left",
            f'wall.left "abuts" contradicts wall.offset {mm(offset)}',
            'set wall.offset to 0, or wall.left to "free"',
        )
    if right is End.ABUTS and offset + width != clear and not beyond:
        notes.problem(
            "wall.right",
            f'wall.right "abuts" contradicts {reach}, which ends'
            f" {mm(clear - offset - width)} before {room}",
            f'make wall.width {mm(clear - offset)}, or set wall.right to "free"',
        )


def _check_settings(settings: Settings, notes: Notes) -> None:
    thick, skin = settings.thick, settings.skin
    depth, timber_said = box_depth(settings), timber(settings)
    if settings.layers not in (1, 2):
        notes.problem(
            "materials.layers",
            f"materials.layers {settings.layers} is neither 1 nor 2",
            "choose 1 or 2",
        )
    least = max(CLOSEST_CENTRES, 2 * thick)
    if settings.centres < least:
        notes.problem(
            "materials.centres",
            f"materials.centres {mm(settings.centres)} is less than {mm(least)}, the closest for"
            f" {timber_said}",
            "choose 400 or 600",
        )
    if settings.width > WIDEST_WALL:
        notes.problem(
            wall_width(settings).field,
            f"{wall_width(settings)} is more than {mm(WIDEST_WALL)}",
            "check the figure and its unit",
        )
    widest = max((stock.width for stock in settings.board.stock), default=0)
    if settings.depth - skin > widest > 0:
        notes.problem(
            depth.field,
            f"{depth} less {mm(skin)} of board is more than the widest sheet, {mm(widest)}, of"
            f" {board(settings)}",
            f"make the wall {mm(widest + skin)} deep at most, or add a wider board to the price"
            " book",
        )
    if settings.longest <= 0:
        notes.problem(
            "materials.timber",
            f"{timber_said} has no stock length in the price book",
            "add one to the price book",
        )
    for name, item in (("board", settings.board), ("backboard", settings.backboard)):
        if not item.stock:
            notes.problem(
                f"materials.{name}",
                f'materials.{name} "{item.material}" has no stock sheet in the price book',
                "add one to the price book",
            )
    _check_heights(settings, notes)


def _check_heights(settings: Settings, notes: Notes) -> None:
    site, thick = settings.wall.site, settings.thick
    if not site.levels and site.height_left is None:
        return
    lowest = settings.levels.lowest_ceiling(0, settings.width)
    highest = settings.levels.highest_ceiling(0, settings.width)
    said = ceiling(settings)
    if highest > HIGHEST_ROOM:
        notes.problem(
            said[0].field,
            f"{listed(said)}: the ceiling is {mm(highest)} above the highest floor, more than"
            f" {mm(HIGHEST_ROOM)}",
            "check the heights and their unit",
        )
    least = 2 * thick + 10 * SHORTEST
    if lowest < least:
        fall = Figure("site.floor_fall", mm(site.floor_fall))
        notes.problem(
            said[0].field,
            f"{listed(said, [fall] if site.floor_fall else [])}: the ceiling is only {mm(lowest)}"
            f" above the highest floor, and {mm(least)} is the least for {timber(settings)}",
            "check the heights and site.floor_fall",
        )
