"""What is left of a plan after a mishap: a request for the rest and a plan that answers it."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorPiece:
    """An offcut of the rest that came out of the plan's own layouts.

    `piece` counts the layout's pieces in the order of the marks, from 1. `name` is the sheet's
    piece as its cut list names it, or "rest" for what is left of a length.
    """

    material: str
    id: str
    layout: int
    piece: int
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InHand:
    """Stock of the rest that is bought already: its id there, and the id it was bought under."""

    material: str
    id: str
    stock: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """What is still to be cut, from what, and how. Its money counts extra purchase alone.

    Of the pieces that the marks left unfinished, `as_planned` are cut on as they were drawn,
    `filled` take further parts where they had room, and `changed` are cut in another way or left
    whole.
    """

    request: CuttingRequest
    plan: CuttingPlan
    floor: tuple[FloorPiece, ...]
    in_hand: tuple[InHand, ...]
    as_planned: int
    filled: int
    changed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Continuation:
    """How often each part is done, by id, and the rest; None where nothing is left to cut."""

    finished: tuple[tuple[str, int], ...]
    rest: Rest | None
