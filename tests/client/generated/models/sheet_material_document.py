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
  from ..models.board_part_document import BoardPartDocument
  from ..models.keep_document import KeepDocument
  from ..models.sheet_material_document_edge_trim_mm_type_1 import SheetMaterialDocumentEdgeTrimMmType1
  from ..models.sheet_offcut_document import SheetOffcutDocument
  from ..models.stock_sheet_document import StockSheetDocument





T = TypeVar("T", bound="SheetMaterialDocument")



@_attrs_define
class SheetMaterialDocument:
    """ 
        Attributes:
            material (str):
            kerf_mm (float | None | Unset):
            edge_trim_mm (float | SheetMaterialDocumentEdgeTrimMmType1 | Unset):  Default: 0.0.
            max_stages (int | None | Unset):
            first_cut (Direction | None | Unset):
            use_cut_outs (bool | Unset):  Default: False.
            cut_out_trim_mm (float | Unset):  Default: 5.0.
            cutting (Cutting | Unset):
            keep (KeepDocument | None | Unset):
            stock (list[StockSheetDocument] | Unset):
            offcuts (list[SheetOffcutDocument] | Unset):
            parts (list[BoardPartDocument] | Unset):
     """

    material: str
    kerf_mm: float | None | Unset = UNSET
    edge_trim_mm: float | SheetMaterialDocumentEdgeTrimMmType1 | Unset = 0.0
    max_stages: int | None | Unset = UNSET
    first_cut: Direction | None | Unset = UNSET
    use_cut_outs: bool | Unset = False
    cut_out_trim_mm: float | Unset = 5.0
    cutting: Cutting | Unset = UNSET
    keep: KeepDocument | None | Unset = UNSET
    stock: list[StockSheetDocument] | Unset = UNSET
    offcuts: list[SheetOffcutDocument] | Unset = UNSET
    parts: list[BoardPartDocument] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.board_part_document import BoardPartDocument
        from ..models.keep_document import KeepDocument
        from ..models.sheet_material_document_edge_trim_mm_type_1 import SheetMaterialDocumentEdgeTrimMmType1
        from ..models.sheet_offcut_document import SheetOffcutDocument
        from ..models.stock_sheet_document import StockSheetDocument
        material = self.material

        kerf_mm: float | None | Unset
        if isinstance(self.kerf_mm, Unset):
            kerf_mm = UNSET
        else:
            kerf_mm = self.kerf_mm

        edge_trim_mm: dict[str, Any] | float | Unset
        if isinstance(self.edge_trim_mm, Unset):
            edge_trim_mm = UNSET
        elif isinstance(self.edge_trim_mm, SheetMaterialDocumentEdgeTrimMmType1):
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

        cutting: str | Unset = UNSET
        if not isinstance(self.cutting, Unset):
            cutting = self.cutting.value


        keep: dict[str, Any] | None | Unset
        if isinstance(self.keep, Unset):
            keep = UNSET
        elif isinstance(self.keep, KeepDocument):
            keep = self.keep.to_dict()
        else:
            keep = self.keep

        stock: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.stock, Unset):
            stock = []
            for stock_item_data in self.stock:
                stock_item = stock_item_data.to_dict()
                stock.append(stock_item)



        offcuts: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.offcuts, Unset):
            offcuts = []
            for offcuts_item_data in self.offcuts:
                offcuts_item = offcuts_item_data.to_dict()
                offcuts.append(offcuts_item)



        parts: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.parts, Unset):
            parts = []
            for parts_item_data in self.parts:
                parts_item = parts_item_data.to_dict()
                parts.append(parts_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "material": material,
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
        if cutting is not UNSET:
            field_dict["cutting"] = cutting
        if keep is not UNSET:
            field_dict["keep"] = keep
        if stock is not UNSET:
            field_dict["stock"] = stock
        if offcuts is not UNSET:
            field_dict["offcuts"] = offcuts
        if parts is not UNSET:
            field_dict["parts"] = parts

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.board_part_document import BoardPartDocument
        from ..models.keep_document import KeepDocument
        from ..models.sheet_material_document_edge_trim_mm_type_1 import SheetMaterialDocumentEdgeTrimMmType1
        from ..models.sheet_offcut_document import SheetOffcutDocument
        from ..models.stock_sheet_document import StockSheetDocument
        d = dict(src_dict)
        material = d.pop("material")

        def _parse_kerf_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        kerf_mm = _parse_kerf_mm(d.pop("kerf_mm", UNSET))


        def _parse_edge_trim_mm(data: object) -> float | SheetMaterialDocumentEdgeTrimMmType1 | Unset:
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                edge_trim_mm_type_1 = SheetMaterialDocumentEdgeTrimMmType1.from_dict(data)



                return edge_trim_mm_type_1
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(float | SheetMaterialDocumentEdgeTrimMmType1 | Unset, data)

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

        _cutting = d.pop("cutting", UNSET)
        cutting: Cutting | Unset
        if isinstance(_cutting,  Unset):
            cutting = UNSET
        else:
            cutting = Cutting(_cutting)




        def _parse_keep(data: object) -> KeepDocument | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                keep_type_0 = KeepDocument.from_dict(data)



                return keep_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(KeepDocument | None | Unset, data)

        keep = _parse_keep(d.pop("keep", UNSET))


        _stock = d.pop("stock", UNSET)
        stock: list[StockSheetDocument] | Unset = UNSET
        if _stock is not UNSET:
            stock = []
            for stock_item_data in _stock:
                stock_item = StockSheetDocument.from_dict(stock_item_data)



                stock.append(stock_item)


        _offcuts = d.pop("offcuts", UNSET)
        offcuts: list[SheetOffcutDocument] | Unset = UNSET
        if _offcuts is not UNSET:
            offcuts = []
            for offcuts_item_data in _offcuts:
                offcuts_item = SheetOffcutDocument.from_dict(offcuts_item_data)



                offcuts.append(offcuts_item)


        _parts = d.pop("parts", UNSET)
        parts: list[BoardPartDocument] | Unset = UNSET
        if _parts is not UNSET:
            parts = []
            for parts_item_data in _parts:
                parts_item = BoardPartDocument.from_dict(parts_item_data)



                parts.append(parts_item)


        sheet_material_document = cls(
            material=material,
            kerf_mm=kerf_mm,
            edge_trim_mm=edge_trim_mm,
            max_stages=max_stages,
            first_cut=first_cut,
            use_cut_outs=use_cut_outs,
            cut_out_trim_mm=cut_out_trim_mm,
            cutting=cutting,
            keep=keep,
            stock=stock,
            offcuts=offcuts,
            parts=parts,
        )

        return sheet_material_document

