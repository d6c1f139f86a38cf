from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.batch_coming_jobs_item import BatchComingJobsItem
  from ..models.wall import Wall





T = TypeVar("T", bound="BatchComing")



@_attrs_define
class BatchComing:
    """ 
        Attributes:
            walls (list[Wall] | Unset):
            jobs (list[BatchComingJobsItem] | Unset):
     """

    walls: list[Wall] | Unset = UNSET
    jobs: list[BatchComingJobsItem] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.batch_coming_jobs_item import BatchComingJobsItem
        from ..models.wall import Wall
        walls: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.walls, Unset):
            walls = []
            for walls_item_data in self.walls:
                walls_item = walls_item_data.to_dict()
                walls.append(walls_item)



        jobs: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.jobs, Unset):
            jobs = []
            for jobs_item_data in self.jobs:
                jobs_item = jobs_item_data.to_dict()
                jobs.append(jobs_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if walls is not UNSET:
            field_dict["walls"] = walls
        if jobs is not UNSET:
            field_dict["jobs"] = jobs

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.batch_coming_jobs_item import BatchComingJobsItem
        from ..models.wall import Wall
        d = dict(src_dict)
        _walls = d.pop("walls", UNSET)
        walls: list[Wall] | Unset = UNSET
        if _walls is not UNSET:
            walls = []
            for walls_item_data in _walls:
                walls_item = Wall.from_dict(walls_item_data)



                walls.append(walls_item)


        _jobs = d.pop("jobs", UNSET)
        jobs: list[BatchComingJobsItem] | Unset = UNSET
        if _jobs is not UNSET:
            jobs = []
            for jobs_item_data in _jobs:
                jobs_item = BatchComingJobsItem.from_dict(jobs_item_data)



                jobs.append(jobs_item)


        batch_coming = cls(
            walls=walls,
            jobs=jobs,
        )

        return batch_coming

