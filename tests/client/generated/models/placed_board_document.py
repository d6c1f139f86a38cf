from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="PlacedBoardDocument")



@_attrs_define
class PlacedBoardDocument:
    """ 
        Attributes:
            part (str):
            job (str):
            piece (str):
            x_mm (float):
            y_mm (float):
            width_mm (float):
            height_mm (float):
            turned (bool):
     """

    part: str
    job: str
    piece: str
    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    turned: bool





    def to_dict(self) -> dict[str, Any]:
        part = self.part

        job = self.job

        piece = self.piece

        x_mm = self.x_mm

        y_mm = self.y_mm

        width_mm = self.width_mm

        height_mm = self.height_mm

        turned = self.turned


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "part": part,
            "job": job,
            "piece": piece,
            "x_mm": x_mm,
            "y_mm": y_mm,
            "width_mm": width_mm,
            "height_mm": height_mm,
            "turned": turned,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        part = d.pop("part")

        job = d.pop("job")

        piece = d.pop("piece")

        x_mm = d.pop("x_mm")

        y_mm = d.pop("y_mm")

        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        turned = d.pop("turned")

        placed_board_document = cls(
            part=part,
            job=job,
            piece=piece,
            x_mm=x_mm,
            y_mm=y_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            turned=turned,
        )

        return placed_board_document

