"""A continuation as plain values: what is done, what is taken from the floor, request and plan."""

from __future__ import annotations

from typing import Any

from optimiser.domain.continuation import Continuation, Rest
from optimiser.formats.plan import plan_document
from optimiser.formats.request import request_document


def continuation_document(continuation: Continuation) -> dict[str, Any]:
    """Write a continuation as plain values, ready for JSON; `rest` is null when all is cut."""
    rest = continuation.rest
    return {
        "finished": [{"part": id_, "count": count} for id_, count in continuation.finished],
        "rest": None if rest is None else _rest(rest),
    }


def _rest(rest: Rest) -> dict[str, Any]:
    return {
        "pieces": {
            "as_planned": rest.as_planned,
            "filled": rest.filled,
            "changed": rest.changed,
        },
        "floor": [
            {
                "material": piece.material,
                "id": piece.id,
                "layout": piece.layout,
                "piece": piece.piece,
                "name": piece.name,
            }
            for piece in rest.floor
        ],
        "in_hand": [
            {"material": piece.material, "id": piece.id, "stock": piece.stock}
            for piece in rest.in_hand
        ],
        "request": request_document(rest.request),
        "plan": plan_document(rest.plan),
    }
