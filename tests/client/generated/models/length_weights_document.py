from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast






T = TypeVar("T", bound="LengthWeightsDocument")



@_attrs_define
class LengthWeightsDocument:
    """ 
        Attributes:
            weights (list[int]):
            scale (int):
     """

    weights: list[int]
    scale: int





    def to_dict(self) -> dict[str, Any]:
        weights = self.weights



        scale = self.scale


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "weights": weights,
            "scale": scale,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        weights = cast(list[int], d.pop("weights"))


        scale = d.pop("scale")

        length_weights_document = cls(
            weights=weights,
            scale=scale,
        )

        return length_weights_document

