"""The smallest change that a finding names clears it, and a little less does not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.domain.frame import Frame
from optimiser.domain.wall import End, Glass, Socket, Wall
from optimiser.framing.boxes import boxes
from optimiser.framing.build import frame_wall
from optimiser.framing.hanging import TOP_SCREWS, BracketUse
from optimiser.framing.notes import Notes
from optimiser.framing.placing import place_openings
from optimiser.framing.recesses import TvChoice
from optimiser.framing.rules import RULES
from optimiser.framing.settings import Settings, settle
from optimiser.units import Tenths, tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_price_book,
    a_section,
    a_site,
    a_tv,
    a_wall,
    an_extent,
    materials,
)

BOOK = a_price_book()
BOTH = an_extent(depth=tenths(420), offset=tenths(300), width=tenths(1_300), left=End.FREE)


def a_socket(x: float, z: float, width: float = 150, height: float = 90) -> Socket:
    return Socket(x=tenths(x), z=tenths(z), width=tenths(width), height=tenths(height))


# A wall, the rule and severity of the finding that it has, and the fields that its change names.
CASES: dict[str, tuple[Wall, str, Severity, tuple[str, ...]]] = {
    "a fire deeper than the wall": (
        a_wall(fire=a_fire(body_depth=tenths(295))),
        "check.fire.depth",
        Severity.STOP,
        ("wall.depth",),
    ),
    "a fire that the back frame goes round": (
        a_wall(fire=a_fire(body_depth=tenths(260))),
        "check.fire.depth",
        Severity.NOTE,
        ("wall.depth",),
    ),
    "a fire narrower than a front of glass": (
        a_wall(
            extent=replace(BOTH, right=End.FREE),
            fire=a_fire(glass=Glass.BOTH, body_width=tenths(1_270), opening_width=tenths(1_270)),
        ),
        "check.fire.width",
        Severity.STOP,
        ("wall.width",),
    ),
    "a hole larger than the fire": (
        a_wall(fire=a_fire(opening_width=tenths(1_290), opening_height=tenths(490))),
        "check.fire.opening",
        Severity.WARNING,
        ("fire.opening_width", "fire.opening_height"),
    ),
    "a facing board far beyond its timber": (
        a_wall(fire=a_fire(opening_width=tenths(1_100), opening_height=tenths(400))),
        "check.fire.overhang",
        Severity.STOP,
        ("fire.opening_width", "fire.opening_height"),
    ),
    "a centre that the glass does not heed": (
        a_wall(
            extent=BOTH,
            fire=a_fire(
                glass=Glass.LEFT, body_width=tenths(900), opening_width=None, centre=tenths(600)
            ),
        ),
        "check.fire.centre",
        Severity.WARNING,
        ("fire.centre",),
    ),
    "a fire that draws too much": (
        a_wall(fire=a_fire(power=3_000)),
        "check.fire.power",
        Severity.WARNING,
        ("fire.power",),
    ),
    "a TV close over a fire": (
        a_wall(fire=a_fire(), tv=a_tv(above_fire=tenths(250))),
        "check.fire.tv",
        Severity.WARNING,
        ("tv.above_fire",),
    ),
    "a TV hung close over a fire": (
        a_wall(fire=a_fire(), tv=a_tv(centre_height=tenths(1_415))),
        "check.fire.tv",
        Severity.WARNING,
        ("tv.centre_height",),
    ),
    "a recess too narrow and too low": (
        a_wall(tv=a_tv(recess_width=tenths(1_475), recess_height=tenths(860))),
        "check.tv.gap",
        Severity.WARNING,
        ("tv.recess_width", "tv.recess_height"),
    ),
    "a recess narrower than the TV": (
        a_wall(tv=a_tv(recess_width=tenths(1_440))),
        "check.tv.gap",
        Severity.STOP,
        ("tv.recess_width",),
    ),
    "a recess shallower than the TV": (
        a_wall(tv=a_tv(recess_depth=tenths(40))),
        "check.tv.depth",
        Severity.WARNING,
        ("tv.recess_depth",),
    ),
    "a bracket larger than the backboard": (
        a_wall(tv=a_tv(bracket_width=tenths(1_600), bracket_height=tenths(950))),
        "check.tv.bracket",
        Severity.STOP,
        ("tv.bracket_width", "tv.bracket_height"),
    ),
    "a bracket near the edge of the backboard": (
        a_wall(tv=a_tv(bracket_width=tenths(1_520))),
        "check.tv.edge",
        Severity.WARNING,
        ("tv.bracket_width",),
    ),
    "a recess without room for the bracket's struts": (
        a_wall(tv=a_tv(height=tenths(300), width=tenths(530), recess_height=tenths(340))),
        "check.tv.bracket",
        Severity.WARNING,
        ("tv.recess_height",),
    ),
    "a socket behind the bracket's plate": (
        a_wall(tv=a_tv(sockets=(a_socket(1_960, 1_060),))),
        "check.tv.bracket",
        Severity.STOP,
        ("tv.sockets[0].x",),
    ),
    "a socket outside the recess": (
        a_wall(tv=a_tv(sockets=(a_socket(950, 1_070),))),
        "check.tv.socket",
        Severity.WARNING,
        ("tv.sockets[0].x",),
    ),
    "a socket on a strut": (
        a_wall(tv=a_tv(sockets=(a_socket(2_300, 1_140),))),
        "check.tv.socket",
        Severity.WARNING,
        ("tv.sockets[0].z",),
    ),
    "a TV too heavy for its bracket's screws": (
        a_wall(tv=a_tv(mass=60_000, bracket_reach=tenths(500))),
        "check.tv.withdrawal",
        Severity.STOP,
        ("tv.bracket_reach",),
    ),
    "a TV too heavy for pull and shear together": (
        a_wall(tv=a_tv(mass=60_000, bracket_reach=tenths(500))),
        "check.tv.shear",
        Severity.STOP,
        ("tv.bracket_reach",),
    ),
    "a TV hung too high": (
        a_wall(tv=a_tv(centre_height=tenths(1_800), viewing_distance=tenths(2_000))),
        "check.tv.angle",
        Severity.WARNING,
        ("tv.viewing_distance",),
    ),
    "uprights too far apart for the board": (
        a_wall(materials=materials(centres=tenths(620))),
        "check.board.centres",
        Severity.STOP,
        ("materials.centres",),
    ),
    "uprights too far apart for thin board": (
        a_wall(materials=materials(centres=tenths(600), board="plasterboard-9.5")),
        "check.board.centres",
        Severity.STOP,
        ("materials.centres",),
    ),
    "a shelf that sags": (
        a_wall(niches=(a_niche(width=tenths(600)),)),
        "check.shelf.sag",
        Severity.WARNING,
        ("niches.niche.width",),
    ),
    "a shelf too heavy for its screws": (
        a_wall(niches=(a_niche(width=tenths(2_800)),)),
        "check.shelf.fixing",
        Severity.WARNING,
        ("niches.niche.width",),
    ),
    "niches nearly in line": (
        a_wall(
            niches=(
                a_niche(height=tenths(400), shelves=0),
                a_niche(
                    name="over",
                    x=tenths(205),
                    z=tenths(1_500),
                    width=tenths(345),
                    height=tenths(400),
                    shelves=0,
                ),
            )
        ),
        "check.opening.aligned",
        Severity.NOTE,
        (),
    ),
}


def changed(wall: Wall, change: Change, *, less: int = 0) -> Wall:
    """Return a wall with one field as a change says, or `less` tenths nearer to what it was."""
    *path, last = change.field.split(".")
    made: Wall = _set(wall, path, last, change.value, less)
    return made


def _set(value: Any, path: list[str], last: str, to: str, less: int) -> Any:
    if not path:
        now = getattr(value, last)
        if to == "":
            return replace(value, **{last: now if less else None})
        wanted = int(to) if last == "power" else int(tenths(to))
        if now is not None and less:
            wanted += less if now > wanted else -less
        return replace(value, **{last: Tenths(wanted)})
    step, *rest = path
    name, _, place = step.partition("[")
    name = {"wall": "extent"}.get(name, name)
    inner = getattr(value, name)
    if isinstance(inner, tuple):
        named = not place
        i = [one.name for one in inner].index(rest.pop(0)) if named else int(place[:-1])
        one = _set(inner[i], rest, last, to, less)
        return replace(value, **{name: (*inner[:i], one, *inner[i + 1 :])})
    return replace(value, **{name: _set(inner, rest, last, to, less)})


def found(wall: Wall, rule: str, severity: Severity) -> list[Finding]:
    """Return the findings of a rule: notes, or else all that are more than a note."""
    return [
        one
        for one in frame_wall(wall, BOOK).findings
        if one.rule == rule and (one.severity is Severity.NOTE) == (severity is Severity.NOTE)
    ]


@pytest.mark.parametrize("name", CASES)
def test_the_smallest_change_clears_a_finding_and_a_tenth_less_of_it_does_not(name: str) -> None:
    wall, rule, severity, named = CASES[name]
    finding = found(wall, rule, severity)[0]
    assert finding.severity is severity
    assert tuple(change.field for change in finding.change)[: len(named)] == named
    assert finding.change

    cleared = wall
    for change in finding.change:
        cleared = changed(cleared, change)
    assert not found(cleared, rule, severity)

    for one in finding.change:
        nearly = wall
        for change in finding.change:
            nearly = changed(nearly, change, less=1 if change is one else 0)
        assert found(nearly, rule, severity)


# Rules whose findings have no smallest change of the wall's file, and why.
WITHOUT = {
    "check.fire.maker": "the manual alone knows the clearance that is left out",
    "check.fire.ventilation": "told for the record",
    "check.fire.barrier": "told for the record",
    "check.cable.passage": "a slot's height moves its struts too",
    "check.cable.route": "told for the record, or where no cable may cross",
    "check.site.accessory": "the electrician says where it goes",
    "check.fire.lining": "no size: it names another board, see test_fire_lining",
    "check.tv.size": "only the TV's case knows its size",
    "check.tv.mass": "only the TV knows its mass",
    "check.board.noggins": "told for the record: noggins are in",
    "check.board.bearing": "which sections there are is the price book's",
    "check.board.corner": "moving an opening moves the joints too",
    "check.board.strip": "moving an opening moves the joints too",
    "check.timber.section": "which sections there are is the price book's",
    "check.timber.noggin": "which sections there are is the price book's",
    "check.timber.size": "told for the record",
    "check.timber.stock": "the length to add stands in the remedy; the price book is no field",
    "check.mass.sheet": "boards weigh what they weigh",
    "check.mass.item": "a fire and a TV weigh what they weigh",
    "check.tv.distance": "told for the record: the seat is the client's to choose",
    "check.site.studs": "studs stand where they stand",
    "check.site.level": "the floor is as it is",
    "check.site.lean": "side walls are as they are",
    "check.site.skirting": "told for the record",
    "check.site.cables": "cables lie where they lie",
    "check.niche.light": "told for the record",
    "check.fit": "told for the record",
}


def test_every_check_has_a_smallest_change_or_a_reason_for_none() -> None:
    checks = {rule for rule in RULES if rule.startswith("check.")}

    assert checks == {rule for _, rule, _, _ in CASES.values()} | set(WITHOUT)


@pytest.mark.parametrize("sheared", [False, True])
@pytest.mark.parametrize("mass", [30_000, 60_000, 80_000])
def test_so_many_screws_hold_a_bracket_and_one_fewer_do_not(mass: int, *, sheared: bool) -> None:
    wall = a_wall(tv=a_tv(mass=mass, bracket_reach=tenths(500)))
    settings, tv = settled(wall)

    use = BracketUse(settings, tv)
    screws = use.wanted(sheared=sheared).screws

    def used(count: int) -> float:
        pulled, _, both = use.shares(tv.bracket_reach, count)
        return both if sheared else pulled

    assert used(screws) <= 1
    if screws > TOP_SCREWS:
        assert used(screws - 1) > 1
        rule = "check.tv.shear" if sheared else "check.tv.withdrawal"
        remedy = found(wall, rule, Severity.STOP)[0].remedy
        assert remedy.startswith(f"{screws} screws at the top of the plate")


def test_a_stock_length_of_what_the_remedy_says_clears_a_member_that_is_too_long() -> None:
    room = a_wall(site=a_site(height_left=tenths(3_000)))
    stop = next(f for f in framed_with(room, 2_400).findings if f.rule == "check.timber.stock")
    length = int(stop.remedy.split("stock length of ")[1].split(" ")[0])

    for stock, expected in ((length, False), (length - 1, True)):
        rules = {f.rule for f in framed_with(room, stock).findings}
        assert ("check.timber.stock" in rules) is expected


def framed_with(wall: Wall, length: float) -> Frame:
    timber = a_section("c16-38x63", 38, 63, grade="C16", lengths=(length,))
    return frame_wall(wall, replace(BOOK, lengths=(timber, *BOOK.lengths[1:])))


def settled(wall: Wall) -> tuple[Settings, TvChoice]:
    notes = Notes()
    whole = settle(wall, BOOK, notes)
    assert whole is not None
    (box,) = place_openings(boxes(whole, notes)[0], set(), notes)
    assert box.tv is not None
    return box.settings, box.tv
