from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="PreviewPartListResponse200ProblemsItem")



@_attrs_define
class PreviewPartListResponse200ProblemsItem:
    """ 
        Attributes:
            row (int | None):
            column (None | str):
            field (str):
            trouble (str):
            remedy (str):
     """

    row: int | None
    column: None | str
    field: str
    trouble: str
    remedy: str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        row: int | None
        row = self.row

        column: None | str
        column = self.column

        field = self.field

        trouble = self.trouble

        remedy = self.remedy


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "row": row,
            "column": column,
            "field": field,
            "trouble": trouble,
            "remedy": remedy,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        def _parse_row(data: object) -> int | None:
            if data is None:
                return data
            return cast(int | None, data)

        row = _parse_row(d.pop("row"))


        def _parse_column(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        column = _parse_column(d.pop("column"))


        field = d.pop("field")

        trouble = d.pop("trouble")

        remedy = d.pop("remedy")

        preview_part_list_response_200_problems_item = cls(
            row=row,
            column=column,
            field=field,
            trouble=trouble,
            remedy=remedy,
        )


        preview_part_list_response_200_problems_item.additional_properties = d
        return preview_part_list_response_200_problems_item

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
