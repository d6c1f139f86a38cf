from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="LengthUsageDocument")



@_attrs_define
class LengthUsageDocument:
    """ 
        Attributes:
            part_mm (float):
            offcut_mm (float):
            scrap_mm (float):
            kerf_mm (float):
            trim_mm (float):
     """

    part_mm: float
    offcut_mm: float
    scrap_mm: float
    kerf_mm: float
    trim_mm: float





    def to_dict(self) -> dict[str, Any]:
        part_mm = self.part_mm

        offcut_mm = self.offcut_mm

        scrap_mm = self.scrap_mm

        kerf_mm = self.kerf_mm

        trim_mm = self.trim_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "part_mm": part_mm,
            "offcut_mm": offcut_mm,
            "scrap_mm": scrap_mm,
            "kerf_mm": kerf_mm,
            "trim_mm": trim_mm,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        part_mm = d.pop("part_mm")

        offcut_mm = d.pop("offcut_mm")

        scrap_mm = d.pop("scrap_mm")

        kerf_mm = d.pop("kerf_mm")

        trim_mm = d.pop("trim_mm")

        length_usage_document = cls(
            part_mm=part_mm,
            offcut_mm=offcut_mm,
            scrap_mm=scrap_mm,
            kerf_mm=kerf_mm,
            trim_mm=trim_mm,
        )

        return length_usage_document

