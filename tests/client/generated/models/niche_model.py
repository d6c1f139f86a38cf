from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="NicheModel")



@_attrs_define
class NicheModel:
    """ 
        Attributes:
            name (str):
            x_mm (float):
            z_mm (float):
            width_mm (float):
            height_mm (float):
            depth_mm (float):
            shelves (int | Unset):  Default: 0.
            lit (bool | Unset):  Default: False.
     """

    name: str
    x_mm: float
    z_mm: float
    width_mm: float
    height_mm: float
    depth_mm: float
    shelves: int | Unset = 0
    lit: bool | Unset = False





    def to_dict(self) -> dict[str, Any]:
        name = self.name

        x_mm = self.x_mm

        z_mm = self.z_mm

        width_mm = self.width_mm

        height_mm = self.height_mm

        depth_mm = self.depth_mm

        shelves = self.shelves

        lit = self.lit


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "name": name,
            "x_mm": x_mm,
            "z_mm": z_mm,
            "width_mm": width_mm,
            "height_mm": height_mm,
            "depth_mm": depth_mm,
        })
        if shelves is not UNSET:
            field_dict["shelves"] = shelves
        if lit is not UNSET:
            field_dict["lit"] = lit

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        name = d.pop("name")

        x_mm = d.pop("x_mm")

        z_mm = d.pop("z_mm")

        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        depth_mm = d.pop("depth_mm")

        shelves = d.pop("shelves", UNSET)

        lit = d.pop("lit", UNSET)

        niche_model = cls(
            name=name,
            x_mm=x_mm,
            z_mm=z_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            depth_mm=depth_mm,
            shelves=shelves,
            lit=lit,
        )

        return niche_model

