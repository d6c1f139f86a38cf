from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="LengthCutDocument")



@_attrs_define
class LengthCutDocument:
    """ 
        Attributes:
            n (int):
            at_mm (float):
     """

    n: int
    at_mm: float





    def to_dict(self) -> dict[str, Any]:
        n = self.n

        at_mm = self.at_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "n": n,
            "at_mm": at_mm,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        n = d.pop("n")

        at_mm = d.pop("at_mm")

        length_cut_document = cls(
            n=n,
            at_mm=at_mm,
        )

        return length_cut_document

