from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="PriceBreakModel")



@_attrs_define
class PriceBreakModel:
    """ 
        Attributes:
            quantity (int):
            price (str):
     """

    quantity: int
    price: str





    def to_dict(self) -> dict[str, Any]:
        quantity = self.quantity

        price = self.price


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "quantity": quantity,
            "price": price,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        quantity = d.pop("quantity")

        price = d.pop("price")

        price_break_model = cls(
            quantity=quantity,
            price=price,
        )

        return price_break_model

