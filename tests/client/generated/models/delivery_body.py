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
  from ..models.came_line import CameLine





T = TypeVar("T", bound="DeliveryBody")



@_attrs_define
class DeliveryBody:
    """ 
        Attributes:
            came (datetime.date | None | Unset):
            delivery_note (str | Unset):  Default: ''.
            note (str | Unset):  Default: ''.
            lines (list[CameLine] | Unset):
            undoes (None | str | Unset):
            replan_seconds (float | None | Unset):
     """

    came: datetime.date | None | Unset = UNSET
    delivery_note: str | Unset = ''
    note: str | Unset = ''
    lines: list[CameLine] | Unset = UNSET
    undoes: None | str | Unset = UNSET
    replan_seconds: float | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.came_line import CameLine
        came: None | str | Unset
        if isinstance(self.came, Unset):
            came = UNSET
        elif isinstance(self.came, datetime.date):
            came = self.came.isoformat()
        else:
            came = self.came

        delivery_note = self.delivery_note

        note = self.note

        lines: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.lines, Unset):
            lines = []
            for lines_item_data in self.lines:
                lines_item = lines_item_data.to_dict()
                lines.append(lines_item)



        undoes: None | str | Unset
        if isinstance(self.undoes, Unset):
            undoes = UNSET
        else:
            undoes = self.undoes

        replan_seconds: float | None | Unset
        if isinstance(self.replan_seconds, Unset):
            replan_seconds = UNSET
        else:
            replan_seconds = self.replan_seconds


        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if came is not UNSET:
            field_dict["came"] = came
        if delivery_note is not UNSET:
            field_dict["delivery_note"] = delivery_note
        if note is not UNSET:
            field_dict["note"] = note
        if lines is not UNSET:
            field_dict["lines"] = lines
        if undoes is not UNSET:
            field_dict["undoes"] = undoes
        if replan_seconds is not UNSET:
            field_dict["replan_seconds"] = replan_seconds

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.came_line import CameLine
        d = dict(src_dict)
        def _parse_came(data: object) -> datetime.date | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                came_type_0 = datetime.date.fromisoformat(data)



                return came_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(datetime.date | None | Unset, data)

        came = _parse_came(d.pop("came", UNSET))


        delivery_note = d.pop("delivery_note", UNSET)

        note = d.pop("note", UNSET)

        _lines = d.pop("lines", UNSET)
        lines: list[CameLine] | Unset = UNSET
        if _lines is not UNSET:
            lines = []
            for lines_item_data in _lines:
                lines_item = CameLine.from_dict(lines_item_data)



                lines.append(lines_item)


        def _parse_undoes(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        undoes = _parse_undoes(d.pop("undoes", UNSET))


        def _parse_replan_seconds(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        replan_seconds = _parse_replan_seconds(d.pop("replan_seconds", UNSET))


        delivery_body = cls(
            came=came,
            delivery_note=delivery_note,
            note=note,
            lines=lines,
            undoes=undoes,
            replan_seconds=replan_seconds,
        )

        return delivery_body

