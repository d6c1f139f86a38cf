from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset







T = TypeVar("T", bound="ChosenDocument")



@_attrs_define
class ChosenDocument:
    """ 
        Attributes:
            choice (str):
            option (int):
     """

    choice: str
    option: int





    def to_dict(self) -> dict[str, Any]:
        choice = self.choice

        option = self.option


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "choice": choice,
            "option": option,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        choice = d.pop("choice")

        option = d.pop("option")

        chosen_document = cls(
            choice=choice,
            option=option,
        )

        return chosen_document

