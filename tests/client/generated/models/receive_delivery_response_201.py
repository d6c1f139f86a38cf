from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.receive_delivery_response_201_state import ReceiveDeliveryResponse201State
from typing import cast

if TYPE_CHECKING:
  from ..models.kept_delivery import KeptDelivery
  from ..models.order_line_received import OrderLineReceived
  from ..models.run import Run





T = TypeVar("T", bound="ReceiveDeliveryResponse201")



@_attrs_define
class ReceiveDeliveryResponse201:
    """ 
        Attributes:
            order (str):
            state (ReceiveDeliveryResponse201State):
            lines (list[OrderLineReceived]):
            delivery (KeptDelivery):
            run (None | Run):
     """

    order: str
    state: ReceiveDeliveryResponse201State
    lines: list[OrderLineReceived]
    delivery: KeptDelivery
    run: None | Run
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.kept_delivery import KeptDelivery
        from ..models.order_line_received import OrderLineReceived
        from ..models.run import Run
        order = self.order

        state = self.state.value

        lines = []
        for lines_item_data in self.lines:
            lines_item = lines_item_data.to_dict()
            lines.append(lines_item)



        delivery = self.delivery.to_dict()

        run: dict[str, Any] | None
        if isinstance(self.run, Run):
            run = self.run.to_dict()
        else:
            run = self.run


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "order": order,
            "state": state,
            "lines": lines,
            "delivery": delivery,
            "run": run,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.kept_delivery import KeptDelivery
        from ..models.order_line_received import OrderLineReceived
        from ..models.run import Run
        d = dict(src_dict)
        order = d.pop("order")

        state = ReceiveDeliveryResponse201State(d.pop("state"))




        lines = []
        _lines = d.pop("lines")
        for lines_item_data in (_lines):
            lines_item = OrderLineReceived.from_dict(lines_item_data)



            lines.append(lines_item)


        delivery = KeptDelivery.from_dict(d.pop("delivery"))




        def _parse_run(data: object) -> None | Run:
            if data is None:
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                run_type_0 = Run.from_dict(data)



                return run_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(None | Run, data)

        run = _parse_run(d.pop("run"))


        receive_delivery_response_201 = cls(
            order=order,
            state=state,
            lines=lines,
            delivery=delivery,
            run=run,
        )


        receive_delivery_response_201.additional_properties = d
        return receive_delivery_response_201

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
