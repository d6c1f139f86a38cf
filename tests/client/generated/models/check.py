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





T = TypeVar("T", bound="Check")



@_attrs_define
class Check:
    """ 
        Attributes:
            request (CuttingRequest):
            plan (CuttingPlan):
     """

    request: CuttingRequest
    plan: CuttingPlan





    def to_dict(self) -> dict[str, Any]:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        request = self.request.to_dict()

        plan = self.plan.to_dict()


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "request": request,
            "plan": plan,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        d = dict(src_dict)
        request = CuttingRequest.from_dict(d.pop("request"))




        plan = CuttingPlan.from_dict(d.pop("plan"))




        check = cls(
            request=request,
            plan=plan,
        )

        return check

