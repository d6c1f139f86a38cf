from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.price_book import PriceBook
  from ..models.wall import Wall





T = TypeVar("T", bound="Frame")



@_attrs_define
class Frame:
    """ 
        Attributes:
            wall (Wall):
            prices (PriceBook | Unset):
            price_book (str | Unset):
     """

    wall: Wall
    prices: PriceBook | Unset = UNSET
    price_book: str | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.price_book import PriceBook
        from ..models.wall import Wall
        wall = self.wall.to_dict()

        prices: dict[str, Any] | Unset = UNSET
        if not isinstance(self.prices, Unset):
            prices = self.prices.to_dict()

        price_book = self.price_book


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "wall": wall,
        })
        if prices is not UNSET:
            field_dict["prices"] = prices
        if price_book is not UNSET:
            field_dict["price_book"] = price_book

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.price_book import PriceBook
        from ..models.wall import Wall
        d = dict(src_dict)
        wall = Wall.from_dict(d.pop("wall"))




        _prices = d.pop("prices", UNSET)
        prices: PriceBook | Unset
        if isinstance(_prices,  Unset):
            prices = UNSET
        else:
            prices = PriceBook.from_dict(_prices)




        price_book = d.pop("price_book", UNSET)

        frame = cls(
            wall=wall,
            prices=prices,
            price_book=price_book,
        )

        return frame

