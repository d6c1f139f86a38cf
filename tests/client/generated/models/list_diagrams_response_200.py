from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.list_diagrams_response_200_diagrams_item import ListDiagramsResponse200DiagramsItem





T = TypeVar("T", bound="ListDiagramsResponse200")



@_attrs_define
class ListDiagramsResponse200:
    """ 
        Attributes:
            diagrams (list[ListDiagramsResponse200DiagramsItem]):
     """

    diagrams: list[ListDiagramsResponse200DiagramsItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.list_diagrams_response_200_diagrams_item import ListDiagramsResponse200DiagramsItem
        diagrams = []
        for diagrams_item_data in self.diagrams:
            diagrams_item = diagrams_item_data.to_dict()
            diagrams.append(diagrams_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "diagrams": diagrams,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.list_diagrams_response_200_diagrams_item import ListDiagramsResponse200DiagramsItem
        d = dict(src_dict)
        diagrams = []
        _diagrams = d.pop("diagrams")
        for diagrams_item_data in (_diagrams):
            diagrams_item = ListDiagramsResponse200DiagramsItem.from_dict(diagrams_item_data)



            diagrams.append(diagrams_item)


        list_diagrams_response_200 = cls(
            diagrams=diagrams,
        )


        list_diagrams_response_200.additional_properties = d
        return list_diagrams_response_200

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
