from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.plan_summary_state import PlanSummaryState
from typing import cast
import datetime






T = TypeVar("T", bound="PlanSummary")



@_attrs_define
class PlanSummary:
    """ 
        Attributes:
            id (str):
            run (str):
            state (PlanSummaryState):
            version (int):
            created (datetime.datetime):
            net_cost (None | str):
            lower_bound (None | str):
     """

    id: str
    run: str
    state: PlanSummaryState
    version: int
    created: datetime.datetime
    net_cost: None | str
    lower_bound: None | str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        run = self.run

        state = self.state.value

        version = self.version

        created = self.created.isoformat()

        net_cost: None | str
        net_cost = self.net_cost

        lower_bound: None | str
        lower_bound = self.lower_bound


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "run": run,
            "state": state,
            "version": version,
            "created": created,
            "net_cost": net_cost,
            "lower_bound": lower_bound,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        run = d.pop("run")

        state = PlanSummaryState(d.pop("state"))




        version = d.pop("version")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        def _parse_net_cost(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        net_cost = _parse_net_cost(d.pop("net_cost"))


        def _parse_lower_bound(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        lower_bound = _parse_lower_bound(d.pop("lower_bound"))


        plan_summary = cls(
            id=id,
            run=run,
            state=state,
            version=version,
            created=created,
            net_cost=net_cost,
            lower_bound=lower_bound,
        )


        plan_summary.additional_properties = d
        return plan_summary

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
