from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="SurveyPointModel")



@_attrs_define
class SurveyPointModel:
    """ 
        Attributes:
            x_mm (float):
            height_mm (float):
            floor_mm (float | Unset):  Default: 0.0.
     """

    x_mm: float
    height_mm: float
    floor_mm: float | Unset = 0.0





    def to_dict(self) -> dict[str, Any]:
        x_mm = self.x_mm

        height_mm = self.height_mm

        floor_mm = self.floor_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "x_mm": x_mm,
            "height_mm": height_mm,
        })
        if floor_mm is not UNSET:
            field_dict["floor_mm"] = floor_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        x_mm = d.pop("x_mm")

        height_mm = d.pop("height_mm")

        floor_mm = d.pop("floor_mm", UNSET)

        survey_point_model = cls(
            x_mm=x_mm,
            height_mm=height_mm,
            floor_mm=floor_mm,
        )

        return survey_point_model

