from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.kept_delivery_lines_item import KeptDeliveryLinesItem
  from ..models.kept_delivery_promised_item import KeptDeliveryPromisedItem
  from ..models.kept_delivery_touches_item import KeptDeliveryTouchesItem





T = TypeVar("T", bound="KeptDelivery")



@_attrs_define
class KeptDelivery:
    """ 
        Attributes:
            id (str):
            who (str):
            written (datetime.datetime):
            came (str):
            delivery_note (str):
            note (str):
            lines (list[KeptDeliveryLinesItem]):
            undoes (None | str):
            plan (str):
            touches (list[KeptDeliveryTouchesItem]):
            instead (int):
            promised (list[KeptDeliveryPromisedItem]):
            run (None | str):
            new_plan (None | str):
            undone (bool | Unset):
     """

    id: str
    who: str
    written: datetime.datetime
    came: str
    delivery_note: str
    note: str
    lines: list[KeptDeliveryLinesItem]
    undoes: None | str
    plan: str
    touches: list[KeptDeliveryTouchesItem]
    instead: int
    promised: list[KeptDeliveryPromisedItem]
    run: None | str
    new_plan: None | str
    undone: bool | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.kept_delivery_lines_item import KeptDeliveryLinesItem
        from ..models.kept_delivery_promised_item import KeptDeliveryPromisedItem
        from ..models.kept_delivery_touches_item import KeptDeliveryTouchesItem
        id = self.id

        who = self.who

        written = self.written.isoformat()

        came = self.came

        delivery_note = self.delivery_note

        note = self.note

        lines = []
        for lines_item_data in self.lines:
            lines_item = lines_item_data.to_dict()
            lines.append(lines_item)



        undoes: None | str
        undoes = self.undoes

        plan = self.plan

        touches = []
        for touches_item_data in self.touches:
            touches_item = touches_item_data.to_dict()
            touches.append(touches_item)



        instead = self.instead

        promised = []
        for promised_item_data in self.promised:
            promised_item = promised_item_data.to_dict()
            promised.append(promised_item)



        run: None | str
        run = self.run

        new_plan: None | str
        new_plan = self.new_plan

        undone = self.undone


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "who": who,
            "written": written,
            "came": came,
            "delivery_note": delivery_note,
            "note": note,
            "lines": lines,
            "undoes": undoes,
            "plan": plan,
            "touches": touches,
            "instead": instead,
            "promised": promised,
            "run": run,
            "new_plan": new_plan,
        })
        if undone is not UNSET:
            field_dict["undone"] = undone

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.kept_delivery_lines_item import KeptDeliveryLinesItem
        from ..models.kept_delivery_promised_item import KeptDeliveryPromisedItem
        from ..models.kept_delivery_touches_item import KeptDeliveryTouchesItem
        d = dict(src_dict)
        id = d.pop("id")

        who = d.pop("who")

        written = datetime.datetime.fromisoformat(d.pop("written"))




        came = d.pop("came")

        delivery_note = d.pop("delivery_note")

        note = d.pop("note")

        lines = []
        _lines = d.pop("lines")
        for lines_item_data in (_lines):
            lines_item = KeptDeliveryLinesItem.from_dict(lines_item_data)



            lines.append(lines_item)


        def _parse_undoes(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        undoes = _parse_undoes(d.pop("undoes"))


        plan = d.pop("plan")

        touches = []
        _touches = d.pop("touches")
        for touches_item_data in (_touches):
            touches_item = KeptDeliveryTouchesItem.from_dict(touches_item_data)



            touches.append(touches_item)


        instead = d.pop("instead")

        promised = []
        _promised = d.pop("promised")
        for promised_item_data in (_promised):
            promised_item = KeptDeliveryPromisedItem.from_dict(promised_item_data)



            promised.append(promised_item)


        def _parse_run(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        run = _parse_run(d.pop("run"))


        def _parse_new_plan(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        new_plan = _parse_new_plan(d.pop("new_plan"))


        undone = d.pop("undone", UNSET)

        kept_delivery = cls(
            id=id,
            who=who,
            written=written,
            came=came,
            delivery_note=delivery_note,
            note=note,
            lines=lines,
            undoes=undoes,
            plan=plan,
            touches=touches,
            instead=instead,
            promised=promised,
            run=run,
            new_plan=new_plan,
            undone=undone,
        )


        kept_delivery.additional_properties = d
        return kept_delivery

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
