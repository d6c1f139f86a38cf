from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.wall import Wall





T = TypeVar("T", bound="KeptWall")



@_attrs_define
class KeptWall:
    """ 
        Attributes:
            id (str):
            version (int):
            created (datetime.datetime):
            changed (datetime.datetime):
            wall (Wall):
            job (str):
     """

    id: str
    version: int
    created: datetime.datetime
    changed: datetime.datetime
    wall: Wall
    job: str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.wall import Wall
        id = self.id

        version = self.version

        created = self.created.isoformat()

        changed = self.changed.isoformat()

        wall = self.wall.to_dict()

        job = self.job


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "version": version,
            "created": created,
            "changed": changed,
            "wall": wall,
            "job": job,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.wall import Wall
        d = dict(src_dict)
        id = d.pop("id")

        version = d.pop("version")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        changed = datetime.datetime.fromisoformat(d.pop("changed"))




        wall = Wall.from_dict(d.pop("wall"))




        job = d.pop("job")

        kept_wall = cls(
            id=id,
            version=version,
            created=created,
            changed=changed,
            wall=wall,
            job=job,
        )


        kept_wall.additional_properties = d
        return kept_wall

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
