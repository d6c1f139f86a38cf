"""Which fields of the wall's file each dimension of a part comes from.

Each place that setting out knows along an axis (a side of an opening, an end, a face) moves with
some fields of the file, by a share of each: the right side of a niche with its x and its width by
1 each, a middle with `wall.width` by a half. A part runs from place to place, so its dimension
comes from the fields that move its two ends apart; what moves both alike, an opening's x say,
leaves it as it is. Between two places that setting out knows, the shares are taken in between.
Calculated from the same figures as the frame, after it and without a say in it.
"""

from __future__ import annotations

import bisect
from typing import TypeAlias

from optimiser.domain.frame import Bead, Board, Box, Member
from optimiser.domain.parts import DimensionFrom
from optimiser.framing.framed import Framed
from optimiser.framing.level_shares import LevelShares
from optimiser.framing.pieces import CEILING
from optimiser.framing.placing import Placed
from optimiser.framing.settings import Settings, usable_sheets
from optimiser.framing.shares import (
    WHOLE,
    Shares,
    between,
    depth_shares,
    hole_shares,
    nearest,
    places_along,
    places_up,
    together,
)
from optimiser.units import Tenths

# Rounding may move a place by a tenth or two from where its figures put it.
_ROUNDED = 2
_EVEN = ("frame.return.spacing", "frame.return.reveal", "frame.return.end-span")
_BY_BOARD: Shares = {"materials.board": WHOLE}

_Items: TypeAlias = tuple[tuple[str, int], ...]
# What moves two places apart, by the dimension and what moves each of them.
Known: TypeAlias = dict[tuple[str, _Items, _Items], tuple[DimensionFrom, ...]]


class _Axis:
    """What is known along one axis: places and the shares that they move with."""

    def __init__(self) -> None:
        self._known: dict[int, Shares] = {}
        self._places: list[int] = []
        self._between: dict[int, Shares] = {}

    def put(self, shares: Shares, *places: int) -> None:
        """Say what moves some places; what was said of a place before stands."""
        for place in places:
            self._known.setdefault(place, shares)
        self._places = []
        self._between = {}

    def at(self, place: int) -> Shares:
        """Return what moves a place: known, or in between the known places on either side.

        Asked again, the same object.
        """
        found = self._known.get(place)
        if found is None:
            found = self._between.get(place)
        if found is None:
            found = self._between[place] = self._found(place)
        return found

    def _found(self, place: int) -> Shares:
        if not self._places:
            self._places = sorted(self._known)
        i = bisect.bisect(self._places, place)
        if i in (0, len(self._places)):
            return self._known[self._places[min(i, len(self._places) - 1)]]
        low, high = self._places[i - 1], self._places[i]
        return between(self._known[low], self._known[high], place - low, high - low)


