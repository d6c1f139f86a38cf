from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.marks_state import MarksState
from typing import cast

if TYPE_CHECKING:
  from ..models.marks_contradictions_item import MarksContradictionsItem
  from ..models.marks_pieces_item import MarksPiecesItem
  from ..models.marks_ticks_item import MarksTicksItem





T = TypeVar("T", bound="Marks")



@_attrs_define
class Marks:
    """ 
        Attributes:
            plan (str):
            state (MarksState):
            continues (None | str):
            continued_by (None | str):
            too_late (int):
            ticks (list[MarksTicksItem]):
            pieces (list[MarksPiecesItem]):
            contradictions (list[MarksContradictionsItem]):
     """

    plan: str
    state: MarksState
    continues: None | str
    continued_by: None | str
    too_late: int
    ticks: list[MarksTicksItem]
    pieces: list[MarksPiecesItem]
    contradictions: list[MarksContradictionsItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.marks_contradictions_item import MarksContradictionsItem
        from ..models.marks_pieces_item import MarksPiecesItem
        from ..models.marks_ticks_item import MarksTicksItem
        plan = self.plan

        state = self.state.value

        continues: None | str
        continues = self.continues

        continued_by: None | str
        continued_by = self.continued_by

        too_late = self.too_late

        ticks = []
        for ticks_item_data in self.ticks:
            ticks_item = ticks_item_data.to_dict()
            ticks.append(ticks_item)



        pieces = []
        for pieces_item_data in self.pieces:
            pieces_item = pieces_item_data.to_dict()
            pieces.append(pieces_item)



        contradictions = []
        for contradictions_item_data in self.contradictions:
            contradictions_item = contradictions_item_data.to_dict()
            contradictions.append(contradictions_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "plan": plan,
            "state": state,
            "continues": continues,
            "continued_by": continued_by,
            "too_late": too_late,
            "ticks": ticks,
            "pieces": pieces,
            "contradictions": contradictions,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.marks_contradictions_item import MarksContradictionsItem
        from ..models.marks_pieces_item import MarksPiecesItem
        from ..models.marks_ticks_item import MarksTicksItem
        d = dict(src_dict)
        plan = d.pop("plan")

        state = MarksState(d.pop("state"))




        def _parse_continues(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        continues = _parse_continues(d.pop("continues"))


        def _parse_continued_by(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        continued_by = _parse_continued_by(d.pop("continued_by"))


        too_late = d.pop("too_late")

        ticks = []
        _ticks = d.pop("ticks")
        for ticks_item_data in (_ticks):
            ticks_item = MarksTicksItem.from_dict(ticks_item_data)



            ticks.append(ticks_item)


        pieces = []
        _pieces = d.pop("pieces")
        for pieces_item_data in (_pieces):
            pieces_item = MarksPiecesItem.from_dict(pieces_item_data)



            pieces.append(pieces_item)


        contradictions = []
        _contradictions = d.pop("contradictions")
        for contradictions_item_data in (_contradictions):
            contradictions_item = MarksContradictionsItem.from_dict(contradictions_item_data)



            contradictions.append(contradictions_item)


        marks = cls(
            plan=plan,
            state=state,
            continues=continues,
            continued_by=continued_by,
            too_late=too_late,
            ticks=ticks,
            pieces=pieces,
            contradictions=contradictions,
        )


        marks.additional_properties = d
        return marks

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
