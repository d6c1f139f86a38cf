from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.order_lines_item import OrderLinesItem





T = TypeVar("T", bound="Order")



@_attrs_define
class Order:
    """ 
        Attributes:
            merchant (str):
            currency (str):
            lines (list[OrderLinesItem]):
            net (str):
            vat_percent (float):
            vat (str):
            total (str):
     """

    merchant: str
    currency: str
    lines: list[OrderLinesItem]
    net: str
    vat_percent: float
    vat: str
    total: str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.order_lines_item import OrderLinesItem
        merchant = self.merchant

        currency = self.currency

        lines = []
        for lines_item_data in self.lines:
            lines_item = lines_item_data.to_dict()
            lines.append(lines_item)



        net = self.net

        vat_percent = self.vat_percent

        vat = self.vat

        total = self.total


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "merchant": merchant,
            "currency": currency,
            "lines": lines,
            "net": net,
            "vat_percent": vat_percent,
            "vat": vat,
            "total": total,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.order_lines_item import OrderLinesItem
        d = dict(src_dict)
        merchant = d.pop("merchant")

        currency = d.pop("currency")

        lines = []
        _lines = d.pop("lines")
        for lines_item_data in (_lines):
            lines_item = OrderLinesItem.from_dict(lines_item_data)



            lines.append(lines_item)


        net = d.pop("net")

        vat_percent = d.pop("vat_percent")

        vat = d.pop("vat")

        total = d.pop("total")

        order = cls(
            merchant=merchant,
            currency=currency,
            lines=lines,
            net=net,
            vat_percent=vat_percent,
            vat=vat,
            total=total,
        )


        order.additional_properties = d
        return order

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
