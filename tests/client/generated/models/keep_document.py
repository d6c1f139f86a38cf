from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="KeepDocument")



@_attrs_define
class KeepDocument:
    """ 
        Attributes:
            length_mm (float | Unset):  Default: 600.0.
            width_mm (float | Unset):  Default: 300.0.
            height_mm (float | Unset):  Default: 300.0.
            credit (str | Unset):  Default: '0.5'.
     """

    length_mm: float | Unset = 600.0
    width_mm: float | Unset = 300.0
    height_mm: float | Unset = 300.0
    credit: str | Unset = '0.5'





    def to_dict(self) -> dict[str, Any]:
        length_mm = self.length_mm

        width_mm = self.width_mm

        height_mm = self.height_mm

        credit = self.credit


        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if length_mm is not UNSET:
            field_dict["length_mm"] = length_mm
        if width_mm is not UNSET:
            field_dict["width_mm"] = width_mm
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm
        if credit is not UNSET:
            field_dict["credit"] = credit

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        length_mm = d.pop("length_mm", UNSET)

        width_mm = d.pop("width_mm", UNSET)

        height_mm = d.pop("height_mm", UNSET)

        credit = d.pop("credit", UNSET)

        keep_document = cls(
            length_mm=length_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            credit=credit,
        )

        return keep_document

