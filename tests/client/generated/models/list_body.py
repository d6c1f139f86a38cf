from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="ListBody")



@_attrs_define
class ListBody:
    """ 
        Attributes:
            name (str):
            job (str):
            content (str):
            client (str | Unset):  Default: ''.
            needed (str | Unset):  Default: ''.
     """

    name: str
    job: str
    content: str
    client: str | Unset = ''
    needed: str | Unset = ''





    def to_dict(self) -> dict[str, Any]:
        name = self.name

        job = self.job

        content = self.content

        client = self.client

        needed = self.needed


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "name": name,
            "job": job,
            "content": content,
        })
        if client is not UNSET:
            field_dict["client"] = client
        if needed is not UNSET:
            field_dict["needed"] = needed

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        name = d.pop("name")

        job = d.pop("job")

        content = d.pop("content")

        client = d.pop("client", UNSET)

        needed = d.pop("needed", UNSET)

        list_body = cls(
            name=name,
            job=job,
            content=content,
            client=client,
            needed=needed,
        )

        return list_body

