from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.kept_delivery_touches_item_kind import KeptDeliveryTouchesItemKind
from typing import cast






T = TypeVar("T", bound="KeptDeliveryTouchesItem")



@_attrs_define
class KeptDeliveryTouchesItem:
    """ 
        Attributes:
            material (str):
            layout (int):
            stock (str):
            pieces (int):
            kind (KeptDeliveryTouchesItemKind):
            jobs (list[str]):
            parts (list[str]):
     """

    material: str
    layout: int
    stock: str
    pieces: int
    kind: KeptDeliveryTouchesItemKind
    jobs: list[str]
    parts: list[str]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        material = self.material

        layout = self.layout

        stock = self.stock

        pieces = self.pieces

        kind = self.kind.value

        jobs = self.jobs



        parts = self.parts




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "material": material,
            "layout": layout,
            "stock": stock,
            "pieces": pieces,
            "kind": kind,
            "jobs": jobs,
            "parts": parts,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        material = d.pop("material")

        layout = d.pop("layout")

        stock = d.pop("stock")

        pieces = d.pop("pieces")

        kind = KeptDeliveryTouchesItemKind(d.pop("kind"))




        jobs = cast(list[str], d.pop("jobs"))


        parts = cast(list[str], d.pop("parts"))


        kept_delivery_touches_item = cls(
            material=material,
            layout=layout,
            stock=stock,
            pieces=pieces,
            kind=kind,
            jobs=jobs,
            parts=parts,
        )


        kept_delivery_touches_item.additional_properties = d
        return kept_delivery_touches_item

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
