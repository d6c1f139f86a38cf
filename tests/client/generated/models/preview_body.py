from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="PreviewBody")



@_attrs_define
class PreviewBody:
    """ 
        Attributes:
            name (str):
            content (str):
            job (str | Unset):  Default: ''.
     """

    name: str
    content: str
    job: str | Unset = ''





    def to_dict(self) -> dict[str, Any]:
        name = self.name

        content = self.content

        job = self.job


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "name": name,
            "content": content,
        })
        if job is not UNSET:
            field_dict["job"] = job

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        name = d.pop("name")

        content = d.pop("content")

        job = d.pop("job", UNSET)

        preview_body = cls(
            name=name,
            content=content,
            job=job,
        )

        return preview_body

