from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="PreviewPartListResponse200PartsItem")



@_attrs_define
class PreviewPartListResponse200PartsItem:
    """ 
        Attributes:
            row (int):
            id (str):
            job (str):
            name (str):
            material (str):
            quantity (int):
            length_mm (str | Unset):
            width_mm (str | Unset):
            height_mm (str | Unset):
            turn (bool | Unset):
            cut_outs (int | Unset):
     """

    row: int
    id: str
    job: str
    name: str
    material: str
    quantity: int
    length_mm: str | Unset = UNSET
    width_mm: str | Unset = UNSET
    height_mm: str | Unset = UNSET
    turn: bool | Unset = UNSET
    cut_outs: int | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        row = self.row

        id = self.id

        job = self.job

        name = self.name

        material = self.material

        quantity = self.quantity

        length_mm = self.length_mm

        width_mm = self.width_mm

        height_mm = self.height_mm

        turn = self.turn

        cut_outs = self.cut_outs


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "row": row,
            "id": id,
            "job": job,
            "name": name,
            "material": material,
            "quantity": quantity,
        })
        if length_mm is not UNSET:
            field_dict["length_mm"] = length_mm
        if width_mm is not UNSET:
            field_dict["width_mm"] = width_mm
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm
        if turn is not UNSET:
            field_dict["turn"] = turn
        if cut_outs is not UNSET:
            field_dict["cut_outs"] = cut_outs

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        row = d.pop("row")

        id = d.pop("id")

        job = d.pop("job")

        name = d.pop("name")

        material = d.pop("material")

        quantity = d.pop("quantity")

        length_mm = d.pop("length_mm", UNSET)

        width_mm = d.pop("width_mm", UNSET)

        height_mm = d.pop("height_mm", UNSET)

        turn = d.pop("turn", UNSET)

        cut_outs = d.pop("cut_outs", UNSET)

        preview_part_list_response_200_parts_item = cls(
            row=row,
            id=id,
            job=job,
            name=name,
            material=material,
            quantity=quantity,
            length_mm=length_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            turn=turn,
            cut_outs=cut_outs,
        )


        preview_part_list_response_200_parts_item.additional_properties = d
        return preview_part_list_response_200_parts_item

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
