"""The rules of a batch from plain text, as they come from a command line or a form."""

from __future__ import annotations

from api.batch import Rules
from optimiser import Keep, request_from_document


def rules_from_text(
    *, length: str, width: str, height: str, credit: str, seed: int, seconds: float
) -> Rules:
    """Read the keep rule, seed and seconds. Raises InvalidInput for what cannot be read."""
    document = {
        "seed": seed,
        "seconds": seconds,
        "keep": {
            "length_mm": _number(length),
            "width_mm": _number(width),
            "height_mm": _number(height),
            "credit": credit,
        },
    }
    return rules_from_document(document)


def rules_from_document(document: dict[str, object]) -> Rules:
    """Read `keep`, `seed` and `seconds`, each with its default, as a cutting request has them."""
    request = request_from_document(document, name="rules")
    return Rules(keep=request.keep, seed=request.seed, seconds=request.seconds)


def default_keep() -> Keep:
    """Return the keep rule that is taken where none is given."""
    return rules_from_document({}).keep


def _number(text: str) -> object:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return text
