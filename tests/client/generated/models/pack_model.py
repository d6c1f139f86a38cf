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





T = TypeVar("T", bound="PackModel")



@_attrs_define
class PackModel:
    """ 
        Attributes:
            id (str):
            description (str):
            size (int):
            price (str):
            breaks (list[PriceBreakModel] | Unset):
     """

    id: str
    description: str
    size: int
    price: str
    breaks: list[PriceBreakModel] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.price_break_model import PriceBreakModel
        id = self.id

        description = self.description

        size = self.size

        price = self.price

        breaks: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.breaks, Unset):
            breaks = []
            for breaks_item_data in self.breaks:
                breaks_item = breaks_item_data.to_dict()
                breaks.append(breaks_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "description": description,
            "size": size,
            "price": price,
        })
        if breaks is not UNSET:
            field_dict["breaks"] = breaks

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.price_break_model import PriceBreakModel
        d = dict(src_dict)
        id = d.pop("id")

        description = d.pop("description")

        size = d.pop("size")

        price = d.pop("price")

        _breaks = d.pop("breaks", UNSET)
        breaks: list[PriceBreakModel] | Unset = UNSET
        if _breaks is not UNSET:
            breaks = []
            for breaks_item_data in _breaks:
                breaks_item = PriceBreakModel.from_dict(breaks_item_data)



                breaks.append(breaks_item)


        pack_model = cls(
            id=id,
            description=description,
            size=size,
            price=price,
            breaks=breaks,
        )

        return pack_model

