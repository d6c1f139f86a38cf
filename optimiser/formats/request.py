"""The cutting request as a document (JSON): millimetres and decimal money outside, whole inside."""

from __future__ import annotations

from typing import Any

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
from optimiser.formats.fields import read_document, read_json
from optimiser.formats.part_documents import board_part, length_part
from optimiser.formats.request_documents import (
    AccessDocument,
    BoardPartDocument,
    ChoiceDocument,
    CutOutDocument,
    KeepDocument,
    LengthMaterialDocument,
    LengthOffcutDocument,
    LengthPartDocument,
    RequestDocument,
    SheetMaterialDocument,
    SheetOffcutDocument,
    dimensions_document,
)
from optimiser.formats.stock import (
    StockLengthDocument,
    StockSheetDocument,
    stock_lengths_of,
    stock_sheets_of,
)
from optimiser.units import Tenths


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


def keep_document(keep: Keep) -> KeepDocument:
    """Write a keep rule as its document."""
    return KeepDocument.model_construct(
        length_mm=keep.length, width_mm=keep.width, height_mm=keep.height, credit=keep.credit
    )


def _lengths(document: LengthMaterialDocument) -> LengthMaterial:
    return LengthMaterial(
        material=document.material,
        kerf=Tenths(document.kerf_mm),
        end_trim=Tenths(document.end_trim_mm),
        keep=None if document.keep is None else keep_of(document.keep),
        stock=stock_lengths_of(document.stock),
        offcuts=tuple(
            LengthOffcut(
                id=offcut.id,
                length=Tenths(offcut.length_mm),
                end_trim=Tenths(offcut.end_trim_mm),
            )
            for offcut in document.offcuts
        ),
        parts=tuple(map(length_part, document.parts)),
    )


def _sheets(document: SheetMaterialDocument) -> SheetMaterial:
    usual_kerf = 30 if document.cutting is Cutting.SAW else 0
    return SheetMaterial(
        material=document.material,
        kerf=Tenths(usual_kerf if document.kerf_mm is None else document.kerf_mm),
        edge_trim=document.edge_trim_mm,
        max_stages=document.max_stages,
        first_cut=document.first_cut,
        use_cut_outs=document.use_cut_outs,
        cut_out_trim=Tenths(document.cut_out_trim_mm),
        cutting=document.cutting,
        keep=None if document.keep is None else keep_of(document.keep),
        stock=stock_sheets_of(document.stock),
        offcuts=tuple(
            SheetOffcut(
                id=offcut.id,
                width=Tenths(offcut.width_mm),
                height=Tenths(offcut.height_mm),
                edge_trim=offcut.edge_trim_mm,
            )
            for offcut in document.offcuts
        ),
        parts=tuple(map(board_part, document.parts)),
    )


def request_document(request: CuttingRequest) -> dict[str, Any]:
    """Write a request as a document of plain values, ready for JSON."""
    # model_construct: the values are whole already, so nothing is read from millimetres again.
    document = RequestDocument.model_construct(
        seed=request.seed,
        seconds=request.seconds,
        keep=keep_document(request.keep),
        lengths=tuple(
            LengthMaterialDocument.model_construct(
                material=item.material,
                kerf_mm=item.kerf,
                end_trim_mm=item.end_trim,
                keep=None if item.keep is None else keep_document(item.keep),
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
                        dimension_from=dimensions_document(part.dimension_from),
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
        first_cut=item.first_cut,
        use_cut_outs=item.use_cut_outs,
        cut_out_trim_mm=item.cut_out_trim,
        cutting=item.cutting,
        keep=None if item.keep is None else keep_document(item.keep),
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
                dimension_from=dimensions_document(part.dimension_from),
            )
            for part in item.parts
        ),
    )
