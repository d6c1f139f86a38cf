"""The cut list of a sheet: in which order, measured from which edge, sawn or snapped.

Common practice, no source: a saw's fence stays where it is for every piece that waits for that
size; a snapped board is finished piece by piece; a strip narrower than 50 mm is sawn, as it would
not break along its score; a notch is sawn along its short sides and snapped along the last one.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from enum import Enum
from heapq import heappop, heappush
from typing import TypeAlias

from optimiser.domain.parts import BoardPart, CutOut
from optimiser.domain.plan import CutOutWork, Leftover, SheetCut, SheetLayout
from optimiser.domain.request import Cutting, SheetMaterial
from optimiser.domain.stock import EdgeTrim
from optimiser.planning.cut_outs import freed_from

# Strips narrower than this do not snap along their score (common practice, no source).
NARROWEST_SNAPPED = 500
# Orders looked into for fewer settings of the fence before the quick one is taken.
_MOST_STATES = 400

Setting: TypeAlias = tuple[str, int]  # direction and size


def listed(layout: SheetLayout, material: SheetMaterial) -> SheetLayout:
    """Return the layout with its cuts in the order of work, each with its edge and its tool."""
    if material.cutting is Cutting.SAW:
        layout = _reordered(layout, material)
    return described(layout, material)


def described(layout: SheetLayout, material: SheetMaterial) -> SheetLayout:
    """Return the layout, order kept, with the edge and the tool of each cut and of cut-outs."""
    trim = _trim(layout, material)
    edges: dict[str, tuple[str, str]] = {
        "sheet": (_outer(layout, trim.left), _outer(layout, trim.bottom))
    }
    knife = material.cutting is Cutting.KNIFE
    cuts = []
    for cut, (width, height) in zip(layout.cuts, _sizes(layout, material), strict=True):
        rip = cut.direction == "rip"
        left, lower = edges.pop(cut.of)
        beyond = (width if rip else height) - cut.at - material.kerf
        narrowest = min(cut.at, beyond) if beyond > 0 else cut.at
        tool = "snap" if knife and narrowest >= NARROWEST_SNAPPED else "saw"
        cuts.append(replace(cut, edge=left if rip else lower, tool=tool))
        made = f"cut {cut.n}"
        edges[f"{cut.n}a"] = (left, lower)
        edges[f"{cut.n}b"] = (made, lower) if rip else (left, made)
    used = {placed.part for placed in layout.parts}
    worked = _worked(part for part in material.parts if part.id in used) if knife else ()
    return replace(layout, cuts=tuple(cuts), cut_outs=tuple(worked))


def _trim(layout: SheetLayout, material: SheetMaterial) -> EdgeTrim:
    if layout.cut_out is not None:
        return freed_from(material, _donor(layout, material), layout.cut_out).trim
    if layout.offcut:
        return next(item.edge_trim for item in material.offcuts if item.id == layout.stock)
    return material.edge_trim


def source_of(layout: SheetLayout, material: SheetMaterial) -> tuple[int, int, EdgeTrim]:
    """Return width, height and trim of what a layout cuts: sheet, rack offcut or cut-out."""
    return *_whole(layout, material), _trim(layout, material)


def _donor(layout: SheetLayout, material: SheetMaterial) -> BoardPart:
    return next(part for part in material.parts if part.id == layout.stock)


def _whole(layout: SheetLayout, material: SheetMaterial) -> tuple[int, int]:
    if layout.cut_out is not None:
        hole = _donor(layout, material).cut_outs[layout.cut_out]
        return hole.width, hole.height
    stock = material.offcuts if layout.offcut else material.stock
    whole = next(item for item in stock if item.id == layout.stock)
    return whole.width, whole.height


def _outer(layout: SheetLayout, trimmed: int) -> str:
    if trimmed:
        return "trimmed"
    if layout.cut_out is not None:
        return "part"
    return "offcut" if layout.offcut else "factory"


def _sizes(layout: SheetLayout, material: SheetMaterial) -> list[tuple[int, int]]:
    """Return the size of the piece that each cut divides."""
    inner = _trim(layout, material).inside(*_whole(layout, material))
    pieces: dict[str, tuple[int, int]] = {"sheet": (int(inner[0]), int(inner[1]))}
    found = []
    for cut in layout.cuts:
        width, height = pieces.pop(cut.of)
        found.append((width, height))
        if cut.direction == "rip":
            near, far = (int(cut.at), height), (width - cut.at - material.kerf, height)
        else:
            near, far = (width, int(cut.at)), (width, height - cut.at - material.kerf)
        pieces[f"{cut.n}a"], pieces[f"{cut.n}b"] = near, far
    return found


def _worked(parts: Iterable[BoardPart]) -> list[CutOutWork]:
    return [
        how_made(part, index, hole) for part in parts for index, hole in enumerate(part.cut_outs)
    ]


def how_made(part: BoardPart, index: int, hole: CutOut) -> CutOutWork:
    """Return which sides of a cut-out are sawn and which is snapped.

    A corner notch is sawn along its shorter side, the upright one of two alike; a U-notch along
    both legs; a window all round.
    """
    inner = {
        "left": hole.x > 0,
        "right": hole.x + hole.width < part.width,
        "bottom": hole.y > 0,
        "top": hole.y + hole.height < part.height,
    }
    saw: tuple[str, ...]
    sides = tuple(side for side, cut in inner.items() if cut)
    upright = tuple(side for side in ("left", "right") if inner[side])
    level = tuple(side for side in ("bottom", "top") if inner[side])
    if len(sides) == 4:
        shape = "window"
        saw = sides
    elif len(sides) == 3:
        shape = "U-notch"
        saw = upright if len(upright) == 2 else level
    else:
        shape = "corner notch"
        saw = upright if hole.height <= hole.width else level
    snap = tuple(side for side in sides if side not in saw)
    return CutOutWork(part=part.id, cut_out=index, shape=shape, saw=saw, snap=snap)


def _reordered(layout: SheetLayout, material: SheetMaterial) -> SheetLayout:
    """Return the layout with its cuts in an order of few fence settings, long rips first."""
    cuts, sizes = layout.cuts, _sizes(layout, material)
    if len(cuts) < 2:
        return layout
    makers = {f"{cut.n}{side}": index for index, cut in enumerate(cuts) for side in "ab"}
    bench = _Bench(
        cuts,
        lengths=[
            h if cut.direction == "rip" else w for cut, (w, h) in zip(cuts, sizes, strict=True)
        ],
        before=[makers.get(cut.of, -1) for cut in cuts],
    )
    order = bench.order()
    names = {"sheet": "sheet"}
    moved = []
    for place, index in enumerate(order, start=1):
        cut = cuts[index]
        moved.append(replace(cut, n=place, of=names[cut.of]))
        names |= {f"{cut.n}{side}": f"{place}{side}" for side in "ab"}

    def renamed(pieces: tuple[Leftover, ...]) -> tuple[Leftover, ...]:
        return tuple(replace(piece, piece=names[piece.piece]) for piece in pieces)

    return replace(
        layout,
        cuts=tuple(moved),
        parts=tuple(replace(part, piece=names[part.piece]) for part in layout.parts),
        offcuts=renamed(layout.offcuts),
        scrap=renamed(layout.scrap),
    )


class _Next(Enum):
    """What is set next where every setting will be asked for again: long rips if that is as good.

    A solver's rows stand with their largest piece first, so that the largest size merges them well.
    """

    LONGEST = 0
    BUSIEST = 1
    LARGEST = 2


def _size(setting: Setting) -> int:
    return setting[1]


class _Bench:
    """The cuts of a sheet as they wait for one another; each is made once its piece lies there."""

    def __init__(
        self, cuts: Sequence[SheetCut], *, lengths: Sequence[int], before: Sequence[int]
    ) -> None:
        self._settings: list[Setting] = [(cut.direction, int(cut.at)) for cut in cuts]
        self._lengths = lengths
        self._after: Mapping[int, list[int]] = defaultdict(list)
        for index, maker in enumerate(before):
            self._after[maker].append(index)

    def order(self) -> list[int]:
        """Return the cuts in an order with as few settings of the fence as are found."""
        quick = min(map(self._quick, _Next), key=self._changes)
        distinct = len(set(self._settings))
        if self._changes(quick) == distinct:
            return quick
        return self._searched() or quick

    def _changes(self, order: Sequence[int]) -> int:
        settings = [self._settings[index] for index in order]
        return sum(
            1 for place, one in enumerate(settings) if place == 0 or settings[place - 1] != one
        )

    def _made_at(self, setting: Setting, waiting: Iterable[int]) -> tuple[list[int], list[int]]:
        """Make every waiting cut at a setting, and those it frees; return them and what waits."""
        made: list[int] = []
        left: list[int] = []
        ready = sorted(waiting)
        while ready:
            index = heappop(ready)
            if self._settings[index] == setting:
                made.append(index)
                for freed in self._after[index]:
                    heappush(ready, freed)
            else:
                left.append(index)
        return made, left

    def _choices(self, waiting: Sequence[int]) -> list[Setting]:
        """List the settings that can be set next: rips first, the longest first."""
        longest: dict[Setting, int] = {}
        for index in waiting:
            setting = self._settings[index]
            longest[setting] = max(longest.get(setting, 0), self._lengths[index])
        return sorted(longest, key=lambda s: (s[0] != "rip", -longest[s], -s[1]))

    def _quick(self, next_: _Next) -> list[int]:
        """Set what no later cut will ask for again, else what `next_` says."""
        order: list[int] = []
        waiting = list(self._after[-1])
        left: dict[Setting, int] = defaultdict(int)
        for setting in self._settings:
            left[setting] += 1
        while waiting:
            choices = self._choices(waiting)
            ready: dict[Setting, list[int]] = defaultdict(list)
            for index in waiting:
                ready[self._settings[index]].append(index)
            cuts = {s: len(self._made_at(s, ready[s])[0]) for s in choices}
            setting = next((s for s in choices if cuts[s] == left[s]), choices[0])
            if cuts[setting] < left[setting] and next_ is _Next.BUSIEST:
                setting = max(choices, key=cuts.__getitem__)
            elif cuts[setting] < left[setting] and next_ is _Next.LARGEST:
                setting = max(choices, key=_size)
            made, waiting = self._made_at(setting, waiting)
            left[setting] -= len(made)
            order += made
        return order

    def _searched(self) -> list[int] | None:
        """Return an order of the fewest settings, None where looking takes too long.

        Breadth first over what has been made: at a setting it never pays to leave a cut waiting.
        """
        states: list[tuple[list[int], list[int]]] = [([], list(self._after[-1]))]
        seen = {frozenset[int]()}
        while states:
            later: list[tuple[list[int], list[int]]] = []
            for order, waiting in states:
                for setting in self._choices(waiting):
                    made, left = self._made_at(setting, waiting)
                    done = [*order, *made]
                    if not left:
                        return done
                    key = frozenset(done)
                    if key not in seen:
                        seen.add(key)
                        later.append((done, left))
                if len(seen) > _MOST_STATES:
                    return None
            states = later
        return None
