from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="SparesExposuresItem")



@_attrs_define
class SparesExposuresItem:
    """ 
        Attributes:
            material (str):
            stock (str):
            pieces (int):
            large_parts (int):
            small_parts (int):
            from_offcuts (int):
            parts_of_a_spare (int):
            piece_rate (float):
            part_rate (float):
     """

    material: str
    stock: str
    pieces: int
    large_parts: int
    small_parts: int
    from_offcuts: int
    parts_of_a_spare: int
    piece_rate: float
    part_rate: float
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        material = self.material

        stock = self.stock

        pieces = self.pieces

        large_parts = self.large_parts

        small_parts = self.small_parts

        from_offcuts = self.from_offcuts

        parts_of_a_spare = self.parts_of_a_spare

        piece_rate = self.piece_rate

        part_rate = self.part_rate


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "material": material,
            "stock": stock,
            "pieces": pieces,
            "large_parts": large_parts,
            "small_parts": small_parts,
            "from_offcuts": from_offcuts,
            "parts_of_a_spare": parts_of_a_spare,
            "piece_rate": piece_rate,
            "part_rate": part_rate,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        material = d.pop("material")

        stock = d.pop("stock")

        pieces = d.pop("pieces")

        large_parts = d.pop("large_parts")

        small_parts = d.pop("small_parts")

        from_offcuts = d.pop("from_offcuts")

        parts_of_a_spare = d.pop("parts_of_a_spare")

        piece_rate = d.pop("piece_rate")

        part_rate = d.pop("part_rate")

        spares_exposures_item = cls(
            material=material,
            stock=stock,
            pieces=pieces,
            large_parts=large_parts,
            small_parts=small_parts,
            from_offcuts=from_offcuts,
            parts_of_a_spare=parts_of_a_spare,
            piece_rate=piece_rate,
            part_rate=part_rate,
        )


        spares_exposures_item.additional_properties = d
        return spares_exposures_item

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
