from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.cutting import Cutting
from ..models.direction import Direction
from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.sheet_item_model_edge_trim_mm_type_1 import SheetItemModelEdgeTrimMmType1
  from ..models.sold_sheet_model import SoldSheetModel





T = TypeVar("T", bound="SheetItemModel")



@_attrs_define
class SheetItemModel:
    """ 
        Attributes:
            material (str):
            description (str):
            thickness_mm (float):
            mass_kg_per_m2 (float):
            cutting (Cutting):
            stock (list[SoldSheetModel]):
            kerf_mm (float | None | Unset):
            edge_trim_mm (float | SheetItemModelEdgeTrimMmType1 | Unset):  Default: 0.0.
            max_stages (int | None | Unset):
            first_cut (Direction | None | Unset):
            use_cut_outs (bool | Unset):  Default: False.
            cut_out_trim_mm (float | Unset):  Default: 5.0.
            reaction_to_fire (str | Unset):  Default: ''.
     """

    material: str
    description: str
    thickness_mm: float
    mass_kg_per_m2: float
    cutting: Cutting
    stock: list[SoldSheetModel]
    kerf_mm: float | None | Unset = UNSET
    edge_trim_mm: float | SheetItemModelEdgeTrimMmType1 | Unset = 0.0
    max_stages: int | None | Unset = UNSET
    first_cut: Direction | None | Unset = UNSET
    use_cut_outs: bool | Unset = False
    cut_out_trim_mm: float | Unset = 5.0
    reaction_to_fire: str | Unset = ''





    def to_dict(self) -> dict[str, Any]:
        from ..models.sheet_item_model_edge_trim_mm_type_1 import SheetItemModelEdgeTrimMmType1
        from ..models.sold_sheet_model import SoldSheetModel
        material = self.material

        description = self.description

        thickness_mm = self.thickness_mm

        mass_kg_per_m2 = self.mass_kg_per_m2

        cutting = self.cutting.value

        stock = []
        for stock_item_data in self.stock:
            stock_item = stock_item_data.to_dict()
            stock.append(stock_item)



        kerf_mm: float | None | Unset
        if isinstance(self.kerf_mm, Unset):
            kerf_mm = UNSET
        else:
            kerf_mm = self.kerf_mm

        edge_trim_mm: dict[str, Any] | float | Unset
        if isinstance(self.edge_trim_mm, Unset):
            edge_trim_mm = UNSET
        elif isinstance(self.edge_trim_mm, SheetItemModelEdgeTrimMmType1):
            edge_trim_mm = self.edge_trim_mm.to_dict()
        else:
            edge_trim_mm = self.edge_trim_mm

        max_stages: int | None | Unset
        if isinstance(self.max_stages, Unset):
            max_stages = UNSET
        else:
            max_stages = self.max_stages

        first_cut: None | str | Unset
        if isinstance(self.first_cut, Unset):
            first_cut = UNSET
        elif isinstance(self.first_cut, Direction):
            first_cut = self.first_cut.value
        else:
            first_cut = self.first_cut

        use_cut_outs = self.use_cut_outs

        cut_out_trim_mm = self.cut_out_trim_mm

        reaction_to_fire = self.reaction_to_fire


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "material": material,
            "description": description,
            "thickness_mm": thickness_mm,
            "mass_kg_per_m2": mass_kg_per_m2,
            "cutting": cutting,
            "stock": stock,
        })
        if kerf_mm is not UNSET:
            field_dict["kerf_mm"] = kerf_mm
        if edge_trim_mm is not UNSET:
            field_dict["edge_trim_mm"] = edge_trim_mm
        if max_stages is not UNSET:
            field_dict["max_stages"] = max_stages
        if first_cut is not UNSET:
            field_dict["first_cut"] = first_cut
        if use_cut_outs is not UNSET:
            field_dict["use_cut_outs"] = use_cut_outs
        if cut_out_trim_mm is not UNSET:
            field_dict["cut_out_trim_mm"] = cut_out_trim_mm
        if reaction_to_fire is not UNSET:
            field_dict["reaction_to_fire"] = reaction_to_fire

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.sheet_item_model_edge_trim_mm_type_1 import SheetItemModelEdgeTrimMmType1
        from ..models.sold_sheet_model import SoldSheetModel
        d = dict(src_dict)
        material = d.pop("material")

        description = d.pop("description")

        thickness_mm = d.pop("thickness_mm")

        mass_kg_per_m2 = d.pop("mass_kg_per_m2")

        cutting = Cutting(d.pop("cutting"))




        stock = []
        _stock = d.pop("stock")
        for stock_item_data in (_stock):
            stock_item = SoldSheetModel.from_dict(stock_item_data)



            stock.append(stock_item)


        def _parse_kerf_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        kerf_mm = _parse_kerf_mm(d.pop("kerf_mm", UNSET))


        def _parse_edge_trim_mm(data: object) -> float | SheetItemModelEdgeTrimMmType1 | Unset:
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                edge_trim_mm_type_1 = SheetItemModelEdgeTrimMmType1.from_dict(data)



                return edge_trim_mm_type_1
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(float | SheetItemModelEdgeTrimMmType1 | Unset, data)

        edge_trim_mm = _parse_edge_trim_mm(d.pop("edge_trim_mm", UNSET))


        def _parse_max_stages(data: object) -> int | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(int | None | Unset, data)

        max_stages = _parse_max_stages(d.pop("max_stages", UNSET))


        def _parse_first_cut(data: object) -> Direction | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                first_cut_type_0 = Direction(data)



                return first_cut_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(Direction | None | Unset, data)

        first_cut = _parse_first_cut(d.pop("first_cut", UNSET))


        use_cut_outs = d.pop("use_cut_outs", UNSET)

        cut_out_trim_mm = d.pop("cut_out_trim_mm", UNSET)

        reaction_to_fire = d.pop("reaction_to_fire", UNSET)

        sheet_item_model = cls(
            material=material,
            description=description,
            thickness_mm=thickness_mm,
            mass_kg_per_m2=mass_kg_per_m2,
            cutting=cutting,
            stock=stock,
            kerf_mm=kerf_mm,
            edge_trim_mm=edge_trim_mm,
            max_stages=max_stages,
            first_cut=first_cut,
            use_cut_outs=use_cut_outs,
            cut_out_trim_mm=cut_out_trim_mm,
            reaction_to_fire=reaction_to_fire,
        )

        return sheet_item_model

