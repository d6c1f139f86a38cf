from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.ledger_line_kind import LedgerLineKind
from typing import cast
import datetime






T = TypeVar("T", bound="LedgerLine")



@_attrs_define
class LedgerLine:
    """ 
        Attributes:
            id (int):
            offcut (str):
            kind (LedgerLineKind):
            on_rack (int):
            held (int):
            plan (None | str):
            who (str):
            at (datetime.datetime):
            why (str):
     """

    id: int
    offcut: str
    kind: LedgerLineKind
    on_rack: int
    held: int
    plan: None | str
    who: str
    at: datetime.datetime
    why: str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        offcut = self.offcut

        kind = self.kind.value

        on_rack = self.on_rack

        held = self.held

        plan: None | str
        plan = self.plan

        who = self.who

        at = self.at.isoformat()

        why = self.why


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "offcut": offcut,
            "kind": kind,
            "on_rack": on_rack,
            "held": held,
            "plan": plan,
            "who": who,
            "at": at,
            "why": why,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        offcut = d.pop("offcut")

        kind = LedgerLineKind(d.pop("kind"))




        on_rack = d.pop("on_rack")

        held = d.pop("held")

        def _parse_plan(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        plan = _parse_plan(d.pop("plan"))


        who = d.pop("who")

        at = datetime.datetime.fromisoformat(d.pop("at"))




        why = d.pop("why")

        ledger_line = cls(
            id=id,
            offcut=offcut,
            kind=kind,
            on_rack=on_rack,
            held=held,
            plan=plan,
            who=who,
            at=at,
            why=why,
        )


        ledger_line.additional_properties = d
        return ledger_line

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
