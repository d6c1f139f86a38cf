from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="Instead")



@_attrs_define
class Instead:
    """ 
        Attributes:
            material (str):
            quantity (int):
            length_mm (float | None | Unset):
            width_mm (float | None | Unset):
            height_mm (float | None | Unset):
            note (str | Unset):  Default: ''.
     """

    material: str
    quantity: int
    length_mm: float | None | Unset = UNSET
    width_mm: float | None | Unset = UNSET
    height_mm: float | None | Unset = UNSET
    note: str | Unset = ''





    def to_dict(self) -> dict[str, Any]:
        material = self.material

        quantity = self.quantity

        length_mm: float | None | Unset
        if isinstance(self.length_mm, Unset):
            length_mm = UNSET
        else:
            length_mm = self.length_mm

        width_mm: float | None | Unset
        if isinstance(self.width_mm, Unset):
            width_mm = UNSET
        else:
            width_mm = self.width_mm

        height_mm: float | None | Unset
        if isinstance(self.height_mm, Unset):
            height_mm = UNSET
        else:
            height_mm = self.height_mm

        note = self.note


        field_dict: dict[str, Any] = {}

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

        def _parse_length_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        length_mm = _parse_length_mm(d.pop("length_mm", UNSET))


        def _parse_width_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        width_mm = _parse_width_mm(d.pop("width_mm", UNSET))


        def _parse_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_mm = _parse_height_mm(d.pop("height_mm", UNSET))


        note = d.pop("note", UNSET)

        instead = cls(
            material=material,
            quantity=quantity,
            length_mm=length_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            note=note,
        )

        return instead

