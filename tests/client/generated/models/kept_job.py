from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.kept_job_state import KeptJobState
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
            state (KeptJobState | Unset):
            plan (None | str | Unset):
            share (None | str | Unset):
            walls (list[str] | Unset):
            listed_parts (int | Unset):
            needed (str | Unset):
            client (str | Unset):
     """

    id: str
    version: int
    created: datetime.datetime
    changed: datetime.datetime
    job: KeptJobJob
    state: KeptJobState | Unset = UNSET
    plan: None | str | Unset = UNSET
    share: None | str | Unset = UNSET
    walls: list[str] | Unset = UNSET
    listed_parts: int | Unset = UNSET
    needed: str | Unset = UNSET
    client: str | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.kept_job_job import KeptJobJob
        id = self.id

        version = self.version

        created = self.created.isoformat()

        changed = self.changed.isoformat()

        job = self.job.to_dict()

        state: str | Unset = UNSET
        if not isinstance(self.state, Unset):
            state = self.state.value


        plan: None | str | Unset
        if isinstance(self.plan, Unset):
            plan = UNSET
        else:
            plan = self.plan

        share: None | str | Unset
        if isinstance(self.share, Unset):
            share = UNSET
        else:
            share = self.share

        walls: list[str] | Unset = UNSET
        if not isinstance(self.walls, Unset):
            walls = self.walls



        listed_parts = self.listed_parts

        needed = self.needed

        client = self.client


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "version": version,
            "created": created,
            "changed": changed,
            "job": job,
        })
        if state is not UNSET:
            field_dict["state"] = state
        if plan is not UNSET:
            field_dict["plan"] = plan
        if share is not UNSET:
            field_dict["share"] = share
        if walls is not UNSET:
            field_dict["walls"] = walls
        if listed_parts is not UNSET:
            field_dict["listed_parts"] = listed_parts
        if needed is not UNSET:
            field_dict["needed"] = needed
        if client is not UNSET:
            field_dict["client"] = client

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.kept_job_job import KeptJobJob
        d = dict(src_dict)
        id = d.pop("id")

        version = d.pop("version")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        changed = datetime.datetime.fromisoformat(d.pop("changed"))




        job = KeptJobJob.from_dict(d.pop("job"))




        _state = d.pop("state", UNSET)
        state: KeptJobState | Unset
        if isinstance(_state,  Unset):
            state = UNSET
        else:
            state = KeptJobState(_state)




        def _parse_plan(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        plan = _parse_plan(d.pop("plan", UNSET))


        def _parse_share(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        share = _parse_share(d.pop("share", UNSET))


        walls = cast(list[str], d.pop("walls", UNSET))


        listed_parts = d.pop("listed_parts", UNSET)

        needed = d.pop("needed", UNSET)

        client = d.pop("client", UNSET)

        kept_job = cls(
            id=id,
            version=version,
            created=created,
            changed=changed,
            job=job,
            state=state,
            plan=plan,
            share=share,
            walls=walls,
            listed_parts=listed_parts,
            needed=needed,
            client=client,
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
