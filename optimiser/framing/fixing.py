"""Which screws hold each member: at its ends into its neighbours, and into the house behind it.

Screws into the existing wall keep out of the bands in which its cables may run.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from optimiser.domain.frame import Box, Fixing, Member, NoScrewBand, Point, WallFixing
from optimiser.domain.wall import ExistingWall, Floor
from optimiser.framing.changed import changed
from optimiser.framing.settings import Settings
from optimiser.framing.survey import FIXING
from optimiser.units import Tenths, mm

SCREWS_PER_END = 2
UPRIGHT = ("upright", "short upright")
# Kinds of member that run along the wall and end against uprights.
ALONG = ("sill", "head", "noggin", "strut", "ledger")
SINGLE, DOUBLE = ("screw-80", 800), ("screw-100", 1_000)
# Face to face a screw must not come out at the back: 70 through twice 38 (calculated), 80 through
# anything that is thicker than it.
FLAT = ("screw-70", 700)
# The first and last screw of a run stand this far from its ends: common practice, no source.
FROM_END = 500
# A cable hidden less than 50 deep runs within 150 of an angle or the ceiling, or straight up, down
# or across from an accessory: BS 7671 522.6.202, as training companies quote it. A wall's file does
# not say how wide its plate is: 75 each side covers a double one, 146 wide (from memory).
ZONE = 1_500
HALF_BOX = 750
# A ledger splits where a screw stands nearer to its end: five times the screw, common practice. A
# stud of 38 takes a screw 13 aside of its middle: 6 from its edge (published UK project
# specification 2014).
LEDGER_END = 250
OFF_MIDDLE = 130
# A screw that would meet a band moves along its member by this much at a time.
_STEP = 100


def fixed(
    listed: list[Member],
    settings: Settings,
    groups: list[str],
    against: Iterable[Box] = (),
    below: Sequence[Box] = (),
) -> list[Member]:
    """Return the members of one box with their screws and the names of their groups.

    `against` are the uprights of the box at its right that its own stand flat against, `below` the
    timbers of the boxes that it stands on.
    """
    thick = settings.thick
    beside: dict[tuple[int, int, int], list[Box]] = {}
    for box in (*(one.box for one in listed if one.kind in UPRIGHT), *against):
        beside.setdefault((box.x, box.y, box.dy), []).append(box)
    flat = flat_screw(thick)
    uprights: dict[int, set[int]] = {}
    for one in listed:
        if one.kind in UPRIGHT:
            uprights.setdefault(one.box.y, set()).add(one.box.x)
    every = set().union(*uprights.values()) if uprights else set()
    doubled = {x for x in every if x + thick in every}
    return [
        changed(
            one,
            fixings=(*_fixings(one, doubled, settings, below), *_flat(one, beside, flat)),
            group=group,
        )
        for one, group in zip(listed, groups, strict=True)
    ]


def flat_screw(thick: int) -> tuple[str, int]:
    """Return item and length of the screw for two timbers flat against each other.

    The longest sold that stays within both.
    """
    return SINGLE if 2 * thick > SINGLE[1] else FLAT


def _flat(
    one: Member, beside: dict[tuple[int, int, int], list[Box]], screw: tuple[str, int]
) -> Iterator[Fixing]:
    """Yield the screws of an upright into those that stand flat against its right side.

    `beside` are uprights by their left side, their back and their depth.
    """
    if one.kind not in UPRIGHT:
        return
    box = one.box
    count = sum(
        screws_between(min(box.z + box.dz, other.z + other.dz) - max(box.z, other.z))
        for other in beside.get((box.x + box.dx, box.y, box.dy), ())
    )
    if count:
        yield _screws("along", screw, count, 1)


def screws_between(common: int) -> int:
    """Return how many screws join two uprights that stand against each other over a height."""
    if common <= 0:
        return 0
    return -(-common // FIXING) + 1 if common > 2 * FROM_END else 1


def _fixings(
    one: Member, doubled: set[int], settings: Settings, below: Sequence[Box]
) -> Iterator[Fixing]:
    thick = settings.thick
    if one.kind.endswith("plate"):
        count = len(_plate_places(one, settings, below))
        if count and one.kind == "sole plate" and settings.base == 0:
            yield _screws("along", (floor_screw(settings), DOUBLE[1]), count, 1)
        elif count:
            yield _screws("along", DOUBLE, count, 1)
        return
    box = one.box
    for end in ("start", "end"):
        through = 1
        if one.kind in ALONG:
            first = box.x - 2 * thick if end == "start" else box.x + box.dx
            through = 2 if first in doubled else 1
        # A return meets the edge of an upright, which no screw of 80 passes: it goes in aslant.
        slant = one.kind == "return"
        yield _screws(
            end, DOUBLE if through == 2 else SINGLE, SCREWS_PER_END, 0 if slant else through
        )


@cache
def _screws(end: str, screw: tuple[str, int], count: int, through: int) -> Fixing:
    item, length = screw
    return Fixing(end=end, item=item, length=Tenths(length), count=count, through=through)


def no_screw_bands(settings: Settings) -> tuple[NoScrewBand, ...]:
    """Return where cables may run in the existing wall, by its accessories; nothing without any."""
    spots = settings.wall.site.accessories
    high = settings.levels.highest_ceiling(0, settings.width)
    # Under a ceiling that slopes the band reaches down to 150 below its lowest place.
    under = settings.levels.lowest_ceiling(0, settings.width) - ZONE
    low = settings.levels.lowest_floor(0, settings.width)
    found: list[NoScrewBand] = []
    for i, spot in enumerate(spots, start=1):
        x = spot.x - settings.offset
        found.append(
            _band(f"up and down from accessory {i}", x - HALF_BOX, x + HALF_BOX, low, high)
        )
        across = spot.z - HALF_BOX, spot.z + HALF_BOX
        found.append(_band(f"across from accessory {i}", 0, settings.width, *across))
    if spots:
        found.append(_band("below the ceiling", 0, settings.width, under, high))
        if settings.offset < ZONE:
            found.append(_band("at the left corner", 0, ZONE - settings.offset, low, high))
        beyond = settings.wall.site.clear_width - settings.offset - settings.width
        if beyond < ZONE:
            edge = settings.width - ZONE + beyond
            found.append(_band("at the right corner", edge, settings.width, low, high))
    return tuple(band for band in found if band.box.dx > 0)


def _band(name: str, x0: int, x1: int, z0: int, z1: int) -> NoScrewBand:
    box = Box(
        x=Tenths(x0),
        y=Tenths(0),
        z=Tenths(z0),
        dx=Tenths(x1 - x0),
        dy=Tenths(0),
        dz=Tenths(z1 - z0),
    )
    return NoScrewBand(name=name, box=box)


def wall_fixings(
    members: Iterable[Member],
    settings: Settings,
    bands: tuple[NoScrewBand, ...],
    below: Sequence[Box] = (),
) -> list[WallFixing]:
    """Return each screw from one box's members into the existing wall, its floor and ceiling.

    `below` are the timbers of the boxes that it stands on, into which its sole plates are screwed.
    """
    return [one for one in fixings_sought(members, settings, bands, below) if one is not None]


def fixings_sought(
    members: Iterable[Member],
    settings: Settings,
    bands: tuple[NoScrewBand, ...],
    below: Sequence[Box],
) -> Iterator[WallFixing | None]:
    """Yield the same, and None for each screw that finds no place outside the bands."""
    site = settings.wall.site
    spacing = site.plug_spacing or FIXING
    studs = [stud - settings.offset for stud in site.stud_positions]
    for one in members:
        box = one.box
        if one.kind in UPRIGHT and box.y == settings.back:
            if site.kind is not ExistingWall.STUDS:
                x = box.x + box.dx // 2
                for z in _spread(box.z, box.z + box.dz, spacing):
                    spot = _clear_of(x, z, (box.z, box.z + box.dz), bands)
                    at = x, settings.back, z if spot is None else spot
                    yield None if spot is None else _into(one, at, "wall", "plug-fixing")
        elif one.kind == "ledger":
            for stud in studs:
                there = screw_into_stud(stud, box.x, box.x + box.dx)
                if there is not None:
                    for z in (box.z + box.dz // 4, box.z + 3 * box.dz // 4):
                        at = there, settings.back, z
                        taken = _in_band(there, z, bands)
                        yield None if taken else _into(one, at, "stud", "screw-100")
        elif one.kind.endswith("plate"):
            yield from _plate(one, settings, below)


def screw_into_stud(stud: int, start: int, end: int) -> int | None:
    """Return where a ledger from `start` to `end` is screwed to a stud behind it, None where it
    cannot be: clear of its own ends, and aside of the stud's middle if need be."""
    x = min(max(stud, start + LEDGER_END), end - LEDGER_END)
    return x if x - start >= LEDGER_END and abs(x - stud) <= OFF_MIDDLE else None


