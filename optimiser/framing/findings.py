"""Checks of timber, boards and site: what the fitter should know before he buys.

Centres beyond the board's limit carry the smallest change of the wall's file that clears them; a
member longer than any stock says the length to add to the price book. The others have none in the
wall's file: which sections and boards there are, and what they weigh, is the price book's;
studs, floor and ceiling are as they are; where joints fall near a corner and leave strips hangs on
the whole layout, and moving an opening moves the joints too.
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.domain.frame import Board, Edge, Member
from optimiser.domain.price_book import SheetItem
from optimiser.domain.wall import ExistingWall
from optimiser.framing import figures
from optimiser.framing.bearing import noggin_takes_board, under_joint
from optimiser.framing.fixing import LEDGER_END, OFF_MIDDLE, UPRIGHT, screw_into_stud
from optimiser.framing.framed import Framed
from optimiser.framing.openings import Hole
from optimiser.framing.rules import finding
from optimiser.framing.setting_out import CORNER, STRIP, Joint
from optimiser.framing.settings import LIMIT_THICK, Settings
from optimiser.framing.timber import Finish, allowed, dried
from optimiser.units import mm

# Studs and plates of non-loadbearing walls: NHBC Standards 6.3.9, table 3.
LEAST_SECTION = (380, 630)
LEAST_BEARING = under_joint(Edge.FACTORY, Edge.CUT)
# A heated room dries timber to 12 %: common practice, no source.
HEATED = 12
# HSE INDG143 gives 25 kg as a guideline; 20 kg a sheet is one board maker's advice.
ONE_PERSON_GRAMS = 20_000
GUIDELINE_GRAMS = 25_000
# Packed floor above which the base is worth a second look: common practice, no source.
MUCH_PACKING = 200

_SQUARE_TENTHS_PER_SQUARE_METRE = 100_000_000


def sheet_grams(item: SheetItem, width: int, height: int) -> int:
    """Return the mass of a rectangle of a board in grams, rounded up."""
    return -(-width * height * item.mass // _SQUARE_TENTHS_PER_SQUARE_METRE)


def kilograms(grams: int) -> str:
    """Write a mass in kg with one decimal, rounded up."""
    tenth = -(-grams // 100)
    return f"{tenth // 10}.{tenth % 10}"


def wall_findings(settings: Settings, way: list[Framed]) -> Iterator[Finding]:
    """Yield every finding about timber, sheets and the site, over all boxes of a wall."""
    members = [member for one in way for member in one.members]
    yield from choice_findings(settings)
    yield from _stock(settings, members)
    yield from _masses(settings)
    yield from _studs(settings, members)
    yield from _levels(settings)


def choice_findings(settings: Settings) -> Iterator[Finding]:
    """Yield what is told of centres and section alone, before anything is framed."""
    yield from _centres(settings)
    yield from _section(settings)


def box_findings(one: Framed) -> Iterator[Finding]:
    """Yield every finding about the board joints of one box of a wall."""
    yield from _joints(one.placed.holes, one.layers[-1].joints)
    yield from _strips(one.settings, one.boards)


def _centres(settings: Settings) -> Iterator[Finding]:
    board = mm(settings.board.thickness)
    if settings.centres > settings.limit:
        yield finding(
            "check.board.centres",
            Severity.STOP,
            f"{board} board ({figures.board(settings)}) on uprights at materials.centres"
            f" {mm(settings.centres)}; at most {mm(settings.limit)}",
            f"set materials.centres to {mm(settings.limit)} or less, or choose a board that may"
            f" span {mm(settings.centres)}",
            change=[Change("materials.centres", mm(settings.limit))],
        )
    elif settings.centres == LIMIT_THICK:
        yield finding(
            "check.board.noggins",
            Severity.NOTE,
            f"{board} board on uprights at 600 needs noggins between; mid-height noggins are in",
            "choose 400 centres for a stiffer face under skim",
        )


def _section(settings: Settings) -> Iterator[Finding]:
    section = settings.thick, settings.wide
    if section[0] < LEAST_SECTION[0] or section[1] < LEAST_SECTION[1]:
        yield finding(
            "check.timber.section",
            Severity.WARNING,
            f"uprights of {mm(section[0])} × {mm(section[1])} ({figures.timber(settings)}); 38 × 63"
            " at least",
            "choose a larger section",
        )
    if settings.thick < LEAST_BEARING:
        yield finding(
            "check.board.bearing",
            Severity.WARNING,
            f"a joint of a bound and a cut edge needs {mm(LEAST_BEARING)} of timber; uprights"
            f" are {mm(settings.thick)}",
            "double the uprights behind joints, or choose a thicker section",
        )
    if not noggin_takes_board(settings.thick, settings.wide):
        yield finding(
            "check.timber.noggin",
            Severity.STOP,
            f"noggins of {mm(settings.thick)} × {mm(settings.wide)} ({figures.timber(settings)})"
            " behind board; 38 × 43 at least",
            "choose a larger section",
        )
    least, most = allowed(settings.wide, Finish.PLANED)
    dry = int(dried(settings.wide, HEATED))
    yield finding(
        "check.timber.size",
        Severity.NOTE,
        f"{mm(settings.wide)} wide may measure {mm(least)} to {mm(most)} at 20 % moisture, and"
        f" shrinks to about {mm(dry)} at {HEATED} %",
        "board when the timber is at 20 % or drier, and sort out pieces beyond these sizes",
    )


def _stock(settings: Settings, members: list[Member]) -> Iterator[Finding]:
    longest = max(members, key=lambda one: one.length)
    if longest.length > settings.longest:
        yield finding(
            "check.timber.stock",
            Severity.STOP,
            f"{longest.kind} of {mm(longest.length)}; the longest stock of"
            f" {figures.timber(settings)} gives {mm(settings.longest)}",
            "add a stock length of"
            f" {mm(longest.length + 2 * settings.timber.end_trim)} or more to the price book",
        )


def _joints(holes: list[Hole], joints: tuple[Joint, ...]) -> Iterator[Finding]:
    for joint in sorted({one.x for one in joints}):
        for hole in holes:
            near = [edge for edge in (hole.cut.x0, hole.cut.x1) if abs(joint - edge) < CORNER]
            if near:
                yield finding(
                    "check.board.corner",
                    Severity.NOTE,
                    f"board joint at {mm(joint)} lies {mm(abs(joint - near[0]))} from the side of"
                    f" {hole.name}, at {mm(near[0])}",
                    "tape this joint with paper and expect a crack at the corner, or move the"
                    " opening",
                )


def _strips(settings: Settings, boards: tuple[Board, ...]) -> Iterator[Finding]:
    narrow = sorted(
        {
            (one.width, one.height)
            for one in boards
            if one.rule.startswith("board.front") and min(one.width, one.height) < STRIP
        }
    )
    for width, height in narrow:
        yield finding(
            "check.board.strip",
            Severity.NOTE,
            f"a strip of front board {mm(width)} × {mm(height)}; narrower than {mm(STRIP)}",
            "saw it, as a narrow strip breaks badly when snapped",
        )
    uncovered = max((one.width for one in boards if one.rule.startswith("board.front")), default=0)
    widest = max(max(stock.width, stock.height) for stock in settings.board.stock)
    if uncovered > widest:
        yield finding(
            "check.board.strip",
            Severity.STOP,
            f"no joint could be placed on an upright in {mm(uncovered)} of front"
            f" ({figures.listed(figures.box_width(settings), figures.board(settings))})",
            "move an opening, or choose a wider board",
        )


def _masses(settings: Settings) -> Iterator[Finding]:
    seen = {
        settings.board.material: settings.board,
        settings.backboard.material: settings.backboard,
    }
    if settings.fire_lining is not None:
        seen[settings.fire_lining.material] = settings.fire_lining
    for item in seen.values():
        for stock in item.stock:
            grams = sheet_grams(item, stock.width, stock.height)
            if grams <= ONE_PERSON_GRAMS:
                continue
            over = "over the 25 kg guideline" if grams > GUIDELINE_GRAMS else "over 20 kg"
            yield finding(
                "check.mass.sheet",
                Severity.WARNING if grams > GUIDELINE_GRAMS else Severity.NOTE,
                f"{stock.id} weighs {kilograms(grams)} kg, {over}",
                "two people lift each such sheet, or use a board lifter",
            )


def _studs(settings: Settings, members: list[Member]) -> Iterator[Finding]:
    site = settings.wall.site
    if site.kind is not ExistingWall.STUDS:
        return
    spots = [stud - settings.offset for stud in site.stud_positions]
    spots = [stud for stud in spots if 0 <= stud <= settings.width]
    if not spots:
        yield finding(
            "check.site.studs",
            Severity.STOP,
            "no existing stud is known behind the wall, so nothing can be fixed to it"
            ' (site.kind "studs", site.stud_positions'
            f" {figures.numbers(site.stud_positions)})",
            "find the studs and give site.stud_positions_mm",
        )
        return
    at_wall = [one for one in members if one.box.y in (0, site.skirting)]
    held = {
        stud
        for stud in spots
        for one in at_wall
        if one.kind == "ledger"
        and screw_into_stud(stud, one.box.x, one.box.x + one.box.dx) is not None
    }
    near = LEDGER_END - OFF_MIDDLE
    behind = {
        stud
        for stud in spots
        for one in at_wall
        if one.kind in UPRIGHT and one.box.x - near <= stud <= one.box.x + one.box.dx + near
    }
    hidden = [mm(stud) for stud in spots if stud in behind - held]
    if hidden:
        # A screw of 100 through the upright and the board of the wall would hold by less than 6 d.
        yield finding(
            "check.site.studs",
            Severity.WARNING,
            f"existing studs at {', '.join(hidden)} stand behind uprights, where no ledger reaches"
            " them: no fixing is planned into them",
            f"screw those uprights through {mm(settings.wide)} and the wall's board, 40 or more"
            " into the stud, at 600 at most, clear of cables",
        )
    missed = [mm(stud) for stud in spots if stud not in held | behind]
    if missed:
        yield finding(
            "check.site.studs",
            Severity.NOTE,
            f"existing studs at {', '.join(missed)} meet no ledger or upright",
            "no fixing is planned into them",
        )
    if len(held) < 2:
        yield finding(
            "check.site.studs",
            Severity.WARNING,
            "only 1 existing stud takes fixings" if held else "no existing stud takes fixings",
            "find more studs, or fix to noggins put into the existing wall",
        )


def _levels(settings: Settings) -> Iterator[Finding]:
    levels = settings.levels
    low = -levels.lowest_floor(0, settings.width)
    if low:
        ends = {"left end": 0, "right end": settings.width}
        lowest_end = min(ends, key=lambda end: levels.floor(ends[end]))
        dips = -levels.floor(ends[lowest_end]) < low
        end = "a place between its ends" if dips else f"the {lowest_end}"
        yield finding(
            "check.site.level",
            Severity.WARNING if low > MUCH_PACKING else Severity.NOTE,
            f"the floor falls {mm(low)} to {end}; the sole plate is packed up level",
            f"pack under each upright, up to {mm(low)} at {end}",
        )
    high = levels.highest_ceiling(0, settings.width)
    lowest = levels.lowest_ceiling(0, settings.width)
    yield finding(
        "check.fit",
        Severity.NOTE,
        _fitted(settings, lowest, high),
        "measure again at each upright before cutting",
    )


def _fitted(settings: Settings, lowest: int, high: int) -> str:
    """Say to what uprights are cut: the ceiling as surveyed, less the fit, or a level top."""
    wall = settings.wall
    to_plates = "to the space between its plates"
    if wall.extent.height is not None:
        given = wall.materials.fit
        unused = f"; materials.fit {mm(given)} is for uprights under a ceiling" if given else ""
        return (
            f"the top is level, {mm(wall.extent.height)} above the highest floor: each upright is"
            f" cut {to_plates}{unused}"
        )
    ceiling = f"follow the ceiling, {mm(lowest)} to {mm(high)}"
    if lowest == high:
        ceiling = f"reach to the ceiling, {mm(high)}"
    stepped = any(step.z or step.height is not None for step in wall.steps)
    return (
        f"uprights {ceiling} above the highest floor, each rounded down to 0.1 and cut"
        f" {mm(settings.fit)} short"
        + (f"; under a part's level top each is cut {to_plates}" if stepped else "")
    )
