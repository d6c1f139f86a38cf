from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.saw_document_layouts_item_kind import SawDocumentLayoutsItemKind
from typing import cast

if TYPE_CHECKING:
  from ..models.saw_document_layouts_item_cuts_item import SawDocumentLayoutsItemCutsItem
  from ..models.saw_document_layouts_item_left_item import SawDocumentLayoutsItemLeftItem
  from ..models.saw_document_layouts_item_parts_item import SawDocumentLayoutsItemPartsItem





T = TypeVar("T", bound="SawDocumentLayoutsItem")



@_attrs_define
class SawDocumentLayoutsItem:
    """ 
        Attributes:
            material (str):
            layout (int):
            stock (str):
            offcut (bool):
            count (int):
            kind (SawDocumentLayoutsItemKind):
            width_mm (float):
            height_mm (float):
            kerf_mm (float):
            trim_mm (float):
            parts (list[SawDocumentLayoutsItemPartsItem]):
            cuts (list[SawDocumentLayoutsItemCutsItem]):
            left (list[SawDocumentLayoutsItemLeftItem]):
     """

    material: str
    layout: int
    stock: str
    offcut: bool
    count: int
    kind: SawDocumentLayoutsItemKind
    width_mm: float
    height_mm: float
    kerf_mm: float
    trim_mm: float
    parts: list[SawDocumentLayoutsItemPartsItem]
    cuts: list[SawDocumentLayoutsItemCutsItem]
    left: list[SawDocumentLayoutsItemLeftItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.saw_document_layouts_item_cuts_item import SawDocumentLayoutsItemCutsItem
        from ..models.saw_document_layouts_item_left_item import SawDocumentLayoutsItemLeftItem
        from ..models.saw_document_layouts_item_parts_item import SawDocumentLayoutsItemPartsItem
        material = self.material

        layout = self.layout

        stock = self.stock

        offcut = self.offcut

        count = self.count

        kind = self.kind.value

        width_mm = self.width_mm

        height_mm = self.height_mm

        kerf_mm = self.kerf_mm

        trim_mm = self.trim_mm

        parts = []
        for parts_item_data in self.parts:
            parts_item = parts_item_data.to_dict()
            parts.append(parts_item)



        cuts = []
        for cuts_item_data in self.cuts:
            cuts_item = cuts_item_data.to_dict()
            cuts.append(cuts_item)



        left = []
        for left_item_data in self.left:
            left_item = left_item_data.to_dict()
            left.append(left_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "material": material,
            "layout": layout,
            "stock": stock,
            "offcut": offcut,
            "count": count,
            "kind": kind,
            "width_mm": width_mm,
            "height_mm": height_mm,
            "kerf_mm": kerf_mm,
            "trim_mm": trim_mm,
            "parts": parts,
            "cuts": cuts,
            "left": left,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.saw_document_layouts_item_cuts_item import SawDocumentLayoutsItemCutsItem
        from ..models.saw_document_layouts_item_left_item import SawDocumentLayoutsItemLeftItem
        from ..models.saw_document_layouts_item_parts_item import SawDocumentLayoutsItemPartsItem
        d = dict(src_dict)
        material = d.pop("material")

        layout = d.pop("layout")

        stock = d.pop("stock")

        offcut = d.pop("offcut")

        count = d.pop("count")

        kind = SawDocumentLayoutsItemKind(d.pop("kind"))




        width_mm = d.pop("width_mm")

        height_mm = d.pop("height_mm")

        kerf_mm = d.pop("kerf_mm")

        trim_mm = d.pop("trim_mm")

        parts = []
        _parts = d.pop("parts")
        for parts_item_data in (_parts):
            parts_item = SawDocumentLayoutsItemPartsItem.from_dict(parts_item_data)



            parts.append(parts_item)


        cuts = []
        _cuts = d.pop("cuts")
        for cuts_item_data in (_cuts):
            cuts_item = SawDocumentLayoutsItemCutsItem.from_dict(cuts_item_data)



            cuts.append(cuts_item)


        left = []
        _left = d.pop("left")
        for left_item_data in (_left):
            left_item = SawDocumentLayoutsItemLeftItem.from_dict(left_item_data)



            left.append(left_item)


        saw_document_layouts_item = cls(
            material=material,
            layout=layout,
            stock=stock,
            offcut=offcut,
            count=count,
            kind=kind,
            width_mm=width_mm,
            height_mm=height_mm,
            kerf_mm=kerf_mm,
            trim_mm=trim_mm,
            parts=parts,
            cuts=cuts,
            left=left,
        )


        saw_document_layouts_item.additional_properties = d
        return saw_document_layouts_item

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
