from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.existing_wall import ExistingWall
from ..models.floor import Floor
from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.accessory_model import AccessoryModel
  from ..models.projection_model import ProjectionModel
  from ..models.survey_point_model import SurveyPointModel





T = TypeVar("T", bound="SiteModel")



@_attrs_define
class SiteModel:
    """ 
        Attributes:
            clear_width_mm (float):
            height_left_mm (float | None | Unset):
            height_middle_mm (float | None | Unset):
            height_right_mm (float | None | Unset):
            floor_fall_mm (float | Unset):  Default: 0.0.
            kind (ExistingWall | None | Unset):
            floor (Floor | None | Unset):
            stud_positions_mm (list[float] | Unset):
            levels (list[SurveyPointModel] | Unset):
            lean_left_mm (float | Unset):  Default: 0.0.
            lean_right_mm (float | Unset):  Default: 0.0.
            skirting_mm (float | None | Unset):
            plug_spacing_mm (float | None | Unset):
            projections (list[ProjectionModel] | Unset):
            accessories (list[AccessoryModel] | Unset):
     """

    clear_width_mm: float
    height_left_mm: float | None | Unset = UNSET
    height_middle_mm: float | None | Unset = UNSET
    height_right_mm: float | None | Unset = UNSET
    floor_fall_mm: float | Unset = 0.0
    kind: ExistingWall | None | Unset = UNSET
    floor: Floor | None | Unset = UNSET
    stud_positions_mm: list[float] | Unset = UNSET
    levels: list[SurveyPointModel] | Unset = UNSET
    lean_left_mm: float | Unset = 0.0
    lean_right_mm: float | Unset = 0.0
    skirting_mm: float | None | Unset = UNSET
    plug_spacing_mm: float | None | Unset = UNSET
    projections: list[ProjectionModel] | Unset = UNSET
    accessories: list[AccessoryModel] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.accessory_model import AccessoryModel
        from ..models.projection_model import ProjectionModel
        from ..models.survey_point_model import SurveyPointModel
        clear_width_mm = self.clear_width_mm

        height_left_mm: float | None | Unset
        if isinstance(self.height_left_mm, Unset):
            height_left_mm = UNSET
        else:
            height_left_mm = self.height_left_mm

        height_middle_mm: float | None | Unset
        if isinstance(self.height_middle_mm, Unset):
            height_middle_mm = UNSET
        else:
            height_middle_mm = self.height_middle_mm

        height_right_mm: float | None | Unset
        if isinstance(self.height_right_mm, Unset):
            height_right_mm = UNSET
        else:
            height_right_mm = self.height_right_mm

        floor_fall_mm = self.floor_fall_mm

        kind: None | str | Unset
        if isinstance(self.kind, Unset):
            kind = UNSET
        elif isinstance(self.kind, ExistingWall):
            kind = self.kind.value
        else:
            kind = self.kind

        floor: None | str | Unset
        if isinstance(self.floor, Unset):
            floor = UNSET
        elif isinstance(self.floor, Floor):
            floor = self.floor.value
        else:
            floor = self.floor

        stud_positions_mm: list[float] | Unset = UNSET
        if not isinstance(self.stud_positions_mm, Unset):
            stud_positions_mm = self.stud_positions_mm



        levels: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.levels, Unset):
            levels = []
            for levels_item_data in self.levels:
                levels_item = levels_item_data.to_dict()
                levels.append(levels_item)



        lean_left_mm = self.lean_left_mm

        lean_right_mm = self.lean_right_mm

        skirting_mm: float | None | Unset
        if isinstance(self.skirting_mm, Unset):
            skirting_mm = UNSET
        else:
            skirting_mm = self.skirting_mm

        plug_spacing_mm: float | None | Unset
        if isinstance(self.plug_spacing_mm, Unset):
            plug_spacing_mm = UNSET
        else:
            plug_spacing_mm = self.plug_spacing_mm

        projections: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.projections, Unset):
            projections = []
            for projections_item_data in self.projections:
                projections_item = projections_item_data.to_dict()
                projections.append(projections_item)



        accessories: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.accessories, Unset):
            accessories = []
            for accessories_item_data in self.accessories:
                accessories_item = accessories_item_data.to_dict()
                accessories.append(accessories_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "clear_width_mm": clear_width_mm,
        })
        if height_left_mm is not UNSET:
            field_dict["height_left_mm"] = height_left_mm
        if height_middle_mm is not UNSET:
            field_dict["height_middle_mm"] = height_middle_mm
        if height_right_mm is not UNSET:
            field_dict["height_right_mm"] = height_right_mm
        if floor_fall_mm is not UNSET:
            field_dict["floor_fall_mm"] = floor_fall_mm
        if kind is not UNSET:
            field_dict["kind"] = kind
        if floor is not UNSET:
            field_dict["floor"] = floor
        if stud_positions_mm is not UNSET:
            field_dict["stud_positions_mm"] = stud_positions_mm
        if levels is not UNSET:
            field_dict["levels"] = levels
        if lean_left_mm is not UNSET:
            field_dict["lean_left_mm"] = lean_left_mm
        if lean_right_mm is not UNSET:
            field_dict["lean_right_mm"] = lean_right_mm
        if skirting_mm is not UNSET:
            field_dict["skirting_mm"] = skirting_mm
        if plug_spacing_mm is not UNSET:
            field_dict["plug_spacing_mm"] = plug_spacing_mm
        if projections is not UNSET:
            field_dict["projections"] = projections
        if accessories is not UNSET:
            field_dict["accessories"] = accessories

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.accessory_model import AccessoryModel
        from ..models.projection_model import ProjectionModel
        from ..models.survey_point_model import SurveyPointModel
        d = dict(src_dict)
        clear_width_mm = d.pop("clear_width_mm")

        def _parse_height_left_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_left_mm = _parse_height_left_mm(d.pop("height_left_mm", UNSET))


        def _parse_height_middle_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_middle_mm = _parse_height_middle_mm(d.pop("height_middle_mm", UNSET))


        def _parse_height_right_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_right_mm = _parse_height_right_mm(d.pop("height_right_mm", UNSET))


        floor_fall_mm = d.pop("floor_fall_mm", UNSET)

        def _parse_kind(data: object) -> ExistingWall | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                kind_type_0 = ExistingWall(data)



                return kind_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(ExistingWall | None | Unset, data)

        kind = _parse_kind(d.pop("kind", UNSET))


        def _parse_floor(data: object) -> Floor | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                floor_type_0 = Floor(data)



                return floor_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(Floor | None | Unset, data)

        floor = _parse_floor(d.pop("floor", UNSET))


        stud_positions_mm = cast(list[float], d.pop("stud_positions_mm", UNSET))


        _levels = d.pop("levels", UNSET)
        levels: list[SurveyPointModel] | Unset = UNSET
        if _levels is not UNSET:
            levels = []
            for levels_item_data in _levels:
                levels_item = SurveyPointModel.from_dict(levels_item_data)



                levels.append(levels_item)


        lean_left_mm = d.pop("lean_left_mm", UNSET)

        lean_right_mm = d.pop("lean_right_mm", UNSET)

        def _parse_skirting_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        skirting_mm = _parse_skirting_mm(d.pop("skirting_mm", UNSET))


        def _parse_plug_spacing_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        plug_spacing_mm = _parse_plug_spacing_mm(d.pop("plug_spacing_mm", UNSET))


        _projections = d.pop("projections", UNSET)
        projections: list[ProjectionModel] | Unset = UNSET
        if _projections is not UNSET:
            projections = []
            for projections_item_data in _projections:
                projections_item = ProjectionModel.from_dict(projections_item_data)



                projections.append(projections_item)


        _accessories = d.pop("accessories", UNSET)
        accessories: list[AccessoryModel] | Unset = UNSET
        if _accessories is not UNSET:
            accessories = []
            for accessories_item_data in _accessories:
                accessories_item = AccessoryModel.from_dict(accessories_item_data)



                accessories.append(accessories_item)


        site_model = cls(
            clear_width_mm=clear_width_mm,
            height_left_mm=height_left_mm,
            height_middle_mm=height_middle_mm,
            height_right_mm=height_right_mm,
            floor_fall_mm=floor_fall_mm,
            kind=kind,
            floor=floor,
            stud_positions_mm=stud_positions_mm,
            levels=levels,
            lean_left_mm=lean_left_mm,
            lean_right_mm=lean_right_mm,
            skirting_mm=skirting_mm,
            plug_spacing_mm=plug_spacing_mm,
            projections=projections,
            accessories=accessories,
        )

        return site_model

