from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.cut_out_work_document import CutOutWorkDocument
  from ..models.leftover_document import LeftoverDocument
  from ..models.placed_board_document import PlacedBoardDocument
  from ..models.sheet_cut_document import SheetCutDocument





T = TypeVar("T", bound="SheetLayoutDocument")



@_attrs_define
class SheetLayoutDocument:
    """ 
        Attributes:
            stock (str):
            offcut (bool):
            count (int):
            cuts (list[SheetCutDocument]):
            parts (list[PlacedBoardDocument]):
            offcuts (list[LeftoverDocument]):
            scrap (list[LeftoverDocument]):
            cut_outs (list[CutOutWorkDocument] | Unset):
            cut_out (int | None | Unset):
     """

    stock: str
    offcut: bool
    count: int
    cuts: list[SheetCutDocument]
    parts: list[PlacedBoardDocument]
    offcuts: list[LeftoverDocument]
    scrap: list[LeftoverDocument]
    cut_outs: list[CutOutWorkDocument] | Unset = UNSET
    cut_out: int | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.cut_out_work_document import CutOutWorkDocument
        from ..models.leftover_document import LeftoverDocument
        from ..models.placed_board_document import PlacedBoardDocument
        from ..models.sheet_cut_document import SheetCutDocument
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



        cut_outs: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.cut_outs, Unset):
            cut_outs = []
            for cut_outs_item_data in self.cut_outs:
                cut_outs_item = cut_outs_item_data.to_dict()
                cut_outs.append(cut_outs_item)



        cut_out: int | None | Unset
        if isinstance(self.cut_out, Unset):
            cut_out = UNSET
        else:
            cut_out = self.cut_out


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
        if cut_outs is not UNSET:
            field_dict["cut_outs"] = cut_outs
        if cut_out is not UNSET:
            field_dict["cut_out"] = cut_out

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.cut_out_work_document import CutOutWorkDocument
        from ..models.leftover_document import LeftoverDocument
        from ..models.placed_board_document import PlacedBoardDocument
        from ..models.sheet_cut_document import SheetCutDocument
        d = dict(src_dict)
        stock = d.pop("stock")

        offcut = d.pop("offcut")

        count = d.pop("count")

        cuts = []
        _cuts = d.pop("cuts")
        for cuts_item_data in (_cuts):
            cuts_item = SheetCutDocument.from_dict(cuts_item_data)



            cuts.append(cuts_item)


        parts = []
        _parts = d.pop("parts")
        for parts_item_data in (_parts):
            parts_item = PlacedBoardDocument.from_dict(parts_item_data)



            parts.append(parts_item)


        offcuts = []
        _offcuts = d.pop("offcuts")
        for offcuts_item_data in (_offcuts):
            offcuts_item = LeftoverDocument.from_dict(offcuts_item_data)



            offcuts.append(offcuts_item)


        scrap = []
        _scrap = d.pop("scrap")
        for scrap_item_data in (_scrap):
            scrap_item = LeftoverDocument.from_dict(scrap_item_data)



            scrap.append(scrap_item)


        _cut_outs = d.pop("cut_outs", UNSET)
        cut_outs: list[CutOutWorkDocument] | Unset = UNSET
        if _cut_outs is not UNSET:
            cut_outs = []
            for cut_outs_item_data in _cut_outs:
                cut_outs_item = CutOutWorkDocument.from_dict(cut_outs_item_data)



                cut_outs.append(cut_outs_item)


        def _parse_cut_out(data: object) -> int | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(int | None | Unset, data)

        cut_out = _parse_cut_out(d.pop("cut_out", UNSET))


        sheet_layout_document = cls(
            stock=stock,
            offcut=offcut,
            count=count,
            cuts=cuts,
            parts=parts,
            offcuts=offcuts,
            scrap=scrap,
            cut_outs=cut_outs,
            cut_out=cut_out,
        )

        return sheet_layout_document

