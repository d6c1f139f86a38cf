"""The rules of a batch from plain text, as they come from a command line or a form."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import optimiser as lib
from api.batch import Rules
from optimiser import InvalidInput, Problem, mm, tenths

if TYPE_CHECKING:
    from optimiser import Frame, Keep


def rules_from_text(
    *,
    length: str,
    width: str,
    height: str,
    credit: str,
    seed: int,
    seconds: float,
    access: Sequence[str] = (),
    fewer_layouts: bool = False,
) -> Rules:
    """Read the rules of a batch. Raises InvalidInput for what cannot be read.

    `access` as JOB=LENGTH, JOB=WIDTHxHEIGHT or JOB=LENGTH,WIDTHxHEIGHT, in mm.
    """
    document = {
        "access": [_access(text) for text in access],
        "fewer_layouts": fewer_layouts,
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
    """Read the rules that a cutting request has beside its materials, each with its default."""
    request = lib.request_from_document(document, name="rules")
    return Rules(
        keep=request.keep,
        seed=request.seed,
        seconds=request.seconds,
        access=request.access,
        fewer_layouts=request.fewer_layouts,
    )


def heights_from_text(texts: Sequence[str], frame: Frame) -> tuple[int, ...]:
    """Read heights in mm above the floor datum at which a framed wall is to be cut, in tenths.

    Raises InvalidInput for each that is no size, or lies above the wall.
    """
    top = max(level.ceiling for level in frame.levels)
    found: list[int] = []
    problems: list[Problem] = []
    for text in texts:
        try:
            height = tenths(text)
        except ValueError as trouble:
            problems.append(Problem("--section-at", str(trouble), "Give a height such as 1200"))
            continue
        if height > top:
            above = f"{mm(height)} is above the ceiling at {mm(top)}"
            problems.append(Problem("--section-at", above, "Give a height within the wall"))
        found.append(height)
    if problems:
        raise InvalidInput(tuple(problems))
    return tuple(found)


def default_keep() -> Keep:
    """Return the keep rule that is taken where none is given."""
    return rules_from_document({}).keep


def _access(text: str) -> dict[str, object]:
    job, _, limits = text.rpartition("=")
    found: dict[str, object] = {"job": job}
    for limit in limits.split(","):
        sides = [_number(side) for side in limit.lower().replace("×", "x").split("x")]
        if len(sides) == 2:
            found["board_mm"] = sides
        else:
            found["length_mm"] = sides[0]
    return found


def _number(text: str) -> object:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return text
