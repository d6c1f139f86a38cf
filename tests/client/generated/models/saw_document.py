from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.saw_document_layouts_item import SawDocumentLayoutsItem





T = TypeVar("T", bound="SawDocument")



@_attrs_define
class SawDocument:
    """ 
        Attributes:
            id (str):
            layouts (list[SawDocumentLayoutsItem]):
     """

    id: str
    layouts: list[SawDocumentLayoutsItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.saw_document_layouts_item import SawDocumentLayoutsItem
        id = self.id

        layouts = []
        for layouts_item_data in self.layouts:
            layouts_item = layouts_item_data.to_dict()
            layouts.append(layouts_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "layouts": layouts,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.saw_document_layouts_item import SawDocumentLayoutsItem
        d = dict(src_dict)
        id = d.pop("id")

        layouts = []
        _layouts = d.pop("layouts")
        for layouts_item_data in (_layouts):
            layouts_item = SawDocumentLayoutsItem.from_dict(layouts_item_data)



            layouts.append(layouts_item)


        saw_document = cls(
            id=id,
            layouts=layouts,
        )


        saw_document.additional_properties = d
        return saw_document

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
