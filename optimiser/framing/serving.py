"""Where returns stand along one upright when several things want one at nearly the same height.

An upright between two recesses takes the struts of both, and shelves and joints besides: each asks
for a height, and none may be left with nothing to end on. Knows heights only.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace

from optimiser.domain.frame import Edge
from optimiser.framing.bearing import behind

# From a timber's edge to a screw: published UK project specification 2014.
_SCREW_IN = 60

# Where a return or strut begins, and why it is there.
Level = tuple[int, str]

_Span = tuple[int, int]


def placed(wanted: list[Level], reach: _Span, wide: int) -> list[Level]:
    """Return the heights of the returns that serve what is wanted along one upright.

    One that would stand in another's way, of an opening at the other side say, is served by that
    one where it lies near enough; else stands next to it, or one between the two serves both, or
    both move.
    """
    chosen: list[_Wish] = []
    for z, rule in wanted:
        lowest, highest = reach[0], reach[1] - wide
        if not lowest <= z <= highest:
            continue
        slack = _slack(rule, wide)
        wish = _Wish(z, rule, max(z - slack, lowest), min(z + slack, highest))
        for taken in _ways(wish, chosen, wide):
            if all(b.z - a.z >= wide for a, b in itertools.pairwise(taken)):
                chosen = taken
                break
    return [(one.z, one.rule) for one in chosen]


@dataclass(frozen=True, slots=True)
class _Wish:
    """A return at `z`, which serves as well from `low` to `high`."""

    z: int
    rule: str
    low: int
    high: int


def _slack(rule: str, wide: int) -> int:
    """Return how far up or down a return still serves.

    Half of a strut's end bears on it, a shelf's screws find it, a joint's two edges do.
    """
    return {
        "frame.return.strut": wide // 2,
        "frame.return.shelf": wide // 2 - _SCREW_IN,
        "frame.noggin.joint": max(wide // 2 - behind(Edge.CUT), 0),
    }.get(rule, 0)


def _ways(wish: _Wish, chosen: list[_Wish], wide: int) -> Iterator[list[_Wish]]:
    """Yield ways to serve one more, those that change least first; returns may overlap in them."""

    def put(*ones: _Wish, instead: _Wish | None = None) -> list[_Wish]:
        kept = [one for one in chosen if one is not instead]
        return sorted([*kept, *ones], key=lambda one: one.z)

    for other in chosen:
        if wish.low <= other.z <= wish.high:
            low, high = max(wish.low, other.low), min(wish.high, other.high)
            yield put(replace(other, low=low, high=high), instead=other)
    yield put(wish)
    beside = [way for other in chosen for way in (other.z - wide, other.z + wide)]
    for way in sorted(beside, key=lambda way: abs(way - wish.z)):
        if wish.low <= way <= wish.high:
            yield put(replace(wish, z=way))
    for other in sorted(chosen, key=lambda one: abs(one.z - wish.z)):
        low, high = max(wish.low, other.low), min(wish.high, other.high)
        if low <= high:
            both = replace(other, z=(low + high) // 2, low=low, high=high)
            yield put(both, instead=other)
        for off in (wide, -wide):
            low, high = max(other.low, wish.low - off), min(other.high, wish.high - off)
            if low <= high:
                z = min(max(other.z, low), high)
                yield put(replace(other, z=z), replace(wish, z=z + off), instead=other)
