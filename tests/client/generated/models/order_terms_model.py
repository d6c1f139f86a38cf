from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.long_item_model import LongItemModel





T = TypeVar("T", bound="OrderTermsModel")



@_attrs_define
class OrderTermsModel:
    """ 
        Attributes:
            minimum (None | str | Unset):
            small_order (None | str | Unset):
            delivery (None | str | Unset):
            delivery_free_over (None | str | Unset):
            by_length (list[LongItemModel] | Unset):
     """

    minimum: None | str | Unset = UNSET
    small_order: None | str | Unset = UNSET
    delivery: None | str | Unset = UNSET
    delivery_free_over: None | str | Unset = UNSET
    by_length: list[LongItemModel] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.long_item_model import LongItemModel
        minimum: None | str | Unset
        if isinstance(self.minimum, Unset):
            minimum = UNSET
        else:
            minimum = self.minimum

        small_order: None | str | Unset
        if isinstance(self.small_order, Unset):
            small_order = UNSET
        else:
            small_order = self.small_order

        delivery: None | str | Unset
        if isinstance(self.delivery, Unset):
            delivery = UNSET
        else:
            delivery = self.delivery

        delivery_free_over: None | str | Unset
        if isinstance(self.delivery_free_over, Unset):
            delivery_free_over = UNSET
        else:
            delivery_free_over = self.delivery_free_over

        by_length: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.by_length, Unset):
            by_length = []
            for by_length_item_data in self.by_length:
                by_length_item = by_length_item_data.to_dict()
                by_length.append(by_length_item)




        field_dict: dict[str, Any] = {}

        field_dict.update({
        })
        if minimum is not UNSET:
            field_dict["minimum"] = minimum
        if small_order is not UNSET:
            field_dict["small_order"] = small_order
        if delivery is not UNSET:
            field_dict["delivery"] = delivery
        if delivery_free_over is not UNSET:
            field_dict["delivery_free_over"] = delivery_free_over
        if by_length is not UNSET:
            field_dict["by_length"] = by_length

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.long_item_model import LongItemModel
        d = dict(src_dict)
        def _parse_minimum(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        minimum = _parse_minimum(d.pop("minimum", UNSET))


        def _parse_small_order(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        small_order = _parse_small_order(d.pop("small_order", UNSET))


        def _parse_delivery(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        delivery = _parse_delivery(d.pop("delivery", UNSET))


        def _parse_delivery_free_over(data: object) -> None | str | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            return cast(None | str | Unset, data)

        delivery_free_over = _parse_delivery_free_over(d.pop("delivery_free_over", UNSET))


        _by_length = d.pop("by_length", UNSET)
        by_length: list[LongItemModel] | Unset = UNSET
        if _by_length is not UNSET:
            by_length = []
            for by_length_item_data in _by_length:
                by_length_item = LongItemModel.from_dict(by_length_item_data)



                by_length.append(by_length_item)


        order_terms_model = cls(
            minimum=minimum,
            small_order=small_order,
            delivery=delivery,
            delivery_free_over=delivery_free_over,
            by_length=by_length,
        )

        return order_terms_model

