"""Walls to frames, all faults of all walls at once, each with the line of the file it is from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import optimiser as lib
from optimiser import InvalidInput, Problem

if TYPE_CHECKING:
    from optimiser import Frame, PriceBook, Wall


@dataclass(frozen=True, slots=True, kw_only=True)
class WallFile:
    """The text that a wall was read from, and what the file is called."""

    name: str
    text: str


def frame_all(
    walls: tuple[Wall, ...], book: PriceBook, files: Mapping[str, WallFile]
) -> tuple[Frame, ...]:
    """Frame every wall; `files` are those that walls were read from, by job.

    Raises InvalidInput with the faults of every wall, each under its file's or its job's name.
    """
    frames: list[Frame] = []
    problems: list[Problem] = []
    for wall in walls:
        try:
            frames.append(lib.frame_wall(wall, book))
        except InvalidInput as refused:
            file = files.get(wall.job)
            name = file.name if file is not None else f"job {wall.job}"
            named = tuple(replace(p, field=f"{name}: {p.field}") for p in refused.problems)
            problems += lib.quote_lines(named, file.text) if file is not None else named
    if problems:
        raise InvalidInput(tuple(problems))
    return tuple(frames)
