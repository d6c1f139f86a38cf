from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from typing import cast

if TYPE_CHECKING:
  from ..models.dealt_deliveries_item import DealtDeliveriesItem





T = TypeVar("T", bound="Dealt")



@_attrs_define
class Dealt:
    """ 
        Attributes:
            id (str):
            cost (str):
            bound (str):
            proven (bool):
            proven_by_bound (bool):
            one_each (str):
            together (None | str):
            batches (int):
            planned (int):
            deliveries (list[DealtDeliveriesItem]):
     """

    id: str
    cost: str
    bound: str
    proven: bool
    proven_by_bound: bool
    one_each: str
    together: None | str
    batches: int
    planned: int
    deliveries: list[DealtDeliveriesItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.dealt_deliveries_item import DealtDeliveriesItem
        id = self.id

        cost = self.cost

        bound = self.bound

        proven = self.proven

        proven_by_bound = self.proven_by_bound

        one_each = self.one_each

        together: None | str
        together = self.together

        batches = self.batches

        planned = self.planned

        deliveries = []
        for deliveries_item_data in self.deliveries:
            deliveries_item = deliveries_item_data.to_dict()
            deliveries.append(deliveries_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "cost": cost,
            "bound": bound,
            "proven": proven,
            "proven_by_bound": proven_by_bound,
            "one_each": one_each,
            "together": together,
            "batches": batches,
            "planned": planned,
            "deliveries": deliveries,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.dealt_deliveries_item import DealtDeliveriesItem
        d = dict(src_dict)
        id = d.pop("id")

        cost = d.pop("cost")

        bound = d.pop("bound")

        proven = d.pop("proven")

        proven_by_bound = d.pop("proven_by_bound")

        one_each = d.pop("one_each")

        def _parse_together(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        together = _parse_together(d.pop("together"))


        batches = d.pop("batches")

        planned = d.pop("planned")

        deliveries = []
        _deliveries = d.pop("deliveries")
        for deliveries_item_data in (_deliveries):
            deliveries_item = DealtDeliveriesItem.from_dict(deliveries_item_data)



            deliveries.append(deliveries_item)


        dealt = cls(
            id=id,
            cost=cost,
            bound=bound,
            proven=proven,
            proven_by_bound=proven_by_bound,
            one_each=one_each,
            together=together,
            batches=batches,
            planned=planned,
            deliveries=deliveries,
        )


        dealt.additional_properties = d
        return dealt

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
