from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="SoundbarModel")



@_attrs_define
class SoundbarModel:
    """ 
        Attributes:
            width_mm (float):
            height_mm (float):
            depth_mm (float):
            gap_mm (float | None | Unset):
            x_mm (float | None | Unset):
            z_mm (float | None | Unset):
     """

    width_mm: float
    height_mm: float
    depth_mm: float
    gap_mm: float | None | Unset = UNSET
    x_mm: float | None | Unset = UNSET
    z_mm: float | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        width_mm = self.width_mm

        height_mm = self.height_mm

        depth_mm = self.depth_mm

        gap_mm: float | None | Unset
        if isinstance(self.gap_mm, Unset):
            gap_mm = UNSET
        else:
            gap_mm = self.gap_mm

        x_mm: float | None | Unset
        if isinstance(self.x_mm, Unset):
            x_mm = UNSET
        else:
            x_mm = self.x_mm

        z_mm: float | None | Unset
        if isinstance(self.z_mm, Unset):
            z_mm = UNSET
        else:
            z_mm = self.z_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "width_mm": width_mm,
            "height_mm": height_mm,
            "depth_mm": depth_mm,
        })
        if gap_mm is not UNSET:
            field_dict["gap_mm"] = gap_mm
        if x_mm is not UNSET:
            field_dict["x_mm"] = x_mm
        if z_mm is not UNSET:
            field_dict["z_mm"] = z_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        depth_mm = d.pop("depth_mm")

        def _parse_gap_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        gap_mm = _parse_gap_mm(d.pop("gap_mm", UNSET))


        def _parse_x_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        x_mm = _parse_x_mm(d.pop("x_mm", UNSET))


        def _parse_z_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        z_mm = _parse_z_mm(d.pop("z_mm", UNSET))


        soundbar_model = cls(
            width_mm=width_mm,
            height_mm=height_mm,
            depth_mm=depth_mm,
            gap_mm=gap_mm,
            x_mm=x_mm,
            z_mm=z_mm,
        )

        return soundbar_model

