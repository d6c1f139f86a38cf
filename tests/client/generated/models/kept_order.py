from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.kept_order_state import KeptOrderState
from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.order import Order





T = TypeVar("T", bound="KeptOrder")



@_attrs_define
class KeptOrder:
    """ 
        Attributes:
            id (str):
            plan (str):
            state (KeptOrderState):
            version (int):
            created (datetime.datetime):
            changed (datetime.datetime):
            order (Order):
     """

    id: str
    plan: str
    state: KeptOrderState
    version: int
    created: datetime.datetime
    changed: datetime.datetime
    order: Order
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.order import Order
        id = self.id

        plan = self.plan

        state = self.state.value

        version = self.version

        created = self.created.isoformat()

        changed = self.changed.isoformat()

        order = self.order.to_dict()


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "plan": plan,
            "state": state,
            "version": version,
            "created": created,
            "changed": changed,
            "order": order,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.order import Order
        d = dict(src_dict)
        id = d.pop("id")

        plan = d.pop("plan")

        state = KeptOrderState(d.pop("state"))




        version = d.pop("version")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        changed = datetime.datetime.fromisoformat(d.pop("changed"))




        order = Order.from_dict(d.pop("order"))




        kept_order = cls(
            id=id,
            plan=plan,
            state=state,
            version=version,
            created=created,
            changed=changed,
            order=order,
        )


        kept_order.additional_properties = d
        return kept_order

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
