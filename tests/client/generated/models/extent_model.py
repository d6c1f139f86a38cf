from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.end import End
from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="ExtentModel")



@_attrs_define
class ExtentModel:
    """ 
        Attributes:
            depth_mm (float):
            height_mm (float | None | Unset):
            offset_mm (float | None | Unset):
            width_mm (float | None | Unset):
            left (End | None | Unset):
            right (End | None | Unset):
     """

    depth_mm: float
    height_mm: float | None | Unset = UNSET
    offset_mm: float | None | Unset = UNSET
    width_mm: float | None | Unset = UNSET
    left: End | None | Unset = UNSET
    right: End | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        depth_mm = self.depth_mm

        height_mm: float | None | Unset
        if isinstance(self.height_mm, Unset):
            height_mm = UNSET
        else:
            height_mm = self.height_mm

        offset_mm: float | None | Unset
        if isinstance(self.offset_mm, Unset):
            offset_mm = UNSET
        else:
            offset_mm = self.offset_mm

        width_mm: float | None | Unset
        if isinstance(self.width_mm, Unset):
            width_mm = UNSET
        else:
            width_mm = self.width_mm

        left: None | str | Unset
        if isinstance(self.left, Unset):
            left = UNSET
        elif isinstance(self.left, End):
            left = self.left.value
        else:
            left = self.left

        right: None | str | Unset
        if isinstance(self.right, Unset):
            right = UNSET
        elif isinstance(self.right, End):
            right = self.right.value
        else:
            right = self.right


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "depth_mm": depth_mm,
        })
        if height_mm is not UNSET:
            field_dict["height_mm"] = height_mm
        if offset_mm is not UNSET:
            field_dict["offset_mm"] = offset_mm
        if width_mm is not UNSET:
            field_dict["width_mm"] = width_mm
        if left is not UNSET:
            field_dict["left"] = left
        if right is not UNSET:
            field_dict["right"] = right

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        depth_mm = d.pop("depth_mm")

        def _parse_height_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        height_mm = _parse_height_mm(d.pop("height_mm", UNSET))


        def _parse_offset_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        offset_mm = _parse_offset_mm(d.pop("offset_mm", UNSET))


        def _parse_width_mm(data: object) -> float | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(float | None | Unset, data)

        width_mm = _parse_width_mm(d.pop("width_mm", UNSET))


        def _parse_left(data: object) -> End | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                left_type_0 = End(data)



                return left_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(End | None | Unset, data)

        left = _parse_left(d.pop("left", UNSET))


        def _parse_right(data: object) -> End | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                right_type_0 = End(data)



                return right_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(End | None | Unset, data)

        right = _parse_right(d.pop("right", UNSET))


        extent_model = cls(
            depth_mm=depth_mm,
            height_mm=height_mm,
            offset_mm=offset_mm,
            width_mm=width_mm,
            left=left,
            right=right,
        )

        return extent_model

