from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.rack_piece import RackPiece





T = TypeVar("T", bound="ConfirmPlanResponse200")



@_attrs_define
class ConfirmPlanResponse200:
    """ 
        Attributes:
            id (str):
            state (str):
            racked (list[RackPiece]):
     """

    id: str
    state: str
    racked: list[RackPiece]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.rack_piece import RackPiece
        id = self.id

        state = self.state

        racked = []
        for racked_item_data in self.racked:
            racked_item = racked_item_data.to_dict()
            racked.append(racked_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "state": state,
            "racked": racked,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.rack_piece import RackPiece
        d = dict(src_dict)
        id = d.pop("id")

        state = d.pop("state")

        racked = []
        _racked = d.pop("racked")
        for racked_item_data in (_racked):
            racked_item = RackPiece.from_dict(racked_item_data)



            racked.append(racked_item)


        confirm_plan_response_200 = cls(
            id=id,
            state=state,
            racked=racked,
        )


        confirm_plan_response_200.additional_properties = d
        return confirm_plan_response_200

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
