from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="PartWeightsDocument")



@_attrs_define
class PartWeightsDocument:
    """ 
        Attributes:
            weights (list[int]):
     """

    weights: list[int]





    def to_dict(self) -> dict[str, Any]:
        weights = self.weights




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "weights": weights,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        weights = cast(list[int], d.pop("weights"))


        part_weights_document = cls(
            weights=weights,
        )

        return part_weights_document

