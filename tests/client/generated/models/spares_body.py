from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.spares_body_handling import SparesBodyHandling
from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.spares_body_rates_percent import SparesBodyRatesPercent





T = TypeVar("T", bound="SparesBody")



@_attrs_define
class SparesBody:
    """ 
        Attributes:
            handling (SparesBodyHandling | Unset):  Default: SparesBodyHandling.USUAL.
            rates_percent (SparesBodyRatesPercent | Unset):
            levels_percent (list[float] | Unset):
     """

    handling: SparesBodyHandling | Unset = SparesBodyHandling.USUAL
    rates_percent: SparesBodyRatesPercent | Unset = UNSET
    levels_percent: list[float] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.spares_body_rates_percent import SparesBodyRatesPercent
        handling: str | Unset = UNSET
        if not isinstance(self.handling, Unset):
            handling = self.handling.value


        rates_percent: dict[str, Any] | Unset = UNSET
        if not isinstance(self.rates_percent, Unset):
            rates_percent = self.rates_percent.to_dict()

        levels_percent: list[float] | Unset = UNSET
        if not isinstance(self.levels_percent, Unset):
            levels_percent = self.levels_percent




        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if handling is not UNSET:
            field_dict["handling"] = handling
        if rates_percent is not UNSET:
            field_dict["rates_percent"] = rates_percent
        if levels_percent is not UNSET:
            field_dict["levels_percent"] = levels_percent

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.spares_body_rates_percent import SparesBodyRatesPercent
        d = dict(src_dict)
        _handling = d.pop("handling", UNSET)
        handling: SparesBodyHandling | Unset
        if isinstance(_handling,  Unset):
            handling = UNSET
        else:
            handling = SparesBodyHandling(_handling)




        _rates_percent = d.pop("rates_percent", UNSET)
        rates_percent: SparesBodyRatesPercent | Unset
        if isinstance(_rates_percent,  Unset):
            rates_percent = UNSET
        else:
            rates_percent = SparesBodyRatesPercent.from_dict(_rates_percent)




        levels_percent = cast(list[float], d.pop("levels_percent", UNSET))


        spares_body = cls(
            handling=handling,
            rates_percent=rates_percent,
            levels_percent=levels_percent,
        )

        return spares_body

