from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.marks_taken_pieces_item_lost import MarksTakenPiecesItemLost
from typing import cast






T = TypeVar("T", bound="MarksTakenPiecesItem")



@_attrs_define
class MarksTakenPiecesItem:
    """ 
        Attributes:
            material (str):
            layout (int):
            piece (int):
            cuts (int):
            done (bool):
            spoiled (list[int]):
            lost (MarksTakenPiecesItemLost):
     """

    material: str
    layout: int
    piece: int
    cuts: int
    done: bool
    spoiled: list[int]
    lost: MarksTakenPiecesItemLost
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        material = self.material

        layout = self.layout

        piece = self.piece

        cuts = self.cuts

        done = self.done

        spoiled = self.spoiled



        lost = self.lost.value


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "material": material,
            "layout": layout,
            "piece": piece,
            "cuts": cuts,
            "done": done,
            "spoiled": spoiled,
            "lost": lost,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        material = d.pop("material")

        layout = d.pop("layout")

        piece = d.pop("piece")

        cuts = d.pop("cuts")

        done = d.pop("done")

        spoiled = cast(list[int], d.pop("spoiled"))


        lost = MarksTakenPiecesItemLost(d.pop("lost"))




        marks_taken_pieces_item = cls(
            material=material,
            layout=layout,
            piece=piece,
            cuts=cuts,
            done=done,
            spoiled=spoiled,
            lost=lost,
        )


        marks_taken_pieces_item.additional_properties = d
        return marks_taken_pieces_item

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
