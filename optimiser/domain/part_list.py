"""The parts of one or more jobs, each with the material it is cut from."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.parts import BoardPart, LengthPart


@dataclass(frozen=True, slots=True, kw_only=True)
class PartList:
    """Pairs of material and part, in the order in which they were listed."""

    lengths: tuple[tuple[str, LengthPart], ...] = ()
    boards: tuple[tuple[str, BoardPart], ...] = ()