def _plate(one: Member, settings: Settings, below: Sequence[Box]) -> Iterator[WallFixing]:
    box = one.box
    sole = one.kind == "sole plate"
    y = box.y + box.dy // 2
    for x in _plate_places(one, settings, below):
        if sole and settings.base == 0:
            yield _into(one, (x, y, box.z), "floor", floor_screw(settings))
        elif sole:
            yield _into(one, (x, y, box.z), "box below", DOUBLE[0])
        else:
            at = (x, y, settings.levels.ceiling(x))
            yield _into(one, at, "ceiling", "screw-100")


def _plate_places(one: Member, settings: Settings, below: Sequence[Box]) -> list[int]:
    """Return where along a plate its screws stand.

    None where it meets air: over a head plate that stops short of the ceiling, under a part built
    out further than what it stands on. Set back from the front of what it stands on, a plate is
    screwed to the returns there; then its own uprights' screws hold the rest.
    """
    box = one.box
    places = _spread(box.x, box.x + box.dx, FIXING)
    if one.kind != "sole plate":
        return [] if settings.flat_top else places
    if settings.base == 0:
        return places
    y = box.y + box.dy // 2
    under = [b for b in below if b.y <= y <= b.y + b.dy and b.z + b.dz == box.z]
    plates = [b for b in under if b.dx > b.dy]
    if plates:
        return [x for x in places if any(b.x <= x <= b.x + b.dx for b in plates)]
    middles = {b.x + b.dx // 2 for b in under}
    return sorted(x for x in middles if box.x < x < box.x + box.dx)


def floor_screw(settings: Settings) -> str:
    """Return the item that holds sole plates to the floor: in concrete a screw takes a plug."""
    return "hammer-fixing" if settings.wall.site.floor is Floor.SOLID else DOUBLE[0]


def _spread(start: int, end: int, spacing: int) -> list[int]:
    """Return places along a run, its ends' included, no further apart than the spacing."""
    inset = min(FROM_END, (end - start) // 4)
    parts = -(-(end - start) // spacing)
    lo, hi = start + inset, end - inset
    return [lo + (hi - lo) * i // parts for i in range(parts + 1)]


def _in_band(x: int, z: int, bands: tuple[NoScrewBand, ...]) -> bool:
    for band in bands:
        box = band.box
        if box.x < x < box.x + box.dx and box.z < z < box.z + box.dz:
            return True
    return False


def _clear_of(x: int, z: int, span: tuple[int, int], bands: tuple[NoScrewBand, ...]) -> int | None:
    """Return the nearest height on an upright that no band covers, None when there is none."""
    covered = [
        (band.box.z, band.box.z + band.box.dz)
        for band in bands
        if band.box.x < x < band.box.x + band.box.dx
    ]
    if not any(low < z < high for low, high in covered):
        return z
    lowest, highest = span[0] + _STEP, span[1] - _STEP
    # Only next to the ends of bands can the nearest place lie; it moves by whole steps.
    ways = {z - -(-(z - low) // _STEP) * _STEP for low, _ in covered}
    ways |= {z + -(-(high - z) // _STEP) * _STEP for _, high in covered}
    free = (
        way
        for way in ways
        if lowest <= way <= highest and not any(low < way < high for low, high in covered)
    )
    return min(free, key=lambda way: (abs(way - z), -way), default=None)


def _into(one: Member, at: tuple[int, int, int], into: str, item: str) -> WallFixing:
    point = Point(x=Tenths(at[0]), y=Tenths(at[1]), z=Tenths(at[2]))
    return WallFixing(at=point, into=into, item=item, member=one.mark)


def spacing_text(settings: Settings) -> str:
    """Say how far apart plugs are at most."""
    return mm(settings.wall.site.plug_spacing or FIXING)
