from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="PartWeightsDocument")



@_attrs_define
class PartWeightsDocument:
    """ 
        Attributes:
            weights (list[int]):
            once (bool | Unset):  Default: False.
            scale (int | Unset):  Default: 0.
            below (int | Unset):  Default: 0.
     """

    weights: list[int]
    once: bool | Unset = False
    scale: int | Unset = 0
    below: int | Unset = 0





    def to_dict(self) -> dict[str, Any]:
        weights = self.weights



        once = self.once

        scale = self.scale

        below = self.below


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "weights": weights,
        })
        if once is not UNSET:
            field_dict["once"] = once
        if scale is not UNSET:
            field_dict["scale"] = scale
        if below is not UNSET:
            field_dict["below"] = below

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        weights = cast(list[int], d.pop("weights"))


        once = d.pop("once", UNSET)

        scale = d.pop("scale", UNSET)

        below = d.pop("below", UNSET)

        part_weights_document = cls(
            weights=weights,
            once=once,
            scale=scale,
            below=below,
        )

        return part_weights_document