class Origins:
    """Where the dimensions of the parts of one box come from, boarded in one way."""

    def __init__(self, one: Framed, levels: LevelShares, known: Known) -> None:
        """Set out the places of a box; `known` is what was found before for other ways."""
        settings = self._settings = one.settings
        self._levels = levels
        ceiling = settings.levels.lowest_ceiling(settings.start, settings.end)
        # Whatever reaches up to here follows the ceiling.
        self._under_ceiling = (
            CEILING if settings.flat_top else ceiling - settings.thick - settings.fit
        )
        self._axes = {"x": _Axis(), "y": _Axis(), "z": _Axis()}
        self._said: dict[tuple[str | int, ...], tuple[DimensionFrom, ...]] = {}
        # By the shares that move both ends, which axes and levels keep: most parts stand alike.
        self._alike: dict[tuple[str, int, int], tuple[DimensionFrom, ...]] = {}
        self._known = known
        self._put_box(settings)
        self._put_holes(one.placed)
        self._put_joints(one)
        self._put_lines(one)
        self._put_returns(one)

    def of_member(self, one: Member) -> tuple[DimensionFrom, ...]:
        """Return where a member's length comes from."""
        box = one.box
        for axis, size in (("x", box.dx), ("z", box.dz), ("y", box.dy)):
            if size == one.length:
                return self._from("length", box, axis, highest=False)
        return ()

    def of_bead(self, one: Bead) -> tuple[DimensionFrom, ...]:
        """Return where a bead's length comes from."""
        a, b = one.start, one.end
        box = Box(
            x=min(a.x, b.x),
            y=min(a.y, b.y),
            z=min(a.z, b.z),
            dx=_size(a.x, b.x),
            dy=_size(a.y, b.y),
            dz=_size(a.z, b.z),
        )
        axis = max("xyz", key=lambda axis: getattr(box, f"d{axis}"))
        return self._from("length", box, axis, highest=True)

    def of_board(self, one: Board) -> tuple[DimensionFrom, ...]:
        """Return where a board's width and height come from."""
        across, up = one.across.value[1], one.up.value[1]
        width = self._from("width", one.box, across, highest=True)
        return width + self._from("height", one.box, up, highest=True)

    def _from(
        self, dimension: str, box: Box, axis: str, *, highest: bool
    ) -> tuple[DimensionFrom, ...]:
        """Return where a dimension along an axis comes from, nothing where no field moves it.

        Boards reach the `highest` ceiling over them, timbers the lowest.
        """
        low: int = getattr(box, axis)
        high: int = low + getattr(box, f"d{axis}")
        span = box.x, box.x + box.dx
        key = (dimension, axis, low, high, *(span if axis == "z" else ()), highest)
        known = self._said.get(key)
        if known is None:
            upper = self._at(axis, high, span, highest=highest)
            lower = self._at(axis, low, span, highest=highest)
            alike = dimension, id(upper), id(lower)
            known = self._alike.get(alike)
            if known is None:
                same = dimension, tuple(upper.items()), tuple(lower.items())
                known = self._known.get(same)
                if known is None:
                    known = self._known[same] = _apart(dimension, upper, lower)
                self._alike[alike] = known
            self._said[key] = known
        return known

    def _at(self, axis: str, place: int, span: tuple[int, int], *, highest: bool) -> Shares:
        settings = self._settings
        if axis == "z" and place >= self._under_ceiling:
            return self._levels.over(span) if highest else self._levels.under(span)
        if axis == "z" and settings.base == 0 and place < settings.thick and highest:
            return self._levels.floor(span)
        return self._axes[axis].at(place)

    def _put_box(self, settings: Settings) -> None:
        along = places_along(settings)
        site = settings.wall.site
        for x, edge, lean, inward, field in (
            (settings.left, settings.start, site.lean_left, 1, "site.lean_left"),
            (settings.right, settings.end, site.lean_right, -1, "site.lean_right"),
        ):
            place, shares = nearest(along, edge)
            if lean > 0 and x - edge == lean * inward:
                leant: Shares = {field: inward * WHOLE}
                self._axes["x"].put(together((shares, WHOLE), (leant, WHOLE)), x)
            self._axes["x"].put(shares, x, edge, place, edge + settings.skin)
            self._axes["x"].put(shares, edge - settings.skin, edge - settings.eased)
        up = places_up(settings)
        levels = [settings.base, settings.board_base]
        levels += [settings.levels.flat_ceiling, settings.board_top]
        for z in levels:
            if z is not None:
                place, shares = nearest(up, z)
                near = (side * by for side in (-1, 1) for by in (settings.thick, settings.wide))
                self._axes["z"].put(shares, z, place, *(z + by for by in near))
        behind, before, beside = depth_shares(settings)
        back, front = settings.back, settings.back + settings.depth
        timber = back + settings.front
        self._axes["y"].put(behind, back, back + settings.wide)
        self._axes["y"].put(before, timber, timber + settings.wide, front)
        for y, shares in beside.items():
            self._axes["y"].put(shares, y)

    def _put_holes(self, placed: Placed) -> None:
        settings = placed.settings
        thick, wide = settings.thick, settings.wide
        before = self._axes["y"].at(settings.back + settings.depth)
        late: list[tuple[Shares, tuple[int, ...]]] = []
        for hole in placed.holes:
            found = hole_shares(hole, placed)
            sides = found.of_cut
            for shares, cut, clear in (
                (sides[0], hole.cut.x0, hole.clear.x0),
                (sides[1], hole.cut.x1, hole.clear.x1),
            ):
                self._axes["x"].put(shares, cut, clear)
            self._axes["z"].put(sides[2], hole.cut.z0, hole.clear.z0)
            self._axes["z"].put(sides[3], hole.cut.z1, hole.clear.z1)
            for shares, frame, own, sign in (
                (found.left, hole.frame.x0, found.left_frame, -1),
                (found.right, hole.frame.x1, found.right_frame, 1),
            ):
                uprights = (frame, frame + sign * thick)
                # Widened to come in line with another opening, its side moves with that one's.
                if abs(frame - own) <= _ROUNDED:
                    self._axes["x"].put(shares, *uprights)
                else:
                    late.append((shares, uprights))
            for shares, frame, sign in (
                (found.bottom, hole.frame.z0, -1),
                (found.top, hole.frame.z1, 1),
            ):
                beyond = (frame + sign * thick, frame + sign * wide)
                inside = (frame - sign * wide, frame - sign * settings.board.thickness)
                self._axes["z"].put(shares, frame, *beyond, *inside)
            inner = settings.back + settings.depth - hole.depth
            shares = together((before, WHOLE), (found.depth, -WHOLE))
            self._axes["y"].put(shares, inner, inner - hole.panel, inner - hole.panel - thick)
            if hole.kind == "fire":
                # The upright at the edge of its glass stands so far behind it.
                self._axes["y"].put(shares, inner - wide)
        if placed.fire is not None:
            given = placed.fire.fire.return_depth is not None
            glass: Shares = {"fire.return_depth" if given else "fire.body_depth": -WHOLE}
            y = settings.back + settings.depth - placed.fire.return_depth
            self._axes["y"].put(together((before, WHOLE), (glass, WHOLE)), y)
        for shares, places in late:
            self._axes["x"].put(shares, *places)

    def _put_joints(self, one: Framed) -> None:
        """Joints fall by the board, on the centres chosen, or with the sides of openings."""
        settings = self._settings
        half = settings.thick // 2
        sheets = {side for sheet in usable_sheets(settings.board) for side in sheet}
        for layer in one.layers:
            before = settings.start
            for joint in layer.joints:
                shares = self._axes["x"].at(joint.x - half)
                if joint.x - before in sheets:
                    shares = together((self._axes["x"].at(before), WHOLE), (_BY_BOARD, WHOLE))
                elif (joint.x - settings.start) % settings.centres == 0:
                    shares = self._on_centres(joint.x)
                before = joint.x
                uprights = joint.uprights(settings.thick)
                ends = (x + settings.thick for x in uprights)
                self._axes["x"].put(shares, joint.x, *uprights, *ends)
            for _, _, z in layer.rows:
                self._axes["z"].put(_BY_BOARD, z)

    def _put_lines(self, one: Framed) -> None:
        settings = self._settings
        half = settings.thick // 2
        for skeleton in one.skeletons.values():
            for line in skeleton.lines:
                middle = line.x + half
                on_centres = (middle - settings.start) % settings.centres == 0
                if line.role == "centres" and on_centres:
                    shares = self._on_centres(middle)
                    self._axes["x"].put(shares, line.x, line.x + settings.thick)
                else:
                    shares = self._axes["x"].at(line.x)
                    self._axes["x"].put(shares, line.x + settings.thick)

    def _put_returns(self, one: Framed) -> None:
        """Returns that only keep a spacing stand evenly between the others of their upright."""
        beside: dict[int, dict[int, str]] = {}
        for member in one.members:
            if member.kind == "return":
                beside.setdefault(member.box.x, {})[member.box.z] = member.rule
        axis, wide = self._axes["z"], self._settings.wide
        for rules in beside.values():
            held = sorted(z for z, rule in rules.items() if rule not in _EVEN)
            for z, rule in rules.items():
                i = bisect.bisect(held, z)
                if rule in _EVEN and 0 < i < len(held):
                    low, high = held[i - 1], held[i]
                    shares = between(axis.at(low), axis.at(high), z - low, high - low)
                    axis.put(shares, z, z + wide)

    def _on_centres(self, middle: int) -> Shares:
        settings = self._settings
        count = (middle - settings.start) // settings.centres
        start = self._axes["x"].at(settings.start)
        centres: Shares = {"materials.centres": count * WHOLE}
        return together((start, WHOLE), (centres, WHOLE))


def _apart(dimension: str, upper: Shares, lower: Shares) -> tuple[DimensionFrom, ...]:
    """Return what moves two places apart, nothing where no field does."""
    moved = together((upper, WHOLE), (lower, -WHOLE))
    # The field that counts for most first; of equal ones what is built before how.
    fields = sorted(moved, key=lambda field: (-abs(moved[field]), *_rank(field)))
    return (DimensionFrom(dimension=dimension, fields=tuple(fields)),) if fields else ()


def _rank(field: str) -> tuple[bool, str]:
    return field.startswith("materials."), field


def _size(a: Tenths, b: Tenths) -> Tenths:
    return Tenths(abs(b - a))
