from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.sold_length_model import SoldLengthModel





T = TypeVar("T", bound="LengthItemModel")



@_attrs_define
class LengthItemModel:
    """ 
        Attributes:
            material (str):
            description (str):
            thickness_mm (float):
            width_mm (float):
            mass_kg_per_m (float):
            stock (list[SoldLengthModel]):
            grade (str | Unset):  Default: ''.
            kerf_mm (float | Unset):  Default: 3.0.
            end_trim_mm (float | Unset):  Default: 0.0.
     """

    material: str
    description: str
    thickness_mm: float
    width_mm: float
    mass_kg_per_m: float
    stock: list[SoldLengthModel]
    grade: str | Unset = ''
    kerf_mm: float | Unset = 3.0
    end_trim_mm: float | Unset = 0.0





    def to_dict(self) -> dict[str, Any]:
        from ..models.sold_length_model import SoldLengthModel
        material = self.material

        description = self.description

        thickness_mm = self.thickness_mm

        width_mm = self.width_mm

        mass_kg_per_m = self.mass_kg_per_m

        stock = []
        for stock_item_data in self.stock:
            stock_item = stock_item_data.to_dict()
            stock.append(stock_item)



        grade = self.grade

        kerf_mm = self.kerf_mm

        end_trim_mm = self.end_trim_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "material": material,
            "description": description,
            "thickness_mm": thickness_mm,
            "width_mm": width_mm,
            "mass_kg_per_m": mass_kg_per_m,
            "stock": stock,
        })
        if grade is not UNSET:
            field_dict["grade"] = grade
        if kerf_mm is not UNSET:
            field_dict["kerf_mm"] = kerf_mm
        if end_trim_mm is not UNSET:
            field_dict["end_trim_mm"] = end_trim_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.sold_length_model import SoldLengthModel
        d = dict(src_dict)
        material = d.pop("material")

        description = d.pop("description")

        thickness_mm = d.pop("thickness_mm")

        width_mm = d.pop("width_mm")

        mass_kg_per_m = d.pop("mass_kg_per_m")

        stock = []
        _stock = d.pop("stock")
        for stock_item_data in (_stock):
            stock_item = SoldLengthModel.from_dict(stock_item_data)



            stock.append(stock_item)


        grade = d.pop("grade", UNSET)

        kerf_mm = d.pop("kerf_mm", UNSET)

        end_trim_mm = d.pop("end_trim_mm", UNSET)

        length_item_model = cls(
            material=material,
            description=description,
            thickness_mm=thickness_mm,
            width_mm=width_mm,
            mass_kg_per_m=mass_kg_per_m,
            stock=stock,
            grade=grade,
            kerf_mm=kerf_mm,
            end_trim_mm=end_trim_mm,
        )

        return length_item_model

