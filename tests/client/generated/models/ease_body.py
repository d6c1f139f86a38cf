from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.ease_body_ease import EaseBodyEase





T = TypeVar("T", bound="EaseBody")



@_attrs_define
class EaseBody:
    """ 
        Attributes:
            ease (EaseBodyEase | Unset):
            saving (str | Unset):  Default: '0.01'.
            seconds (float | Unset):  Default: 2.0.
     """

    ease: EaseBodyEase | Unset = UNSET
    saving: str | Unset = '0.01'
    seconds: float | Unset = 2.0





    def to_dict(self) -> dict[str, Any]:
        from ..models.ease_body_ease import EaseBodyEase
        ease: dict[str, Any] | Unset = UNSET
        if not isinstance(self.ease, Unset):
            ease = self.ease.to_dict()

        saving = self.saving

        seconds = self.seconds


        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if ease is not UNSET:
            field_dict["ease"] = ease
        if saving is not UNSET:
            field_dict["saving"] = saving
        if seconds is not UNSET:
            field_dict["seconds"] = seconds

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.ease_body_ease import EaseBodyEase
        d = dict(src_dict)
        _ease = d.pop("ease", UNSET)
        ease: EaseBodyEase | Unset
        if isinstance(_ease,  Unset):
            ease = UNSET
        else:
            ease = EaseBodyEase.from_dict(_ease)




        saving = d.pop("saving", UNSET)

        seconds = d.pop("seconds", UNSET)

        ease_body = cls(
            ease=ease,
            saving=saving,
            seconds=seconds,
        )

        return ease_body

