from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.correction_kind import CorrectionKind






T = TypeVar("T", bound="Correction")



@_attrs_define
class Correction:
    """ 
        Attributes:
            kind (CorrectionKind):
            why (str):
     """

    kind: CorrectionKind
    why: str





    def to_dict(self) -> dict[str, Any]:
        kind = self.kind.value

        why = self.why


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "kind": kind,
            "why": why,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        kind = CorrectionKind(d.pop("kind"))




        why = d.pop("why")

        correction = cls(
            kind=kind,
            why=why,
        )

        return correction

