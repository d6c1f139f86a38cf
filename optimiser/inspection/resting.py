"""Whether a fire stands on timber: at its front all along, and somewhere at its back.

A body on the rail of the front alone tips over into the wall. One timber under its back edge keeps
it: the middle of the body lies between that and the two ends of the rail. Knows boxes only; the
body's size is the wall's.
"""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.fault import Fault
from optimiser.domain.wall import Fire, Glass, Wall
from optimiser.inspection.space import Block, Pieces

# So much of a timber's thickness bears at the least, and so near to the edge: common practice, no
# source.
_LEAST = 190
_NEAR = 500


def faults_of_resting(pieces: Pieces, wall: Wall) -> Iterator[Fault]:
    """Yield a fire that no timber bears at its front or at its back."""
    fire, frame = wall.fire, pieces.frame
    kept = next((one.box for one in frame.keep_outs if one.name == "fire"), None)
    hole = next((one for one in frame.openings if one.name == "fire"), None)
    if fire is None or kept is None or hole is None:
        return
    front = int(frame.depth if hole.front is None else hole.front)
    x0, x1 = _along(fire, int(kept.x), int(kept.x + kept.dx))
    under = [block for block in pieces.blocks if block.high[2] == kept.z]
    back = front - fire.body_depth
    if not any(
        _across(one, x0, x1) >= _LEAST and one.low[1] <= back + _NEAR and back < one.high[1]
        for one in under
    ):
        yield Fault("fire", "stands on no timber at its back")
    timber = max((one.high[1] for one in under), default=0)
    rails = [(one.low[0], one.high[0]) for one in under if one.high[1] == timber]
    reached = x0 + _NEAR
    for low, high in sorted(rails):
        if low <= reached:
            reached = max(reached, high)
    if reached < x1 - _NEAR or timber <= back:
        yield Fault("fire", "stands on no rail along its front")


def _along(fire: Fire, start: int, end: int) -> tuple[int, int]:
    """Return from where to where the body reaches: in the middle of the space kept for it, but at
    an end that its glass goes round."""
    if fire.glass is Glass.LEFT:
        return start, start + fire.body_width
    if fire.glass is Glass.RIGHT:
        return end - fire.body_width, end
    middle = (start + end) // 2
    return middle - fire.body_width // 2, middle + fire.body_width // 2


def _across(one: Block, start: int, end: int) -> int:
    return min(one.high[0], end) - max(one.low[0], start)
