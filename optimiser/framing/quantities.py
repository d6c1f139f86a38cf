"""What is bought by the pack: screws, tape, adhesive, plaster, plugs, each with its arithmetic.

Counted from the members and boards in their places, never guessed from the area of the wall.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.frame import Board, Member, Quantity
from optimiser.domain.wall import ExistingWall
from optimiser.framing.boarding import room
from optimiser.framing.horizontals import Row
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings
from optimiser.units import metres, mm, square_metres

# Screw centres in the field and at outside corners: published UK project specification 2014.
FIELD = 3_000
CORNERS = 2_000
# The first and last screw stand 10 in from the ends: bound edge ≥ 10, same specification.
INSET = 100
# Plates and uprights are fixed at 600 at most: UK trade wiki, stud walls.
FIXING = 6_000
SCREWS_PER_END = 2
# Kinds of member that run along the wall and end against uprights.
ALONG = ("sill", "head", "noggin", "strut", "ledger")
# 25 kg of skim on 10 m²: UK plasterers' bag guide gives 9 to 12.
PLASTER_GRAMS_PER_SQUARE_METRE = 2_500
# A round bead of 6 mm is 28.27 mm² across, in hundredths: calculated.
ADHESIVE_AREA = 2_827
# Tape, 5 to 10 % more: common practice, no source.
TAPE_PERCENT_MORE = 10

_SQUARE_TENTHS_PER_SQUARE_METRE = 100_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What quantities are counted from."""

    settings: Settings
    holes: list[Hole]
    members: tuple[Member, ...]
    boards: tuple[Board, ...]
    joints: tuple[int, ...]
    rows: tuple[Row, ...]


