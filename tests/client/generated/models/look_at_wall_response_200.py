from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.look_at_wall_response_200_drawings_item import LookAtWallResponse200DrawingsItem
  from ..models.look_at_wall_response_200_frame import LookAtWallResponse200Frame





T = TypeVar("T", bound="LookAtWallResponse200")



@_attrs_define
class LookAtWallResponse200:
    """ 
        Attributes:
            frame (LookAtWallResponse200Frame):
            drawings (list[LookAtWallResponse200DrawingsItem]):
     """

    frame: LookAtWallResponse200Frame
    drawings: list[LookAtWallResponse200DrawingsItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.look_at_wall_response_200_drawings_item import LookAtWallResponse200DrawingsItem
        from ..models.look_at_wall_response_200_frame import LookAtWallResponse200Frame
        frame = self.frame.to_dict()

        drawings = []
        for drawings_item_data in self.drawings:
            drawings_item = drawings_item_data.to_dict()
            drawings.append(drawings_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "frame": frame,
            "drawings": drawings,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.look_at_wall_response_200_drawings_item import LookAtWallResponse200DrawingsItem
        from ..models.look_at_wall_response_200_frame import LookAtWallResponse200Frame
        d = dict(src_dict)
        frame = LookAtWallResponse200Frame.from_dict(d.pop("frame"))




        drawings = []
        _drawings = d.pop("drawings")
        for drawings_item_data in (_drawings):
            drawings_item = LookAtWallResponse200DrawingsItem.from_dict(drawings_item_data)



            drawings.append(drawings_item)


        look_at_wall_response_200 = cls(
            frame=frame,
            drawings=drawings,
        )


        look_at_wall_response_200.additional_properties = d
        return look_at_wall_response_200

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
