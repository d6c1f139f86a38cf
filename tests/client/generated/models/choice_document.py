from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="ChoiceDocument")



@_attrs_define
class ChoiceDocument:
    """ 
        Attributes:
            id (str):
            options (list[list[str]]):
     """

    id: str
    options: list[list[str]]





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        options = []
        for options_item_data in self.options:
            options_item = options_item_data


            options.append(options_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "options": options,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        options = []
        _options = d.pop("options")
        for options_item_data in (_options):
            options_item = cast(list[str], options_item_data)

            options.append(options_item)


        choice_document = cls(
            id=id,
            options=options,
        )

        return choice_document

