from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="MarksContradictionsItem")



@_attrs_define
class MarksContradictionsItem:
    """ 
        Attributes:
            material (str):
            layout (int):
            piece (int):
            trouble (str):
            remedy (str):
            ticks (list[str]):
     """

    material: str
    layout: int
    piece: int
    trouble: str
    remedy: str
    ticks: list[str]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        material = self.material

        layout = self.layout

        piece = self.piece

        trouble = self.trouble

        remedy = self.remedy

        ticks = self.ticks




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "material": material,
            "layout": layout,
            "piece": piece,
            "trouble": trouble,
            "remedy": remedy,
            "ticks": ticks,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        material = d.pop("material")

        layout = d.pop("layout")

        piece = d.pop("piece")

        trouble = d.pop("trouble")

        remedy = d.pop("remedy")

        ticks = cast(list[str], d.pop("ticks"))


        marks_contradictions_item = cls(
            material=material,
            layout=layout,
            piece=piece,
            trouble=trouble,
            remedy=remedy,
            ticks=ticks,
        )


        marks_contradictions_item.additional_properties = d
        return marks_contradictions_item

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
