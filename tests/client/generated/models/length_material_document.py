from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.keep_document import KeepDocument
  from ..models.length_offcut_document import LengthOffcutDocument
  from ..models.length_part_document import LengthPartDocument
  from ..models.stock_length_document import StockLengthDocument





T = TypeVar("T", bound="LengthMaterialDocument")



@_attrs_define
class LengthMaterialDocument:
    """ 
        Attributes:
            material (str):
            kerf_mm (float | Unset):  Default: 3.0.
            end_trim_mm (float | Unset):  Default: 0.0.
            keep (KeepDocument | None | Unset):
            stock (list[StockLengthDocument] | Unset):
            offcuts (list[LengthOffcutDocument] | Unset):
            parts (list[LengthPartDocument] | Unset):
     """

    material: str
    kerf_mm: float | Unset = 3.0
    end_trim_mm: float | Unset = 0.0
    keep: KeepDocument | None | Unset = UNSET
    stock: list[StockLengthDocument] | Unset = UNSET
    offcuts: list[LengthOffcutDocument] | Unset = UNSET
    parts: list[LengthPartDocument] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.keep_document import KeepDocument
        from ..models.length_offcut_document import LengthOffcutDocument
        from ..models.length_part_document import LengthPartDocument
        from ..models.stock_length_document import StockLengthDocument
        material = self.material

        kerf_mm = self.kerf_mm

        end_trim_mm = self.end_trim_mm

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
        if end_trim_mm is not UNSET:
            field_dict["end_trim_mm"] = end_trim_mm
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
        from ..models.keep_document import KeepDocument
        from ..models.length_offcut_document import LengthOffcutDocument
        from ..models.length_part_document import LengthPartDocument
        from ..models.stock_length_document import StockLengthDocument
        d = dict(src_dict)
        material = d.pop("material")

        kerf_mm = d.pop("kerf_mm", UNSET)

        end_trim_mm = d.pop("end_trim_mm", UNSET)

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
        stock: list[StockLengthDocument] | Unset = UNSET
        if _stock is not UNSET:
            stock = []
            for stock_item_data in _stock:
                stock_item = StockLengthDocument.from_dict(stock_item_data)



                stock.append(stock_item)


        _offcuts = d.pop("offcuts", UNSET)
        offcuts: list[LengthOffcutDocument] | Unset = UNSET
        if _offcuts is not UNSET:
            offcuts = []
            for offcuts_item_data in _offcuts:
                offcuts_item = LengthOffcutDocument.from_dict(offcuts_item_data)



                offcuts.append(offcuts_item)


        _parts = d.pop("parts", UNSET)
        parts: list[LengthPartDocument] | Unset = UNSET
        if _parts is not UNSET:
            parts = []
            for parts_item_data in _parts:
                parts_item = LengthPartDocument.from_dict(parts_item_data)



                parts.append(parts_item)


        length_material_document = cls(
            material=material,
            kerf_mm=kerf_mm,
            end_trim_mm=end_trim_mm,
            keep=keep,
            stock=stock,
            offcuts=offcuts,
            parts=parts,
        )

        return length_material_document

