from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.run_state import RunState
from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.run_problems_item import RunProblemsItem





T = TypeVar("T", bound="Run")



@_attrs_define
class Run:
    """ 
        Attributes:
            id (str):
            kind (str):
            state (RunState):
            created (datetime.datetime):
            started (datetime.datetime | None):
            ended (datetime.datetime | None):
            deadline (datetime.datetime | None):
            seconds_asked (float):
            seconds (float | None):
            net_cost (None | str):
            lower_bound (None | str):
            layouts (int | None):
            attempt (int):
            cancel_asked (bool):
            plan (None | str):
            result (None | str):
            problems (list[RunProblemsItem]):
     """

    id: str
    kind: str
    state: RunState
    created: datetime.datetime
    started: datetime.datetime | None
    ended: datetime.datetime | None
    deadline: datetime.datetime | None
    seconds_asked: float
    seconds: float | None
    net_cost: None | str
    lower_bound: None | str
    layouts: int | None
    attempt: int
    cancel_asked: bool
    plan: None | str
    result: None | str
    problems: list[RunProblemsItem]
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.run_problems_item import RunProblemsItem
        id = self.id

        kind = self.kind

        state = self.state.value

        created = self.created.isoformat()

        started: None | str
        if isinstance(self.started, datetime.datetime):
            started = self.started.isoformat()
        else:
            started = self.started

        ended: None | str
        if isinstance(self.ended, datetime.datetime):
            ended = self.ended.isoformat()
        else:
            ended = self.ended

        deadline: None | str
        if isinstance(self.deadline, datetime.datetime):
            deadline = self.deadline.isoformat()
        else:
            deadline = self.deadline

        seconds_asked = self.seconds_asked

        seconds: float | None
        seconds = self.seconds

        net_cost: None | str
        net_cost = self.net_cost

        lower_bound: None | str
        lower_bound = self.lower_bound

        layouts: int | None
        layouts = self.layouts

        attempt = self.attempt

        cancel_asked = self.cancel_asked

        plan: None | str
        plan = self.plan

        result: None | str
        result = self.result

        problems = []
        for problems_item_data in self.problems:
            problems_item = problems_item_data.to_dict()
            problems.append(problems_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "kind": kind,
            "state": state,
            "created": created,
            "started": started,
            "ended": ended,
            "deadline": deadline,
            "seconds_asked": seconds_asked,
            "seconds": seconds,
            "net_cost": net_cost,
            "lower_bound": lower_bound,
            "layouts": layouts,
            "attempt": attempt,
            "cancel_asked": cancel_asked,
            "plan": plan,
            "result": result,
            "problems": problems,
        })

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.run_problems_item import RunProblemsItem
        d = dict(src_dict)
        id = d.pop("id")

        kind = d.pop("kind")

        state = RunState(d.pop("state"))




        created = datetime.datetime.fromisoformat(d.pop("created"))




        def _parse_started(data: object) -> datetime.datetime | None:
            if data is None:
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                started_type_0 = datetime.datetime.fromisoformat(data)



                return started_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(datetime.datetime | None, data)

        started = _parse_started(d.pop("started"))


        def _parse_ended(data: object) -> datetime.datetime | None:
            if data is None:
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                ended_type_0 = datetime.datetime.fromisoformat(data)



                return ended_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(datetime.datetime | None, data)

        ended = _parse_ended(d.pop("ended"))


        def _parse_deadline(data: object) -> datetime.datetime | None:
            if data is None:
                return data
            try:
                if not isinstance(data, str):
                    raise TypeError()
                deadline_type_0 = datetime.datetime.fromisoformat(data)



                return deadline_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(datetime.datetime | None, data)

        deadline = _parse_deadline(d.pop("deadline"))


        seconds_asked = d.pop("seconds_asked")

        def _parse_seconds(data: object) -> float | None:
            if data is None:
                return data
            return cast(float | None, data)

        seconds = _parse_seconds(d.pop("seconds"))


        def _parse_net_cost(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        net_cost = _parse_net_cost(d.pop("net_cost"))


        def _parse_lower_bound(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        lower_bound = _parse_lower_bound(d.pop("lower_bound"))


        def _parse_layouts(data: object) -> int | None:
            if data is None:
                return data
            return cast(int | None, data)

        layouts = _parse_layouts(d.pop("layouts"))


        attempt = d.pop("attempt")

        cancel_asked = d.pop("cancel_asked")

        def _parse_plan(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        plan = _parse_plan(d.pop("plan"))


        def _parse_result(data: object) -> None | str:
            if data is None:
                return data
            return cast(None | str, data)

        result = _parse_result(d.pop("result"))


        problems = []
        _problems = d.pop("problems")
        for problems_item_data in (_problems):
            problems_item = RunProblemsItem.from_dict(problems_item_data)



            problems.append(problems_item)


        run = cls(
            id=id,
            kind=kind,
            state=state,
            created=created,
            started=started,
            ended=ended,
            deadline=deadline,
            seconds_asked=seconds_asked,
            seconds=seconds,
            net_cost=net_cost,
            lower_bound=lower_bound,
            layouts=layouts,
            attempt=attempt,
            cancel_asked=cancel_asked,
            plan=plan,
            result=result,
            problems=problems,
        )


        run.additional_properties = d
        return run

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
