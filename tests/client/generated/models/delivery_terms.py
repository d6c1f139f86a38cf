from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.delivery_terms_weekdays_item import DeliveryTermsWeekdaysItem
from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.delivery_terms_needed import DeliveryTermsNeeded
  from ..models.long_item_model import LongItemModel





T = TypeVar("T", bound="DeliveryTerms")



@_attrs_define
class DeliveryTerms:
    """ 
        Attributes:
            charge (str):
            free_over (None | str | Unset):
            by_length (list[LongItemModel] | Unset):
            vehicle_mass_kg (float | None | Unset):
            vehicle_length_mm (float | None | Unset):
            weekdays (list[DeliveryTermsWeekdaysItem] | Unset):
            storage_days (int | Unset):  Default: 7.
            needed (DeliveryTermsNeeded | Unset):
     """

    charge: str
    free_over: None | str | Unset = UNSET
    by_length: list[LongItemModel] | Unset = UNSET
    vehicle_mass_kg: float | None | Unset = UNSET
    vehicle_length_mm: float | None | Unset = UNSET
    weekdays: list[DeliveryTermsWeekdaysItem] | Unset = UNSET
    storage_days: int | Unset = 7
    needed: DeliveryTermsNeeded | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.delivery_terms_needed import DeliveryTermsNeeded
        from ..models.long_item_model import LongItemModel
        charge = self.charge

        free_over: None | str | Unset
        if isinstance(self.free_over, Unset):
            free_over = UNSET
        else:
            free_over = self.free_over

        by_length: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.by_length, Unset):
            by_length = []
            for by_length_item_data in self.by_length:
                by_length_item = by_length_item_data.to_dict()
                by_length.append(by_length_item)



        vehicle_mass_kg: float | None | Unset
        if isinstance(self.vehicle_mass_kg, Unset):
            vehicle_mass_kg = UNSET
        else:
            vehicle_mass_kg = self.vehicle_mass_kg

        vehicle_length_mm: float | None | Unset
        if isinstance(self.vehicle_length_mm, Unset):
            vehicle_length_mm = UNSET
        else:
            vehicle_length_mm = self.vehicle_length_mm

        weekdays: list[str] | Unset = UNSET
        if not isinstance(self.weekdays, Unset):
            weekdays = []
            for weekdays_item_data in self.weekdays:
                weekdays_item = weekdays_item_data.value
                weekdays.append(weekdays_item)



        storage_days = self.storage_days

        needed: dict[str, Any] | Unset = UNSET
        if not isinstance(self.needed, Unset):
            needed = self.needed.to_dict()


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "charge": charge,
        })
        if free_over is not UNSET:
            field_dict["free_over"] = free_over
        if by_length is not UNSET:
            field_dict["by_length"] = by_length
        if vehicle_mass_kg is not UNSET:
            field_dict["vehicle_mass_kg"] = vehicle_mass_kg
        if vehicle_length_mm is not UNSET:
            field_dict["vehicle_length_mm"] = vehicle_length_mm
        if weekdays is not UNSET:
            field_dict["weekdays"] = weekdays
        if storage_days is not UNSET:
            field_dict["storage_days"] = storage_days
        if needed is not UNSET:
            field_dict["needed"] = needed

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.delivery_terms_needed import DeliveryTermsNeeded
        from ..models.long_item_model import LongItemModel
        d = dict(src_dict)
        charge = d.pop("charge")

        def _parse_free_over(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        free_over = _parse_free_over(d.pop("free_over", UNSET))


        _by_length = d.pop("by_length", UNSET)
        by_length: list[LongItemModel] | Unset = UNSET
        if _by_length is not UNSET:
            by_length = []
            for by_length_item_data in _by_length:
                by_length_item = LongItemModel.from_dict(by_length_item_data)



                by_length.append(by_length_item)


        def _parse_vehicle_mass_kg(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        vehicle_mass_kg = _parse_vehicle_mass_kg(d.pop("vehicle_mass_kg", UNSET))


        def _parse_vehicle_length_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        vehicle_length_mm = _parse_vehicle_length_mm(d.pop("vehicle_length_mm", UNSET))


        _weekdays = d.pop("weekdays", UNSET)
        weekdays: list[DeliveryTermsWeekdaysItem] | Unset = UNSET
        if _weekdays is not UNSET:
            weekdays = []
            for weekdays_item_data in _weekdays:
                weekdays_item = DeliveryTermsWeekdaysItem(weekdays_item_data)



                weekdays.append(weekdays_item)


        storage_days = d.pop("storage_days", UNSET)

        _needed = d.pop("needed", UNSET)
        needed: DeliveryTermsNeeded | Unset
        if isinstance(_needed,  Unset):
            needed = UNSET
        else:
            needed = DeliveryTermsNeeded.from_dict(_needed)




        delivery_terms = cls(
            charge=charge,
            free_over=free_over,
            by_length=by_length,
            vehicle_mass_kg=vehicle_mass_kg,
            vehicle_length_mm=vehicle_length_mm,
            weekdays=weekdays,
            storage_days=storage_days,
            needed=needed,
        )

        return delivery_terms

