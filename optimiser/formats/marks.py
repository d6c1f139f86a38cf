"""Marks on a plan as a document (TOML): how far each layout is, and what else lies on the floor."""

from __future__ import annotations

from pydantic import Field

from optimiser.domain.marks import Mark, Marks, State
from optimiser.formats.fields import Document, Id, read_document, read_toml
from optimiser.formats.rack import RackOffcutModel, rack_of_models

_MOST_ITEMS = 20_000


class MarkModel(Document):
    """How far pieces of one layout are: "cut", "started" up to cut number `cuts`, or "damaged"."""

    material: Id
    layout: int = Field(ge=1, strict=True)
    state: State
    pieces: int = Field(default=1, ge=1, strict=True)
    cuts: int = Field(default=0, ge=0, strict=True)
    spoiled: tuple[Id, ...] = Field(default=(), max_length=1_000)


class MarksModel(Document):
    """Marks on one plan; what no mark names is not cut."""

    marks: tuple[MarkModel, ...] = Field(default=(), max_length=_MOST_ITEMS)
    floor: tuple[RackOffcutModel, ...] = Field(default=(), max_length=_MOST_ITEMS)


def read_marks(text: str, *, name: str) -> Marks:
    """Read marks from TOML text. Raises InvalidInput with every fault of it."""
    content = read_toml(text, name=name, smaller="Split the marks")
    return marks_from_document(content, name=name)


def marks_from_document(content: object, *, name: str) -> Marks:
    """Read marks from plain values. Raises InvalidInput with every fault of it."""
    model = read_document(content, MarksModel, name=name)
    return Marks(
        marks=tuple(
            Mark(
                material=mark.material,
                layout=mark.layout,
                state=mark.state,
                pieces=mark.pieces,
                cuts=mark.cuts,
                spoiled=mark.spoiled,
            )
            for mark in model.marks
        ),
        floor=rack_of_models(model.floor, name=f"{name}: floor"),
    )
