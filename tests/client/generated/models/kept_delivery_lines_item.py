from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.kept_delivery_lines_item_instead_item import KeptDeliveryLinesItemInsteadItem





T = TypeVar("T", bound="KeptDeliveryLinesItem")



@_attrs_define
class KeptDeliveryLinesItem:
    """ 
        Attributes:
            line (int):
            good (int | Unset):
            damaged (int | Unset):
            short (int | Unset):
            note (str | Unset):
            instead (list[KeptDeliveryLinesItemInsteadItem] | Unset):
     """

    line: int
    good: int | Unset = UNSET
    damaged: int | Unset = UNSET
    short: int | Unset = UNSET
    note: str | Unset = UNSET
    instead: list[KeptDeliveryLinesItemInsteadItem] | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.kept_delivery_lines_item_instead_item import KeptDeliveryLinesItemInsteadItem
        line = self.line

        good = self.good

        damaged = self.damaged

        short = self.short

        note = self.note

        instead: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.instead, Unset):
            instead = []
            for instead_item_data in self.instead:
                instead_item = instead_item_data.to_dict()
                instead.append(instead_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "line": line,
        })
        if good is not UNSET:
            field_dict["good"] = good
        if damaged is not UNSET:
            field_dict["damaged"] = damaged
        if short is not UNSET:
            field_dict["short"] = short
        if note is not UNSET:
            field_dict["note"] = note
        if instead is not UNSET:
            field_dict["instead"] = instead

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.kept_delivery_lines_item_instead_item import KeptDeliveryLinesItemInsteadItem
        d = dict(src_dict)
        line = d.pop("line")

        good = d.pop("good", UNSET)

        damaged = d.pop("damaged", UNSET)

        short = d.pop("short", UNSET)

        note = d.pop("note", UNSET)

        _instead = d.pop("instead", UNSET)
        instead: list[KeptDeliveryLinesItemInsteadItem] | Unset = UNSET
        if _instead is not UNSET:
            instead = []
            for instead_item_data in _instead:
                instead_item = KeptDeliveryLinesItemInsteadItem.from_dict(instead_item_data)



                instead.append(instead_item)


        kept_delivery_lines_item = cls(
            line=line,
            good=good,
            damaged=damaged,
            short=short,
            note=note,
            instead=instead,
        )


        kept_delivery_lines_item.additional_properties = d
        return kept_delivery_lines_item

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
