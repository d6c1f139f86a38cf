"""Which options of a choice take the same of a material."""

from __future__ import annotations

from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial


def alike_options(
    request: CuttingRequest, material: LengthMaterial | SheetMaterial
) -> tuple[tuple[int, ...], ...]:
    """Return for each option of each choice the first that takes the same of a material."""
    ids = {part.id for part in material.parts}
    alike = []
    for choice in request.choices:
        own = [frozenset(option) & ids for option in choice.options]
        alike.append(tuple(own.index(each) for each in own))
    return tuple(alike)
