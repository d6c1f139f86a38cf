"""A value with some fields changed, in half the time that `dataclasses.replace` takes.

A wall's members are changed a thousand times, so that it shows. Only for frozen values that check
nothing of themselves.
"""

from __future__ import annotations

from dataclasses import fields
from typing import TypeVar

from optimiser.domain.frame import Bead, Board, Member

Part = TypeVar("Part", Member, Board, Bead)

_FIELDS = {
    kind.__name__: tuple(field.name for field in fields(kind)) for kind in (Member, Board, Bead)
}


def changed(one: Part, **values: object) -> Part:
    """Return the part with these fields changed. Raises AttributeError for one it has not."""
    made = object.__new__(type(one))
    for name in _FIELDS[type(one).__name__]:
        object.__setattr__(made, name, getattr(one, name))
    for name, value in values.items():
        object.__setattr__(made, name, value)
    return made
