from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.length_cut_document import LengthCutDocument
  from ..models.placed_length_document import PlacedLengthDocument
  from ..models.stretch_document import StretchDocument





T = TypeVar("T", bound="LengthLayoutDocument")



@_attrs_define
class LengthLayoutDocument:
    """ 
        Attributes:
            stock (str):
            offcut (bool):
            count (int):
            cuts (list[LengthCutDocument]):
            parts (list[PlacedLengthDocument]):
            offcuts (list[StretchDocument]):
            scrap (list[StretchDocument]):
     """

    stock: str
    offcut: bool
    count: int
    cuts: list[LengthCutDocument]
    parts: list[PlacedLengthDocument]
    offcuts: list[StretchDocument]
    scrap: list[StretchDocument]





    def to_dict(self) -> dict[str, Any]:
        from ..models.length_cut_document import LengthCutDocument
        from ..models.placed_length_document import PlacedLengthDocument
        from ..models.stretch_document import StretchDocument
        stock = self.stock

        offcut = self.offcut

        count = self.count

        cuts = []
        for cuts_item_data in self.cuts:
            cuts_item = cuts_item_data.to_dict()
            cuts.append(cuts_item)



        parts = []
        for parts_item_data in self.parts:
            parts_item = parts_item_data.to_dict()
            parts.append(parts_item)



        offcuts = []
        for offcuts_item_data in self.offcuts:
            offcuts_item = offcuts_item_data.to_dict()
            offcuts.append(offcuts_item)



        scrap = []
        for scrap_item_data in self.scrap:
            scrap_item = scrap_item_data.to_dict()
            scrap.append(scrap_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "stock": stock,
            "offcut": offcut,
            "count": count,
            "cuts": cuts,
            "parts": parts,
            "offcuts": offcuts,
            "scrap": scrap,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.length_cut_document import LengthCutDocument
        from ..models.placed_length_document import PlacedLengthDocument
        from ..models.stretch_document import StretchDocument
        d = dict(src_dict)
        stock = d.pop("stock")

        offcut = d.pop("offcut")

        count = d.pop("count")

        cuts = []
        _cuts = d.pop("cuts")
        for cuts_item_data in (_cuts):
            cuts_item = LengthCutDocument.from_dict(cuts_item_data)



            cuts.append(cuts_item)


        parts = []
        _parts = d.pop("parts")
        for parts_item_data in (_parts):
            parts_item = PlacedLengthDocument.from_dict(parts_item_data)



            parts.append(parts_item)


        offcuts = []
        _offcuts = d.pop("offcuts")
        for offcuts_item_data in (_offcuts):
            offcuts_item = StretchDocument.from_dict(offcuts_item_data)



            offcuts.append(offcuts_item)


        scrap = []
        _scrap = d.pop("scrap")
        for scrap_item_data in (_scrap):
            scrap_item = StretchDocument.from_dict(scrap_item_data)



            scrap.append(scrap_item)


        length_layout_document = cls(
            stock=stock,
            offcut=offcut,
            count=count,
            cuts=cuts,
            parts=parts,
            offcuts=offcuts,
            scrap=scrap,
        )

        return length_layout_document

