from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.kept_job_job import KeptJobJob





T = TypeVar("T", bound="KeptJob")



@_attrs_define
class KeptJob:
    """ 
        Attributes:
            id (str):
            version (int):
            created (datetime.datetime):
            changed (datetime.datetime):
            job (KeptJobJob):
     """

    id: str
    version: int
    created: datetime.datetime
    changed: datetime.datetime
    job: KeptJobJob
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.kept_job_job import KeptJobJob # noqa: PLC0415
        id = self.id

        version = self.version

        created = self.created.isoformat()

        changed = self.changed.isoformat()

        job = self.job.to_dict()


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "version": version,
            "created": created,
            "changed": changed,
            "job": job,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.kept_job_job import KeptJobJob # noqa: PLC0415
        d = dict(src_dict)
        id = d.pop("id")

        version = d.pop("version")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        changed = datetime.datetime.fromisoformat(d.pop("changed"))




        job = KeptJobJob.from_dict(d.pop("job"))




        kept_job = cls(
            id=id,
            version=version,
            created=created,
            changed=changed,
            job=job,
        )


        kept_job.additional_properties = d
        return kept_job

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
