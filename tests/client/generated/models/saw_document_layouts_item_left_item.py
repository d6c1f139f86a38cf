from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="SawDocumentLayoutsItemLeftItem")



@_attrs_define
class SawDocumentLayoutsItemLeftItem:
    """ 
        Attributes:
            keep (bool):
            x (float):
            y (float):
            width (float):
            height (float):
     """

    keep: bool
    x: float
    y: float
    width: float
    height: float
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        keep = self.keep

        x = self.x

        y = self.y

        width = self.width

        height = self.height


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "keep": keep,
            "x": x,
            "y": y,
            "width": width,
            "height": height,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        keep = d.pop("keep")

        x = d.pop("x")

        y = d.pop("y")

        width = d.pop("width")

        height = d.pop("height")

        saw_document_layouts_item_left_item = cls(
            keep=keep,
            x=x,
            y=y,
            width=width,
            height=height,
        )


        saw_document_layouts_item_left_item.additional_properties = d
        return saw_document_layouts_item_left_item

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
