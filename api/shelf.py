"""The plans made lately, in memory: what their diagrams and orders are drawn from.

A plan's id is a digest of its content, so that the same plan is the same resource. When the shelf
is full the plan asked for longest ago goes.
"""

from __future__ import annotations

import hashlib
import json
from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock
from typing import Any

import optimiser as lib
from api.drawings import Drawing, cutting_drawings, wall_drawings
from optimiser import CuttingPlan, CuttingRequest, Frame, Order

MOST_PLANS = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelved:
    """A plan with what it answers; frames and order only where it came from jobs."""

    request: CuttingRequest
    plan: CuttingPlan
    frames: tuple[Frame, ...] = ()
    order: Order | None = None
    extra: dict[str, Any]

    def drawings(self) -> dict[str, Drawing]:
        """Draw everything, by name."""
        drawn = [*wall_drawings(self.frames), *cutting_drawings(self.request, self.plan)]
        return {drawing.name: drawing for drawing in drawn}


class Shelf:
    """Keeps the latest plans; safe to use from several threads."""

    def __init__(self, most: int = MOST_PLANS) -> None:
        self._most = most
        self._plans: OrderedDict[str, Shelved] = OrderedDict()
        self._lock = Lock()

    def put(self, shelved: Shelved) -> str:
        """Keep a plan and return its id."""
        content = json.dumps(
            [
                lib.request_document(shelved.request),
                lib.plan_document(shelved.plan),
                None if shelved.order is None else lib.order_document(shelved.order),
            ]
        )
        id_ = hashlib.sha256(content.encode()).hexdigest()[:20]
        with self._lock:
            self._plans[id_] = shelved
            self._plans.move_to_end(id_)
            while len(self._plans) > self._most:
                self._plans.popitem(last=False)
        return id_

    def get(self, id_: str) -> Shelved | None:
        """Return a plan that is still kept."""
        with self._lock:
            if id_ not in self._plans:
                return None
            self._plans.move_to_end(id_)
            return self._plans[id_]
