from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.list_deliveries_response_200_state import ListDeliveriesResponse200State
from typing import cast

if TYPE_CHECKING:
  from ..models.kept_delivery import KeptDelivery
  from ..models.order_line_received import OrderLineReceived





T = TypeVar("T", bound="ListDeliveriesResponse200")



@_attrs_define
class ListDeliveriesResponse200:
    """ 
        Attributes:
            order (str):
            state (ListDeliveriesResponse200State):
            lines (list[OrderLineReceived]):
            deliveries (list[KeptDelivery]):
     """

    order: str
    state: ListDeliveriesResponse200State
    lines: list[OrderLineReceived]
    deliveries: list[KeptDelivery]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.kept_delivery import KeptDelivery
        from ..models.order_line_received import OrderLineReceived
        order = self.order

        state = self.state.value

        lines = []
        for lines_item_data in self.lines:
            lines_item = lines_item_data.to_dict()
            lines.append(lines_item)



        deliveries = []
        for deliveries_item_data in self.deliveries:
            deliveries_item = deliveries_item_data.to_dict()
            deliveries.append(deliveries_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "order": order,
            "state": state,
            "lines": lines,
            "deliveries": deliveries,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.kept_delivery import KeptDelivery
        from ..models.order_line_received import OrderLineReceived
        d = dict(src_dict)
        order = d.pop("order")

        state = ListDeliveriesResponse200State(d.pop("state"))




        lines = []
        _lines = d.pop("lines")
        for lines_item_data in (_lines):
            lines_item = OrderLineReceived.from_dict(lines_item_data)



            lines.append(lines_item)


        deliveries = []
        _deliveries = d.pop("deliveries")
        for deliveries_item_data in (_deliveries):
            deliveries_item = KeptDelivery.from_dict(deliveries_item_data)



            deliveries.append(deliveries_item)


        list_deliveries_response_200 = cls(
            order=order,
            state=state,
            lines=lines,
            deliveries=deliveries,
        )


        list_deliveries_response_200.additional_properties = d
        return list_deliveries_response_200

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
