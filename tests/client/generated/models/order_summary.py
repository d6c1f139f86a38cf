from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.order_summary_state import OrderSummaryState
from typing import cast
import datetime






T = TypeVar("T", bound="OrderSummary")



@_attrs_define
class OrderSummary:
    """ 
        Attributes:
            id (str):
            plan (str):
            state (OrderSummaryState):
            version (int):
            created (datetime.datetime):
            changed (datetime.datetime):
     """

    id: str
    plan: str
    state: OrderSummaryState
    version: int
    created: datetime.datetime
    changed: datetime.datetime
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        plan = self.plan

        state = self.state.value

        version = self.version

        created = self.created.isoformat()

        changed = self.changed.isoformat()


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "plan": plan,
            "state": state,
            "version": version,
            "created": created,
            "changed": changed,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        plan = d.pop("plan")

        state = OrderSummaryState(d.pop("state"))




        version = d.pop("version")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        changed = datetime.datetime.fromisoformat(d.pop("changed"))




        order_summary = cls(
            id=id,
            plan=plan,
            state=state,
            version=version,
            created=created,
            changed=changed,
        )


        order_summary.additional_properties = d
        return order_summary

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
