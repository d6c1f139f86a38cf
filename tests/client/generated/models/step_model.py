from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="StepModel")



@_attrs_define
class StepModel:
    """ 
        Attributes:
            name (str):
            x_mm (float):
            width_mm (float):
            depth_mm (float):
            z_mm (float | None | Unset):
            height_mm (float | None | Unset):
     """

    name: str
    x_mm: float
    width_mm: float
    depth_mm: float
    z_mm: float | None | Unset = UNSET
    height_mm: float | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        name = self.name

        x_mm = self.x_mm

        width_mm = self.width_mm

        depth_mm = self.depth_mm

        z_mm: float | None | Unset
        if isinstance(self.z_mm, Unset):
            z_mm = UNSET
        else:
            z_mm = self.z_mm

        height_mm: float | None | Unset
        if isinstance(self.height_mm, Unset):
            height_mm = UNSET
        else:
            height_mm = self.height_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "name": name,
            "x_mm": x_mm,
            "width_mm": width_mm,
            "depth_mm": depth_mm,
        })
        if z_mm is not UNSET:
            field_dict["z_mm"] = z_mm
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        name = d.pop("name")

        x_mm = d.pop("x_mm")

        width_mm = d.pop("width_mm")

        depth_mm = d.pop("depth_mm")

        def _parse_z_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        z_mm = _parse_z_mm(d.pop("z_mm", UNSET))


        def _parse_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_mm = _parse_height_mm(d.pop("height_mm", UNSET))


        step_model = cls(
            name=name,
            x_mm=x_mm,
            width_mm=width_mm,
            depth_mm=depth_mm,
            z_mm=z_mm,
            height_mm=height_mm,
        )

        return step_model

