from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="ReplanBody")



@_attrs_define
class ReplanBody:
    """ 
        Attributes:
            seconds (float | Unset):  Default: 1.0.
     """

    seconds: float | Unset = 1.0





    def to_dict(self) -> dict[str, Any]:
        seconds = self.seconds


        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if seconds is not UNSET:
            field_dict["seconds"] = seconds

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        seconds = d.pop("seconds", UNSET)

        replan_body = cls(
            seconds=seconds,
        )

        return replan_body

