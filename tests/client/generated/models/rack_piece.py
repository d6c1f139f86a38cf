from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast
import datetime






T = TypeVar("T", bound="RackPiece")



@_attrs_define
class RackPiece:
    """ 
        Attributes:
            id (str):
            material (str):
            place (str):
            length_mm (float | Unset):
            width_mm (float | Unset):
            height_mm (float | Unset):
            held_by (None | str | Unset):
            racked (datetime.datetime | None | Unset):
     """

    id: str
    material: str
    place: str
    length_mm: float | Unset = UNSET
    width_mm: float | Unset = UNSET
    height_mm: float | Unset = UNSET
    held_by: None | str | Unset = UNSET
    racked: datetime.datetime | None | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        id = self.id

        material = self.material

        place = self.place

        length_mm = self.length_mm

        width_mm = self.width_mm

        height_mm = self.height_mm

        held_by: None | str | Unset
        if isinstance(self.held_by, Unset):
            held_by = UNSET
        else:
            held_by = self.held_by

        racked: None | str | Unset
        if isinstance(self.racked, Unset):
            racked = UNSET
        elif isinstance(self.racked, datetime.datetime):
            racked = self.racked.isoformat()
        else:
            racked = self.racked


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "material": material,
            "place": place,
        })
        if length_mm is not UNSET:
            field_dict["length_mm"] = length_mm
        if width_mm is not UNSET:
            field_dict["width_mm"] = width_mm
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm
        if held_by is not UNSET:
            field_dict["held_by"] = held_by
        if racked is not UNSET:
            field_dict["racked"] = racked

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        id = d.pop("id")

        material = d.pop("material")

        place = d.pop("place")

        length_mm = d.pop("length_mm", UNSET)

        width_mm = d.pop("width_mm", UNSET)

        height_mm = d.pop("height_mm", UNSET)

        def _parse_held_by(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        held_by = _parse_held_by(d.pop("held_by", UNSET))


        def _parse_racked(data: object) -> datetime.datetime | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                racked_type_0 = datetime.datetime.fromisoformat(data)



                return racked_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(datetime.datetime | None | Unset, data)

        racked = _parse_racked(d.pop("racked", UNSET))


        rack_piece = cls(
            id=id,
            material=material,
            place=place,
            length_mm=length_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            held_by=held_by,
            racked=racked,
        )


        rack_piece.additional_properties = d
        return rack_piece

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
