from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.board_part_document_dimension_from import BoardPartDocumentDimensionFrom
  from ..models.cut_out_document import CutOutDocument





T = TypeVar("T", bound="BoardPartDocument")



@_attrs_define
class BoardPartDocument:
    """ 
        Attributes:
            id (str):
            job (str):
            width_mm (float):
            height_mm (float):
            quantity (int | Unset):  Default: 1.
            turn (bool | Unset):  Default: True.
            cut_outs (list[CutOutDocument] | Unset):
            name (str | Unset):  Default: ''.
            ease_mm (float | Unset):  Default: 0.0.
            dimension_from (BoardPartDocumentDimensionFrom | Unset):
     """

    id: str
    job: str
    width_mm: float
    height_mm: float
    quantity: int | Unset = 1
    turn: bool | Unset = True
    cut_outs: list[CutOutDocument] | Unset = UNSET
    name: str | Unset = ''
    ease_mm: float | Unset = 0.0
    dimension_from: BoardPartDocumentDimensionFrom | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.board_part_document_dimension_from import BoardPartDocumentDimensionFrom
        from ..models.cut_out_document import CutOutDocument
        id = self.id

        job = self.job

        width_mm = self.width_mm

        height_mm = self.height_mm

        quantity = self.quantity

        turn = self.turn

        cut_outs: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.cut_outs, Unset):
            cut_outs = []
            for cut_outs_item_data in self.cut_outs:
                cut_outs_item = cut_outs_item_data.to_dict()
                cut_outs.append(cut_outs_item)



        name = self.name

        ease_mm = self.ease_mm

        dimension_from: dict[str, Any] | Unset = UNSET
        if not isinstance(self.dimension_from, Unset):
            dimension_from = self.dimension_from.to_dict()


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "job": job,
            "width_mm": width_mm,
            "height_mm": height_mm,
        })
        if quantity is not UNSET:
            field_dict["quantity"] = quantity
        if turn is not UNSET:
            field_dict["turn"] = turn
        if cut_outs is not UNSET:
            field_dict["cut_outs"] = cut_outs
        if name is not UNSET:
            field_dict["name"] = name
        if ease_mm is not UNSET:
            field_dict["ease_mm"] = ease_mm
        if dimension_from is not UNSET:
            field_dict["dimension_from"] = dimension_from

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.board_part_document_dimension_from import BoardPartDocumentDimensionFrom
        from ..models.cut_out_document import CutOutDocument
        d = dict(src_dict)
        id = d.pop("id")

        job = d.pop("job")

        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        quantity = d.pop("quantity", UNSET)

        turn = d.pop("turn", UNSET)

        _cut_outs = d.pop("cut_outs", UNSET)
        cut_outs: list[CutOutDocument] | Unset = UNSET
        if _cut_outs is not UNSET:
            cut_outs = []
            for cut_outs_item_data in _cut_outs:
                cut_outs_item = CutOutDocument.from_dict(cut_outs_item_data)



                cut_outs.append(cut_outs_item)


        name = d.pop("name", UNSET)

        ease_mm = d.pop("ease_mm", UNSET)

        _dimension_from = d.pop("dimension_from", UNSET)
        dimension_from: BoardPartDocumentDimensionFrom | Unset
        if isinstance(_dimension_from,  Unset):
            dimension_from = UNSET
        else:
            dimension_from = BoardPartDocumentDimensionFrom.from_dict(_dimension_from)




        board_part_document = cls(
            id=id,
            job=job,
            width_mm=width_mm,
            height_mm=height_mm,
            quantity=quantity,
            turn=turn,
            cut_outs=cut_outs,
            name=name,
            ease_mm=ease_mm,
            dimension_from=dimension_from,
        )

        return board_part_document

