from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.mark_model import MarkModel
  from ..models.rack_offcut_model import RackOffcutModel





T = TypeVar("T", bound="CuttingMarks")



@_attrs_define
class CuttingMarks:
    """ 
        Attributes:
            marks (list[MarkModel] | Unset):
            floor (list[RackOffcutModel] | Unset):
     """

    marks: list[MarkModel] | Unset = UNSET
    floor: list[RackOffcutModel] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.mark_model import MarkModel
        from ..models.rack_offcut_model import RackOffcutModel
        marks: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.marks, Unset):
            marks = []
            for marks_item_data in self.marks:
                marks_item = marks_item_data.to_dict()
                marks.append(marks_item)



        floor: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.floor, Unset):
            floor = []
            for floor_item_data in self.floor:
                floor_item = floor_item_data.to_dict()
                floor.append(floor_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if marks is not UNSET:
            field_dict["marks"] = marks
        if floor is not UNSET:
            field_dict["floor"] = floor

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.mark_model import MarkModel
        from ..models.rack_offcut_model import RackOffcutModel
        d = dict(src_dict)
        _marks = d.pop("marks", UNSET)
        marks: list[MarkModel] | Unset = UNSET
        if _marks is not UNSET:
            marks = []
            for marks_item_data in _marks:
                marks_item = MarkModel.from_dict(marks_item_data)



                marks.append(marks_item)


        _floor = d.pop("floor", UNSET)
        floor: list[RackOffcutModel] | Unset = UNSET
        if _floor is not UNSET:
            floor = []
            for floor_item_data in _floor:
                floor_item = RackOffcutModel.from_dict(floor_item_data)



                floor.append(floor_item)


        cutting_marks = cls(
            marks=marks,
            floor=floor,
        )

        return cutting_marks

