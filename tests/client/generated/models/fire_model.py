from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.glass import Glass
from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="FireModel")



@_attrs_define
class FireModel:
    """ 
        Attributes:
            body_width_mm (float):
            body_height_mm (float):
            body_depth_mm (float):
            opening_width_mm (float | None | Unset):
            opening_height_mm (float | None | Unset):
            base_height_mm (float | None | Unset):
            clearance_top_mm (float | None | Unset):
            clearance_side_mm (float | None | Unset):
            clearance_back_mm (float | None | Unset):
            mass_kg (float | None | Unset):
            glass (Glass | None | Unset):
            centre_mm (float | None | Unset):
            return_depth_mm (float | None | Unset):
            lining (None | str | Unset):
            power_w (int | None | Unset):
     """

    body_width_mm: float
    body_height_mm: float
    body_depth_mm: float
    opening_width_mm: float | None | Unset = UNSET
    opening_height_mm: float | None | Unset = UNSET
    base_height_mm: float | None | Unset = UNSET
    clearance_top_mm: float | None | Unset = UNSET
    clearance_side_mm: float | None | Unset = UNSET
    clearance_back_mm: float | None | Unset = UNSET
    mass_kg: float | None | Unset = UNSET
    glass: Glass | None | Unset = UNSET
    centre_mm: float | None | Unset = UNSET
    return_depth_mm: float | None | Unset = UNSET
    lining: None | str | Unset = UNSET
    power_w: int | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        body_width_mm = self.body_width_mm

        body_height_mm = self.body_height_mm

        body_depth_mm = self.body_depth_mm

        opening_width_mm: float | None | Unset
        if isinstance(self.opening_width_mm, Unset):
            opening_width_mm = UNSET
        else:
            opening_width_mm = self.opening_width_mm

        opening_height_mm: float | None | Unset
        if isinstance(self.opening_height_mm, Unset):
            opening_height_mm = UNSET
        else:
            opening_height_mm = self.opening_height_mm

        base_height_mm: float | None | Unset
        if isinstance(self.base_height_mm, Unset):
            base_height_mm = UNSET
        else:
            base_height_mm = self.base_height_mm

        clearance_top_mm: float | None | Unset
        if isinstance(self.clearance_top_mm, Unset):
            clearance_top_mm = UNSET
        else:
            clearance_top_mm = self.clearance_top_mm

        clearance_side_mm: float | None | Unset
        if isinstance(self.clearance_side_mm, Unset):
            clearance_side_mm = UNSET
        else:
            clearance_side_mm = self.clearance_side_mm

        clearance_back_mm: float | None | Unset
        if isinstance(self.clearance_back_mm, Unset):
            clearance_back_mm = UNSET
        else:
            clearance_back_mm = self.clearance_back_mm

        mass_kg: float | None | Unset
        if isinstance(self.mass_kg, Unset):
            mass_kg = UNSET
        else:
            mass_kg = self.mass_kg

        glass: None | str | Unset
        if isinstance(self.glass, Unset):
            glass = UNSET
        elif isinstance(self.glass, Glass):
            glass = self.glass.value
        else:
            glass = self.glass

        centre_mm: float | None | Unset
        if isinstance(self.centre_mm, Unset):
            centre_mm = UNSET
        else:
            centre_mm = self.centre_mm

        return_depth_mm: float | None | Unset
        if isinstance(self.return_depth_mm, Unset):
            return_depth_mm = UNSET
        else:
            return_depth_mm = self.return_depth_mm

        lining: None | str | Unset
        if isinstance(self.lining, Unset):
            lining = UNSET
        else:
            lining = self.lining

        power_w: int | None | Unset
        if isinstance(self.power_w, Unset):
            power_w = UNSET
        else:
            power_w = self.power_w


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "body_width_mm": body_width_mm,
            "body_height_mm": body_height_mm,
            "body_depth_mm": body_depth_mm,
        })
        if opening_width_mm is not UNSET:
            field_dict["opening_width_mm"] = opening_width_mm
        if opening_height_mm is not UNSET:
            field_dict["opening_height_mm"] = opening_height_mm
        if base_height_mm is not UNSET:
            field_dict["base_height_mm"] = base_height_mm
        if clearance_top_mm is not UNSET:
            field_dict["clearance_top_mm"] = clearance_top_mm
        if clearance_side_mm is not UNSET:
            field_dict["clearance_side_mm"] = clearance_side_mm
        if clearance_back_mm is not UNSET:
            field_dict["clearance_back_mm"] = clearance_back_mm
        if mass_kg is not UNSET:
            field_dict["mass_kg"] = mass_kg
        if glass is not UNSET:
            field_dict["glass"] = glass
        if centre_mm is not UNSET:
            field_dict["centre_mm"] = centre_mm
        if return_depth_mm is not UNSET:
            field_dict["return_depth_mm"] = return_depth_mm
        if lining is not UNSET:
            field_dict["lining"] = lining
        if power_w is not UNSET:
            field_dict["power_w"] = power_w

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        body_width_mm = d.pop("body_width_mm")

        body_height_mm = d.pop("body_height_mm")

        body_depth_mm = d.pop("body_depth_mm")

        def _parse_opening_width_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        opening_width_mm = _parse_opening_width_mm(d.pop("opening_width_mm", UNSET))


        def _parse_opening_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        opening_height_mm = _parse_opening_height_mm(d.pop("opening_height_mm", UNSET))


        def _parse_base_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        base_height_mm = _parse_base_height_mm(d.pop("base_height_mm", UNSET))


        def _parse_clearance_top_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        clearance_top_mm = _parse_clearance_top_mm(d.pop("clearance_top_mm", UNSET))


        def _parse_clearance_side_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        clearance_side_mm = _parse_clearance_side_mm(d.pop("clearance_side_mm", UNSET))


        def _parse_clearance_back_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        clearance_back_mm = _parse_clearance_back_mm(d.pop("clearance_back_mm", UNSET))


        def _parse_mass_kg(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        mass_kg = _parse_mass_kg(d.pop("mass_kg", UNSET))


        def _parse_glass(data: object) -> Glass | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                glass_type_0 = Glass(data)



                return glass_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(Glass | None | Unset, data)

        glass = _parse_glass(d.pop("glass", UNSET))


        def _parse_centre_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        centre_mm = _parse_centre_mm(d.pop("centre_mm", UNSET))


        def _parse_return_depth_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        return_depth_mm = _parse_return_depth_mm(d.pop("return_depth_mm", UNSET))


        def _parse_lining(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        lining = _parse_lining(d.pop("lining", UNSET))


        def _parse_power_w(data: object) -> int | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(int | None | Unset, data)

        power_w = _parse_power_w(d.pop("power_w", UNSET))


        fire_model = cls(
            body_width_mm=body_width_mm,
            body_height_mm=body_height_mm,
            body_depth_mm=body_depth_mm,
            opening_width_mm=opening_width_mm,
            opening_height_mm=opening_height_mm,
            base_height_mm=base_height_mm,
            clearance_top_mm=clearance_top_mm,
            clearance_side_mm=clearance_side_mm,
            clearance_back_mm=clearance_back_mm,
            mass_kg=mass_kg,
            glass=glass,
            centre_mm=centre_mm,
            return_depth_mm=return_depth_mm,
            lining=lining,
            power_w=power_w,
        )

        return fire_model

