from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="LongItemModel")



@_attrs_define
class LongItemModel:
    """ 
        Attributes:
            over_mm (float):
            charge (str):
     """

    over_mm: float
    charge: str





    def to_dict(self) -> dict[str, Any]:
        over_mm = self.over_mm

        charge = self.charge


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "over_mm": over_mm,
            "charge": charge,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        over_mm = d.pop("over_mm")

        charge = d.pop("charge")

        long_item_model = cls(
            over_mm=over_mm,
            charge=charge,
        )

        return long_item_model

