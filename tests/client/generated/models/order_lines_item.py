from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast






T = TypeVar("T", bound="OrderLinesItem")



@_attrs_define
class OrderLinesItem:
    """ 
        Attributes:
            item (str):
            description (str):
            quantity (int):
            unit_price (str):
            line_total (str):
            jobs (list[str]):
            needed_by (str):
            charge (bool | Unset):
            material (str | Unset):
     """

    item: str
    description: str
    quantity: int
    unit_price: str
    line_total: str
    jobs: list[str]
    needed_by: str
    charge: bool | Unset = UNSET
    material: str | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        item = self.item

        description = self.description

        quantity = self.quantity

        unit_price = self.unit_price

        line_total = self.line_total

        jobs = self.jobs



        needed_by = self.needed_by

        charge = self.charge

        material = self.material


        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "item": item,
            "description": description,
            "quantity": quantity,
            "unit_price": unit_price,
            "line_total": line_total,
            "jobs": jobs,
            "needed_by": needed_by,
        })
        if charge is not UNSET:
            field_dict["charge"] = charge
        if material is not UNSET:
            field_dict["material"] = material

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        item = d.pop("item")

        description = d.pop("description")

        quantity = d.pop("quantity")

        unit_price = d.pop("unit_price")

        line_total = d.pop("line_total")

        jobs = cast(list[str], d.pop("jobs"))


        needed_by = d.pop("needed_by")

        charge = d.pop("charge", UNSET)

        material = d.pop("material", UNSET)

        order_lines_item = cls(
            item=item,
            description=description,
            quantity=quantity,
            unit_price=unit_price,
            line_total=line_total,
            jobs=jobs,
            needed_by=needed_by,
            charge=charge,
            material=material,
        )


        order_lines_item.additional_properties = d
        return order_lines_item

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
