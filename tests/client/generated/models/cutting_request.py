from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.access_document import AccessDocument
  from ..models.choice_document import ChoiceDocument
  from ..models.keep_document import KeepDocument
  from ..models.length_material_document import LengthMaterialDocument
  from ..models.sheet_material_document import SheetMaterialDocument





T = TypeVar("T", bound="CuttingRequest")



@_attrs_define
class CuttingRequest:
    """ 
        Attributes:
            seed (int | Unset):  Default: 1.
            seconds (float | Unset):  Default: 5.0.
            keep (KeepDocument | Unset):
            lengths (list[LengthMaterialDocument] | Unset):
            sheets (list[SheetMaterialDocument] | Unset):
            choices (list[ChoiceDocument] | Unset):
            access (list[AccessDocument] | Unset):
            fewer_layouts (bool | Unset):  Default: False.
     """

    seed: int | Unset = 1
    seconds: float | Unset = 5.0
    keep: KeepDocument | Unset = UNSET
    lengths: list[LengthMaterialDocument] | Unset = UNSET
    sheets: list[SheetMaterialDocument] | Unset = UNSET
    choices: list[ChoiceDocument] | Unset = UNSET
    access: list[AccessDocument] | Unset = UNSET
    fewer_layouts: bool | Unset = False





    def to_dict(self) -> dict[str, Any]:
        from ..models.access_document import AccessDocument
        from ..models.choice_document import ChoiceDocument
        from ..models.keep_document import KeepDocument
        from ..models.length_material_document import LengthMaterialDocument
        from ..models.sheet_material_document import SheetMaterialDocument
        seed = self.seed

        seconds = self.seconds

        keep: dict[str, Any] | Unset = UNSET
        if not isinstance(self.keep, Unset):
            keep = self.keep.to_dict()

        lengths: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.lengths, Unset):
            lengths = []
            for lengths_item_data in self.lengths:
                lengths_item = lengths_item_data.to_dict()
                lengths.append(lengths_item)



        sheets: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.sheets, Unset):
            sheets = []
            for sheets_item_data in self.sheets:
                sheets_item = sheets_item_data.to_dict()
                sheets.append(sheets_item)



        choices: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.choices, Unset):
            choices = []
            for choices_item_data in self.choices:
                choices_item = choices_item_data.to_dict()
                choices.append(choices_item)



        access: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.access, Unset):
            access = []
            for access_item_data in self.access:
                access_item = access_item_data.to_dict()
                access.append(access_item)



        fewer_layouts = self.fewer_layouts


        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if seed is not UNSET:
            field_dict["seed"] = seed
        if seconds is not UNSET:
            field_dict["seconds"] = seconds
        if keep is not UNSET:
            field_dict["keep"] = keep
        if lengths is not UNSET:
            field_dict["lengths"] = lengths
        if sheets is not UNSET:
            field_dict["sheets"] = sheets
        if choices is not UNSET:
            field_dict["choices"] = choices
        if access is not UNSET:
            field_dict["access"] = access
        if fewer_layouts is not UNSET:
            field_dict["fewer_layouts"] = fewer_layouts

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.access_document import AccessDocument
        from ..models.choice_document import ChoiceDocument
        from ..models.keep_document import KeepDocument
        from ..models.length_material_document import LengthMaterialDocument
        from ..models.sheet_material_document import SheetMaterialDocument
        d = dict(src_dict)
        seed = d.pop("seed", UNSET)

        seconds = d.pop("seconds", UNSET)

        _keep = d.pop("keep", UNSET)
        keep: KeepDocument | Unset
        if isinstance(_keep,  Unset):
            keep = UNSET
        else:
            keep = KeepDocument.from_dict(_keep)




        _lengths = d.pop("lengths", UNSET)
        lengths: list[LengthMaterialDocument] | Unset = UNSET
        if _lengths is not UNSET:
            lengths = []
            for lengths_item_data in _lengths:
                lengths_item = LengthMaterialDocument.from_dict(lengths_item_data)



                lengths.append(lengths_item)


        _sheets = d.pop("sheets", UNSET)
        sheets: list[SheetMaterialDocument] | Unset = UNSET
        if _sheets is not UNSET:
            sheets = []
            for sheets_item_data in _sheets:
                sheets_item = SheetMaterialDocument.from_dict(sheets_item_data)



                sheets.append(sheets_item)


        _choices = d.pop("choices", UNSET)
        choices: list[ChoiceDocument] | Unset = UNSET
        if _choices is not UNSET:
            choices = []
            for choices_item_data in _choices:
                choices_item = ChoiceDocument.from_dict(choices_item_data)



                choices.append(choices_item)


        _access = d.pop("access", UNSET)
        access: list[AccessDocument] | Unset = UNSET
        if _access is not UNSET:
            access = []
            for access_item_data in _access:
                access_item = AccessDocument.from_dict(access_item_data)



                access.append(access_item)


        fewer_layouts = d.pop("fewer_layouts", UNSET)

        cutting_request = cls(
            seed=seed,
            seconds=seconds,
            keep=keep,
            lengths=lengths,
            sheets=sheets,
            choices=choices,
            access=access,
            fewer_layouts=fewer_layouts,
        )

        return cutting_request

