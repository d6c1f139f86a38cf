from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="StretchDocument")



@_attrs_define
class StretchDocument:
    """ 
        Attributes:
            start_mm (float):
            length_mm (float):
     """

    start_mm: float
    length_mm: float





    def to_dict(self) -> dict[str, Any]:
        start_mm = self.start_mm

        length_mm = self.length_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "start_mm": start_mm,
            "length_mm": length_mm,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        start_mm = d.pop("start_mm")

        length_mm = d.pop("length_mm")

        stretch_document = cls(
            start_mm=start_mm,
            length_mm=length_mm,
        )

        return stretch_document

