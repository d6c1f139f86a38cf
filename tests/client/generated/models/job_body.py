from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="JobBody")



@_attrs_define
class JobBody:
    """ 
        Attributes:
            name (str):
            client (str | Unset):  Default: ''.
            needed (str | Unset):  Default: ''.
            notes (str | Unset):  Default: ''.
     """

    name: str
    client: str | Unset = ''
    needed: str | Unset = ''
    notes: str | Unset = ''





    def to_dict(self) -> dict[str, Any]:
        name = self.name

        client = self.client

        needed = self.needed

        notes = self.notes


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "name": name,
        })
        if client is not UNSET:
            field_dict["client"] = client
        if needed is not UNSET:
            field_dict["needed"] = needed
        if notes is not UNSET:
            field_dict["notes"] = notes

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        name = d.pop("name")

        client = d.pop("client", UNSET)

        needed = d.pop("needed", UNSET)

        notes = d.pop("notes", UNSET)

        job_body = cls(
            name=name,
            client=client,
            needed=needed,
            notes=notes,
        )

        return job_body

