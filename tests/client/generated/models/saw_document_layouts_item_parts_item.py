from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="SawDocumentLayoutsItemPartsItem")



@_attrs_define
class SawDocumentLayoutsItemPartsItem:
    """ 
        Attributes:
            part (str):
            job (str):
            name (str):
            x (float):
            y (float):
            width (float):
            height (float):
            turned (bool | Unset):
     """

    part: str
    job: str
    name: str
    x: float
    y: float
    width: float
    height: float
    turned: bool | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        part = self.part

        job = self.job

        name = self.name

        x = self.x

        y = self.y

        width = self.width

        height = self.height

        turned = self.turned


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "part": part,
            "job": job,
            "name": name,
            "x": x,
            "y": y,
            "width": width,
            "height": height,
        })
        if turned is not UNSET:
            field_dict["turned"] = turned

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        part = d.pop("part")

        job = d.pop("job")

        name = d.pop("name")

        x = d.pop("x")

        y = d.pop("y")

        width = d.pop("width")

        height = d.pop("height")

        turned = d.pop("turned", UNSET)

        saw_document_layouts_item_parts_item = cls(
            part=part,
            job=job,
            name=name,
            x=x,
            y=y,
            width=width,
            height=height,
            turned=turned,
        )


        saw_document_layouts_item_parts_item.additional_properties = d
        return saw_document_layouts_item_parts_item

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
