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
  from ..models.near_misses_items_item_easings_item import NearMissesItemsItemEasingsItem





T = TypeVar("T", bound="NearMissesItemsItem")



@_attrs_define
class NearMissesItemsItem:
    """ 
        Attributes:
            material (str):
            saving (str):
            purchase (str):
            eased_mm (str):
            certain (bool):
            fewest (bool):
            easings (list[NearMissesItemsItemEasingsItem]):
            told (list[str]):
            request (CuttingRequest):
            plan (CuttingPlan):
     """

    material: str
    saving: str
    purchase: str
    eased_mm: str
    certain: bool
    fewest: bool
    easings: list[NearMissesItemsItemEasingsItem]
    told: list[str]
    request: CuttingRequest
    plan: CuttingPlan
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        from ..models.near_misses_items_item_easings_item import NearMissesItemsItemEasingsItem
        material = self.material

        saving = self.saving

        purchase = self.purchase

        eased_mm = self.eased_mm

        certain = self.certain

        fewest = self.fewest

        easings = []
        for easings_item_data in self.easings:
            easings_item = easings_item_data.to_dict()
            easings.append(easings_item)



        told = self.told



        request = self.request.to_dict()

        plan = self.plan.to_dict()


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "material": material,
            "saving": saving,
            "purchase": purchase,
            "eased_mm": eased_mm,
            "certain": certain,
            "fewest": fewest,
            "easings": easings,
            "told": told,
            "request": request,
            "plan": plan,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        from ..models.near_misses_items_item_easings_item import NearMissesItemsItemEasingsItem
        d = dict(src_dict)
        material = d.pop("material")

        saving = d.pop("saving")

        purchase = d.pop("purchase")

        eased_mm = d.pop("eased_mm")

        certain = d.pop("certain")

        fewest = d.pop("fewest")

        easings = []
        _easings = d.pop("easings")
        for easings_item_data in (_easings):
            easings_item = NearMissesItemsItemEasingsItem.from_dict(easings_item_data)



            easings.append(easings_item)


        told = cast(list[str], d.pop("told"))


        request = CuttingRequest.from_dict(d.pop("request"))




        plan = CuttingPlan.from_dict(d.pop("plan"))




        near_misses_items_item = cls(
            material=material,
            saving=saving,
            purchase=purchase,
            eased_mm=eased_mm,
            certain=certain,
            fewest=fewest,
            easings=easings,
            told=told,
            request=request,
            plan=plan,
        )


        near_misses_items_item.additional_properties = d
        return near_misses_items_item

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
