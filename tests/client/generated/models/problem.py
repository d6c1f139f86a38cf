from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.problem_problems_item import ProblemProblemsItem





T = TypeVar("T", bound="Problem")



@_attrs_define
class Problem:
    """ 
        Attributes:
            type_ (str):
            title (str):
            status (int):
            detail (str | Unset):
            problems (list[ProblemProblemsItem] | Unset):
     """

    type_: str
    title: str
    status: int
    detail: str | Unset = UNSET
    problems: list[ProblemProblemsItem] | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.problem_problems_item import ProblemProblemsItem
        type_ = self.type_

        title = self.title

        status = self.status

        detail = self.detail

        problems: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.problems, Unset):
            problems = []
            for problems_item_data in self.problems:
                problems_item = problems_item_data.to_dict()
                problems.append(problems_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "type": type_,
            "title": title,
            "status": status,
        })
        if detail is not UNSET:
            field_dict["detail"] = detail
        if problems is not UNSET:
            field_dict["problems"] = problems

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.problem_problems_item import ProblemProblemsItem
        d = dict(src_dict)
        type_ = d.pop("type")

        title = d.pop("title")

        status = d.pop("status")

        detail = d.pop("detail", UNSET)

        _problems = d.pop("problems", UNSET)
        problems: list[ProblemProblemsItem] | Unset = UNSET
        if _problems is not UNSET:
            problems = []
            for problems_item_data in _problems:
                problems_item = ProblemProblemsItem.from_dict(problems_item_data)



                problems.append(problems_item)


        problem = cls(
            type_=type_,
            title=title,
            status=status,
            detail=detail,
            problems=problems,
        )


        problem.additional_properties = d
        return problem

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
