from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="SheetWeightsDocument")



@_attrs_define
class SheetWeightsDocument:
    """ 
        Attributes:
            across (list[list[int]]):
            along (list[list[int]]):
     """

    across: list[list[int]]
    along: list[list[int]]





    def to_dict(self) -> dict[str, Any]:
        across = []
        for across_item_data in self.across:
            across_item = []
            for across_item_item_data in across_item_data:
                across_item_item: int
                across_item_item = across_item_item_data
                across_item.append(across_item_item)


            across.append(across_item)



        along = []
        for along_item_data in self.along:
            along_item = []
            for along_item_item_data in along_item_data:
                along_item_item: int
                along_item_item = along_item_item_data
                along_item.append(along_item_item)


            along.append(along_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "across": across,
            "along": along,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        across = []
        _across = d.pop("across")
        for across_item_data in (_across):
            across_item = []
            _across_item = across_item_data
            for across_item_item_data in (_across_item):
                def _parse_across_item_item(data: object) -> int:
                    return cast(int, data)

                across_item_item = _parse_across_item_item(across_item_item_data)

                across_item.append(across_item_item)

            across.append(across_item)


        along = []
        _along = d.pop("along")
        for along_item_data in (_along):
            along_item = []
            _along_item = along_item_data
            for along_item_item_data in (_along_item):
                def _parse_along_item_item(data: object) -> int:
                    return cast(int, data)

                along_item_item = _parse_along_item_item(along_item_item_data)

                along_item.append(along_item_item)

            along.append(along_item)


        sheet_weights_document = cls(
            across=across,
            along=along,
        )

        return sheet_weights_document

