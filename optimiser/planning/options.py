"""What the options of a choice take of a material: which take the same, and what each weighs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.planning.lifting import lifted_lengths
from optimiser.verify.weighing import Amount, amount_of

if TYPE_CHECKING:
    from optimiser.solvers.lengths.problem import LengthsOutcome
    from optimiser.solvers.sheets.problem import SheetsOutcome


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


def priced_options(
    request: CuttingRequest,
    material: LengthMaterial | SheetMaterial,
    outcome: LengthsOutcome | SheetsOutcome,
) -> Amount:
    """Return what a plan's proof weighs of the parts of each option, all on one scale."""
    if isinstance(material, LengthMaterial):
        rows = getattr(outcome, "rows", ())
        weights = [part.length + material.kerf for part in material.parts]
        if rows:
            weights = list(lifted_lengths(material, rows[-1][0]))
        weigh = dict(zip((part.id for part in material.parts), weights, strict=True))
        return amount_of(
            material.parts, request.choices, lambda part: part.quantity * weigh[part.id]
        )
    kerf = material.kerf
    return amount_of(
        material.parts,
        request.choices,
        lambda part: part.quantity * (part.width + kerf) * (part.height + kerf),
    )
