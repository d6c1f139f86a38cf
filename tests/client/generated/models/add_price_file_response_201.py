from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="AddPriceFileResponse201")



@_attrs_define
class AddPriceFileResponse201:
    """ 
        Attributes:
            name (str):
            version (int):
            valid_from (str):
            merchant (str):
            lengths (int):
            sheets (int):
            packs (int):
     """

    name: str
    version: int
    valid_from: str
    merchant: str
    lengths: int
    sheets: int
    packs: int
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        name = self.name

        version = self.version

        valid_from = self.valid_from

        merchant = self.merchant

        lengths = self.lengths

        sheets = self.sheets

        packs = self.packs


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "name": name,
            "version": version,
            "valid_from": valid_from,
            "merchant": merchant,
            "lengths": lengths,
            "sheets": sheets,
            "packs": packs,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        name = d.pop("name")

        version = d.pop("version")

        valid_from = d.pop("valid_from")

        merchant = d.pop("merchant")

        lengths = d.pop("lengths")

        sheets = d.pop("sheets")

        packs = d.pop("packs")

        add_price_file_response_201 = cls(
            name=name,
            version=version,
            valid_from=valid_from,
            merchant=merchant,
            lengths=lengths,
            sheets=sheets,
            packs=packs,
        )


        add_price_file_response_201.additional_properties = d
        return add_price_file_response_201

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
