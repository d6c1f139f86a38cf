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
  from ..models.extent_model import ExtentModel
  from ..models.fire_model import FireModel
  from ..models.materials_model import MaterialsModel
  from ..models.niche_model import NicheModel
  from ..models.site_model import SiteModel
  from ..models.soundbar_model import SoundbarModel
  from ..models.step_model import StepModel
  from ..models.tv_model import TvModel





T = TypeVar("T", bound="Wall")



@_attrs_define
class Wall:
    """ 
        Attributes:
            job (str):
            site (SiteModel):
            wall (ExtentModel):
            client (str | Unset):  Default: ''.
            needed (datetime.date | None | Unset):
            fire (FireModel | None | Unset):
            tv (None | TvModel | Unset):
            soundbar (None | SoundbarModel | Unset):
            steps (list[StepModel] | Unset):
            niches (list[NicheModel] | Unset):
            materials (MaterialsModel | Unset):
     """

    job: str
    site: SiteModel
    wall: ExtentModel
    client: str | Unset = ''
    needed: datetime.date | None | Unset = UNSET
    fire: FireModel | None | Unset = UNSET
    tv: None | TvModel | Unset = UNSET
    soundbar: None | SoundbarModel | Unset = UNSET
    steps: list[StepModel] | Unset = UNSET
    niches: list[NicheModel] | Unset = UNSET
    materials: MaterialsModel | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.extent_model import ExtentModel
        from ..models.fire_model import FireModel
        from ..models.materials_model import MaterialsModel
        from ..models.niche_model import NicheModel
        from ..models.site_model import SiteModel
        from ..models.soundbar_model import SoundbarModel
        from ..models.step_model import StepModel
        from ..models.tv_model import TvModel
        job = self.job

        site = self.site.to_dict()

        wall = self.wall.to_dict()

        client = self.client

        needed: None | str | Unset
        if isinstance(self.needed, Unset):
            needed = UNSET
        elif isinstance(self.needed, datetime.date):
            needed = self.needed.isoformat()
        else:
            needed = self.needed

        fire: dict[str, Any] | None | Unset
        if isinstance(self.fire, Unset):
            fire = UNSET
        elif isinstance(self.fire, FireModel):
            fire = self.fire.to_dict()
        else:
            fire = self.fire

        tv: dict[str, Any] | None | Unset
        if isinstance(self.tv, Unset):
            tv = UNSET
        elif isinstance(self.tv, TvModel):
            tv = self.tv.to_dict()
        else:
            tv = self.tv

        soundbar: dict[str, Any] | None | Unset
        if isinstance(self.soundbar, Unset):
            soundbar = UNSET
        elif isinstance(self.soundbar, SoundbarModel):
            soundbar = self.soundbar.to_dict()
        else:
            soundbar = self.soundbar

        steps: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.steps, Unset):
            steps = []
            for steps_item_data in self.steps:
                steps_item = steps_item_data.to_dict()
                steps.append(steps_item)



        niches: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.niches, Unset):
            niches = []
            for niches_item_data in self.niches:
                niches_item = niches_item_data.to_dict()
                niches.append(niches_item)



        materials: dict[str, Any] | Unset = UNSET
        if not isinstance(self.materials, Unset):
            materials = self.materials.to_dict()


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "job": job,
            "site": site,
            "wall": wall,
        })
        if client is not UNSET:
            field_dict["client"] = client
        if needed is not UNSET:
            field_dict["needed"] = needed
        if fire is not UNSET:
            field_dict["fire"] = fire
        if tv is not UNSET:
            field_dict["tv"] = tv
        if soundbar is not UNSET:
            field_dict["soundbar"] = soundbar
        if steps is not UNSET:
            field_dict["steps"] = steps
        if niches is not UNSET:
            field_dict["niches"] = niches
        if materials is not UNSET:
            field_dict["materials"] = materials

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.extent_model import ExtentModel
        from ..models.fire_model import FireModel
        from ..models.materials_model import MaterialsModel
        from ..models.niche_model import NicheModel
        from ..models.site_model import SiteModel
        from ..models.soundbar_model import SoundbarModel
        from ..models.step_model import StepModel
        from ..models.tv_model import TvModel
        d = dict(src_dict)
        job = d.pop("job")

        site = SiteModel.from_dict(d.pop("site"))




        wall = ExtentModel.from_dict(d.pop("wall"))




        client = d.pop("client", UNSET)

        def _parse_needed(data: object) -> datetime.date | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                needed_type_0 = datetime.date.fromisoformat(data)



                return needed_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(datetime.date | None | Unset, data)

        needed = _parse_needed(d.pop("needed", UNSET))


        def _parse_fire(data: object) -> FireModel | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                fire_type_0 = FireModel.from_dict(data)



                return fire_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(FireModel | None | Unset, data)

        fire = _parse_fire(d.pop("fire", UNSET))


        def _parse_tv(data: object) -> None | TvModel | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                tv_type_0 = TvModel.from_dict(data)



                return tv_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(None | TvModel | Unset, data)

        tv = _parse_tv(d.pop("tv", UNSET))


        def _parse_soundbar(data: object) -> None | SoundbarModel | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                soundbar_type_0 = SoundbarModel.from_dict(data)



                return soundbar_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(None | SoundbarModel | Unset, data)

        soundbar = _parse_soundbar(d.pop("soundbar", UNSET))


        _steps = d.pop("steps", UNSET)
        steps: list[StepModel] | Unset = UNSET
        if _steps is not UNSET:
            steps = []
            for steps_item_data in _steps:
                steps_item = StepModel.from_dict(steps_item_data)



                steps.append(steps_item)


        _niches = d.pop("niches", UNSET)
        niches: list[NicheModel] | Unset = UNSET
        if _niches is not UNSET:
            niches = []
            for niches_item_data in _niches:
                niches_item = NicheModel.from_dict(niches_item_data)



                niches.append(niches_item)


        _materials = d.pop("materials", UNSET)
        materials: MaterialsModel | Unset
        if isinstance(_materials,  Unset):
            materials = UNSET
        else:
            materials = MaterialsModel.from_dict(_materials)




        wall = cls(
            job=job,
            site=site,
            wall=wall,
            client=client,
            needed=needed,
            fire=fire,
            tv=tv,
            soundbar=soundbar,
            steps=steps,
            niches=niches,
            materials=materials,
        )

        return wall

