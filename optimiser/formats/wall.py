"""A wall as the fitter writes it: TOML, or the same as a JSON document; millimetres and kilograms.

Everything that may be left out is left out here too: framing takes the defaults and names them.
"""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal
from typing import Any

from pydantic import ValidationError

from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import (
    Accessory,
    Extent,
    Fire,
    Materials,
    Niche,
    Projection,
    Site,
    Socket,
    Soundbar,
    Step,
    SurveyPoint,
    Tv,
    Wall,
)
from optimiser.errors import InvalidInput, Problem, invalid
from optimiser.formats.fields import problems_of
from optimiser.formats.toml_lines import quote_lines
from optimiser.formats.wall_document import TAKEN, WallModel
from optimiser.framing.build import frame_wall
from optimiser.units import Tenths


def read_wall(text: str, *, name: str, book: PriceBook | None = None) -> Wall:
    """Read a wall from TOML text. `name` is what its problems call the text, a file's name say.

    Raises InvalidInput with every fault found, each with the line that it is about. With a price
    book a file whose only faults are fields that are not known is framed all the same, so that
    what is wrong with the wall itself is told in the same answer.
    """
    try:
        return _read(text, name=name, book=book)
    except InvalidInput as refused:
        raise InvalidInput(quote_lines(refused.problems, text)) from None


def _read(text: str, *, name: str, book: PriceBook | None) -> Wall:
    try:
        document = tomllib.loads(text, parse_float=Decimal)
    except RecursionError:
        raise invalid(name, "is nested too deeply", "lay it out as in the README") from None
    except ValueError as fault:  # TOML faults, and numbers of thousands of digits
        raise invalid(name, f"is not TOML: {fault}", "mend that line") from None
    return wall_from_document(document, name=name, book=book)


def wall_from_document(
    document: dict[str, Any], *, name: str, book: PriceBook | None = None
) -> Wall:
    """Read a wall from a document as TOML or JSON give it. Raises InvalidInput with every fault.

    With a price book those of framing too, as `read_wall` tells them.
    """
    try:
        model = WallModel.model_validate(document)
    except ValidationError as fault:
        found = problems_of(fault, name=name, model=WallModel)
        unknown = [one["loc"] for one in fault.errors() if one["type"] == "extra_forbidden"]
        if book is not None and len(unknown) == fault.error_count():
            found += _faults_of_framing(_without(document, unknown), name, book)
        raise InvalidInput(found) from None
    problems = [
        Problem(f"{name}: {field}", f'the name "{taken}" is taken', f"give each {what} its own")
        for field, what, names in (
            ("niches", "niche", [niche.name for niche in model.niches]),
            ("steps", "step", [step.name for step in model.steps]),
        )
        for taken in sorted({n for n in names if names.count(n) > 1 or n in TAKEN})
    ]
    if problems:
        raise InvalidInput(tuple(problems))
    return _wall(model)


def _without(document: dict[str, Any], paths: Iterable[tuple[str | int, ...]]) -> dict[str, Any]:
    """Return a document without the fields at some paths."""
    known = copy.deepcopy(document)
    for *above, last in paths:
        inner: Any = known
        for step in above:
            inner = inner[step]
        del inner[last]
    return known


def _faults_of_framing(document: dict[str, Any], name: str, book: PriceBook) -> tuple[Problem, ...]:
    """Return what reading and framing a document without unknown fields refuse."""
    try:
        wall = wall_from_document(document, name=name)
    except InvalidInput as refused:
        return refused.problems
    try:
        frame_wall(wall, book)
    except InvalidInput as refused:
        return tuple(replace(one, field=f"{name}: {one.field}") for one in refused.problems)
    return ()


def _wall(model: WallModel) -> Wall:
    site, extent = model.site, model.wall
    tv: Tv | None = None
    if model.tv is not None:
        values = model.tv.values()
        sockets = tuple(Socket(**socket.values()) for socket in values.pop("sockets"))
        tv = Tv(**values, sockets=sockets)
    positions = tuple(sorted(Tenths(position) for position in site.stud_positions_mm))
    return Wall(
        job=model.job,
        client=model.client,
        needed=model.needed or "",
        site=Site(
            **{
                **site.values(),
                "stud_positions": positions,
                "levels": tuple(SurveyPoint(**point.values()) for point in site.levels),
                "projections": tuple(Projection(**one.values()) for one in site.projections),
                "accessories": tuple(Accessory(**one.values()) for one in site.accessories),
            }
        ),
        extent=Extent(**extent.values()),
        fire=Fire(**model.fire.values()) if model.fire is not None else None,
        tv=tv,
        soundbar=Soundbar(**model.soundbar.values()) if model.soundbar is not None else None,
        steps=tuple(Step(**step.values()) for step in model.steps),
        niches=tuple(Niche(**niche.values()) for niche in model.niches),
        materials=Materials(**model.materials.values()),
    )
