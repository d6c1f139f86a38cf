from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="AccessDocument")



@_attrs_define
class AccessDocument:
    """ 
        Attributes:
            job (str):
            length_mm (float | None | Unset):
            board_mm (list[float] | None | Unset):
     """

    job: str
    length_mm: float | None | Unset = UNSET
    board_mm: list[float] | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        job = self.job

        length_mm: float | None | Unset
        if isinstance(self.length_mm, Unset):
            length_mm = UNSET
        else:
            length_mm = self.length_mm

        board_mm: list[float] | None | Unset
        if isinstance(self.board_mm, Unset):
            board_mm = UNSET
        elif isinstance(self.board_mm, list):
            board_mm = []
            for board_mm_type_0_item_data in self.board_mm:
                board_mm_type_0_item: float
                board_mm_type_0_item = board_mm_type_0_item_data
                board_mm.append(board_mm_type_0_item)


        else:
            board_mm = self.board_mm


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "job": job,
        })
        if length_mm is not UNSET:
            field_dict["length_mm"] = length_mm
        if board_mm is not UNSET:
            field_dict["board_mm"] = board_mm

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        job = d.pop("job")

        def _parse_length_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        length_mm = _parse_length_mm(d.pop("length_mm", UNSET))


        def _parse_board_mm(data: object) -> list[float] | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, list):
                    raise TypeError()
                board_mm_type_0 = []
                _board_mm_type_0 = data
                for board_mm_type_0_item_data in (_board_mm_type_0):
                    def _parse_board_mm_type_0_item(data: object) -> float:
                        return cast(float, data)

                    board_mm_type_0_item = _parse_board_mm_type_0_item(board_mm_type_0_item_data)

                    board_mm_type_0.append(board_mm_type_0_item)

                return board_mm_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(list[float] | None | Unset, data)

        board_mm = _parse_board_mm(d.pop("board_mm", UNSET))


        access_document = cls(
            job=job,
            length_mm=length_mm,
            board_mm=board_mm,
        )

        return access_document

