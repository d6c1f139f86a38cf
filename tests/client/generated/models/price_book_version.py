from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.price_book import PriceBook





T = TypeVar("T", bound="PriceBookVersion")



@_attrs_define
class PriceBookVersion:
    """ 
        Attributes:
            id (str):
            name (str):
            version (int):
            valid_from (str):
            created (datetime.datetime):
            prices (PriceBook | Unset):
     """

    id: str
    name: str
    version: int
    valid_from: str
    created: datetime.datetime
    prices: PriceBook | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.price_book import PriceBook
        id = self.id

        name = self.name

        version = self.version

        valid_from = self.valid_from

        created = self.created.isoformat()

        prices: dict[str, Any] | Unset = UNSET
        if not isinstance(self.prices, Unset):
            prices = self.prices.to_dict()


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "name": name,
            "version": version,
            "valid_from": valid_from,
            "created": created,
        })
        if prices is not UNSET:
            field_dict["prices"] = prices

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.price_book import PriceBook
        d = dict(src_dict)
        id = d.pop("id")

        name = d.pop("name")

        version = d.pop("version")

        valid_from = d.pop("valid_from")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        _prices = d.pop("prices", UNSET)
        prices: PriceBook | Unset
        if isinstance(_prices,  Unset):
            prices = UNSET
        else:
            prices = PriceBook.from_dict(_prices)




        price_book_version = cls(
            id=id,
            name=name,
            version=version,
            valid_from=valid_from,
            created=created,
            prices=prices,
        )


        price_book_version.additional_properties = d
        return price_book_version

    @property
    def additional_keys(self) -> list[str]:
        return list(self.additional_properties.keys())

    def __getitem__(self, key: str) -> Any:
        return self.additional_properties[key]

    def __setitem__(self, key: str, value: Any) -> None:
        self.additional_properties[key] = value

    def __delitem__(self, key: str) -> None:
        del self.additional_properties[key]

    def __contains__(self, key: str) -> bool:
        return key in self.additional_properties
