"""What is bought by the pack: screws, tape, adhesive, plaster, plugs, each with its arithmetic.

Counted from the members and boards in their places, never guessed from the area of the wall.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from optimiser.domain.frame import Board, Box, Edge, Member, Quantity, Tape, WallFixing
from optimiser.domain.wall import ExistingWall
from optimiser.framing.bearing import behind
from optimiser.framing.fixing import SCREWS_PER_END, UPRIGHT, spacing_text
from optimiser.framing.footing import footing
from optimiser.framing.openings import Hole
from optimiser.framing.settings import Settings
from optimiser.framing.shelves import shelf_screws
from optimiser.framing.survey import FIXING
from optimiser.framing.taping import length_of
from optimiser.units import counted, metres, mm, square_metres

# Screw centres in the field and at outside corners: published UK project specification 2014.
FIELD = 3_000
CORNERS = 2_000
# On a soffit: board maker's FAQ on screw centres.
OVERHEAD = 2_300
# Board screws reach so far into timber: web guide to screw length (1 in).
INTO_TIMBER = 250
# The first and last screw stand 10 in from the ends: bound edge ≥ 10, same specification.
INSET = 100
# 25 kg of skim on 10 m²: UK plasterers' bag guide gives 9 to 12.
PLASTER_GRAMS_PER_SQUARE_METRE = 2_500
# A first coat thinned for fresh skim covers 10 to 12 m² a litre: from memory.
PRIMER_ML_PER_SQUARE_METRE = 100
# A round bead of 6 mm is 28.27 mm² across, in hundredths: calculated.
ADHESIVE_AREA = 2_827
# Tape, 5 to 10 % more: common practice, no source.
TAPE_PERCENT_MORE = 10

_SQUARE_TENTHS_PER_SQUARE_METRE = 100_000_000
_LEAST_BEHIND = behind(Edge.FACTORY)
_UNSKIMMED = ("board.backboard", "board.shelf", "board.fire-lining")


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What quantities are counted from: one box of the wall, its members with their screws."""

    settings: Settings
    members: tuple[Member, ...]
    holes: list[Hole] = field(default_factory=list)
    boards: tuple[Board, ...] = ()
    tapes: tuple[Tape, ...] = ()
    fixings: tuple[WallFixing, ...] = ()


