from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset






T = TypeVar("T", bound="LabelSheet")



@_attrs_define
class LabelSheet:
    """ 
        Attributes:
            columns (int):
            rows (int):
            label_width_mm (float):
            label_height_mm (float):
            left_mm (float):
            top_mm (float):
            page_width_mm (float | Unset):  Default: 210.0.
            page_height_mm (float | Unset):  Default: 297.0.
            gap_across_mm (float | Unset):  Default: 0.0.
            gap_down_mm (float | Unset):  Default: 0.0.
     """

    columns: int
    rows: int
    label_width_mm: float
    label_height_mm: float
    left_mm: float
    top_mm: float
    page_width_mm: float | Unset = 210.0
    page_height_mm: float | Unset = 297.0
    gap_across_mm: float | Unset = 0.0
    gap_down_mm: float | Unset = 0.0





    def to_dict(self) -> dict[str, Any]:
        columns = self.columns

        rows = self.rows

        label_width_mm = self.label_width_mm

        label_height_mm = self.label_height_mm

        left_mm = self.left_mm

        top_mm = self.top_mm

        page_width_mm = self.page_width_mm

        page_height_mm = self.page_height_mm

        gap_across_mm = self.gap_across_mm

        gap_down_mm = self.gap_down_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "columns": columns,
            "rows": rows,
            "label_width_mm": label_width_mm,
            "label_height_mm": label_height_mm,
            "left_mm": left_mm,
            "top_mm": top_mm,
        })
        if page_width_mm is not UNSET:
            field_dict["page_width_mm"] = page_width_mm
        if page_height_mm is not UNSET:
            field_dict["page_height_mm"] = page_height_mm
        if gap_across_mm is not UNSET:
            field_dict["gap_across_mm"] = gap_across_mm
        if gap_down_mm is not UNSET:
            field_dict["gap_down_mm"] = gap_down_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        columns = d.pop("columns")

        rows = d.pop("rows")

        label_width_mm = d.pop("label_width_mm")

        label_height_mm = d.pop("label_height_mm")

        left_mm = d.pop("left_mm")

        top_mm = d.pop("top_mm")

        page_width_mm = d.pop("page_width_mm", UNSET)

        page_height_mm = d.pop("page_height_mm", UNSET)

        gap_across_mm = d.pop("gap_across_mm", UNSET)

        gap_down_mm = d.pop("gap_down_mm", UNSET)

        label_sheet = cls(
            columns=columns,
            rows=rows,
            label_width_mm=label_width_mm,
            label_height_mm=label_height_mm,
            left_mm=left_mm,
            top_mm=top_mm,
            page_width_mm=page_width_mm,
            page_height_mm=page_height_mm,
            gap_across_mm=gap_across_mm,
            gap_down_mm=gap_down_mm,
        )

        return label_sheet

