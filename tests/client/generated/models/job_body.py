from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.job_body_parts_type_0 import JobBodyPartsType0





T = TypeVar("T", bound="JobBody")



@_attrs_define
class JobBody:
    """ 
        Attributes:
            name (str):
            client (str | Unset):  Default: ''.
            needed (str | Unset):  Default: ''.
            notes (str | Unset):  Default: ''.
            parts (JobBodyPartsType0 | None | Unset):
     """

    name: str
    client: str | Unset = ''
    needed: str | Unset = ''
    notes: str | Unset = ''
    parts: JobBodyPartsType0 | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.job_body_parts_type_0 import JobBodyPartsType0
        name = self.name

        client = self.client

        needed = self.needed

        notes = self.notes

        parts: dict[str, Any] | None | Unset
        if isinstance(self.parts, Unset):
            parts = UNSET
        elif isinstance(self.parts, JobBodyPartsType0):
            parts = self.parts.to_dict()
        else:
            parts = self.parts


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
        if parts is not UNSET:
            field_dict["parts"] = parts

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.job_body_parts_type_0 import JobBodyPartsType0
        d = dict(src_dict)
        name = d.pop("name")

        client = d.pop("client", UNSET)

        needed = d.pop("needed", UNSET)

        notes = d.pop("notes", UNSET)

        def _parse_parts(data: object) -> JobBodyPartsType0 | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                parts_type_0 = JobBodyPartsType0.from_dict(data)



                return parts_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(JobBodyPartsType0 | None | Unset, data)

        parts = _parse_parts(d.pop("parts", UNSET))


        job_body = cls(
            name=name,
            client=client,
            needed=needed,
            notes=notes,
            parts=parts,
        )

        return job_body

