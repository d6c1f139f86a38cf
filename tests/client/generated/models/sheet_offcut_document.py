from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.sheet_offcut_document_edge_trim_mm_type_1 import SheetOffcutDocumentEdgeTrimMmType1





T = TypeVar("T", bound="SheetOffcutDocument")



@_attrs_define
class SheetOffcutDocument:
    """ 
        Attributes:
            id (str):
            width_mm (float):
            height_mm (float):
            edge_trim_mm (float | SheetOffcutDocumentEdgeTrimMmType1 | Unset):  Default: 0.0.
     """

    id: str
    width_mm: float
    height_mm: float
    edge_trim_mm: float | SheetOffcutDocumentEdgeTrimMmType1 | Unset = 0.0





    def to_dict(self) -> dict[str, Any]:
        from ..models.sheet_offcut_document_edge_trim_mm_type_1 import SheetOffcutDocumentEdgeTrimMmType1
        id = self.id

        width_mm = self.width_mm

        height_mm = self.height_mm

        edge_trim_mm: dict[str, Any] | float | Unset
        if isinstance(self.edge_trim_mm, Unset):
            edge_trim_mm = UNSET
        elif isinstance(self.edge_trim_mm, SheetOffcutDocumentEdgeTrimMmType1):
            edge_trim_mm = self.edge_trim_mm.to_dict()
        else:
            edge_trim_mm = self.edge_trim_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "width_mm": width_mm,
            "height_mm": height_mm,
        })
        if edge_trim_mm is not UNSET:
            field_dict["edge_trim_mm"] = edge_trim_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.sheet_offcut_document_edge_trim_mm_type_1 import SheetOffcutDocumentEdgeTrimMmType1
        d = dict(src_dict)
        id = d.pop("id")

        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        def _parse_edge_trim_mm(data: object) -> float | SheetOffcutDocumentEdgeTrimMmType1 | Unset:
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                edge_trim_mm_type_1 = SheetOffcutDocumentEdgeTrimMmType1.from_dict(data)



                return edge_trim_mm_type_1
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(float | SheetOffcutDocumentEdgeTrimMmType1 | Unset, data)

        edge_trim_mm = _parse_edge_trim_mm(d.pop("edge_trim_mm", UNSET))


        sheet_offcut_document = cls(
            id=id,
            width_mm=width_mm,
            height_mm=height_mm,
            edge_trim_mm=edge_trim_mm,
        )

        return sheet_offcut_document

