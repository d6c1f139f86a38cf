from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast
import datetime






T = TypeVar("T", bound="PriceFileBody")



@_attrs_define
class PriceFileBody:
    """ 
        Attributes:
            text (str):
            file (str | Unset):  Default: 'prices.toml'.
            valid_from (datetime.date | None | Unset):
     """

    text: str
    file: str | Unset = 'prices.toml'
    valid_from: datetime.date | None | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        text = self.text

        file = self.file

        valid_from: None | str | Unset
        if isinstance(self.valid_from, Unset):
            valid_from = UNSET
        elif isinstance(self.valid_from, datetime.date):
            valid_from = self.valid_from.isoformat()
        else:
            valid_from = self.valid_from


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "text": text,
        })
        if file is not UNSET:
            field_dict["file"] = file
        if valid_from is not UNSET:
            field_dict["valid_from"] = valid_from

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        d = dict(src_dict)
        text = d.pop("text")

        file = d.pop("file", UNSET)

        def _parse_valid_from(data: object) -> datetime.date | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                valid_from_type_0 = datetime.date.fromisoformat(data)



                return valid_from_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(datetime.date | None | Unset, data)

        valid_from = _parse_valid_from(d.pop("valid_from", UNSET))


        price_file_body = cls(
            text=text,
            file=file,
            valid_from=valid_from,
        )

        return price_file_body

