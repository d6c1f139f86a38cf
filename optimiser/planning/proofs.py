"""What solvers' proofs of one material say, for every option: given as a certificate, and read.

Proofs of other ways to choose than the one that is cut belong into the certificate too: they say
why those ways are no cheaper.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias, cast

from optimiser.domain.plan import LengthWeights, PartWeights, SheetWeights
from optimiser.domain.request import LengthMaterial, SheetMaterial
from optimiser.planning.lengths import length_certificate
from optimiser.planning.sheets import board_certificate
from optimiser.solvers.lengths.problem import LengthsOutcome
from optimiser.solvers.sheets.problem import SheetsOutcome
from optimiser.verify.board_bounds import MOST_REASONS, sheet_reasons
from optimiser.verify.bounds import length_reasons

if TYPE_CHECKING:
    from optimiser.domain.request import CuttingRequest
    from optimiser.verify.reasons import Reasons

Outcome: TypeAlias = LengthsOutcome | SheetsOutcome
Reason: TypeAlias = LengthWeights | SheetWeights | PartWeights

# Reasons of a section; of a board the checker reads so many at most.
MOST_OF_LENGTHS = 24


def certificate_of(
    request: CuttingRequest, material: LengthMaterial | SheetMaterial, outcome: Outcome
) -> tuple[Reason, ...]:
    """Return the reasons of a solver's proof as the checker reads them."""
    if isinstance(material, LengthMaterial):
        assert isinstance(outcome, LengthsOutcome)
        return length_certificate(material, request.choices, outcome)
    assert isinstance(outcome, SheetsOutcome)
    return board_certificate(material, request.keep_for(material), request.choices, outcome)


def reasons_of(
    request: CuttingRequest,
    material: LengthMaterial | SheetMaterial,
    certificate: tuple[Reason, ...],
) -> Reasons:
    """Return what a certificate of a material says. Raises BadCertificate as the checker does."""
    keep, choices = request.keep_for(material), request.choices
    if isinstance(material, LengthMaterial):
        return length_reasons(
            material, keep, choices, cast("tuple[LengthWeights, ...]", certificate)
        )
    return sheet_reasons(
        material, keep, choices, cast("tuple[SheetWeights | PartWeights, ...]", certificate)
    )


def with_others(
    material: LengthMaterial | SheetMaterial,
    own: tuple[Reason, ...],
    others: list[tuple[Reason, ...]],
) -> tuple[Reason, ...]:
    """Return a plan's own reasons and as many of other ways' as there may be, the latest first."""
    most = MOST_OF_LENGTHS if isinstance(material, LengthMaterial) else MOST_REASONS
    later = (reason for certificate in reversed(others) for reason in certificate)
    return tuple(dict.fromkeys((*own, *later)))[: max(most, len(own))]
