"""What lies on the rack before a batch is planned."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.stock import LengthOffcut, SheetOffcut


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """Offcuts by material: pairs of material and piece, each piece once."""

    lengths: tuple[tuple[str, LengthOffcut], ...] = ()
    sheets: tuple[tuple[str, SheetOffcut], ...] = ()
