from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.sheet_cut_document_direction import SheetCutDocumentDirection
from ..models.sheet_cut_document_tool import SheetCutDocumentTool
from ..types import UNSET, Unset






T = TypeVar("T", bound="SheetCutDocument")



@_attrs_define
class SheetCutDocument:
    """ 
        Attributes:
            n (int):
            of (str):
            direction (SheetCutDocumentDirection):
            at_mm (float):
            edge (str | Unset):  Default: ''.
            tool (SheetCutDocumentTool | Unset):  Default: SheetCutDocumentTool.VALUE_0.
     """

    n: int
    of: str
    direction: SheetCutDocumentDirection
    at_mm: float
    edge: str | Unset = ''
    tool: SheetCutDocumentTool | Unset = SheetCutDocumentTool.VALUE_0





    def to_dict(self) -> dict[str, Any]:
        n = self.n

        of = self.of

        direction = self.direction.value

        at_mm = self.at_mm

        edge = self.edge

        tool: str | Unset = UNSET
        if not isinstance(self.tool, Unset):
            tool = self.tool.value



        field_dict: dict[str, Any] = {}

        field_dict.update({
            "n": n,
            "of": of,
            "direction": direction,
            "at_mm": at_mm,
        })
        if edge is not UNSET:
            field_dict["edge"] = edge
        if tool is not UNSET:
            field_dict["tool"] = tool

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        n = d.pop("n")

        of = d.pop("of")

        direction = SheetCutDocumentDirection(d.pop("direction"))




        at_mm = d.pop("at_mm")

        edge = d.pop("edge", UNSET)

        _tool = d.pop("tool", UNSET)
        tool: SheetCutDocumentTool | Unset
        if isinstance(_tool,  Unset):
            tool = UNSET
        else:
            tool = SheetCutDocumentTool(_tool)




        sheet_cut_document = cls(
            n=n,
            of=of,
            direction=direction,
            at_mm=at_mm,
            edge=edge,
            tool=tool,
        )

        return sheet_cut_document

