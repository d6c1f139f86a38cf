from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="PreviewPartListResponse200ColumnsItem")



@_attrs_define
class PreviewPartListResponse200ColumnsItem:
    """ 
        Attributes:
            column (str):
            header (str):
            read_as (None | str):
            unit (None | str):
     """

    column: str
    header: str
    read_as: None | str
    unit: None | str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        column = self.column

        header = self.header

        read_as: None | str
        read_as = self.read_as

        unit: None | str
        unit = self.unit


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "column": column,
            "header": header,
            "read_as": read_as,
            "unit": unit,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        column = d.pop("column")

        header = d.pop("header")

        def _parse_read_as(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        read_as = _parse_read_as(d.pop("read_as"))


        def _parse_unit(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        unit = _parse_unit(d.pop("unit"))


        preview_part_list_response_200_columns_item = cls(
            column=column,
            header=header,
            read_as=read_as,
            unit=unit,
        )


        preview_part_list_response_200_columns_item.additional_properties = d
        return preview_part_list_response_200_columns_item

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
