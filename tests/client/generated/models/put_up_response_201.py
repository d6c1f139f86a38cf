from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.rack_piece import RackPiece





T = TypeVar("T", bound="PutUpResponse201")



@_attrs_define
class PutUpResponse201:
    """ 
        Attributes:
            racked (list[RackPiece]):
     """

    racked: list[RackPiece]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.rack_piece import RackPiece
        racked = []
        for racked_item_data in self.racked:
            racked_item = racked_item_data.to_dict()
            racked.append(racked_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "racked": racked,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.rack_piece import RackPiece
        d = dict(src_dict)
        racked = []
        _racked = d.pop("racked")
        for racked_item_data in (_racked):
            racked_item = RackPiece.from_dict(racked_item_data)



            racked.append(racked_item)


        put_up_response_201 = cls(
            racked=racked,
        )


        put_up_response_201.additional_properties = d
        return put_up_response_201

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
