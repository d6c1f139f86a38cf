"""The cutting request as a document (JSON): millimetres and decimal money outside, whole inside."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainSerializer, WithJsonSchema

from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.domain.request import (
    Access,
    Choice,
    Cutting,
    CuttingRequest,
    Keep,
    LengthMaterial,
    SheetMaterial,
)
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.formats.fields import (
    Count,
    Document,
    Flag,
    Id,
    Label,
    Size,
    SizeOrZero,
    read_document,
    read_json,
)
from optimiser.formats.stock import (
    StockLengthDocument,
    StockSheetDocument,
    stock_lengths_of,
    stock_sheets_of,
)
from optimiser.units import MOST_SIGNS, Tenths, decimal_text, ratio

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
    """Equal lengths of one job."""

    id: Id
    job: Id
    length_mm: Size
    quantity: Count = 1
    name: Label = ""
    ease_mm: SizeOrZero = 0


class LengthMaterialDocument(Document):
    """One section: stock, rack, parts and the rules at the saw."""

    material: Id
    kerf_mm: SizeOrZero = 30
    end_trim_mm: SizeOrZero = 0
    stock: tuple[StockLengthDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    offcuts: tuple[LengthOffcutDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)
    parts: tuple[LengthPartDocument, ...] = Field(default=(), max_length=_MOST_ITEMS)


class SheetOffcutDocument(Document):
    """One board offcut on the rack."""

    id: Id
    width_mm: Size
    height_mm: Size
    edge_trim_mm: SizeOrZero = 0


class CutOutDocument(Document):
    """A rectangle removed from a part, measured from its lower left corner."""

    x_mm: SizeOrZero
    y_mm: SizeOrZero
    width_mm: Size
    height_mm: Size


class BoardPartDocument(Document):
    """Equal board parts of one job; `turn` allows a quarter turn on the sheet."""

    id: Id
    job: Id
    width_mm: Size
    height_mm: Size
    quantity: Count = 1
    turn: Flag = True
    cut_outs: tuple[CutOutDocument, ...] = Field(default=(), max_length=100)
    name: Label = ""
    ease_mm: SizeOrZero = 0


class SheetMaterialDocument(Document):
    """One board: stock, rack, parts and the rules at the saw or the knife.

    `kerf_mm` left out is 3 for a saw and 0 for a knife (common practice, no source).
    """

    material: Id
    kerf_mm: SizeOrZero | None = None
    edge_trim_mm: SizeOrZero = 0
    max_stages: int | None = Field(default=None, ge=1, le=100, strict=True)
    cutting: Cutting = Cutting.SAW
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


def read_request(text: str | bytes, *, name: str = "request") -> CuttingRequest:
    """Read a cutting request from JSON text. Raises InvalidInput with every fault of it."""
    return request_of(read_json(text, RequestDocument, name=name))


def request_from_document(content: object, *, name: str = "request") -> CuttingRequest:
    """Read a cutting request from plain values. Raises InvalidInput with every fault of it."""
    return request_of(read_document(content, RequestDocument, name=name))


def request_of(document: RequestDocument) -> CuttingRequest:
    """Turn a request document into the value it stands for."""
    return CuttingRequest(
        seed=document.seed,
        seconds=document.seconds,
        keep=keep_of(document.keep),
        lengths=tuple(_lengths(material) for material in document.lengths),
        sheets=tuple(_sheets(material) for material in document.sheets),
        choices=tuple(Choice(id=item.id, options=item.options) for item in document.choices),
        access=tuple(map(_access, document.access)),
        fewer_layouts=document.fewer_layouts,
    )


def _access(document: AccessDocument) -> Access:
    length, board = document.length_mm, document.board_mm
    return Access(
        job=document.job,
        length=None if length is None else Tenths(length),
        board=None if board is None else (Tenths(board[0]), Tenths(board[1])),
    )


def keep_of(document: KeepDocument) -> Keep:
    """Turn a keep rule document into the value it stands for."""
    return Keep(
        length=Tenths(document.length_mm),
        width=Tenths(document.width_mm),
        height=Tenths(document.height_mm),
        credit=document.credit,
    )


def _lengths(document: LengthMaterialDocument) -> LengthMaterial:
    return LengthMaterial(
        material=document.material,
        kerf=Tenths(document.kerf_mm),
        end_trim=Tenths(document.end_trim_mm),
        stock=stock_lengths_of(document.stock),
        offcuts=tuple(
            LengthOffcut(
                id=offcut.id,
                length=Tenths(offcut.length_mm),
                end_trim=Tenths(offcut.end_trim_mm),
            )
            for offcut in document.offcuts
        ),
        parts=tuple(
            LengthPart(
                id=part.id,
                job=part.job,
                length=Tenths(part.length_mm),
                quantity=part.quantity,
                name=part.name,
                ease=Tenths(part.ease_mm),
            )
            for part in document.parts
        ),
    )


def _sheets(document: SheetMaterialDocument) -> SheetMaterial:
    usual_kerf = 30 if document.cutting is Cutting.SAW else 0
    return SheetMaterial(
        material=document.material,
        kerf=Tenths(usual_kerf if document.kerf_mm is None else document.kerf_mm),
        edge_trim=Tenths(document.edge_trim_mm),
        max_stages=document.max_stages,
        cutting=document.cutting,
        stock=stock_sheets_of(document.stock),
        offcuts=tuple(
            SheetOffcut(
                id=offcut.id,
                width=Tenths(offcut.width_mm),
                height=Tenths(offcut.height_mm),
                edge_trim=Tenths(offcut.edge_trim_mm),
            )
            for offcut in document.offcuts
        ),
        parts=tuple(
            BoardPart(
                id=part.id,
                job=part.job,
                width=Tenths(part.width_mm),
                height=Tenths(part.height_mm),
                quantity=part.quantity,
                turn=part.turn,
                cut_outs=tuple(
                    CutOut(
                        x=Tenths(hole.x_mm),
                        y=Tenths(hole.y_mm),
                        width=Tenths(hole.width_mm),
                        height=Tenths(hole.height_mm),
                    )
                    for hole in part.cut_outs
                ),
                name=part.name,
                ease=Tenths(part.ease_mm),
            )
            for part in document.parts
        ),
    )


def request_document(request: CuttingRequest) -> dict[str, Any]:
    """Write a request as a document of plain values, ready for JSON."""
    keep = request.keep
    # model_construct: the values are whole already, so nothing is read from millimetres again.
    document = RequestDocument.model_construct(
        seed=request.seed,
        seconds=request.seconds,
        keep=KeepDocument.model_construct(
            length_mm=keep.length, width_mm=keep.width, height_mm=keep.height, credit=keep.credit
        ),
        lengths=tuple(
            LengthMaterialDocument.model_construct(
                material=item.material,
                kerf_mm=item.kerf,
                end_trim_mm=item.end_trim,
                stock=tuple(
                    StockLengthDocument.model_construct(
                        id=stock.id,
                        length_mm=stock.length,
                        price=stock.price,
                        available=stock.available,
                    )
                    for stock in item.stock
                ),
                offcuts=tuple(
                    LengthOffcutDocument.model_construct(
                        id=offcut.id, length_mm=offcut.length, end_trim_mm=offcut.end_trim
                    )
                    for offcut in item.offcuts
                ),
                parts=tuple(
                    LengthPartDocument.model_construct(
                        id=part.id,
                        job=part.job,
                        length_mm=part.length,
                        quantity=part.quantity,
                        name=part.name,
                        ease_mm=part.ease,
                    )
                    for part in item.parts
                ),
            )
            for item in request.lengths
        ),
        sheets=tuple(_sheets_document(item) for item in request.sheets),
        choices=tuple(
            ChoiceDocument.model_construct(id=choice.id, options=choice.options)
            for choice in request.choices
        ),
        access=tuple(
            AccessDocument.model_construct(
                job=limit.job, length_mm=limit.length, board_mm=limit.board
            )
            for limit in request.access
        ),
        fewer_layouts=request.fewer_layouts,
    )
    return document.model_dump(mode="json")


def _sheets_document(item: SheetMaterial) -> SheetMaterialDocument:
    return SheetMaterialDocument.model_construct(
        material=item.material,
        kerf_mm=item.kerf,
        edge_trim_mm=item.edge_trim,
        max_stages=item.max_stages,
        cutting=item.cutting,
        stock=tuple(
            StockSheetDocument.model_construct(
                id=stock.id,
                width_mm=stock.width,
                height_mm=stock.height,
                price=stock.price,
                available=stock.available,
            )
            for stock in item.stock
        ),
        offcuts=tuple(
            SheetOffcutDocument.model_construct(
                id=offcut.id,
                width_mm=offcut.width,
                height_mm=offcut.height,
                edge_trim_mm=offcut.edge_trim,
            )
            for offcut in item.offcuts
        ),
        parts=tuple(
            BoardPartDocument.model_construct(
                id=part.id,
                job=part.job,
                width_mm=part.width,
                height_mm=part.height,
                quantity=part.quantity,
                turn=part.turn,
                cut_outs=tuple(
                    CutOutDocument.model_construct(
                        x_mm=hole.x, y_mm=hole.y, width_mm=hole.width, height_mm=hole.height
                    )
                    for hole in part.cut_outs
                ),
                name=part.name,
                ease_mm=part.ease,
            )
            for part in item.parts
        ),
    )
