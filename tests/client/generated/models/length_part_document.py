from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.length_part_document_dimension_from import LengthPartDocumentDimensionFrom





T = TypeVar("T", bound="LengthPartDocument")



@_attrs_define
class LengthPartDocument:
    """ 
        Attributes:
            id (str):
            job (str):
            length_mm (float):
            quantity (int | Unset):  Default: 1.
            name (str | Unset):  Default: ''.
            ease_mm (float | Unset):  Default: 0.0.
            dimension_from (LengthPartDocumentDimensionFrom | Unset):
     """

    id: str
    job: str
    length_mm: float
    quantity: int | Unset = 1
    name: str | Unset = ''
    ease_mm: float | Unset = 0.0
    dimension_from: LengthPartDocumentDimensionFrom | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.length_part_document_dimension_from import LengthPartDocumentDimensionFrom
        id = self.id

        job = self.job

        length_mm = self.length_mm

        quantity = self.quantity

        name = self.name

        ease_mm = self.ease_mm

        dimension_from: dict[str, Any] | Unset = UNSET
        if not isinstance(self.dimension_from, Unset):
            dimension_from = self.dimension_from.to_dict()


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "id": id,
            "job": job,
            "length_mm": length_mm,
        })
        if quantity is not UNSET:
            field_dict["quantity"] = quantity
        if name is not UNSET:
            field_dict["name"] = name
        if ease_mm is not UNSET:
            field_dict["ease_mm"] = ease_mm
        if dimension_from is not UNSET:
            field_dict["dimension_from"] = dimension_from

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.length_part_document_dimension_from import LengthPartDocumentDimensionFrom
        d = dict(src_dict)
        id = d.pop("id")

        job = d.pop("job")

        length_mm = d.pop("length_mm")

        quantity = d.pop("quantity", UNSET)

        name = d.pop("name", UNSET)

        ease_mm = d.pop("ease_mm", UNSET)

        _dimension_from = d.pop("dimension_from", UNSET)
        dimension_from: LengthPartDocumentDimensionFrom | Unset
        if isinstance(_dimension_from,  Unset):
            dimension_from = UNSET
        else:
            dimension_from = LengthPartDocumentDimensionFrom.from_dict(_dimension_from)




        length_part_document = cls(
            id=id,
            job=job,
            length_mm=length_mm,
            quantity=quantity,
            name=name,
            ease_mm=ease_mm,
            dimension_from=dimension_from,
        )

        return length_part_document

