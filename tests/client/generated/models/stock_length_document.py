from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="StockLengthDocument")



@_attrs_define
class StockLengthDocument:
    """ 
        Attributes:
            id (str):
            length_mm (float):
            price (str):
            available (int | None | Unset):
     """

    id: str
    length_mm: float
    price: str
    available: int | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        length_mm = self.length_mm

        price = self.price

        available: int | None | Unset
        if isinstance(self.available, Unset):
            available = UNSET
        else:
            available = self.available


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "length_mm": length_mm,
            "price": price,
        })
        if available is not UNSET:
            field_dict["available"] = available

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        length_mm = d.pop("length_mm")

        price = d.pop("price")

        def _parse_available(data: object) -> int | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(int | None | Unset, data)

        available = _parse_available(d.pop("available", UNSET))


        stock_length_document = cls(
            id=id,
            length_mm=length_mm,
            price=price,
            available=available,
        )

        return stock_length_document

