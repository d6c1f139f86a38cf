from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast
import datetime






T = TypeVar("T", bound="ListAuditResponse200ItemsItem")



@_attrs_define
class ListAuditResponse200ItemsItem:
    """ 
        Attributes:
            id (int):
            at (datetime.datetime):
            who (str):
            action (str):
            thing (str):
     """

    id: int
    at: datetime.datetime
    who: str
    action: str
    thing: str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        at = self.at.isoformat()

        who = self.who

        action = self.action

        thing = self.thing


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "at": at,
            "who": who,
            "action": action,
            "thing": thing,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        at = datetime.datetime.fromisoformat(d.pop("at"))




        who = d.pop("who")

        action = d.pop("action")

        thing = d.pop("thing")

        list_audit_response_200_items_item = cls(
            id=id,
            at=at,
            who=who,
            action=action,
            thing=thing,
        )


        list_audit_response_200_items_item.additional_properties = d
        return list_audit_response_200_items_item

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
