from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="KeptDeliveryLinesItemInsteadItem")



@_attrs_define
class KeptDeliveryLinesItemInsteadItem:
    """ 
        Attributes:
            material (str):
            quantity (int):
            length_mm (float | Unset):
            width_mm (float | Unset):
            height_mm (float | Unset):
            note (str | Unset):
     """

    material: str
    quantity: int
    length_mm: float | Unset = UNSET
    width_mm: float | Unset = UNSET
    height_mm: float | Unset = UNSET
    note: str | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        material = self.material

        quantity = self.quantity

        length_mm = self.length_mm

        width_mm = self.width_mm

        height_mm = self.height_mm

        note = self.note


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "material": material,
            "quantity": quantity,
        })
        if length_mm is not UNSET:
            field_dict["length_mm"] = length_mm
        if width_mm is not UNSET:
            field_dict["width_mm"] = width_mm
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm
        if note is not UNSET:
            field_dict["note"] = note

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        material = d.pop("material")

        quantity = d.pop("quantity")

        length_mm = d.pop("length_mm", UNSET)

        width_mm = d.pop("width_mm", UNSET)

        height_mm = d.pop("height_mm", UNSET)

        note = d.pop("note", UNSET)

        kept_delivery_lines_item_instead_item = cls(
            material=material,
            quantity=quantity,
            length_mm=length_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            note=note,
        )


        kept_delivery_lines_item_instead_item.additional_properties = d
        return kept_delivery_lines_item_instead_item

    @property
    def additional_keys(self) -> list[str]:
        return list(self.additional_properties.keys())

    def __getitem__(self, key: str) -> Any:
        return self.additional_properties[key]

    def __setitem__(self, key: str, value: Any) -> None:
        self.additional_properties[key] = value

    def __delitem__(self, key: str) -> None:
        del self.additional_properties[key]

    def __contains__(self, key: str) -> bool:
        return key in self.additional_properties
