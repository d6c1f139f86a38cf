from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.length_item_model import LengthItemModel
  from ..models.order_terms_model import OrderTermsModel
  from ..models.pack_item_model import PackItemModel
  from ..models.sheet_item_model import SheetItemModel





T = TypeVar("T", bound="PriceBook")



@_attrs_define
class PriceBook:
    """ 
        Attributes:
            merchant (str):
            vat_percent (float):
            currency (str | Unset):  Default: 'GBP'.
            lengths (list[LengthItemModel] | Unset):
            sheets (list[SheetItemModel] | Unset):
            packs (list[PackItemModel] | Unset):
            order (None | OrderTermsModel | Unset):
     """

    merchant: str
    vat_percent: float
    currency: str | Unset = 'GBP'
    lengths: list[LengthItemModel] | Unset = UNSET
    sheets: list[SheetItemModel] | Unset = UNSET
    packs: list[PackItemModel] | Unset = UNSET
    order: None | OrderTermsModel | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.length_item_model import LengthItemModel
        from ..models.order_terms_model import OrderTermsModel
        from ..models.pack_item_model import PackItemModel
        from ..models.sheet_item_model import SheetItemModel
        merchant = self.merchant

        vat_percent = self.vat_percent

        currency = self.currency

        lengths: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.lengths, Unset):
            lengths = []
            for lengths_item_data in self.lengths:
                lengths_item = lengths_item_data.to_dict()
                lengths.append(lengths_item)



        sheets: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.sheets, Unset):
            sheets = []
            for sheets_item_data in self.sheets:
                sheets_item = sheets_item_data.to_dict()
                sheets.append(sheets_item)



        packs: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.packs, Unset):
            packs = []
            for packs_item_data in self.packs:
                packs_item = packs_item_data.to_dict()
                packs.append(packs_item)



        order: dict[str, Any] | None | Unset
        if isinstance(self.order, Unset):
            order = UNSET
        elif isinstance(self.order, OrderTermsModel):
            order = self.order.to_dict()
        else:
            order = self.order


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "merchant": merchant,
            "vat_percent": vat_percent,
        })
        if currency is not UNSET:
            field_dict["currency"] = currency
        if lengths is not UNSET:
            field_dict["lengths"] = lengths
        if sheets is not UNSET:
            field_dict["sheets"] = sheets
        if packs is not UNSET:
            field_dict["packs"] = packs
        if order is not UNSET:
            field_dict["order"] = order

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.length_item_model import LengthItemModel
        from ..models.order_terms_model import OrderTermsModel
        from ..models.pack_item_model import PackItemModel
        from ..models.sheet_item_model import SheetItemModel
        d = dict(src_dict)
        merchant = d.pop("merchant")

        vat_percent = d.pop("vat_percent")

        currency = d.pop("currency", UNSET)

        _lengths = d.pop("lengths", UNSET)
        lengths: list[LengthItemModel] | Unset = UNSET
        if _lengths is not UNSET:
            lengths = []
            for lengths_item_data in _lengths:
                lengths_item = LengthItemModel.from_dict(lengths_item_data)



                lengths.append(lengths_item)


        _sheets = d.pop("sheets", UNSET)
        sheets: list[SheetItemModel] | Unset = UNSET
        if _sheets is not UNSET:
            sheets = []
            for sheets_item_data in _sheets:
                sheets_item = SheetItemModel.from_dict(sheets_item_data)



                sheets.append(sheets_item)


        _packs = d.pop("packs", UNSET)
        packs: list[PackItemModel] | Unset = UNSET
        if _packs is not UNSET:
            packs = []
            for packs_item_data in _packs:
                packs_item = PackItemModel.from_dict(packs_item_data)



                packs.append(packs_item)


        def _parse_order(data: object) -> None | OrderTermsModel | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                order_type_0 = OrderTermsModel.from_dict(data)



                return order_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(None | OrderTermsModel | Unset, data)

        order = _parse_order(d.pop("order", UNSET))


        price_book = cls(
            merchant=merchant,
            vat_percent=vat_percent,
            currency=currency,
            lengths=lengths,
            sheets=sheets,
            packs=packs,
            order=order,
        )

        return price_book

