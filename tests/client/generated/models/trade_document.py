from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="TradeDocument")



@_attrs_define
class TradeDocument:
    """ 
        Attributes:
            layouts (int):
            extra (str):
     """

    layouts: int
    extra: str





    def to_dict(self) -> dict[str, Any]:
        layouts = self.layouts

        extra = self.extra


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "layouts": layouts,
            "extra": extra,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        layouts = d.pop("layouts")

        extra = d.pop("extra")

        trade_document = cls(
            layouts=layouts,
            extra=extra,
        )

        return trade_document

