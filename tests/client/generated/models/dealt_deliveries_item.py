from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.cutting_plan import CuttingPlan
  from ..models.cutting_request import CuttingRequest





T = TypeVar("T", bound="DealtDeliveriesItem")



@_attrs_define
class DealtDeliveriesItem:
    """ 
        Attributes:
            day (str):
            jobs (list[str]):
            goods (str):
            charge (str):
            mass_kg (float):
            longest_mm (str):
            request (CuttingRequest):
            plan (CuttingPlan):
     """

    day: str
    jobs: list[str]
    goods: str
    charge: str
    mass_kg: float
    longest_mm: str
    request: CuttingRequest
    plan: CuttingPlan
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        day = self.day

        jobs = self.jobs



        goods = self.goods

        charge = self.charge

        mass_kg = self.mass_kg

        longest_mm = self.longest_mm

        request = self.request.to_dict()

        plan = self.plan.to_dict()


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "day": day,
            "jobs": jobs,
            "goods": goods,
            "charge": charge,
            "mass_kg": mass_kg,
            "longest_mm": longest_mm,
            "request": request,
            "plan": plan,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        d = dict(src_dict)
        day = d.pop("day")

        jobs = cast(list[str], d.pop("jobs"))


        goods = d.pop("goods")

        charge = d.pop("charge")

        mass_kg = d.pop("mass_kg")

        longest_mm = d.pop("longest_mm")

        request = CuttingRequest.from_dict(d.pop("request"))




        plan = CuttingPlan.from_dict(d.pop("plan"))




        dealt_deliveries_item = cls(
            day=day,
            jobs=jobs,
            goods=goods,
            charge=charge,
            mass_kg=mass_kg,
            longest_mm=longest_mm,
            request=request,
            plan=plan,
        )


        dealt_deliveries_item.additional_properties = d
        return dealt_deliveries_item

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
