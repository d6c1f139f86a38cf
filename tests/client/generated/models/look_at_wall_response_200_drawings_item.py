from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.look_at_wall_response_200_drawings_item_places_item import LookAtWallResponse200DrawingsItemPlacesItem





T = TypeVar("T", bound="LookAtWallResponse200DrawingsItem")



@_attrs_define
class LookAtWallResponse200DrawingsItem:
    """ 
        Attributes:
            name (str):
            title (str):
            svg (str):
            places (list[LookAtWallResponse200DrawingsItemPlacesItem]):
     """

    name: str
    title: str
    svg: str
    places: list[LookAtWallResponse200DrawingsItemPlacesItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.look_at_wall_response_200_drawings_item_places_item import LookAtWallResponse200DrawingsItemPlacesItem
        name = self.name

        title = self.title

        svg = self.svg

        places = []
        for places_item_data in self.places:
            places_item = places_item_data.to_dict()
            places.append(places_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "name": name,
            "title": title,
            "svg": svg,
            "places": places,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.look_at_wall_response_200_drawings_item_places_item import LookAtWallResponse200DrawingsItemPlacesItem
        d = dict(src_dict)
        name = d.pop("name")

        title = d.pop("title")

        svg = d.pop("svg")

        places = []
        _places = d.pop("places")
        for places_item_data in (_places):
            places_item = LookAtWallResponse200DrawingsItemPlacesItem.from_dict(places_item_data)



            places.append(places_item)


        look_at_wall_response_200_drawings_item = cls(
            name=name,
            title=title,
            svg=svg,
            places=places,
        )


        look_at_wall_response_200_drawings_item.additional_properties = d
        return look_at_wall_response_200_drawings_item

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
