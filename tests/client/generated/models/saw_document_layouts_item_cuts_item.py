from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.saw_document_layouts_item_cuts_item_way import SawDocumentLayoutsItemCutsItemWay
from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.saw_document_layouts_item_cuts_item_line import SawDocumentLayoutsItemCutsItemLine
  from ..models.saw_document_layouts_item_cuts_item_piece import SawDocumentLayoutsItemCutsItemPiece





T = TypeVar("T", bound="SawDocumentLayoutsItemCutsItem")



@_attrs_define
class SawDocumentLayoutsItemCutsItem:
    """ 
        Attributes:
            n (int):
            way (SawDocumentLayoutsItemCutsItemWay):
            set_mm (float):
            from_ (str):
            tool (str):
            parts_off (list[int]):
            line (SawDocumentLayoutsItemCutsItemLine):
            of (str | Unset):
            piece (SawDocumentLayoutsItemCutsItemPiece | Unset):
     """

    n: int
    way: SawDocumentLayoutsItemCutsItemWay
    set_mm: float
    from_: str
    tool: str
    parts_off: list[int]
    line: SawDocumentLayoutsItemCutsItemLine
    of: str | Unset = UNSET
    piece: SawDocumentLayoutsItemCutsItemPiece | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.saw_document_layouts_item_cuts_item_line import SawDocumentLayoutsItemCutsItemLine
        from ..models.saw_document_layouts_item_cuts_item_piece import SawDocumentLayoutsItemCutsItemPiece
        n = self.n

        way = self.way.value

        set_mm = self.set_mm

        from_ = self.from_

        tool = self.tool

        parts_off = self.parts_off



        line = self.line.to_dict()

        of = self.of

        piece: dict[str, Any] | Unset = UNSET
        if not isinstance(self.piece, Unset):
            piece = self.piece.to_dict()


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "n": n,
            "way": way,
            "set_mm": set_mm,
            "from": from_,
            "tool": tool,
            "parts_off": parts_off,
            "line": line,
        })
        if of is not UNSET:
            field_dict["of"] = of
        if piece is not UNSET:
            field_dict["piece"] = piece

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.saw_document_layouts_item_cuts_item_line import SawDocumentLayoutsItemCutsItemLine
        from ..models.saw_document_layouts_item_cuts_item_piece import SawDocumentLayoutsItemCutsItemPiece
        d = dict(src_dict)
        n = d.pop("n")

        way = SawDocumentLayoutsItemCutsItemWay(d.pop("way"))




        set_mm = d.pop("set_mm")

        from_ = d.pop("from")

        tool = d.pop("tool")

        parts_off = cast(list[int], d.pop("parts_off"))


        line = SawDocumentLayoutsItemCutsItemLine.from_dict(d.pop("line"))




        of = d.pop("of", UNSET)

        _piece = d.pop("piece", UNSET)
        piece: SawDocumentLayoutsItemCutsItemPiece | Unset
        if isinstance(_piece,  Unset):
            piece = UNSET
        else:
            piece = SawDocumentLayoutsItemCutsItemPiece.from_dict(_piece)




        saw_document_layouts_item_cuts_item = cls(
            n=n,
            way=way,
            set_mm=set_mm,
            from_=from_,
            tool=tool,
            parts_off=parts_off,
            line=line,
            of=of,
            piece=piece,
        )


        saw_document_layouts_item_cuts_item.additional_properties = d
        return saw_document_layouts_item_cuts_item

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
