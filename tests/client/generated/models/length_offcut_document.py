from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="LengthOffcutDocument")



@_attrs_define
class LengthOffcutDocument:
    """ 
        Attributes:
            id (str):
            length_mm (float):
            end_trim_mm (float | Unset):  Default: 0.0.
     """

    id: str
    length_mm: float
    end_trim_mm: float | Unset = 0.0





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        length_mm = self.length_mm

        end_trim_mm = self.end_trim_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "length_mm": length_mm,
        })
        if end_trim_mm is not UNSET:
            field_dict["end_trim_mm"] = end_trim_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        length_mm = d.pop("length_mm")

        end_trim_mm = d.pop("end_trim_mm", UNSET)

        length_offcut_document = cls(
            id=id,
            length_mm=length_mm,
            end_trim_mm=end_trim_mm,
        )

        return length_offcut_document

