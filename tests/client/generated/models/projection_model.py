from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="ProjectionModel")



@_attrs_define
class ProjectionModel:
    """ 
        Attributes:
            x_mm (float):
            width_mm (float):
            depth_mm (float):
     """

    x_mm: float
    width_mm: float
    depth_mm: float





    def to_dict(self) -> dict[str, Any]:
        x_mm = self.x_mm

        width_mm = self.width_mm

        depth_mm = self.depth_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "x_mm": x_mm,
            "width_mm": width_mm,
            "depth_mm": depth_mm,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        x_mm = d.pop("x_mm")

        width_mm = d.pop("width_mm")

        depth_mm = d.pop("depth_mm")

        projection_model = cls(
            x_mm=x_mm,
            width_mm=width_mm,
            depth_mm=depth_mm,
        )

        return projection_model

