from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.cut_out_work_document_saw_item import CutOutWorkDocumentSawItem
from ..models.cut_out_work_document_shape import CutOutWorkDocumentShape
from ..models.cut_out_work_document_snap_item import CutOutWorkDocumentSnapItem
from typing import cast






T = TypeVar("T", bound="CutOutWorkDocument")



@_attrs_define
class CutOutWorkDocument:
    """ 
        Attributes:
            part (str):
            cut_out (int):
            shape (CutOutWorkDocumentShape):
            saw (list[CutOutWorkDocumentSawItem]):
            snap (list[CutOutWorkDocumentSnapItem]):
     """

    part: str
    cut_out: int
    shape: CutOutWorkDocumentShape
    saw: list[CutOutWorkDocumentSawItem]
    snap: list[CutOutWorkDocumentSnapItem]





    def to_dict(self) -> dict[str, Any]:
        part = self.part

        cut_out = self.cut_out

        shape = self.shape.value

        saw = []
        for saw_item_data in self.saw:
            saw_item = saw_item_data.value
            saw.append(saw_item)



        snap = []
        for snap_item_data in self.snap:
            snap_item = snap_item_data.value
            snap.append(snap_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "part": part,
            "cut_out": cut_out,
            "shape": shape,
            "saw": saw,
            "snap": snap,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        part = d.pop("part")

        cut_out = d.pop("cut_out")

        shape = CutOutWorkDocumentShape(d.pop("shape"))




        saw = []
        _saw = d.pop("saw")
        for saw_item_data in (_saw):
            saw_item = CutOutWorkDocumentSawItem(saw_item_data)



            saw.append(saw_item)


        snap = []
        _snap = d.pop("snap")
        for snap_item_data in (_snap):
            snap_item = CutOutWorkDocumentSnapItem(snap_item_data)



            snap.append(snap_item)


        cut_out_work_document = cls(
            part=part,
            cut_out=cut_out,
            shape=shape,
            saw=saw,
            snap=snap,
        )

        return cut_out_work_document

