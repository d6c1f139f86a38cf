"""The set-out sheet: what to mark and build on site, in order, with the dimensions of each step.

All of it is read off the frame: from the centre line across, from the floor datum up, from the
existing wall out. Nothing here decides anything.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from optimiser.domain.frame import Face, Frame, Member, Toward
from optimiser.units import mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step on site: what it is called, and one line for each thing to mark or do."""

    title: str
    lines: tuple[str, ...]


def set_out(frame: Frame) -> tuple[Step, ...]:
    """Return the steps of building one framed wall, in their order; sizes are in mm.

    Across is measured from the centre line, − to the left and + to the right; up from the floor
    datum, the highest point of the floor; out from the existing wall.
    """
    steps = (
        Step(title="Centre line and datum", lines=tuple(_lines(frame))),
        Step(title="Base: sole plates", lines=tuple(_plates(frame, "sole plate"))),
        Step(title="Head plates", lines=tuple(_plates(frame, "head plate"))),
        Step(title="Ledgers on the existing wall", lines=tuple(_ledgers(frame))),
        Step(title="Uprights, back and front", lines=tuple(_uprights(frame))),
        Step(title="Rails of the openings", lines=tuple(_rails(frame))),
        Step(title="Noggins, returns and struts", lines=tuple(_between(frame))),
        Step(title="Check before boarding", lines=tuple(_openings(frame))),
        Step(title="Boards", lines=tuple(_boards(frame))),
    )
    return tuple(step for step in steps if step.lines)


def set_out_text(frame: Frame, *, cautions: Iterable[str]) -> str:
    """Return the set-out sheet of one wall as plain text, the cautions before the first step."""
    lines = [f"SET-OUT SHEET, job {frame.job}", "All sizes in mm.", "", "CAUTIONS"]
    lines += [f"  - {caution}" for caution in cautions]
    for number, step in enumerate(set_out(frame), start=1):
        lines += ["", f"{number}. {step.title}"]
        lines += [f"   [ ] {line}" for line in step.lines]
    return "\n".join(lines) + "\n"


