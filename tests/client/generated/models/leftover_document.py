from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="LeftoverDocument")



@_attrs_define
class LeftoverDocument:
    """ 
        Attributes:
            piece (str):
            x_mm (float):
            y_mm (float):
            width_mm (float):
            height_mm (float):
     """

    piece: str
    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float





    def to_dict(self) -> dict[str, Any]:
        piece = self.piece

        x_mm = self.x_mm

        y_mm = self.y_mm

        width_mm = self.width_mm

        height_mm = self.height_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "piece": piece,
            "x_mm": x_mm,
            "y_mm": y_mm,
            "width_mm": width_mm,
            "height_mm": height_mm,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        piece = d.pop("piece")

        x_mm = d.pop("x_mm")

        y_mm = d.pop("y_mm")

        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        leftover_document = cls(
            piece=piece,
            x_mm=x_mm,
            y_mm=y_mm,
            width_mm=width_mm,
            height_mm=height_mm,
        )

        return leftover_document

