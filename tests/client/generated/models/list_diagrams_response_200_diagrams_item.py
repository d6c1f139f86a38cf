from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="ListDiagramsResponse200DiagramsItem")



@_attrs_define
class ListDiagramsResponse200DiagramsItem:
    """ 
        Attributes:
            name (str):
            title (str):
            material (None | str):
            href (str):
     """

    name: str
    title: str
    material: None | str
    href: str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        name = self.name

        title = self.title

        material: None | str
        material = self.material

        href = self.href


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "name": name,
            "title": title,
            "material": material,
            "href": href,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        name = d.pop("name")

        title = d.pop("title")

        def _parse_material(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        material = _parse_material(d.pop("material"))


        href = d.pop("href")

        list_diagrams_response_200_diagrams_item = cls(
            name=name,
            title=title,
            material=material,
            href=href,
        )


        list_diagrams_response_200_diagrams_item.additional_properties = d
        return list_diagrams_response_200_diagrams_item

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
