from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.check_response_200_faults_item import CheckResponse200FaultsItem





T = TypeVar("T", bound="CheckResponse200")



@_attrs_define
class CheckResponse200:
    """ 
        Attributes:
            sound (bool):
            faults (list[CheckResponse200FaultsItem]):
     """

    sound: bool
    faults: list[CheckResponse200FaultsItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.check_response_200_faults_item import CheckResponse200FaultsItem
        sound = self.sound

        faults = []
        for faults_item_data in self.faults:
            faults_item = faults_item_data.to_dict()
            faults.append(faults_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "sound": sound,
            "faults": faults,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.check_response_200_faults_item import CheckResponse200FaultsItem
        d = dict(src_dict)
        sound = d.pop("sound")

        faults = []
        _faults = d.pop("faults")
        for faults_item_data in (_faults):
            faults_item = CheckResponse200FaultsItem.from_dict(faults_item_data)



            faults.append(faults_item)


        check_response_200 = cls(
            sound=sound,
            faults=faults,
        )


        check_response_200.additional_properties = d
        return check_response_200

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
