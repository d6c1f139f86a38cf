from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="SheetUsageDocument")



@_attrs_define
class SheetUsageDocument:
    """ 
        Attributes:
            part_mm2 (float):
            offcut_mm2 (float):
            scrap_mm2 (float):
            kerf_mm2 (float):
            trim_mm2 (float):
     """

    part_mm2: float
    offcut_mm2: float
    scrap_mm2: float
    kerf_mm2: float
    trim_mm2: float





    def to_dict(self) -> dict[str, Any]:
        part_mm2 = self.part_mm2

        offcut_mm2 = self.offcut_mm2

        scrap_mm2 = self.scrap_mm2

        kerf_mm2 = self.kerf_mm2

        trim_mm2 = self.trim_mm2


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "part_mm2": part_mm2,
            "offcut_mm2": offcut_mm2,
            "scrap_mm2": scrap_mm2,
            "kerf_mm2": kerf_mm2,
            "trim_mm2": trim_mm2,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        part_mm2 = d.pop("part_mm2")

        offcut_mm2 = d.pop("offcut_mm2")

        scrap_mm2 = d.pop("scrap_mm2")

        kerf_mm2 = d.pop("kerf_mm2")

        trim_mm2 = d.pop("trim_mm2")

        sheet_usage_document = cls(
            part_mm2=part_mm2,
            offcut_mm2=offcut_mm2,
            scrap_mm2=scrap_mm2,
            kerf_mm2=kerf_mm2,
            trim_mm2=trim_mm2,
        )

        return sheet_usage_document

