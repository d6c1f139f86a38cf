from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.keep_part_list_response_201_jobs_item import KeepPartListResponse201JobsItem





T = TypeVar("T", bound="KeepPartListResponse201")



@_attrs_define
class KeepPartListResponse201:
    """ 
        Attributes:
            jobs (list[KeepPartListResponse201JobsItem]):
     """

    jobs: list[KeepPartListResponse201JobsItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.keep_part_list_response_201_jobs_item import KeepPartListResponse201JobsItem
        jobs = []
        for jobs_item_data in self.jobs:
            jobs_item = jobs_item_data.to_dict()
            jobs.append(jobs_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "jobs": jobs,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.keep_part_list_response_201_jobs_item import KeepPartListResponse201JobsItem
        d = dict(src_dict)
        jobs = []
        _jobs = d.pop("jobs")
        for jobs_item_data in (_jobs):
            jobs_item = KeepPartListResponse201JobsItem.from_dict(jobs_item_data)



            jobs.append(jobs_item)


        keep_part_list_response_201 = cls(
            jobs=jobs,
        )


        keep_part_list_response_201.additional_properties = d
        return keep_part_list_response_201

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
