from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="SocketModel")



@_attrs_define
class SocketModel:
    """ 
        Attributes:
            x_mm (float):
            z_mm (float):
            width_mm (float):
            height_mm (float):
     """

    x_mm: float
    z_mm: float
    width_mm: float
    height_mm: float





    def to_dict(self) -> dict[str, Any]:
        x_mm = self.x_mm

        z_mm = self.z_mm

        width_mm = self.width_mm

        height_mm = self.height_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "x_mm": x_mm,
            "z_mm": z_mm,
            "width_mm": width_mm,
            "height_mm": height_mm,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        x_mm = d.pop("x_mm")

        z_mm = d.pop("z_mm")

        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        socket_model = cls(
            x_mm=x_mm,
            z_mm=z_mm,
            width_mm=width_mm,
            height_mm=height_mm,
        )

        return socket_model

