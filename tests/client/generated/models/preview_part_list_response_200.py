from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.preview_part_list_response_200_columns_item import PreviewPartListResponse200ColumnsItem
  from ..models.preview_part_list_response_200_notes_item import PreviewPartListResponse200NotesItem
  from ..models.preview_part_list_response_200_parts_item import PreviewPartListResponse200PartsItem
  from ..models.preview_part_list_response_200_problems_item import PreviewPartListResponse200ProblemsItem





T = TypeVar("T", bound="PreviewPartListResponse200")



@_attrs_define
class PreviewPartListResponse200:
    """ 
        Attributes:
            sound (bool):
            rows (int):
            columns (list[PreviewPartListResponse200ColumnsItem]):
            understood (int):
            parts (list[PreviewPartListResponse200PartsItem]):
            faults (int):
            problems (list[PreviewPartListResponse200ProblemsItem]):
            remarks (int):
            notes (list[PreviewPartListResponse200NotesItem]):
     """

    sound: bool
    rows: int
    columns: list[PreviewPartListResponse200ColumnsItem]
    understood: int
    parts: list[PreviewPartListResponse200PartsItem]
    faults: int
    problems: list[PreviewPartListResponse200ProblemsItem]
    remarks: int
    notes: list[PreviewPartListResponse200NotesItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.preview_part_list_response_200_columns_item import PreviewPartListResponse200ColumnsItem
        from ..models.preview_part_list_response_200_notes_item import PreviewPartListResponse200NotesItem
        from ..models.preview_part_list_response_200_parts_item import PreviewPartListResponse200PartsItem
        from ..models.preview_part_list_response_200_problems_item import PreviewPartListResponse200ProblemsItem
        sound = self.sound

        rows = self.rows

        columns = []
        for columns_item_data in self.columns:
            columns_item = columns_item_data.to_dict()
            columns.append(columns_item)



        understood = self.understood

        parts = []
        for parts_item_data in self.parts:
            parts_item = parts_item_data.to_dict()
            parts.append(parts_item)



        faults = self.faults

        problems = []
        for problems_item_data in self.problems:
            problems_item = problems_item_data.to_dict()
            problems.append(problems_item)



        remarks = self.remarks

        notes = []
        for notes_item_data in self.notes:
            notes_item = notes_item_data.to_dict()
            notes.append(notes_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "sound": sound,
            "rows": rows,
            "columns": columns,
            "understood": understood,
            "parts": parts,
            "faults": faults,
            "problems": problems,
            "remarks": remarks,
            "notes": notes,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.preview_part_list_response_200_columns_item import PreviewPartListResponse200ColumnsItem
        from ..models.preview_part_list_response_200_notes_item import PreviewPartListResponse200NotesItem
        from ..models.preview_part_list_response_200_parts_item import PreviewPartListResponse200PartsItem
        from ..models.preview_part_list_response_200_problems_item import PreviewPartListResponse200ProblemsItem
        d = dict(src_dict)
        sound = d.pop("sound")

        rows = d.pop("rows")

        columns = []
        _columns = d.pop("columns")
        for columns_item_data in (_columns):
            columns_item = PreviewPartListResponse200ColumnsItem.from_dict(columns_item_data)



            columns.append(columns_item)


        understood = d.pop("understood")

        parts = []
        _parts = d.pop("parts")
        for parts_item_data in (_parts):
            parts_item = PreviewPartListResponse200PartsItem.from_dict(parts_item_data)



            parts.append(parts_item)


        faults = d.pop("faults")

        problems = []
        _problems = d.pop("problems")
        for problems_item_data in (_problems):
            problems_item = PreviewPartListResponse200ProblemsItem.from_dict(problems_item_data)



            problems.append(problems_item)


        remarks = d.pop("remarks")

        notes = []
        _notes = d.pop("notes")
        for notes_item_data in (_notes):
            notes_item = PreviewPartListResponse200NotesItem.from_dict(notes_item_data)



            notes.append(notes_item)


        preview_part_list_response_200 = cls(
            sound=sound,
            rows=rows,
            columns=columns,
            understood=understood,
            parts=parts,
            faults=faults,
            problems=problems,
            remarks=remarks,
            notes=notes,
        )


        preview_part_list_response_200.additional_properties = d
        return preview_part_list_response_200

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
