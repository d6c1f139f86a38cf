"""What the ticks of a plan come to: how far each piece is, and where they contradict.

A tick stands until an undo names it. So phones that were out of signal agree, whatever order their
ticks come in. Where standing ticks contradict, the worse news counts, so that nobody is left a part
short, and both are shown: damaged over cut, spoiled over good. Cuts count from the first one on
without a gap.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from api.words import counted
from optimiser import InvalidInput, Problem

if TYPE_CHECKING:
    from optimiser import CuttingPlan

Place = tuple[str, int, int]


@dataclass(slots=True)
class PieceState:
    """One piece of a layout: its cuts made, what is spoiled, and whether it is any use."""

    cuts: int = 0
    done: bool = False
    spoiled: list[int] = field(default_factory=list)
    lost: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticked:
    """All pieces that ticks speak of, and the contradictions among the ticks, in words."""

    pieces: Mapping[Place, PieceState]
    floor: tuple[dict[str, Any], ...]
    contradictions: tuple[dict[str, Any], ...]


def require_fitting(plan: CuttingPlan, ticks: Iterable[dict[str, Any]]) -> None:
    """Raise InvalidInput for every tick that names what the plan has not."""
    layouts = {item.material: item.layouts for item in plan.materials}
    lengths = {item.material for item in plan.lengths}
    problems = []
    for number, tick in enumerate(ticks):
        if tick["kind"] == "undo":
            continue
        here = f"ticks[{number}]"
        drawn = layouts.get(tick["material"])
        if drawn is None:
            problems.append(
                Problem(f"{here}.material", "is not in the plan", "Name one of the plan's")
            )
        elif tick["kind"] == "floor":
            if ("length_mm" in tick) != (tick["material"] in lengths):
                problems.append(_wrong_kind(here, is_length=tick["material"] in lengths))
        elif not 1 <= tick["layout"] <= len(drawn):
            problems.append(
                Problem(f"{here}.layout", f"the plan has {len(drawn)}", "Count as drawn, from 1")
            )
        else:
            layout = drawn[tick["layout"] - 1]
            mosts = {"piece": layout.count}
            if tick["kind"] == "cut":
                mosts["cut"] = len(layout.cuts)
            if tick["kind"] == "spoiled":
                mosts["part"] = len(layout.parts)
            problems += [
                Problem(f"{here}.{name}", f"is not from 1 to {most}", "Count as drawn, from 1")
                for name, most in mosts.items()
                if not 1 <= tick[name] <= most
            ]
    if problems:
        raise InvalidInput(tuple(problems))


def _wrong_kind(here: str, *, is_length: bool) -> Problem:
    """Say that a piece on the floor has the sizes of the other kind of material."""
    if is_length:
        return Problem(f"{here}.length_mm", "is missing: the material is lengths", "Give length_mm")
    trouble, remedy = "is given, and the material is sheets", "Give width_mm and height_mm"
    return Problem(f"{here}.length_mm", trouble, remedy)


def add_up(plan: CuttingPlan, ticks: Iterable[dict[str, Any]]) -> Ticked:
    """Add ticks up to how far each piece is."""
    everything = list(ticks)
    undone = {tick["undoes"] for tick in everything if tick["kind"] == "undo"}
    standing = [t for t in everything if t["kind"] != "undo" and t["tick"] not in undone]
    by_place: dict[Place, list[dict[str, Any]]] = defaultdict(list)
    for tick in standing:
        if tick["kind"] != "floor":
            by_place[tick["material"], tick["layout"], tick["piece"]].append(tick)
    drawn = {item.material: item for item in plan.materials}
    pieces: dict[Place, PieceState] = {}
    faults: list[dict[str, Any]] = []
    for place, own in sorted(by_place.items()):
        material, number, _ = place
        layout = drawn[material].layouts[number - 1]
        state = _state(own, len(layout.cuts))
        pieces[place] = state
        off = _off(layout, state)
        faults += _contradictions(place, own, state, off)
        state.spoiled = [part for part in state.spoiled if part in off]
    return Ticked(
        pieces=pieces,
        floor=tuple(tick for tick in standing if tick["kind"] == "floor"),
        contradictions=tuple(faults),
    )


def marks_document(plan: CuttingPlan, ticked: Ticked) -> dict[str, Any]:
    """Write what ticks come to as marks on the plan."""
    drawn = {item.material: item for item in plan.materials}
    marks: list[dict[str, Any]] = []
    for (material, number, _), state in ticked.pieces.items():
        layout = drawn[material].layouts[number - 1]
        mark: dict[str, Any] = {"material": material, "layout": number}
        spoiled = [layout.parts[part - 1].part for part in state.spoiled]
        if state.lost:
            mark |= {"state": "damaged"}
        elif state.done:
            mark |= {"state": "cut", "spoiled": spoiled}
        elif state.cuts:
            mark |= {"state": "started", "cuts": state.cuts, "spoiled": spoiled}
        else:
            continue
        marks.append(mark)
    floor = []
    for tick in ticked.floor:
        sizes = {key: tick[key] for key in ("length_mm", "width_mm", "height_mm") if tick.get(key)}
        floor.append({"id": f"floor {tick['tick']}", "material": tick["material"], **sizes})
    return {"marks": marks, "floor": floor}


def _state(own: list[dict[str, Any]], most: int) -> PieceState:
    made = {tick["cut"] for tick in own if tick["kind"] == "cut"}
    cuts = 0
    while cuts + 1 in made:
        cuts += 1
    done = any(tick["kind"] == "done" for tick in own) or (most > 0 and cuts == most)
    lost = [tick["kind"] for tick in own if tick["kind"] in ("damaged", "short")]
    spoiled = sorted({tick["part"] for tick in own if tick["kind"] == "spoiled"})
    return PieceState(
        cuts=most if done else cuts, done=done, spoiled=spoiled, lost=lost[0] if lost else ""
    )


def _off(layout: Any, state: PieceState) -> set[int]:
    """Return the places, from 1, of the parts that have come off a piece."""
    if state.done:
        return set(range(1, len(layout.parts) + 1))
    if hasattr(layout.parts[0] if layout.parts else None, "piece"):
        made = {f"{cut.n}{side}" for cut in layout.cuts[: state.cuts] for side in "ab"}
        return {place for place, part in enumerate(layout.parts, start=1) if part.piece in made}
    return set(range(1, state.cuts + 1))


def _contradictions(
    place: Place, own: list[dict[str, Any]], state: PieceState, off: set[int]
) -> Iterable[dict[str, Any]]:
    material, layout, piece = place

    def said(trouble: str, remedy: str, of: list[dict[str, Any]]) -> dict[str, Any]:
        return {
            "material": material,
            "layout": layout,
            "piece": piece,
            "trouble": trouble,
            "remedy": remedy,
            "ticks": [tick["tick"] for tick in of],
        }

    made = [tick for tick in own if tick["kind"] in ("cut", "done")]
    lost = [tick for tick in own if tick["kind"] in ("damaged", "short")]
    if made and lost:
        yield said(
            f"is ticked as cut and as {lost[0]['kind']}: it counts as {lost[0]['kind']}",
            "Undo the tick that is wrong",
            [*made, *lost],
        )
    twice: dict[int, list[dict[str, Any]]] = defaultdict(list)
    for tick in made:
        twice[tick.get("cut") or 0].append(tick)
    for cut, of in sorted(twice.items()):
        phones = {tick["phone"] for tick in of}
        if len(phones) > 1:
            what = f"cut {cut}" if cut else "the whole piece"
            yield said(
                f"{what} is ticked by {len(phones)} phones: it counts once",
                "If each cut a piece of its own, tick the other piece as well",
                of,
            )
    beyond = [tick for tick in own if tick["kind"] == "cut" and tick["cut"] > state.cuts]
    if beyond and not state.done:
        yield said(
            f"cut {beyond[0]['cut']} is ticked and cut {state.cuts + 1} is not: "
            f"{counted(state.cuts, 'cut counts', 'cuts count')}",
            f"Tick cut {state.cuts + 1}, or undo the later one",
            beyond,
        )
    early = [tick for tick in own if tick["kind"] == "spoiled" and tick["part"] not in off]
    if early and not lost:
        yield said(
            "a part is ticked as spoiled that has not come off: it counts once its cut is ticked",
            "Tick the cut, or undo the tick",
            early,
        )
