from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.state import State
from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="MarkModel")



@_attrs_define
class MarkModel:
    """ 
        Attributes:
            material (str):
            layout (int):
            state (State):
            pieces (int | Unset):  Default: 1.
            cuts (int | Unset):  Default: 0.
            spoiled (list[str] | Unset):
     """

    material: str
    layout: int
    state: State
    pieces: int | Unset = 1
    cuts: int | Unset = 0
    spoiled: list[str] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        material = self.material

        layout = self.layout

        state = self.state.value

        pieces = self.pieces

        cuts = self.cuts

        spoiled: list[str] | Unset = UNSET
        if not isinstance(self.spoiled, Unset):
            spoiled = self.spoiled




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "material": material,
            "layout": layout,
            "state": state,
        })
        if pieces is not UNSET:
            field_dict["pieces"] = pieces
        if cuts is not UNSET:
            field_dict["cuts"] = cuts
        if spoiled is not UNSET:
            field_dict["spoiled"] = spoiled

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        material = d.pop("material")

        layout = d.pop("layout")

        state = State(d.pop("state"))




        pieces = d.pop("pieces", UNSET)

        cuts = d.pop("cuts", UNSET)

        spoiled = cast(list[str], d.pop("spoiled", UNSET))


        mark_model = cls(
            material=material,
            layout=layout,
            state=state,
            pieces=pieces,
            cuts=cuts,
            spoiled=spoiled,
        )

        return mark_model

