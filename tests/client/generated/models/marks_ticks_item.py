from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.marks_ticks_item_kind import MarksTicksItemKind
from ..types import UNSET, Unset
from typing import cast
import datetime






T = TypeVar("T", bound="MarksTicksItem")



@_attrs_define
class MarksTicksItem:
    """ 
        Attributes:
            tick (str):
            phone (str):
            kind (MarksTicksItemKind):
            seq (int):
            who (str):
            came (datetime.datetime):
            material (str | Unset):
            layout (int | Unset):
            piece (int | Unset):
            cut (int | Unset):
            part (int | Unset):
            undoes (str | Unset):
            length_mm (float | None | Unset):
            width_mm (float | None | Unset):
            height_mm (float | None | Unset):
            at (str | Unset):
     """

    tick: str
    phone: str
    kind: MarksTicksItemKind
    seq: int
    who: str
    came: datetime.datetime
    material: str | Unset = UNSET
    layout: int | Unset = UNSET
    piece: int | Unset = UNSET
    cut: int | Unset = UNSET
    part: int | Unset = UNSET
    undoes: str | Unset = UNSET
    length_mm: float | None | Unset = UNSET
    width_mm: float | None | Unset = UNSET
    height_mm: float | None | Unset = UNSET
    at: str | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        tick = self.tick

        phone = self.phone

        kind = self.kind.value

        seq = self.seq

        who = self.who

        came = self.came.isoformat()

        material = self.material

        layout = self.layout

        piece = self.piece

        cut = self.cut

        part = self.part

        undoes = self.undoes

        length_mm: float | None | Unset
        if isinstance(self.length_mm, Unset):
            length_mm = UNSET
        else:
            length_mm = self.length_mm

        width_mm: float | None | Unset
        if isinstance(self.width_mm, Unset):
            width_mm = UNSET
        else:
            width_mm = self.width_mm

        height_mm: float | None | Unset
        if isinstance(self.height_mm, Unset):
            height_mm = UNSET
        else:
            height_mm = self.height_mm

        at = self.at


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "tick": tick,
            "phone": phone,
            "kind": kind,
            "seq": seq,
            "who": who,
            "came": came,
        })
        if material is not UNSET:
            field_dict["material"] = material
        if layout is not UNSET:
            field_dict["layout"] = layout
        if piece is not UNSET:
            field_dict["piece"] = piece
        if cut is not UNSET:
            field_dict["cut"] = cut
        if part is not UNSET:
            field_dict["part"] = part
        if undoes is not UNSET:
            field_dict["undoes"] = undoes
        if length_mm is not UNSET:
            field_dict["length_mm"] = length_mm
        if width_mm is not UNSET:
            field_dict["width_mm"] = width_mm
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm
        if at is not UNSET:
            field_dict["at"] = at

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        tick = d.pop("tick")

        phone = d.pop("phone")

        kind = MarksTicksItemKind(d.pop("kind"))




        seq = d.pop("seq")

        who = d.pop("who")

        came = datetime.datetime.fromisoformat(d.pop("came"))




        material = d.pop("material", UNSET)

        layout = d.pop("layout", UNSET)

        piece = d.pop("piece", UNSET)

        cut = d.pop("cut", UNSET)

        part = d.pop("part", UNSET)

        undoes = d.pop("undoes", UNSET)

        def _parse_length_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        length_mm = _parse_length_mm(d.pop("length_mm", UNSET))


        def _parse_width_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        width_mm = _parse_width_mm(d.pop("width_mm", UNSET))


        def _parse_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_mm = _parse_height_mm(d.pop("height_mm", UNSET))


        at = d.pop("at", UNSET)

        marks_ticks_item = cls(
            tick=tick,
            phone=phone,
            kind=kind,
            seq=seq,
            who=who,
            came=came,
            material=material,
            layout=layout,
            piece=piece,
            cut=cut,
            part=part,
            undoes=undoes,
            length_mm=length_mm,
            width_mm=width_mm,
            height_mm=height_mm,
            at=at,
        )


        marks_ticks_item.additional_properties = d
        return marks_ticks_item

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
