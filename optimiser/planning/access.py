"""Which parts can be carried to where they are built, and which options that leaves open."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.request import Access, CuttingRequest
from optimiser.errors import Problem
from optimiser.units import mm


def open_options(request: CuttingRequest) -> tuple[tuple[int, ...], ...]:
    """Return for each choice the options whose parts can all be carried in."""
    stuck = set(_stuck(request))
    return tuple(
        tuple(
            number
            for number, option in enumerate(choice.options)
            if not any(id_ in stuck for id_ in option)
        )
        for choice in request.choices
    )


def access_problems(request: CuttingRequest) -> Iterator[Problem]:
    """Yield every part that cannot be carried in and has no alternative that can."""
    stuck = _stuck(request)
    optional = {id_ for choice in request.choices for option in choice.options for id_ in option}
    for id_, (part, limit) in stuck.items():
        if id_ not in optional:
            yield Problem(f"part {id_!r}", _trouble(part, limit), _REMEDY)
    for choice, open_ in zip(request.choices, open_options(request), strict=True):
        if choice.options and not open_:
            names = [id_ for option in choice.options for id_ in option if id_ in stuck]
            yield Problem(
                f"choice {choice.id!r}",
                "no option can be carried in: "
                + "; ".join(f"part {id_!r} {_trouble(*stuck[id_])}" for id_ in names),
                _REMEDY,
            )
    jobs = {part.job for material in request.materials for part in material.parts}
    for number, limit in enumerate(request.access):
        if limit.job not in jobs:
            yield Problem(
                f"access[{number}].job",
                f"{limit.job!r} has no part in this request",
                f"Name one of {', '.join(sorted(jobs))}",
            )


_REMEDY = "Join the part from two, or carry it in another way and raise the job's access"


def _stuck(request: CuttingRequest) -> dict[str, tuple[LengthPart | BoardPart, Access]]:
    limits = {limit.job: limit for limit in request.access}
    return {
        part.id: (part, limits[part.job])
        for material in request.materials
        for part in material.parts
        if part.job in limits and not _passes(part, limits[part.job])
    }


def _passes(part: LengthPart | BoardPart, limit: Access) -> bool:
    if isinstance(part, LengthPart):
        return limit.length is None or part.length <= limit.length
    if limit.board is None:
        return True
    short, long = sorted((part.width, part.height))
    return short <= min(limit.board) and long <= max(limit.board)


def _trouble(part: LengthPart | BoardPart, limit: Access) -> str:
    if isinstance(part, LengthPart):
        assert limit.length is not None
        return f"is {mm(part.length)} long; job {part.job!r} lets in {mm(limit.length)} at most"
    assert limit.board is not None
    width, height = limit.board
    return (
        f"is {mm(part.width)} × {mm(part.height)}; job {part.job!r} lets in "
        f"{mm(width)} × {mm(height)} at most"
    )
