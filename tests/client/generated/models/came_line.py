from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.instead import Instead





T = TypeVar("T", bound="CameLine")



@_attrs_define
class CameLine:
    """ 
        Attributes:
            line (int):
            good (int | Unset):  Default: 0.
            damaged (int | Unset):  Default: 0.
            short (int | Unset):  Default: 0.
            instead (list[Instead] | Unset):
            note (str | Unset):  Default: ''.
     """

    line: int
    good: int | Unset = 0
    damaged: int | Unset = 0
    short: int | Unset = 0
    instead: list[Instead] | Unset = UNSET
    note: str | Unset = ''





    def to_dict(self) -> dict[str, Any]:
        from ..models.instead import Instead
        line = self.line

        good = self.good

        damaged = self.damaged

        short = self.short

        instead: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.instead, Unset):
            instead = []
            for instead_item_data in self.instead:
                instead_item = instead_item_data.to_dict()
                instead.append(instead_item)



        note = self.note


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "line": line,
        })
        if good is not UNSET:
            field_dict["good"] = good
        if damaged is not UNSET:
            field_dict["damaged"] = damaged
        if short is not UNSET:
            field_dict["short"] = short
        if instead is not UNSET:
            field_dict["instead"] = instead
        if note is not UNSET:
            field_dict["note"] = note

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.instead import Instead
        d = dict(src_dict)
        line = d.pop("line")

        good = d.pop("good", UNSET)

        damaged = d.pop("damaged", UNSET)

        short = d.pop("short", UNSET)

        _instead = d.pop("instead", UNSET)
        instead: list[Instead] | Unset = UNSET
        if _instead is not UNSET:
            instead = []
            for instead_item_data in _instead:
                instead_item = Instead.from_dict(instead_item_data)



                instead.append(instead_item)


        note = d.pop("note", UNSET)

        came_line = cls(
            line=line,
            good=good,
            damaged=damaged,
            short=short,
            instead=instead,
            note=note,
        )

        return came_line

