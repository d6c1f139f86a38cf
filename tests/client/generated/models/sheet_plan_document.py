from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.part_weights_document import PartWeightsDocument
  from ..models.sheet_layout_document import SheetLayoutDocument
  from ..models.sheet_usage_document import SheetUsageDocument
  from ..models.sheet_weights_document import SheetWeightsDocument





T = TypeVar("T", bound="SheetPlanDocument")



@_attrs_define
class SheetPlanDocument:
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
            layouts (list[SheetLayoutDocument]):
            usage (SheetUsageDocument):
            certificate (list[PartWeightsDocument | SheetWeightsDocument]):
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
    layouts: list[SheetLayoutDocument]
    usage: SheetUsageDocument
    certificate: list[PartWeightsDocument | SheetWeightsDocument]





    def to_dict(self) -> dict[str, Any]:
        from ..models.part_weights_document import PartWeightsDocument
        from ..models.sheet_layout_document import SheetLayoutDocument
        from ..models.sheet_usage_document import SheetUsageDocument
        from ..models.sheet_weights_document import SheetWeightsDocument
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
            certificate_item: dict[str, Any]
            if isinstance(certificate_item_data, SheetWeightsDocument):
                certificate_item = certificate_item_data.to_dict()
            else:
                certificate_item = certificate_item_data.to_dict()

            certificate.append(certificate_item)




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

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.part_weights_document import PartWeightsDocument
        from ..models.sheet_layout_document import SheetLayoutDocument
        from ..models.sheet_usage_document import SheetUsageDocument
        from ..models.sheet_weights_document import SheetWeightsDocument
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
            layouts_item = SheetLayoutDocument.from_dict(layouts_item_data)



            layouts.append(layouts_item)


        usage = SheetUsageDocument.from_dict(d.pop("usage"))




        certificate = []
        _certificate = d.pop("certificate")
        for certificate_item_data in (_certificate):
            def _parse_certificate_item(data: object) -> PartWeightsDocument | SheetWeightsDocument:
                try:
                    if not isinstance(data, dict):
                        raise TypeError()
                    certificate_item_type_0 = SheetWeightsDocument.from_dict(data)



                    return certificate_item_type_0
                except (TypeError, ValueError, AttributeError, KeyError):
                    pass
                if not isinstance(data, dict):
                    raise TypeError()
                certificate_item_type_1 = PartWeightsDocument.from_dict(data)



                return certificate_item_type_1

            certificate_item = _parse_certificate_item(certificate_item_data)

            certificate.append(certificate_item)


        sheet_plan_document = cls(
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
        )

        return sheet_plan_document