def _from_centre(frame: Frame, x: int) -> str:
    """Write an x as the distance from the centre line, half tenths away from it."""
    off = 2 * x - frame.width
    size = mm((abs(off) + 1) // 2)
    return "on the centre line" if off == 0 else f"{'+' if off > 0 else '−'}{size}"


def _lines(frame: Frame) -> Iterator[str]:
    half = mm((frame.width + 1) // 2)
    yield f"Mark the centre line on floor, existing wall and ceiling: {half} from each end"
    yield "Strike the datum level through the highest point of the floor"
    for level in frame.levels:
        floor = f"floor {mm(-level.floor)} below" if level.floor else "floor on"
        place = _from_centre(frame, level.x)
        where = place if place.startswith("on") else f"at {place}"
        yield f"Check {where}: {floor} the datum, ceiling {mm(level.ceiling)} above it"
    fronts = sorted({face.box.y for face in _fronts(frame)})
    for y in fronts:
        yield f"Strike the finished face of the boards {mm(y)} out from the existing wall"
    for stud in frame.studs:
        yield f"Mark the existing stud at {_from_centre(frame, stud)}; prove it with a fine drill"
    for band in frame.bands:
        box = band.box
        yield (
            f"Hatch the no-screw band {band.name}: {_from_centre(frame, box.x)} to "
            f"{_from_centre(frame, box.x + box.dx)}, {mm(max(box.z, 0))} to {mm(box.z + box.dz)} up"
        )


def _fronts(frame: Frame) -> list[Face]:
    return [face for face in frame.faces if face.faces is Toward.FRONT and "front" in face.name]


def _plates(frame: Frame, kind: str) -> Iterator[str]:
    for one in _of(frame, (kind,)):
        box = one.box
        yield (
            f"{one.mark}, {mm(one.length)} long: {_from_centre(frame, box.x)} to "
            f"{_from_centre(frame, box.x + box.dx)}, {mm(box.y)} to {mm(box.y + box.dy)} out"
        )
    if kind == "sole plate":
        # Packers thinner than half a millimetre are not made.
        packs = sorted(
            {(pack.y, pack.x, pack.height) for pack in frame.packing if pack.height >= 5}
        )
        for y in sorted({pack[0] for pack in packs}):
            places = "; ".join(
                f"{mm(h)} at {_from_centre(frame, x)}" for py, x, h in packs if py == y
            )
            yield f"Pack under the plate {mm(y)} out: {places}"


def _ledgers(frame: Frame) -> Iterator[str]:
    for one in _of(frame, ("ledger",)):
        yield f"{_named(one)}: {_across(frame, one)}, underside {mm(one.box.z)} up"


def _uprights(frame: Frame) -> Iterator[str]:
    for one in _of(frame, ("upright", "short upright")):
        box = one.box
        foot = "" if one.kind == "upright" else f", foot {mm(box.z)} up"
        yield (
            f"{_named(one)}: left face at {_from_centre(frame, box.x)}, back edge {mm(box.y)} out"
            f"{foot}"
        )


def _rails(frame: Frame) -> Iterator[str]:
    for one in _of(frame, ("sill", "head")):
        top = one.kind == "sill"
        side, z = ("top", one.box.z + one.box.dz) if top else ("underside", one.box.z)
        yield f"{one.kind} {_named(one)}: {_across(frame, one)}, {side} {mm(z)} up"


def _between(frame: Frame) -> Iterator[str]:
    """Yield one line for equal pieces at one height, with the place of each."""
    rows: dict[tuple[str, str, int, int], list[Member]] = {}
    for one in _of(frame, ("noggin", "return", "strut")):
        rows.setdefault((one.kind, one.mark, one.box.z, one.box.y), []).append(one)
    for (kind, mark, z, y), same in rows.items():
        places = ", ".join(_from_centre(frame, one.box.x) for one in same)
        size = mm(same[0].length)
        what = f"{len(same)} {kind} {mark}, {size} long"
        yield f"{what}, underside {mm(z)} up, {mm(y)} out, at {places}"


def _openings(frame: Frame) -> Iterator[str]:
    for opening in frame.openings:
        yield (
            f"{opening.name}: {mm(opening.width)} × {mm(opening.height)} clear, {mm(opening.depth)}"
            f" deep, after board and skim; left side at {_from_centre(frame, opening.x)}, "
            f"bottom {mm(opening.z)} up"
        )
    for keep in frame.keep_outs:
        box = keep.box
        yield (
            f"Nothing may stand in {mm(box.dx)} × {mm(box.dz)} × {mm(box.dy)} deep for the "
            f"{keep.name}: {keep.reason}"
        )
    if frame.openings:
        yield "Measure both diagonals of each opening; they are equal when it is square"


def _boards(frame: Frame) -> Iterator[str]:
    order = sorted(frame.boards, key=lambda b: (b.face.endswith("front"), b.layer))
    for board in order:
        where = (
            f"left edge at {_from_centre(frame, board.box.x)}, bottom {mm(max(board.box.z, 0))} up"
        )
        holes = f", {len(board.cut_outs)} cut out" if board.cut_outs else ""
        yield (
            f"{board.face}, layer {board.layer}: {board.mark}, {mm(board.width)} × "
            f"{mm(board.height)}{holes}, {where}"
        )


def _of(frame: Frame, kinds: tuple[str, ...]) -> list[Member]:
    found = [one for one in frame.members if one.kind in kinds]
    return sorted(found, key=lambda m: (kinds.index(m.kind), m.box.y, m.box.z, m.box.x))


def _named(one: Member) -> str:
    return f"{one.mark}, {mm(one.length)} long"


def _across(frame: Frame, one: Member) -> str:
    box = one.box
    return f"{_from_centre(frame, box.x)} to {_from_centre(frame, box.x + box.dx)}"
