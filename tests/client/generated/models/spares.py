from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.spares_exposures_item import SparesExposuresItem
  from ..models.spares_levels_item import SparesLevelsItem





T = TypeVar("T", bound="Spares")



@_attrs_define
class Spares:
    """ 
        Attributes:
            chance_without (float):
            exposures (list[SparesExposuresItem]):
            levels (list[SparesLevelsItem]):
            chart_svg (str):
     """

    chance_without: float
    exposures: list[SparesExposuresItem]
    levels: list[SparesLevelsItem]
    chart_svg: str
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.spares_exposures_item import SparesExposuresItem
        from ..models.spares_levels_item import SparesLevelsItem
        chance_without = self.chance_without

        exposures = []
        for exposures_item_data in self.exposures:
            exposures_item = exposures_item_data.to_dict()
            exposures.append(exposures_item)



        levels = []
        for levels_item_data in self.levels:
            levels_item = levels_item_data.to_dict()
            levels.append(levels_item)



        chart_svg = self.chart_svg


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "chance_without": chance_without,
            "exposures": exposures,
            "levels": levels,
            "chart_svg": chart_svg,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.spares_exposures_item import SparesExposuresItem
        from ..models.spares_levels_item import SparesLevelsItem
        d = dict(src_dict)
        chance_without = d.pop("chance_without")

        exposures = []
        _exposures = d.pop("exposures")
        for exposures_item_data in (_exposures):
            exposures_item = SparesExposuresItem.from_dict(exposures_item_data)



            exposures.append(exposures_item)


        levels = []
        _levels = d.pop("levels")
        for levels_item_data in (_levels):
            levels_item = SparesLevelsItem.from_dict(levels_item_data)



            levels.append(levels_item)


        chart_svg = d.pop("chart_svg")

        spares = cls(
            chance_without=chance_without,
            exposures=exposures,
            levels=levels,
            chart_svg=chart_svg,
        )


        spares.additional_properties = d
        return spares

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
