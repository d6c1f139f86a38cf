from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.tick_kind import TickKind
from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="Tick")



@_attrs_define
class Tick:
    """ 
        Attributes:
            tick (str):
            phone (str):
            kind (TickKind):
            material (str | Unset):  Default: ''.
            layout (int | Unset):  Default: 1.
            piece (int | Unset):  Default: 1.
            cut (int | None | Unset):
            part (int | None | Unset):
            undoes (None | str | Unset):
            length_mm (float | None | Unset):
            width_mm (float | None | Unset):
            height_mm (float | None | Unset):
            at (None | str | Unset):
     """

    tick: str
    phone: str
    kind: TickKind
    material: str | Unset = ''
    layout: int | Unset = 1
    piece: int | Unset = 1
    cut: int | None | Unset = UNSET
    part: int | None | Unset = UNSET
    undoes: None | str | Unset = UNSET
    length_mm: float | None | Unset = UNSET
    width_mm: float | None | Unset = UNSET
    height_mm: float | None | Unset = UNSET
    at: None | str | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        tick = self.tick

        phone = self.phone

        kind = self.kind.value

        material = self.material

        layout = self.layout

        piece = self.piece

        cut: int | None | Unset
        if isinstance(self.cut, Unset):
            cut = UNSET
        else:
            cut = self.cut

        part: int | None | Unset
        if isinstance(self.part, Unset):
            part = UNSET
        else:
            part = self.part

        undoes: None | str | Unset
        if isinstance(self.undoes, Unset):
            undoes = UNSET
        else:
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

        at: None | str | Unset
        if isinstance(self.at, Unset):
            at = UNSET
        else:
            at = self.at


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "tick": tick,
            "phone": phone,
            "kind": kind,
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

        kind = TickKind(d.pop("kind"))




        material = d.pop("material", UNSET)

        layout = d.pop("layout", UNSET)

        piece = d.pop("piece", UNSET)

        def _parse_cut(data: object) -> int | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(int | None | Unset, data)

        cut = _parse_cut(d.pop("cut", UNSET))


        def _parse_part(data: object) -> int | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(int | None | Unset, data)

        part = _parse_part(d.pop("part", UNSET))


        def _parse_undoes(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        undoes = _parse_undoes(d.pop("undoes", UNSET))


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


        def _parse_at(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        at = _parse_at(d.pop("at", UNSET))


        tick = cls(
            tick=tick,
            phone=phone,
            kind=kind,
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

        return tick

