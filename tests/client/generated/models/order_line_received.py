from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="OrderLineReceived")



@_attrs_define
class OrderLineReceived:
    """ 
        Attributes:
            line (int):
            item (str):
            description (str):
            charge (bool):
            ordered (int):
            good (int):
            damaged (int):
            short (int):
            instead (int):
            to_come (int):
     """

    line: int
    item: str
    description: str
    charge: bool
    ordered: int
    good: int
    damaged: int
    short: int
    instead: int
    to_come: int
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        line = self.line

        item = self.item

        description = self.description

        charge = self.charge

        ordered = self.ordered

        good = self.good

        damaged = self.damaged

        short = self.short

        instead = self.instead

        to_come = self.to_come


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "line": line,
            "item": item,
            "description": description,
            "charge": charge,
            "ordered": ordered,
            "good": good,
            "damaged": damaged,
            "short": short,
            "instead": instead,
            "to_come": to_come,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        line = d.pop("line")

        item = d.pop("item")

        description = d.pop("description")

        charge = d.pop("charge")

        ordered = d.pop("ordered")

        good = d.pop("good")

        damaged = d.pop("damaged")

        short = d.pop("short")

        instead = d.pop("instead")

        to_come = d.pop("to_come")

        order_line_received = cls(
            line=line,
            item=item,
            description=description,
            charge=charge,
            ordered=ordered,
            good=good,
            damaged=damaged,
            short=short,
            instead=instead,
            to_come=to_come,
        )


        order_line_received.additional_properties = d
        return order_line_received

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
