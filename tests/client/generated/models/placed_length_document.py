from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="PlacedLengthDocument")



@_attrs_define
class PlacedLengthDocument:
    """ 
        Attributes:
            part (str):
            job (str):
            start_mm (float):
            length_mm (float):
     """

    part: str
    job: str
    start_mm: float
    length_mm: float





    def to_dict(self) -> dict[str, Any]:
        part = self.part

        job = self.job

        start_mm = self.start_mm

        length_mm = self.length_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "part": part,
            "job": job,
            "start_mm": start_mm,
            "length_mm": length_mm,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        part = d.pop("part")

        job = d.pop("job")

        start_mm = d.pop("start_mm")

        length_mm = d.pop("length_mm")

        placed_length_document = cls(
            part=part,
            job=job,
            start_mm=start_mm,
            length_mm=length_mm,
        )

        return placed_length_document

