"""The set-out sheet: what to mark and build on site, in order, with the dimensions of each step.

All of it is read off the frame: from the centre line across, from the floor datum up, from the
existing wall out. Nothing here decides anything.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from optimiser.domain.frame import Face, Frame, Toward
from optimiser.formats.set_out_boards import boards, checks, finish, fire, tv
from optimiser.formats.set_out_frame import (
    at_place,
    between,
    from_centre,
    ledgers,
    plates,
    rails,
    uprights,
)
from optimiser.units import mm

# Said again where they bite: the whole list stands before the first step.
_DRILLING = (
    "Find cables and pipes with a detector before any drilling; in a home built or refurbished"
    " before 2000 have coatings and boards sampled for asbestos first."
)
_FLOOR = (
    "No screw into a floor with heating pipes or cables without their plan. A solid floor: cure"
    " damp first, drill for each fixing with extraction, FFP3 or better, 60 or more from its edges."
)
_HEAD = (
    "Two people lift a head plate; work from steps or a platform, eyes protected. Its screws go"
    " into joists, or into noggins set between them: never into the ceiling's board alone."
)
_MASONRY = (
    "Drilling masonry sets silica free: extraction at the drill, FFP3 or better. Plugs go 50 or"
    " more into sound masonry, 60 or more from its edges."
)
_CLOSING = (
    "Electrics: isolated and proved dead, by a qualified electrician, before the frame is closed;"
    " accessories stay reachable. Data and aerial leads lie 50 or more from mains, or in conduit."
)
_BOARDS = (
    "Two people for anything over 25 kg and each sheet over 20 kg; carry boards on edge. Sawing"
    " board: extraction, FFP3 or better, eyes and ears."
)
_PLASTER = "Plaster and dust harm eyes and skin: follow the maker's safety sheet."
_HEAT = (
    "The fire's manual governs gaps, vents, what near it may burn and the distance to the TV;"
    " a qualified electrician connects it. Do not heat it before the maker allows."
)
_FALL = (
    "A falling TV can kill. Into timber, never board alone; check its mass and hole pattern and"
    " the bracket's rating at full reach; two people hang it; check again after a week."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step on site: what it is called, one line for each thing to mark or do, and what can
    hurt in doing it."""

    title: str
    lines: tuple[str, ...]
    cautions: tuple[str, ...] = ()


def set_out(frame: Frame) -> tuple[Step, ...]:
    """Return the steps of building one framed wall, in their order; sizes are in mm.

    Across is measured from the centre line, − to the left and + to the right; up from the floor
    datum, the highest point of the floor; out from the existing wall. Each step says which screws
    hold what it sets, and where.
    """
    plugs = any(one.into == "wall" for one in frame.fixings)
    steps = (
        _step("Centre line and datum", _lines(frame), _DRILLING),
        _step("Base: sole plates", plates(frame, "sole plate"), _FLOOR),
        _step("Head plates", plates(frame, "head plate"), _HEAD),
        _step("Ledgers on the existing wall", ledgers(frame)),
        _step("Uprights, back and front", uprights(frame), *((_MASONRY,) if plugs else ())),
        _step("Rails of the openings", rails(frame)),
        _step("Noggins, returns and struts", between(frame)),
        _step("Check before boarding", checks(frame), _CLOSING),
        _step("Boards", boards(frame), _BOARDS),
        _step("Beads, tape and skim", finish(frame), _PLASTER),
        _step("The fire", fire(frame), _HEAT),
        _step("The TV", tv(frame), _FALL),
    )
    return tuple(step for step in steps if step.lines)


def _step(title: str, lines: Iterable[str], *cautions: str) -> Step:
    return Step(title=title, lines=tuple(lines), cautions=cautions)


def set_out_text(frame: Frame, *, cautions: Iterable[str]) -> str:
    """Return the set-out sheet of one wall as plain text, the cautions before the first step."""
    lines = [f"SET-OUT SHEET, job {frame.job}", "All sizes in mm.", "", "CAUTIONS"]
    lines += [f"  - {caution}" for caution in cautions]
    for number, step in enumerate(set_out(frame), start=1):
        lines += ["", f"{number}. {step.title}"]
        lines += [f"   ! {caution}" for caution in step.cautions]
        lines += [f"   [ ] {line}" for line in step.lines]
    return "\n".join(lines) + "\n"


def _lines(frame: Frame) -> Iterator[str]:
    half = mm((frame.width + 1) // 2)
    yield f"Mark the centre line on floor, existing wall and ceiling: {half} from each end"
    yield "Strike the datum level through the highest point of the floor"
    yield _skirting(frame)
    for level in frame.levels:
        floor = f"floor {mm(-level.floor)} below" if level.floor else "floor on"
        where = at_place(frame, level.x)
        yield f"Check {where}: {floor} the datum, ceiling {mm(level.ceiling)} above it"
    fronts = sorted({face.box.y for face in _fronts(frame)})
    for y in fronts:
        yield f"Strike the finished face of the boards {mm(y)} out from the existing wall"
    for stud in frame.studs:
        yield f"Mark the existing stud {at_place(frame, stud)}; prove it with a fine drill"
    for band in frame.bands:
        box = band.box
        yield (
            f"Hatch the no-screw band {band.name}: {from_centre(frame, box.x)} to "
            f"{from_centre(frame, box.x + box.dx)}, {mm(max(box.z, 0))} to {mm(box.z + box.dz)} up"
        )


def _skirting(frame: Frame) -> str:
    kept = [f.trouble for f in frame.findings if f.rule == "check.site.skirting"]
    said = kept[0] if kept else "take off any skirting where the frame meets walls and floor"
    return said[:1].upper() + said[1:]


def _fronts(frame: Frame) -> list[Face]:
    return [face for face in frame.faces if face.faces is Toward.FRONT and "front" in face.name]
