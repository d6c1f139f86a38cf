"""How long an upright may stand alone: noggins, returns and rails hold it as often as the trade
asks. Knows only what touches what."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Frame
from optimiser.inspection.space import corners
from optimiser.inspection.standing import name_of

# Bays of 1 350 at most between noggins: UK trade wiki, stud walls.
_FREE = 13_500


def unrestrained(frame: Frame) -> Iterator[Fault]:
    """Yield each upright that nothing holds over more of its height than it may stand alone."""
    boxes = corners(m.box for m in frame.members)
    ups = np.array(["upright" in m.kind for m in frame.members], dtype=np.bool_)
    own = boxes[ups]
    low = np.maximum(own[:, None, 0], boxes[None, :, 0])
    high = np.minimum(own[:, None, 1], boxes[None, :, 1])
    common = high - low
    touching = (common[:, :, 2] > 0) & (common[:, :, :2].min(axis=2) == 0)
    touching &= common[:, :, :2].max(axis=2) > 0
    for row, number in enumerate(np.flatnonzero(ups)):
        held = [(int(own[row, 0, 2]), int(own[row, 0, 2])), (int(own[row, 1, 2]),) * 2]
        # Another upright beside it holds nothing that is not held itself.
        held += [
            (int(low[row, j, 2]), int(high[row, j, 2]))
            for j in np.flatnonzero(touching[row] & ~ups)
        ]
        reached = int(own[row, 0, 2])
        for start, end in sorted(held):
            if start - reached > _FREE:
                yield Fault(
                    name_of(frame.members[number]),
                    f"stands free from {reached / 10:g} to {start / 10:g}: more than"
                    f" {_FREE / 10:g}",
                )
            reached = max(reached, end)
