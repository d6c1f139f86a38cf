from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..models.made_plan_state import MadePlanState
from ..types import UNSET, Unset
from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.cutting_plan import CuttingPlan
  from ..models.cutting_request import CuttingRequest
  from ..models.made_plan_comparison_type_0 import MadePlanComparisonType0
  from ..models.made_plan_finished_item import MadePlanFinishedItem
  from ..models.made_plan_floor_item import MadePlanFloorItem
  from ..models.made_plan_in_hand_item import MadePlanInHandItem
  from ..models.made_plan_leaves_item import MadePlanLeavesItem
  from ..models.made_plan_merchants_type_0 import MadePlanMerchantsType0
  from ..models.made_plan_pieces import MadePlanPieces
  from ..models.made_plan_shares_item import MadePlanSharesItem
  from ..models.made_plan_walls_item import MadePlanWallsItem
  from ..models.order import Order





T = TypeVar("T", bound="MadePlan")



@_attrs_define
class MadePlan:
    """ 
        Attributes:
            id (str):
            run (str):
            state (MadePlanState):
            version (int):
            created (datetime.datetime):
            request (CuttingRequest):
            plan (CuttingPlan):
            order (None | Order):
            orders (list[Order] | Unset):
            merchants (MadePlanMerchantsType0 | None | Unset):
            shares (list[MadePlanSharesItem] | Unset):
            comparison (MadePlanComparisonType0 | None | Unset):
            walls (list[MadePlanWallsItem] | Unset):
            continues (str | Unset):
            finished (list[MadePlanFinishedItem] | Unset):
            pieces (MadePlanPieces | Unset):
            floor (list[MadePlanFloorItem] | Unset):
            in_hand (list[MadePlanInHandItem] | Unset):
            adopted (list[str] | Unset):
            leaves (list[MadePlanLeavesItem] | Unset):
     """

    id: str
    run: str
    state: MadePlanState
    version: int
    created: datetime.datetime
    request: CuttingRequest
    plan: CuttingPlan
    order: None | Order
    orders: list[Order] | Unset = UNSET
    merchants: MadePlanMerchantsType0 | None | Unset = UNSET
    shares: list[MadePlanSharesItem] | Unset = UNSET
    comparison: MadePlanComparisonType0 | None | Unset = UNSET
    walls: list[MadePlanWallsItem] | Unset = UNSET
    continues: str | Unset = UNSET
    finished: list[MadePlanFinishedItem] | Unset = UNSET
    pieces: MadePlanPieces | Unset = UNSET
    floor: list[MadePlanFloorItem] | Unset = UNSET
    in_hand: list[MadePlanInHandItem] | Unset = UNSET
    adopted: list[str] | Unset = UNSET
    leaves: list[MadePlanLeavesItem] | Unset = UNSET
    additional_properties: dict[str, Any] = _attrs_field(init=False, factory=dict)





    def to_dict(self) -> dict[str, Any]:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        from ..models.made_plan_comparison_type_0 import MadePlanComparisonType0
        from ..models.made_plan_finished_item import MadePlanFinishedItem
        from ..models.made_plan_floor_item import MadePlanFloorItem
        from ..models.made_plan_in_hand_item import MadePlanInHandItem
        from ..models.made_plan_leaves_item import MadePlanLeavesItem
        from ..models.made_plan_merchants_type_0 import MadePlanMerchantsType0
        from ..models.made_plan_pieces import MadePlanPieces
        from ..models.made_plan_shares_item import MadePlanSharesItem
        from ..models.made_plan_walls_item import MadePlanWallsItem
        from ..models.order import Order
        id = self.id

        run = self.run

        state = self.state.value

        version = self.version

        created = self.created.isoformat()

        request = self.request.to_dict()

        plan = self.plan.to_dict()

        order: dict[str, Any] | None
        if isinstance(self.order, Order):
            order = self.order.to_dict()
        else:
            order = self.order

        orders: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.orders, Unset):
            orders = []
            for orders_item_data in self.orders:
                orders_item = orders_item_data.to_dict()
                orders.append(orders_item)



        merchants: dict[str, Any] | None | Unset
        if isinstance(self.merchants, Unset):
            merchants = UNSET
        elif isinstance(self.merchants, MadePlanMerchantsType0):
            merchants = self.merchants.to_dict()
        else:
            merchants = self.merchants

        shares: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.shares, Unset):
            shares = []
            for shares_item_data in self.shares:
                shares_item = shares_item_data.to_dict()
                shares.append(shares_item)



        comparison: dict[str, Any] | None | Unset
        if isinstance(self.comparison, Unset):
            comparison = UNSET
        elif isinstance(self.comparison, MadePlanComparisonType0):
            comparison = self.comparison.to_dict()
        else:
            comparison = self.comparison

        walls: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.walls, Unset):
            walls = []
            for walls_item_data in self.walls:
                walls_item = walls_item_data.to_dict()
                walls.append(walls_item)



        continues = self.continues

        finished: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.finished, Unset):
            finished = []
            for finished_item_data in self.finished:
                finished_item = finished_item_data.to_dict()
                finished.append(finished_item)



        pieces: dict[str, Any] | Unset = UNSET
        if not isinstance(self.pieces, Unset):
            pieces = self.pieces.to_dict()

        floor: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.floor, Unset):
            floor = []
            for floor_item_data in self.floor:
                floor_item = floor_item_data.to_dict()
                floor.append(floor_item)



        in_hand: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.in_hand, Unset):
            in_hand = []
            for in_hand_item_data in self.in_hand:
                in_hand_item = in_hand_item_data.to_dict()
                in_hand.append(in_hand_item)



        adopted: list[str] | Unset = UNSET
        if not isinstance(self.adopted, Unset):
            adopted = self.adopted



        leaves: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.leaves, Unset):
            leaves = []
            for leaves_item_data in self.leaves:
                leaves_item = leaves_item_data.to_dict()
                leaves.append(leaves_item)




        field_dict: dict[str, Any] = {}
        field_dict.update(self.additional_properties)
        field_dict.update({
            "id": id,
            "run": run,
            "state": state,
            "version": version,
            "created": created,
            "request": request,
            "plan": plan,
            "order": order,
        })
        if orders is not UNSET:
            field_dict["orders"] = orders
        if merchants is not UNSET:
            field_dict["merchants"] = merchants
        if shares is not UNSET:
            field_dict["shares"] = shares
        if comparison is not UNSET:
            field_dict["comparison"] = comparison
        if walls is not UNSET:
            field_dict["walls"] = walls
        if continues is not UNSET:
            field_dict["continues"] = continues
        if finished is not UNSET:
            field_dict["finished"] = finished
        if pieces is not UNSET:
            field_dict["pieces"] = pieces
        if floor is not UNSET:
            field_dict["floor"] = floor
        if in_hand is not UNSET:
            field_dict["in_hand"] = in_hand
        if adopted is not UNSET:
            field_dict["adopted"] = adopted
        if leaves is not UNSET:
            field_dict["leaves"] = leaves

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.cutting_plan import CuttingPlan
        from ..models.cutting_request import CuttingRequest
        from ..models.made_plan_comparison_type_0 import MadePlanComparisonType0
        from ..models.made_plan_finished_item import MadePlanFinishedItem
        from ..models.made_plan_floor_item import MadePlanFloorItem
        from ..models.made_plan_in_hand_item import MadePlanInHandItem
        from ..models.made_plan_leaves_item import MadePlanLeavesItem
        from ..models.made_plan_merchants_type_0 import MadePlanMerchantsType0
        from ..models.made_plan_pieces import MadePlanPieces
        from ..models.made_plan_shares_item import MadePlanSharesItem
        from ..models.made_plan_walls_item import MadePlanWallsItem
        from ..models.order import Order
        d = dict(src_dict)
        id = d.pop("id")

        run = d.pop("run")

        state = MadePlanState(d.pop("state"))




        version = d.pop("version")

        created = datetime.datetime.fromisoformat(d.pop("created"))




        request = CuttingRequest.from_dict(d.pop("request"))




        plan = CuttingPlan.from_dict(d.pop("plan"))




        def _parse_order(data: object) -> None | Order:
            if data is None:
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                order_type_0 = Order.from_dict(data)



                return order_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(None | Order, data)

        order = _parse_order(d.pop("order"))


        _orders = d.pop("orders", UNSET)
        orders: list[Order] | Unset = UNSET
        if _orders is not UNSET:
            orders = []
            for orders_item_data in _orders:
                orders_item = Order.from_dict(orders_item_data)



                orders.append(orders_item)


        def _parse_merchants(data: object) -> MadePlanMerchantsType0 | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                merchants_type_0 = MadePlanMerchantsType0.from_dict(data)



                return merchants_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(MadePlanMerchantsType0 | None | Unset, data)

        merchants = _parse_merchants(d.pop("merchants", UNSET))


        _shares = d.pop("shares", UNSET)
        shares: list[MadePlanSharesItem] | Unset = UNSET
        if _shares is not UNSET:
            shares = []
            for shares_item_data in _shares:
                shares_item = MadePlanSharesItem.from_dict(shares_item_data)



                shares.append(shares_item)


        def _parse_comparison(data: object) -> MadePlanComparisonType0 | None | Unset:
            if data is None:
                return data
            if isinstance(data, Unset):
                return data
            try:
                if not isinstance(data, dict):
                    raise TypeError()
                comparison_type_0 = MadePlanComparisonType0.from_dict(data)



                return comparison_type_0
            except (TypeError, ValueError, AttributeError, KeyError):
                pass
            return cast(MadePlanComparisonType0 | None | Unset, data)

        comparison = _parse_comparison(d.pop("comparison", UNSET))


        _walls = d.pop("walls", UNSET)
        walls: list[MadePlanWallsItem] | Unset = UNSET
        if _walls is not UNSET:
            walls = []
            for walls_item_data in _walls:
                walls_item = MadePlanWallsItem.from_dict(walls_item_data)



                walls.append(walls_item)


        continues = d.pop("continues", UNSET)

        _finished = d.pop("finished", UNSET)
        finished: list[MadePlanFinishedItem] | Unset = UNSET
        if _finished is not UNSET:
            finished = []
            for finished_item_data in _finished:
                finished_item = MadePlanFinishedItem.from_dict(finished_item_data)



                finished.append(finished_item)


        _pieces = d.pop("pieces", UNSET)
        pieces: MadePlanPieces | Unset
        if isinstance(_pieces,  Unset):
            pieces = UNSET
        else:
            pieces = MadePlanPieces.from_dict(_pieces)




        _floor = d.pop("floor", UNSET)
        floor: list[MadePlanFloorItem] | Unset = UNSET
        if _floor is not UNSET:
            floor = []
            for floor_item_data in _floor:
                floor_item = MadePlanFloorItem.from_dict(floor_item_data)



                floor.append(floor_item)


        _in_hand = d.pop("in_hand", UNSET)
        in_hand: list[MadePlanInHandItem] | Unset = UNSET
        if _in_hand is not UNSET:
            in_hand = []
            for in_hand_item_data in _in_hand:
                in_hand_item = MadePlanInHandItem.from_dict(in_hand_item_data)



                in_hand.append(in_hand_item)


        adopted = cast(list[str], d.pop("adopted", UNSET))


        _leaves = d.pop("leaves", UNSET)
        leaves: list[MadePlanLeavesItem] | Unset = UNSET
        if _leaves is not UNSET:
            leaves = []
            for leaves_item_data in _leaves:
                leaves_item = MadePlanLeavesItem.from_dict(leaves_item_data)



                leaves.append(leaves_item)


        made_plan = cls(
            id=id,
            run=run,
            state=state,
            version=version,
            created=created,
            request=request,
            plan=plan,
            order=order,
            orders=orders,
            merchants=merchants,
            shares=shares,
            comparison=comparison,
            walls=walls,
            continues=continues,
            finished=finished,
            pieces=pieces,
            floor=floor,
            in_hand=in_hand,
            adopted=adopted,
            leaves=leaves,
        )


        made_plan.additional_properties = d
        return made_plan

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