def screws_along(length: int, spacing: int) -> int:
    """Return how many screws hold a board along a timber: first and last 10 in from its ends."""
    if length <= 2 * INSET:
        return 1
    return -(-(length - 2 * INSET) // spacing) + 1


def quantities(boxes: list[Built]) -> tuple[Quantity, ...]:
    """Return everything bought by the pack for all boxes of a wall, none of it 0."""
    found = [
        *_timber_screws(boxes),
        *_drywall_screws(boxes),
        *_backboard(boxes),
        shelf_screws((built.settings, built.holes) for built in boxes),
        *_tape(boxes),
        _plaster(boxes),
        _primer(boxes),
        _light(boxes),
        _plugs(boxes),
        *footing([(built.settings, built.members) for built in boxes]),
    ]
    return tuple(quantity for quantity in found if quantity.amount)


def _timber_screws(boxes: list[Built]) -> list[Quantity]:
    ends = {"screw-80": 0, "screw-100": 0}
    flat = {"screw-70": 0, "screw-80": 0}
    plates = pairs = 0
    for one in (member for built in boxes for member in built.members):
        for screws in one.fixings:
            if screws.end != "along":
                ends[screws.item] += screws.count
            elif one.kind in UPRIGHT:
                flat[screws.item] += screws.count
                pairs += 1
            elif screws.item == "screw-100":
                plates += screws.count
    into = sum(fixing.into == "stud" for built in boxes for fixing in built.fixings)
    many = f"{pairs} upright{'s that stand' if pairs != 1 else ' that stands'}"
    beside = f"through {many} flat against another, at {mm(FIXING)} at most"
    working = f"{SCREWS_PER_END} at each of {ends['screw-80'] // SCREWS_PER_END} ends of members"
    return [
        Quantity(
            item="screw-70",
            amount=flat["screw-70"],
            unit="each",
            working=f"{flat['screw-70']} {beside}",
            rule="quantity.screw-70",
        ),
        Quantity(
            item="screw-80",
            amount=ends["screw-80"] + flat["screw-80"],
            unit="each",
            working=working + (f" + {flat['screw-80']} {beside}" if flat["screw-80"] else ""),
            rule="quantity.screw-80",
        ),
        Quantity(
            item="screw-100",
            amount=ends["screw-100"] + plates + into,
            unit="each",
            working=" + ".join(
                f"{count} through {what}"
                for count, what in (
                    (ends["screw-100"], "doubled uprights"),
                    (plates, f"plates at {mm(FIXING)} at most"),
                    (into, "ledgers into existing studs"),
                )
                if count
            ),
            rule="quantity.screw-100",
        ),
    ]


def _touching(one: Board, timber: Box) -> tuple[int, int] | None:
    """Return how far a timber lies behind a board along its width and its height."""
    across = _shared(one.box, timber, one.across.value[1])
    least = _LEAST_BEHIND
    if across < least:
        return None
    up = _shared(one.box, timber, one.up.value[1])
    return None if up < least else (across, up)


def _shared(one: Box, other: Box, axis: str) -> int:
    if axis == "x":
        return min(one.x + one.dx, other.x + other.dx) - max(one.x, other.x)
    if axis == "y":
        return min(one.y + one.dy, other.y + other.dy) - max(one.y, other.y)
    return min(one.z + one.dz, other.z + other.dz) - max(one.z, other.z)


def _front_screws(built: Built, *, outer: bool) -> int:
    """Count along the timbers behind the fronts: the first layer, or those `outer` to it."""
    settings = built.settings
    corners = {settings.left} if settings.left_bare else set()
    corners |= {settings.right - settings.thick} if settings.right_bare else set()
    face = settings.back + settings.front + settings.wide
    timbers = [m.box for m in built.members if m.box.y + m.box.dy == face]
    total = 0
    for one in built.boards:
        if not one.rule.startswith("board.front") or (one.layer > 1) is not outer:
            continue
        for timber in timbers:
            shared = _touching(one, timber)
            if shared is not None:
                spacing = CORNERS if timber.x in corners and shared[1] > shared[0] else FIELD
                total += screws_along(max(shared), spacing)
    return total


def _level_screws(built: Built, *, outer: bool) -> int:
    """Count along the returns and noggins behind tops and undersides, of one layer or the rest."""
    total = 0
    for one in built.boards:
        if one.rule not in ("board.top", "board.underside") or (one.layer > 1) is not outer:
            continue
        z = one.box.z if one.rule == "board.top" else one.box.z + one.box.dz
        for timber in built.members:
            end = timber.box.z + (timber.box.dz if one.rule == "board.top" else 0)
            layered = abs(end - z) <= built.settings.skin
            shared = _touching(one, timber.box) if layered else None
            if shared is not None:
                total += screws_along(max(shared), OVERHEAD)
    return total


def _drywall_screws(boxes: list[Built]) -> list[Quantity]:
    """Count the screws of first layers, and the longer ones that go through one board more."""
    front = sum(_front_screws(built, outer=False) for built in boxes)
    level = sum(_level_screws(built, outer=False) for built in boxes)
    boards = [one for built in boxes for one in built.boards]
    ends = sum(_end_screws(built, outer=False) for built in boxes)
    reveals = sum(
        _along_two(max(one.width, one.height))
        for one in boards
        if one.rule in ("board.reveal", "board.fire-lining")
    )
    backs = sum(
        screws_along(strut.length, FIELD)
        for built in boxes
        for strut, hole in _struts(built)
        if hole.kind != "tv"
    )
    more = f" + tops and undersides {level}" if level else ""
    return [
        Quantity(
            item="drywall-screw",
            amount=front + ends + reveals + backs + level,
            unit="each",
            working=f"front {front} + ends {ends} + reveals {reveals} + niche backs {backs}{more},"
            f" at {mm(FIELD)}, {mm(CORNERS)} at corners; {_least(boxes, 1)} long at least",
            rule="quantity.drywall-screw",
        ),
        _long_screws(boxes, boards),
    ]


def _long_screws(boxes: list[Built], boards: list[Board]) -> Quantity:
    front = sum(_front_screws(built, outer=True) for built in boxes)
    ends = sum(_end_screws(built, outer=True) for built in boxes)
    level = sum(_level_screws(built, outer=True) for built in boxes)
    more = f" + ends {ends}" if ends else ""
    more += f" + tops and undersides {level}" if level else ""
    cheeks = sum(
        _along_two(max(one.width, one.height)) for one in boards if one.rule == "board.double-cheek"
    )
    layers = max((one.layer for one in boards), default=1)
    return Quantity(
        item="drywall-screw-long",
        amount=front + cheeks + ends + level,
        unit="each",
        working=f"front {front} + second boards of cheeks {cheeks}{more}, through {layers} boards;"
        f" {_least(boxes, layers)} long at least",
        rule="quantity.drywall-screw-long",
    )


def _end_screws(built: Built, *, outer: bool) -> int:
    """Count along the front and back timber of bare ends, and the uprights between these."""
    between = [one.box for one in built.members if one.rule == "frame.upright.end-span"]
    total = 0
    for one in built.boards:
        if one.rule == "board.end" and (one.layer > 1) is outer:
            total += _along_two(one.height)
            side = one.box.x < built.settings.left
            for timber in between:
                at_end = (timber.x == built.settings.left) is side
                shared = _touching(one, timber) if at_end else None
                total += screws_along(shared[1], FIELD) if shared is not None else 0
    return total


def _along_two(length: int) -> int:
    """Count along the two timbers that hold a narrow board at its edges."""
    return 2 * screws_along(length, CORNERS)


def _least(boxes: list[Built], layers: int) -> str:
    """Say how long a screw is that goes 25 into timber behind so many boards."""
    return mm(layers * boxes[0].settings.board.thickness + INTO_TIMBER)


def _struts(built: Built) -> Iterator[tuple[Member, Hole]]:
    for one in built.members:
        if one.kind == "strut":
            for hole in built.holes:
                if one.box.x == hole.frame.x0 and hole.frame.z0 <= one.box.z < hole.frame.z1:
                    yield one, hole


def _backboard(boxes: list[Built]) -> list[Quantity]:
    behind = [
        strut.length for built in boxes for strut, hole in _struts(built) if hole.kind == "tv"
    ]
    screws = sum(screws_along(length, FIELD) for length in behind)
    run = sum(behind)
    return [
        Quantity(
            item="mdf-screw",
            amount=screws,
            unit="each",
            working=f"{screws} along {counted(len(behind), 'strut')} at {mm(FIELD)}",
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


def _tape(boxes: list[Built]) -> Iterator[Quantity]:
    for item, what in (
        ("joint-tape", "flat joints of the last layer"),
        ("angle-tape", "ceiling line and inside angles of recesses"),
    ):
        run = sum(length_of(t) for built in boxes for t in built.tapes if t.kind == item)
        yield Quantity(
            item=item,
            amount=-(-run * (100 + TAPE_PERCENT_MORE) // 1_000),
            unit="mm",
            working=f"{metres(run)} m of {what} + {TAPE_PERCENT_MORE} %",
            rule=f"quantity.{item}",
        )


def _last_layers(boxes: list[Built]) -> Iterator[Board]:
    """Yield the boards of the last layer of each face: those that are finished."""
    for built in boxes:
        last: dict[str, int] = {}
        for one in built.boards:
            last[one.face] = max(last.get(one.face, 0), one.layer)
        yield from (one for one in built.boards if one.layer == last[one.face])


def _area(one: Board) -> int:
    """Return what is finished of a board, the gap that it was eased by with it."""
    cuts = sum(cut.width * cut.height for cut in one.cut_outs)
    return (one.width + one.eased) * one.height - cuts


def _plaster(boxes: list[Built]) -> Quantity:
    """Skim covers the last layer of every boarded face but the backboard and the shelves."""
    area = sum(_area(one) for one in _last_layers(boxes) if one.rule not in _UNSKIMMED)
    grams = -(-area * PLASTER_GRAMS_PER_SQUARE_METRE // _SQUARE_TENTHS_PER_SQUARE_METRE)
    return Quantity(
        item="plaster",
        amount=grams if boxes[0].settings.skim else 0,
        unit="g",
        working=f"{square_metres(area)} m² × 25 kg / 10 m²",
        rule="quantity.plaster",
    )


def _primer(boxes: list[Built]) -> Quantity:
    """A first coat covers all that shows: skim or bare board, backboard, both sides of shelves."""
    area = 0
    for one in _last_layers(boxes):
        if one.rule != "board.fire-lining":
            area += _area(one) * (2 if one.rule == "board.shelf" else 1)
    return Quantity(
        item="primer",
        amount=-(-area * PRIMER_ML_PER_SQUARE_METRE // _SQUARE_TENTHS_PER_SQUARE_METRE),
        unit="ml",
        working=f"{square_metres(area)} m² × 1 l / 10 m²",
        rule="quantity.primer",
    )


def _light(boxes: list[Built]) -> Quantity:
    lit = [hole for built in boxes for hole in built.holes if hole.lit]
    run = sum(hole.clear.width * (hole.shelves + 1) for hole in lit)
    return Quantity(
        item="light-strip",
        amount=-(-run // 10),
        unit="mm",
        working=f"{metres(run)} m under the top and each shelf of {counted(len(lit), 'lit niche')}",
        rule="quantity.light-strip",
    )


def _plugs(boxes: list[Built]) -> Quantity:
    settings = boxes[0].settings
    plugs = [f for built in boxes for f in built.fixings if f.item == "plug-fixing"]
    backs = sum(
        one.kind in ("upright", "short upright") and one.box.y == built.settings.back
        for built in boxes
        for one in built.members
    )
    solid = settings.wall.site.kind is not ExistingWall.STUDS
    return Quantity(
        item="plug-fixing",
        amount=len(plugs) if solid else 0,
        unit="each",
        working=f"{backs} back uprights fixed at {spacing_text(settings)} at most",
        rule="quantity.plug-fixing",
    )
