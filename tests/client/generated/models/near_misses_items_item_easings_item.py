from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.near_misses_items_item_easings_item_dimension import NearMissesItemsItemEasingsItemDimension
from typing import cast






T = TypeVar("T", bound="NearMissesItemsItemEasingsItem")



@_attrs_define
class NearMissesItemsItemEasingsItem:
    """ 
        Attributes:
            part (str):
            job (str):
            name (str):
            dimension (NearMissesItemsItemEasingsItemDimension):
            asked_mm (str):
            eased_mm (str):
            fields (list[str]):
     """

    part: str
    job: str
    name: str
    dimension: NearMissesItemsItemEasingsItemDimension
    asked_mm: str
    eased_mm: str
    fields: list[str]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        part = self.part

        job = self.job

        name = self.name

        dimension = self.dimension.value

        asked_mm = self.asked_mm

        eased_mm = self.eased_mm

        fields = self.fields




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "part": part,
            "job": job,
            "name": name,
            "dimension": dimension,
            "asked_mm": asked_mm,
            "eased_mm": eased_mm,
            "fields": fields,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        part = d.pop("part")

        job = d.pop("job")

        name = d.pop("name")

        dimension = NearMissesItemsItemEasingsItemDimension(d.pop("dimension"))




        asked_mm = d.pop("asked_mm")

        eased_mm = d.pop("eased_mm")

        fields = cast(list[str], d.pop("fields"))


        near_misses_items_item_easings_item = cls(
            part=part,
            job=job,
            name=name,
            dimension=dimension,
            asked_mm=asked_mm,
            eased_mm=eased_mm,
            fields=fields,
        )


        near_misses_items_item_easings_item.additional_properties = d
        return near_misses_items_item_easings_item

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
