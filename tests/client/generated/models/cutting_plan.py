from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.chosen_document import ChosenDocument
  from ..models.length_plan_document import LengthPlanDocument
  from ..models.sheet_plan_document import SheetPlanDocument





T = TypeVar("T", bound="CuttingPlan")



@_attrs_define
class CuttingPlan:
    """ 
        Attributes:
            purchase (str):
            offcuts_used (str):
            credit (str):
            net_cost (str):
            lower_bound (str):
            proven (bool):
            seconds (float):
            seed (int):
            lengths (list[LengthPlanDocument]):
            sheets (list[SheetPlanDocument]):
            chosen (list[ChosenDocument]):
            choices_saved (str | Unset):  Default: '0.00'.
     """

    purchase: str
    offcuts_used: str
    credit: str
    net_cost: str
    lower_bound: str
    proven: bool
    seconds: float
    seed: int
    lengths: list[LengthPlanDocument]
    sheets: list[SheetPlanDocument]
    chosen: list[ChosenDocument]
    choices_saved: str | Unset = '0.00'





    def to_dict(self) -> dict[str, Any]:
        from ..models.chosen_document import ChosenDocument
        from ..models.length_plan_document import LengthPlanDocument
        from ..models.sheet_plan_document import SheetPlanDocument
        purchase = self.purchase

        offcuts_used = self.offcuts_used

        credit = self.credit

        net_cost = self.net_cost

        lower_bound = self.lower_bound

        proven = self.proven

        seconds = self.seconds

        seed = self.seed

        lengths = []
        for lengths_item_data in self.lengths:
            lengths_item = lengths_item_data.to_dict()
            lengths.append(lengths_item)



        sheets = []
        for sheets_item_data in self.sheets:
            sheets_item = sheets_item_data.to_dict()
            sheets.append(sheets_item)



        chosen = []
        for chosen_item_data in self.chosen:
            chosen_item = chosen_item_data.to_dict()
            chosen.append(chosen_item)



        choices_saved = self.choices_saved


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "purchase": purchase,
            "offcuts_used": offcuts_used,
            "credit": credit,
            "net_cost": net_cost,
            "lower_bound": lower_bound,
            "proven": proven,
            "seconds": seconds,
            "seed": seed,
            "lengths": lengths,
            "sheets": sheets,
            "chosen": chosen,
        })
        if choices_saved is not UNSET:
            field_dict["choices_saved"] = choices_saved

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.chosen_document import ChosenDocument
        from ..models.length_plan_document import LengthPlanDocument
        from ..models.sheet_plan_document import SheetPlanDocument
        d = dict(src_dict)
        purchase = d.pop("purchase")

        offcuts_used = d.pop("offcuts_used")

        credit = d.pop("credit")

        net_cost = d.pop("net_cost")

        lower_bound = d.pop("lower_bound")

        proven = d.pop("proven")

        seconds = d.pop("seconds")

        seed = d.pop("seed")

        lengths = []
        _lengths = d.pop("lengths")
        for lengths_item_data in (_lengths):
            lengths_item = LengthPlanDocument.from_dict(lengths_item_data)



            lengths.append(lengths_item)


        sheets = []
        _sheets = d.pop("sheets")
        for sheets_item_data in (_sheets):
            sheets_item = SheetPlanDocument.from_dict(sheets_item_data)



            sheets.append(sheets_item)


        chosen = []
        _chosen = d.pop("chosen")
        for chosen_item_data in (_chosen):
            chosen_item = ChosenDocument.from_dict(chosen_item_data)



            chosen.append(chosen_item)


        choices_saved = d.pop("choices_saved", UNSET)

        cutting_plan = cls(
            purchase=purchase,
            offcuts_used=offcuts_used,
            credit=credit,
            net_cost=net_cost,
            lower_bound=lower_bound,
            proven=proven,
            seconds=seconds,
            seed=seed,
            lengths=lengths,
            sheets=sheets,
            chosen=chosen,
            choices_saved=choices_saved,
        )

        return cutting_plan

