"""The models of a cutting request's document: what JSON may say, field by field."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, PlainSerializer, WithJsonSchema

from optimiser.domain.parts import DimensionFrom
from optimiser.domain.request import CUT_OUT_TRIM, Cutting, Direction
from optimiser.domain.stock import NO_EDGE_TRIM
from optimiser.formats.fields import Count, Document, Flag, Id, Label, Size, SizeOrZero
from optimiser.formats.stock import EdgeTrimField, StockLengthDocument, StockSheetDocument
from optimiser.units import MOST_SIGNS, decimal_text, ratio

_MOST_ITEMS = 20_000


def _share(value: object) -> Fraction:
    if isinstance(value, Fraction):
        return value
    if not isinstance(value, str):
        raise ValueError('a share is written as text, such as "0.5"')
    return ratio(value)


Share = Annotated[
    Fraction,
    BeforeValidator(_share),
    PlainSerializer(decimal_text, return_type=str),
    WithJsonSchema(
        {
            "type": "string",
            "pattern": r"^(0([.,][0-9]+)?|1([.,]0+)?)$",
            "maxLength": MOST_SIGNS,
        }
    ),
]


Fields = Annotated[tuple[Label, ...], Field(min_length=1, max_length=200)]


LengthFrom = dict[Literal["length"], Fields]
SidesFrom = dict[Literal["width", "height"], Fields]


def dimensions_from(document: LengthFrom | SidesFrom) -> tuple[DimensionFrom, ...]:
    """Read where the dimensions of a part come from."""
    return tuple(
        DimensionFrom(dimension=dimension, fields=fields) for dimension, fields in document.items()
    )


def dimensions_document(sources: tuple[DimensionFrom, ...]) -> dict[str, tuple[str, ...]]:
    """Write where the dimensions of a part come from; `dimensions_from` reads it."""
    return {one.dimension: one.fields for one in sources}


class KeepDocument(Document):
    """From which size on a remainder is an offcut, and what share of its price it is worth."""

    length_mm: Size = 6_000
    width_mm: Size = 3_000
    height_mm: Size = 3_000
    credit: Share = Fraction(1, 2)


class LengthOffcutDocument(Document):
    """One length on the rack."""

    id: Id
    length_mm: Size
    end_trim_mm: SizeOrZero = 0


class LengthPartDocument(Document):
    """Equal lengths of one job; `dimension_from`: the fields of a wall that the length is from."""

    id: Id
    job: Id
    length_mm: Size
    quantity: Count = 1
    name: Label = ""
    ease_mm: SizeOrZero = 0
    dimension_from: LengthFrom = Field(default_factory=dict)


class LengthMaterialDocument(Document):
    """One section: stock, rack, parts and the rules at the saw.

    `keep`: its own keep rule, in place of the request's.
    """

    material: Id
    kerf_mm: SizeOrZero = 30
    end_trim_mm: SizeOrZero = 0
    keep: KeepDocument | None = None
    stock: tuple[StockLengthDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    offcuts: tuple[LengthOffcutDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    parts: tuple[LengthPartDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)


class SheetOffcutDocument(Document):
    """One board offcut on the rack."""

    id: Id
    width_mm: Size
    height_mm: Size
    edge_trim_mm: EdgeTrimField = NO_EDGE_TRIM


class CutOutDocument(Document):
    """A rectangle removed from a part, measured from its lower left corner."""

    x_mm: SizeOrZero
    y_mm: SizeOrZero
    width_mm: Size
    height_mm: Size


class BoardPartDocument(Document):
    """Equal board parts of one job; `turn` allows a quarter turn on the sheet.

    `dimension_from`: the fields of a wall that its width and its height are from.
    """

    id: Id
    job: Id
    width_mm: Size
    height_mm: Size
    quantity: Count = 1
    turn: Flag = True
    cut_outs: tuple[CutOutDocument, ...] = Field(default=(), max_length=100)
    name: Label = ""
    ease_mm: SizeOrZero = 0
    dimension_from: SidesFrom = Field(default_factory=dict)


class SheetMaterialDocument(Document):
    """One board: stock, rack, parts and the rules at the saw or the knife.

    `kerf_mm` left out is 3 for a saw and 0 for a knife (common practice, no source). `keep`:
    its own keep rule, in place of the request's. With
    `use_cut_outs` parts may be cut from what is cut out of larger ones; each side of it that was
    sawn out loses `cut_out_trim_mm`, kerf included (5: common practice, no source).
    """

    material: Id
    kerf_mm: SizeOrZero | None = None
    edge_trim_mm: EdgeTrimField = NO_EDGE_TRIM
    max_stages: int | None = Field(default=None, ge=1, le=100, strict=True)
    first_cut: Direction | None = None
    use_cut_outs: Flag = False
    cut_out_trim_mm: SizeOrZero = CUT_OUT_TRIM
    cutting: Cutting = Cutting.SAW
    keep: KeepDocument | None = None
    stock: tuple[StockSheetDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    offcuts: tuple[SheetOffcutDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    parts: tuple[BoardPartDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)


class ChoiceDocument(Document):
    """Alternatives of which exactly one is cut: each option lists the ids of its parts."""

    id: Id
    options: tuple[tuple[Id, ...], ...] = Field(min_length=1, max_length=1_000)


class AccessDocument(Document):
    """The longest part and the largest board part that can be carried to where a job is built."""

    job: Id
    length_mm: Size | None = None
    board_mm: tuple[Size, Size] | None = None


class RequestDocument(Document):
    """A cutting request: everything that is to be cut together."""

    seed: int = Field(default=1, ge=0, le=2**31 - 1, strict=True)
    seconds: float = Field(default=5, ge=0, le=3600, allow_inf_nan=False, strict=True)
    keep: KeepDocument = KeepDocument()
    lengths: tuple[LengthMaterialDocument, ...] = Field(default=(), max_length=1_000)
    sheets: tuple[SheetMaterialDocument, ...] = Field(default=(), max_length=1_000)
    choices: tuple[ChoiceDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    access: tuple[AccessDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    fewer_layouts: Flag = False
