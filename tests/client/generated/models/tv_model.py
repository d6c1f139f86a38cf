from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.socket_model import SocketModel





T = TypeVar("T", bound="TvModel")



@_attrs_define
class TvModel:
    """ 
        Attributes:
            width_mm (float | None | Unset):
            height_mm (float | None | Unset):
            depth_mm (float | None | Unset):
            mass_kg (float | None | Unset):
            diagonal_in (float | None | Unset):
            centre_mm (float | None | Unset):
            centre_height_mm (float | None | Unset):
            above_fire_mm (float | None | Unset):
            finger_gap_mm (float | None | Unset):
            recess_width_mm (float | None | Unset):
            recess_height_mm (float | None | Unset):
            recess_depth_mm (float | None | Unset):
            bracket_reach_mm (float | None | Unset):
            bracket_mass_kg (float | None | Unset):
            bracket_width_mm (float | None | Unset):
            bracket_height_mm (float | None | Unset):
            eye_height_mm (float | None | Unset):
            viewing_distance_mm (float | None | Unset):
            sockets (list[SocketModel] | Unset):
     """

    width_mm: float | None | Unset = UNSET
    height_mm: float | None | Unset = UNSET
    depth_mm: float | None | Unset = UNSET
    mass_kg: float | None | Unset = UNSET
    diagonal_in: float | None | Unset = UNSET
    centre_mm: float | None | Unset = UNSET
    centre_height_mm: float | None | Unset = UNSET
    above_fire_mm: float | None | Unset = UNSET
    finger_gap_mm: float | None | Unset = UNSET
    recess_width_mm: float | None | Unset = UNSET
    recess_height_mm: float | None | Unset = UNSET
    recess_depth_mm: float | None | Unset = UNSET
    bracket_reach_mm: float | None | Unset = UNSET
    bracket_mass_kg: float | None | Unset = UNSET
    bracket_width_mm: float | None | Unset = UNSET
    bracket_height_mm: float | None | Unset = UNSET
    eye_height_mm: float | None | Unset = UNSET
    viewing_distance_mm: float | None | Unset = UNSET
    sockets: list[SocketModel] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.socket_model import SocketModel
        width_mm: float | None | Unset
        if isinstance(self.width_mm, Unset):
            width_mm = UNSET
        else:
            width_mm = self.width_mm

        height_mm: float | None | Unset
        if isinstance(self.height_mm, Unset):
            height_mm = UNSET
        else:
            height_mm = self.height_mm

        depth_mm: float | None | Unset
        if isinstance(self.depth_mm, Unset):
            depth_mm = UNSET
        else:
            depth_mm = self.depth_mm

        mass_kg: float | None | Unset
        if isinstance(self.mass_kg, Unset):
            mass_kg = UNSET
        else:
            mass_kg = self.mass_kg

        diagonal_in: float | None | Unset
        if isinstance(self.diagonal_in, Unset):
            diagonal_in = UNSET
        else:
            diagonal_in = self.diagonal_in

        centre_mm: float | None | Unset
        if isinstance(self.centre_mm, Unset):
            centre_mm = UNSET
        else:
            centre_mm = self.centre_mm

        centre_height_mm: float | None | Unset
        if isinstance(self.centre_height_mm, Unset):
            centre_height_mm = UNSET
        else:
            centre_height_mm = self.centre_height_mm

        above_fire_mm: float | None | Unset
        if isinstance(self.above_fire_mm, Unset):
            above_fire_mm = UNSET
        else:
            above_fire_mm = self.above_fire_mm

        finger_gap_mm: float | None | Unset
        if isinstance(self.finger_gap_mm, Unset):
            finger_gap_mm = UNSET
        else:
            finger_gap_mm = self.finger_gap_mm

        recess_width_mm: float | None | Unset
        if isinstance(self.recess_width_mm, Unset):
            recess_width_mm = UNSET
        else:
            recess_width_mm = self.recess_width_mm

        recess_height_mm: float | None | Unset
        if isinstance(self.recess_height_mm, Unset):
            recess_height_mm = UNSET
        else:
            recess_height_mm = self.recess_height_mm

        recess_depth_mm: float | None | Unset
        if isinstance(self.recess_depth_mm, Unset):
            recess_depth_mm = UNSET
        else:
            recess_depth_mm = self.recess_depth_mm

        bracket_reach_mm: float | None | Unset
        if isinstance(self.bracket_reach_mm, Unset):
            bracket_reach_mm = UNSET
        else:
            bracket_reach_mm = self.bracket_reach_mm

        bracket_mass_kg: float | None | Unset
        if isinstance(self.bracket_mass_kg, Unset):
            bracket_mass_kg = UNSET
        else:
            bracket_mass_kg = self.bracket_mass_kg

        bracket_width_mm: float | None | Unset
        if isinstance(self.bracket_width_mm, Unset):
            bracket_width_mm = UNSET
        else:
            bracket_width_mm = self.bracket_width_mm

        bracket_height_mm: float | None | Unset
        if isinstance(self.bracket_height_mm, Unset):
            bracket_height_mm = UNSET
        else:
            bracket_height_mm = self.bracket_height_mm

        eye_height_mm: float | None | Unset
        if isinstance(self.eye_height_mm, Unset):
            eye_height_mm = UNSET
        else:
            eye_height_mm = self.eye_height_mm

        viewing_distance_mm: float | None | Unset
        if isinstance(self.viewing_distance_mm, Unset):
            viewing_distance_mm = UNSET
        else:
            viewing_distance_mm = self.viewing_distance_mm

        sockets: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.sockets, Unset):
            sockets = []
            for sockets_item_data in self.sockets:
                sockets_item = sockets_item_data.to_dict()
                sockets.append(sockets_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if width_mm is not UNSET:
            field_dict["width_mm"] = width_mm
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm
        if depth_mm is not UNSET:
            field_dict["depth_mm"] = depth_mm
        if mass_kg is not UNSET:
            field_dict["mass_kg"] = mass_kg
        if diagonal_in is not UNSET:
            field_dict["diagonal_in"] = diagonal_in
        if centre_mm is not UNSET:
            field_dict["centre_mm"] = centre_mm
        if centre_height_mm is not UNSET:
            field_dict["centre_height_mm"] = centre_height_mm
        if above_fire_mm is not UNSET:
            field_dict["above_fire_mm"] = above_fire_mm
        if finger_gap_mm is not UNSET:
            field_dict["finger_gap_mm"] = finger_gap_mm
        if recess_width_mm is not UNSET:
            field_dict["recess_width_mm"] = recess_width_mm
        if recess_height_mm is not UNSET:
            field_dict["recess_height_mm"] = recess_height_mm
        if recess_depth_mm is not UNSET:
            field_dict["recess_depth_mm"] = recess_depth_mm
        if bracket_reach_mm is not UNSET:
            field_dict["bracket_reach_mm"] = bracket_reach_mm
        if bracket_mass_kg is not UNSET:
            field_dict["bracket_mass_kg"] = bracket_mass_kg
        if bracket_width_mm is not UNSET:
            field_dict["bracket_width_mm"] = bracket_width_mm
        if bracket_height_mm is not UNSET:
            field_dict["bracket_height_mm"] = bracket_height_mm
        if eye_height_mm is not UNSET:
            field_dict["eye_height_mm"] = eye_height_mm
        if viewing_distance_mm is not UNSET:
            field_dict["viewing_distance_mm"] = viewing_distance_mm
        if sockets is not UNSET:
            field_dict["sockets"] = sockets

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.socket_model import SocketModel
        d = dict(src_dict)
        def _parse_width_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        width_mm = _parse_width_mm(d.pop("width_mm", UNSET))


        def _parse_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_mm = _parse_height_mm(d.pop("height_mm", UNSET))


        def _parse_depth_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        depth_mm = _parse_depth_mm(d.pop("depth_mm", UNSET))


        def _parse_mass_kg(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        mass_kg = _parse_mass_kg(d.pop("mass_kg", UNSET))


        def _parse_diagonal_in(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        diagonal_in = _parse_diagonal_in(d.pop("diagonal_in", UNSET))


        def _parse_centre_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        centre_mm = _parse_centre_mm(d.pop("centre_mm", UNSET))


        def _parse_centre_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        centre_height_mm = _parse_centre_height_mm(d.pop("centre_height_mm", UNSET))


        def _parse_above_fire_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        above_fire_mm = _parse_above_fire_mm(d.pop("above_fire_mm", UNSET))


        def _parse_finger_gap_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        finger_gap_mm = _parse_finger_gap_mm(d.pop("finger_gap_mm", UNSET))


        def _parse_recess_width_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        recess_width_mm = _parse_recess_width_mm(d.pop("recess_width_mm", UNSET))


        def _parse_recess_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        recess_height_mm = _parse_recess_height_mm(d.pop("recess_height_mm", UNSET))


        def _parse_recess_depth_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        recess_depth_mm = _parse_recess_depth_mm(d.pop("recess_depth_mm", UNSET))


        def _parse_bracket_reach_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        bracket_reach_mm = _parse_bracket_reach_mm(d.pop("bracket_reach_mm", UNSET))


        def _parse_bracket_mass_kg(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        bracket_mass_kg = _parse_bracket_mass_kg(d.pop("bracket_mass_kg", UNSET))


        def _parse_bracket_width_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        bracket_width_mm = _parse_bracket_width_mm(d.pop("bracket_width_mm", UNSET))


        def _parse_bracket_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        bracket_height_mm = _parse_bracket_height_mm(d.pop("bracket_height_mm", UNSET))


        def _parse_eye_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        eye_height_mm = _parse_eye_height_mm(d.pop("eye_height_mm", UNSET))


        def _parse_viewing_distance_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        viewing_distance_mm = _parse_viewing_distance_mm(d.pop("viewing_distance_mm", UNSET))


        _sockets = d.pop("sockets", UNSET)
        sockets: list[SocketModel] | Unset = UNSET
        if _sockets is not UNSET:
            sockets = []
            for sockets_item_data in _sockets:
                sockets_item = SocketModel.from_dict(sockets_item_data)



                sockets.append(sockets_item)


        tv_model = cls(
            width_mm=width_mm,
            height_mm=height_mm,
            depth_mm=depth_mm,
            mass_kg=mass_kg,
            diagonal_in=diagonal_in,
            centre_mm=centre_mm,
            centre_height_mm=centre_height_mm,
            above_fire_mm=above_fire_mm,
            finger_gap_mm=finger_gap_mm,
            recess_width_mm=recess_width_mm,
            recess_height_mm=recess_height_mm,
            recess_depth_mm=recess_depth_mm,
            bracket_reach_mm=bracket_reach_mm,
            bracket_mass_kg=bracket_mass_kg,
            bracket_width_mm=bracket_width_mm,
            bracket_height_mm=bracket_height_mm,
            eye_height_mm=eye_height_mm,
            viewing_distance_mm=viewing_distance_mm,
            sockets=sockets,
        )

        return tv_model