def screws_along(length: int, spacing: int) -> int:
    """Return how many screws hold a board along a timber: first and last 10 in from its ends."""
    if length <= 2 * INSET:
        return 1
    return -(-(length - 2 * INSET) // spacing) + 1


def quantities(built: Built) -> tuple[Quantity, ...]:
    """Return everything bought by the pack, none of it 0."""
    found = [
        *_timber_screws(built),
        _drywall_screws(built),
        *_backboard(built),
        *_tape(built),
        _plaster(built),
        _plugs(built),
    ]
    return tuple(quantity for quantity in found if quantity.amount)


def _timber_screws(built: Built) -> list[Quantity]:
    thick = built.settings.thick
    uprights = {m.box.x for m in built.members if m.kind in ("upright", "short upright")}
    doubled = {x for x in uprights if x + thick in uprights}
    single = double = 0
    for one in built.members:
        if one.kind.endswith("plate"):
            continue
        ends = 2
        if one.kind in ALONG:
            through = (one.box.x - 2 * thick in doubled) + (one.box.x + one.box.dx in doubled)
            double += SCREWS_PER_END * through
            ends -= through
        single += SCREWS_PER_END * ends
    runs = [m.length for m in built.members if m.kind.endswith("plate")]
    plates = sum(-(-run // FIXING) + 1 for run in runs)
    studs = built.settings.wall.site.stud_positions
    offset = built.settings.offset
    into = sum(
        SCREWS_PER_END
        for one in built.members
        if one.kind == "ledger"
        for stud in studs
        if one.box.x <= stud - offset <= one.box.x + one.box.dx
    )
    return [
        Quantity(
            item="screw-80",
            amount=single,
            unit="each",
            working=f"{SCREWS_PER_END} at each of {single // SCREWS_PER_END} ends of members",
            rule="quantity.screw-80",
        ),
        Quantity(
            item="screw-100",
            amount=double + plates + into,
            unit="each",
            working=f"{double} through doubled uprights + {plates} through plates at"
            f" {mm(FIXING)} at most + {into} through ledgers into existing studs",
            rule="quantity.screw-100",
        ),
    ]


def _front_screws(built: Built) -> int:
    settings = built.settings
    corners = {settings.left} if settings.left_free else set()
    corners |= {settings.right - settings.thick} if settings.right_free else set()
    total = 0
    timbers = [m for m in built.members if m.box.y == settings.front and m.box.dy == settings.wide]
    for one in built.boards:
        if one.face != "front":
            continue
        for timber in timbers:
            box = timber.box
            across = min(box.x + box.dx, one.x + one.width) - max(box.x, one.x)
            up = min(box.z + box.dz, one.z + one.height) - max(box.z, one.z)
            # Less than 6 + 10 of bearing takes no screw: published UK project specification 2014.
            if across < 160 or up < 160:
                continue
            spacing = CORNERS if timber.box.x in corners and up > across else FIELD
            total += screws_along(max(across, up), spacing)
    return total


def _drywall_screws(built: Built) -> Quantity:
    settings = built.settings
    front = _front_screws(built)
    ends = sum(
        2 * screws_along(one.height, CORNERS) for one in built.boards if one.rule == "board.end"
    )
    reveals = sum(
        2 * screws_along(max(one.width, one.height), CORNERS)
        for one in built.boards
        if one.rule == "board.reveal"
    )
    backs = sum(
        screws_along(strut.length, FIELD) for strut, hole in _struts(built) if hole.kind != "tv"
    )
    length = settings.board.thickness + 250
    return Quantity(
        item="drywall-screw",
        amount=front + ends + reveals + backs,
        unit="each",
        working=f"front {front} + ends {ends} + reveals {reveals} + niche backs {backs}, at"
        f" {mm(FIELD)}, {mm(CORNERS)} at corners; {mm(length)} long at least",
        rule="quantity.drywall-screw",
    )


def _struts(built: Built) -> list[tuple[Member, Hole]]:
    return [
        (one, hole)
        for one in built.members
        if one.kind == "strut"
        for hole in built.holes
        if one.box.x == hole.frame.x0 and hole.frame.z0 <= one.box.z < hole.frame.z1
    ]


def _backboard(built: Built) -> list[Quantity]:
    behind = [strut.length for strut, hole in _struts(built) if hole.kind == "tv"]
    shelves = sum(one.rule == "board.shelf" for one in built.boards)
    screws = sum(screws_along(length, FIELD) for length in behind)
    run = sum(behind)
    return [
        Quantity(
            item="mdf-screw",
            amount=screws + 4 * shelves,
            unit="each",
            working=f"{screws} along {len(behind)} struts at {mm(FIELD)} + 4 at each of"
            f" {shelves} shelves",
            rule="quantity.mdf-screw",
        ),
        Quantity(
            item="adhesive",
            amount=-(-run * ADHESIVE_AREA // 1_000_000),
            unit="ml",
            working=f"{metres(run)} m of struts × 28.27 mm²",
            rule="quantity.adhesive",
        ),
    ]


def _tape(built: Built) -> list[Quantity]:
    settings = built.settings
    flat = 0
    for joint in built.joints:
        bottom, top = room(settings, joint, joint)
        gone = sum(h.cut.height for h in built.holes if h.cut.x0 < joint < h.cut.x1)
        flat += top - bottom - gone
    for x0, x1, z in built.rows:
        flat += x1 - x0
        for hole in built.holes:
            if hole.cut.z0 < z < hole.cut.z1:
                flat -= max(0, min(x1, hole.cut.x1) - max(x0, hole.cut.x0))
    angles = settings.width
    angles += settings.depth * (settings.left_free + settings.right_free)
    for hole in built.holes:
        if hole.lined:
            angles += 4 * hole.depth
            if hole.kind != "tv":
                angles += 2 * (hole.clear.width + hole.clear.height)
    if not settings.skim:
        angles = 0
    return [
        _tape_quantity("joint-tape", flat, "flat joints of the last layer"),
        _tape_quantity("angle-tape", angles, "ceiling line and inside angles of recesses"),
    ]


def _tape_quantity(item: str, run: int, what: str) -> Quantity:
    amount = -(-run * (100 + TAPE_PERCENT_MORE) // 1_000)
    return Quantity(
        item=item,
        amount=amount,
        unit="mm",
        working=f"{metres(run)} m of {what} + {TAPE_PERCENT_MORE} %",
        rule=f"quantity.{item}",
    )


def _plaster(built: Built) -> Quantity:
    """Skim covers the last layer of every boarded face but the backboard and the shelves."""
    settings = built.settings
    area = 0
    for one in built.boards:
        if one.face in ("front", "left", "right") and one.layer != settings.layers:
            continue
        if one.rule in ("board.backboard", "board.shelf"):
            continue
        area += one.width * one.height - sum(cut.width * cut.height for cut in one.cut_outs)
    grams = -(-area * PLASTER_GRAMS_PER_SQUARE_METRE // _SQUARE_TENTHS_PER_SQUARE_METRE)
    return Quantity(
        item="plaster",
        amount=grams if settings.skim else 0,
        unit="g",
        working=f"{square_metres(area)} m² × 25 kg / 10 m²",
        rule="quantity.plaster",
    )


def _plugs(built: Built) -> Quantity:
    settings = built.settings
    backs = [
        one.length
        for one in built.members
        if one.kind in ("upright", "short upright") and one.box.y == 0
    ]
    solid = settings.wall.site.kind is ExistingWall.SOLID
    amount = sum(-(-length // FIXING) + 1 for length in backs) if solid else 0
    return Quantity(
        item="plug-fixing",
        amount=amount,
        unit="each",
        working=f"{len(backs)} back uprights fixed at {mm(FIXING)} at most",
        rule="quantity.plug-fixing",
    )
