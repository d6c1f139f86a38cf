from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.tick import Tick





T = TypeVar("T", bound="TicksBody")



@_attrs_define
class TicksBody:
    """ 
        Attributes:
            ticks (list[Tick]):
     """

    ticks: list[Tick]





    def to_dict(self) -> dict[str, Any]:
        from ..models.tick import Tick
        ticks = []
        for ticks_item_data in self.ticks:
            ticks_item = ticks_item_data.to_dict()
            ticks.append(ticks_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "ticks": ticks,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.tick import Tick
        d = dict(src_dict)
        ticks = []
        _ticks = d.pop("ticks")
        for ticks_item_data in (_ticks):
            ticks_item = Tick.from_dict(ticks_item_data)



            ticks.append(ticks_item)


        ticks_body = cls(
            ticks=ticks,
        )

        return ticks_body

