from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="SheetMaterialDocumentEdgeTrimMmType1")



@_attrs_define
class SheetMaterialDocumentEdgeTrimMmType1:
    """ 
        Attributes:
            left (float | Unset):
            right (float | Unset):
            bottom (float | Unset):
            top (float | Unset):
     """

    left: float | Unset = UNSET
    right: float | Unset = UNSET
    bottom: float | Unset = UNSET
    top: float | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        left = self.left

        right = self.right

        bottom = self.bottom

        top = self.top


        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if left is not UNSET:
            field_dict["left"] = left
        if right is not UNSET:
            field_dict["right"] = right
        if bottom is not UNSET:
            field_dict["bottom"] = bottom
        if top is not UNSET:
            field_dict["top"] = top

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        left = d.pop("left", UNSET)

        right = d.pop("right", UNSET)

        bottom = d.pop("bottom", UNSET)

        top = d.pop("top", UNSET)

        sheet_material_document_edge_trim_mm_type_1 = cls(
            left=left,
            right=right,
            bottom=bottom,
            top=top,
        )

        return sheet_material_document_edge_trim_mm_type_1

