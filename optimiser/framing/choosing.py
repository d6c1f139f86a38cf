"""What a cutting plan may choose among: the ways to board each box and its ends, and its plates.

A box laid out alike in two ways of boarding has one way in place of both.
"""

from __future__ import annotations

from dataclasses import replace

from optimiser.domain.frame import FrameChoice, Member, NoScrewBand, WallFixing, Way
from optimiser.framing.end_ways import without_ends
from optimiser.framing.fixing import fixings_sought, wall_fixings
from optimiser.framing.framed import EndWays, Framed
from optimiser.framing.quantities import Built, quantities
from optimiser.framing.remarks import box_remarks, wall_remarks
from optimiser.framing.settings import Settings
from optimiser.framing.spaces import packing
from optimiser.framing.ways import BOARDING, PLATES, more_of

IN_ONE, JOINED = "plates in one", "plates joined"
TALL, SHORT = "end as high as its sheets", "end joined in height"
ENDS_JOINED = "ends joined"


def choices_of(
    whole: Settings,
    names: list[str],
    ways: list[list[Framed]],
    joined: list[Framed],
    ended: list[list[EndWays]],
    bands: tuple[NoScrewBand, ...],
) -> tuple[tuple[FrameChoice, ...], dict[str, list[int]]]:
    """Return the choices of every box, and which way of each makes every other whole frame.

    `names` are those of the whole ways to board the wall, `ways` its boxes in each of them,
    `joined` its boxes in the first way with joined plates, `ended` the ends of each box that may be
    joined in height.
    """
    boxes_of_all = {id(one): one for way in ways for one in way}
    sought = {
        key: list(fixings_sought(one.members, one.settings, bands, one.placed.below))
        for key, one in boxes_of_all.items()
    }
    fixed = {key: tuple(one for one in found if one is not None) for key, found in sought.items()}
    loose = {key: found.count(None) for key, found in sought.items()}
    said = [
        wall_remarks(whole, way, bands, loose=sum(loose[id(one)] for one in way)) for way in ways
    ]
    # Plates and ends joined stand in one whole frame, so that it is looked at once for both.
    spliced_any = any(one is not first for one, first in zip(joined, ways[0], strict=True))
    what = [JOINED] * spliced_any + [ENDS_JOINED] * any(ended)
    pieced = ", ".join((names[0], *what))
    choices: list[FrameChoice] = []
    for number, spliced in enumerate(joined):
        boxes = [way[number] for way in ways]
        box = boxes[0].settings.name
        alike: dict[int, list[int]] = {}
        for i, one in enumerate(boxes):
            alike.setdefault(id(one), []).append(i)
        apart = spliced is not boxes[0] and all(_plates(one) == _plates(boxes[0]) for one in boxes)
        if apart:
            choices.append(
                FrameChoice(
                    name=PLATES,
                    box=box,
                    ways=_plate_ways(boxes[0], spliced, names, pieced),
                )
            )
        choices += [
            FrameChoice(name=end.name, box=box, ways=_ways_of_end(end, names, pieced))
            for end in ended[number]
        ]
        found: list[Way] = []
        for same in alike.values():
            within = (*(names[i] for i in same), *([pieced] if what and 0 in same else []))
            findings = dict.fromkeys(one for i in same for one in said[i])
            findings.update(dict.fromkeys(box_remarks(boxes[same[0]], ways[same[0]])))
            one = boxes[same[0]]
            way = _boarding(one, fixed[id(one)], ended[number], apart=apart)
            found.append(replace(way, name=names[same[0]], within=within, findings=tuple(findings)))
        choices.append(FrameChoice(name=BOARDING, box=box, ways=tuple(found)))
    others = {name: _taken(choices, name) for name in (*names, pieced)}
    return tuple(choices), {name: taken for name, taken in others.items() if any(taken)}


def _taken(choices: list[FrameChoice], name: str) -> list[int]:
    """Return which way of each choice a whole frame takes."""
    return [
        next((n for n, way in enumerate(choice.ways) if name in way.within), 0)
        for choice in choices
    ]


def without(choices: tuple[FrameChoice, ...], unsound: set[str]) -> tuple[FrameChoice, ...]:
    """Return the choices without the ways that stand in no whole frame but `unsound` ones."""
    return tuple(
        replace(choice, ways=tuple(way for way in choice.ways if not set(way.within) <= unsound))
        for choice in choices
    )


def with_first(choices: tuple[FrameChoice, ...], name: str) -> tuple[FrameChoice, ...]:
    """Return the choices, the ways of the whole frame of that name before all others."""
    return tuple(
        replace(choice, ways=tuple(sorted(choice.ways, key=lambda way: name not in way.within)))
        for choice in choices
    )


def _plates(one: Framed) -> tuple[Member, ...]:
    return tuple(member for member in one.members if member.kind.endswith("plate"))


def _plate_ways(first: Framed, spliced: Framed, names: list[str], pieced: str) -> tuple[Way, Way]:
    in_one, joined = (
        Way(
            name=name,
            within=within,
            members=_plates(one),
            fixings=tuple(wall_fixings(_plates(one), one.settings, one.bands, one.placed.below)),
            quantities=quantities([Built(settings=one.settings, members=_plates(one))]),
        )
        for one, name, within in (
            (first, IN_ONE, tuple(names)),
            (spliced, JOINED, (pieced,)),
        )
    )
    # The boarding's quantities count plates in one; these say what joined ones need more.
    more = more_of(joined.quantities, in_one.quantities, "joined plates")
    return replace(in_one, quantities=()), replace(joined, quantities=more)


def _ways_of_end(end: EndWays, names: list[str], pieced: str) -> tuple[Way, Way]:
    first, joined = (
        Way(
            name=name,
            within=within,
            members=one.members,
            boards=one.boards,
            tapes=one.tapes,
            quantities=quantities([_as_built(one)]),
        )
        for one, name, within in ((end.first, TALL, tuple(names)), (end.joined, SHORT, (pieced,)))
    )
    # As with plates, the boarding's quantities count an end as high as its sheets.
    more = more_of(joined.quantities, first.quantities, f"the {end.name} joined")
    return replace(first, quantities=()), replace(joined, quantities=more)


def _as_built(one: Framed, fixings: tuple[WallFixing, ...] = ()) -> Built:
    return Built(
        settings=one.settings,
        holes=one.placed.holes,
        members=one.members,
        boards=one.boards,
        tapes=one.tapes,
        fixings=fixings,
    )


def _boarding(
    one: Framed, fixings: tuple[WallFixing, ...], ended: list[EndWays], *, apart: bool
) -> Way:
    """Return the way of a box, without its ends and its plates where those are chosen apart.

    Its quantities count both all the same: as they are in the first way.
    """
    plates = {plate.mark for plate in _plates(one)} if apart else set()
    built = _as_built(one, fixings)
    rest = without_ends(one, ended)
    members = tuple(member for member in rest.members if member.mark not in plates)
    return Way(
        name="",
        within=(),
        members=members,
        boards=rest.boards,
        beads=rest.beads,
        faces=rest.faces,
        tapes=rest.tapes,
        fixings=tuple(fixing for fixing in fixings if fixing.member not in plates),
        packing=packing(one.settings, members),
        quantities=quantities([built]),
    )
