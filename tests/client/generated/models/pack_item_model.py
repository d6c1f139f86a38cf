from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.pack_item_model_unit import PackItemModelUnit
from typing import cast

if TYPE_CHECKING:
  from ..models.pack_model import PackModel





T = TypeVar("T", bound="PackItemModel")



@_attrs_define
class PackItemModel:
    """ 
        Attributes:
            item (str):
            unit (PackItemModelUnit):
            packs (list[PackModel]):
     """

    item: str
    unit: PackItemModelUnit
    packs: list[PackModel]





    def to_dict(self) -> dict[str, Any]:
        from ..models.pack_model import PackModel
        item = self.item

        unit = self.unit.value

        packs = []
        for packs_item_data in self.packs:
            packs_item = packs_item_data.to_dict()
            packs.append(packs_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
            "item": item,
            "unit": unit,
            "packs": packs,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.pack_model import PackModel
        d = dict(src_dict)
        item = d.pop("item")

        unit = PackItemModelUnit(d.pop("unit"))




        packs = []
        _packs = d.pop("packs")
        for packs_item_data in (_packs):
            packs_item = PackModel.from_dict(packs_item_data)



            packs.append(packs_item)


        pack_item_model = cls(
            item=item,
            unit=unit,
            packs=packs,
        )

        return pack_item_model

