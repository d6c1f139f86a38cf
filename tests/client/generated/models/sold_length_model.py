from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.price_break_model import PriceBreakModel





T = TypeVar("T", bound="SoldLengthModel")



@_attrs_define
class SoldLengthModel:
    """ 
        Attributes:
            id (str):
            length_mm (float):
            price (str):
            available (int | None | Unset):
            breaks (list[PriceBreakModel] | Unset):
     """

    id: str
    length_mm: float
    price: str
    available: int | None | Unset = UNSET
    breaks: list[PriceBreakModel] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.price_break_model import PriceBreakModel
        id = self.id

        length_mm = self.length_mm

        price = self.price

        available: int | None | Unset
        if isinstance(self.available, Unset):
            available = UNSET
        else:
            available = self.available

        breaks: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.breaks, Unset):
            breaks = []
            for breaks_item_data in self.breaks:
                breaks_item = breaks_item_data.to_dict()
                breaks.append(breaks_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "length_mm": length_mm,
            "price": price,
        })
        if available is not UNSET:
            field_dict["available"] = available
        if breaks is not UNSET:
            field_dict["breaks"] = breaks

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.price_break_model import PriceBreakModel
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


        _breaks = d.pop("breaks", UNSET)
        breaks: list[PriceBreakModel] | Unset = UNSET
        if _breaks is not UNSET:
            breaks = []
            for breaks_item_data in _breaks:
                breaks_item = PriceBreakModel.from_dict(breaks_item_data)



                breaks.append(breaks_item)


        sold_length_model = cls(
            id=id,
            length_mm=length_mm,
            price=price,
            available=available,
            breaks=breaks,
        )

        return sold_length_model

