from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.length_layout_document import LengthLayoutDocument
  from ..models.length_usage_document import LengthUsageDocument
  from ..models.length_weights_document import LengthWeightsDocument
  from ..models.trade_document import TradeDocument





T = TypeVar("T", bound="LengthPlanDocument")



@_attrs_define
class LengthPlanDocument:
    """ 
        Attributes:
            purchase (str):
            offcuts_used (str):
            credit (str):
            net_cost (str):
            lower_bound (str):
            proven (bool):
            seconds (float):
            material (str):
            method (str):
            layouts (list[LengthLayoutDocument]):
            usage (LengthUsageDocument):
            certificate (list[LengthWeightsDocument]):
            trade (None | TradeDocument | Unset):
     """

    purchase: str
    offcuts_used: str
    credit: str
    net_cost: str
    lower_bound: str
    proven: bool
    seconds: float
    material: str
    method: str
    layouts: list[LengthLayoutDocument]
    usage: LengthUsageDocument
    certificate: list[LengthWeightsDocument]
    trade: None | TradeDocument | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.length_layout_document import LengthLayoutDocument
        from ..models.length_usage_document import LengthUsageDocument
        from ..models.length_weights_document import LengthWeightsDocument
        from ..models.trade_document import TradeDocument
        purchase = self.purchase

        offcuts_used = self.offcuts_used

        credit = self.credit

        net_cost = self.net_cost

        lower_bound = self.lower_bound

        proven = self.proven

        seconds = self.seconds

        material = self.material

        method = self.method

        layouts = []
        for layouts_item_data in self.layouts:
            layouts_item = layouts_item_data.to_dict()
            layouts.append(layouts_item)



        usage = self.usage.to_dict()

        certificate = []
        for certificate_item_data in self.certificate:
            certificate_item = certificate_item_data.to_dict()
            certificate.append(certificate_item)



        trade: dict[str, Any] | None | Unset
        if isinstance(self.trade, Unset):
            trade = UNSET
        elif isinstance(self.trade, TradeDocument):
            trade = self.trade.to_dict()
        else:
            trade = self.trade


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "purchase": purchase,
            "offcuts_used": offcuts_used,
            "credit": credit,
            "net_cost": net_cost,
            "lower_bound": lower_bound,
            "proven": proven,
            "seconds": seconds,
            "material": material,
            "method": method,
            "layouts": layouts,
            "usage": usage,
            "certificate": certificate,
        })
        if trade is not UNSET:
            field_dict["trade"] = trade

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.length_layout_document import LengthLayoutDocument
        from ..models.length_usage_document import LengthUsageDocument
        from ..models.length_weights_document import LengthWeightsDocument
        from ..models.trade_document import TradeDocument
        d = dict(src_dict)
        purchase = d.pop("purchase")

        offcuts_used = d.pop("offcuts_used")

        credit = d.pop("credit")

        net_cost = d.pop("net_cost")

        lower_bound = d.pop("lower_bound")

        proven = d.pop("proven")

        seconds = d.pop("seconds")

        material = d.pop("material")

        method = d.pop("method")

        layouts = []
        _layouts = d.pop("layouts")
        for layouts_item_data in (_layouts):
            layouts_item = LengthLayoutDocument.from_dict(layouts_item_data)



            layouts.append(layouts_item)


        usage = LengthUsageDocument.from_dict(d.pop("usage"))




        certificate = []
        _certificate = d.pop("certificate")
        for certificate_item_data in (_certificate):
            certificate_item = LengthWeightsDocument.from_dict(certificate_item_data)



            certificate.append(certificate_item)


        def _parse_trade(data: object) -> None | TradeDocument | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                trade_type_0 = TradeDocument.from_dict(data)



                return trade_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(None | TradeDocument | Unset, data)

        trade = _parse_trade(d.pop("trade", UNSET))


        length_plan_document = cls(
            purchase=purchase,
            offcuts_used=offcuts_used,
            credit=credit,
            net_cost=net_cost,
            lower_bound=lower_bound,
            proven=proven,
            seconds=seconds,
            material=material,
            method=method,
            layouts=layouts,
            usage=usage,
            certificate=certificate,
            trade=trade,
        )

        return length_plan_document

