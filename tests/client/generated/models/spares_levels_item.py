from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.spares_levels_item_spares_item import SparesLevelsItemSparesItem





T = TypeVar("T", bound="SparesLevelsItem")



@_attrs_define
class SparesLevelsItem:
    """ 
        Attributes:
            level (float):
            reached (bool):
            chance (float):
            cost (str):
            spares (list[SparesLevelsItemSparesItem]):
     """

    level: float
    reached: bool
    chance: float
    cost: str
    spares: list[SparesLevelsItemSparesItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.spares_levels_item_spares_item import SparesLevelsItemSparesItem
        level = self.level

        reached = self.reached

        chance = self.chance

        cost = self.cost

        spares = []
        for spares_item_data in self.spares:
            spares_item = spares_item_data.to_dict()
            spares.append(spares_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "level": level,
            "reached": reached,
            "chance": chance,
            "cost": cost,
            "spares": spares,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.spares_levels_item_spares_item import SparesLevelsItemSparesItem
        d = dict(src_dict)
        level = d.pop("level")

        reached = d.pop("reached")

        chance = d.pop("chance")

        cost = d.pop("cost")

        spares = []
        _spares = d.pop("spares")
        for spares_item_data in (_spares):
            spares_item = SparesLevelsItemSparesItem.from_dict(spares_item_data)



            spares.append(spares_item)


        spares_levels_item = cls(
            level=level,
            reached=reached,
            chance=chance,
            cost=cost,
            spares=spares,
        )


        spares_levels_item.additional_properties = d
        return spares_levels_item

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
