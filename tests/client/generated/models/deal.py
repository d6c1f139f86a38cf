from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast
import datetime

if TYPE_CHECKING:
  from ..models.deal_jobs_item import DealJobsItem
  from ..models.delivery_terms import DeliveryTerms
  from ..models.keep_document import KeepDocument
  from ..models.price_book import PriceBook
  from ..models.wall import Wall





T = TypeVar("T", bound="Deal")



@_attrs_define
class Deal:
    """ 
        Attributes:
            terms (DeliveryTerms):
            walls (list[Wall] | Unset):
            wall_ids (list[str] | Unset):
            jobs (list[DealJobsItem] | Unset):
            job_ids (list[str] | Unset):
            prices (PriceBook | Unset):
            price_book (str | Unset):
            keep (KeepDocument | Unset):
            seed (int | Unset):
            seconds (float | Unset):
            today (datetime.date | Unset):
     """

    terms: DeliveryTerms
    walls: list[Wall] | Unset = UNSET
    wall_ids: list[str] | Unset = UNSET
    jobs: list[DealJobsItem] | Unset = UNSET
    job_ids: list[str] | Unset = UNSET
    prices: PriceBook | Unset = UNSET
    price_book: str | Unset = UNSET
    keep: KeepDocument | Unset = UNSET
    seed: int | Unset = UNSET
    seconds: float | Unset = UNSET
    today: datetime.date | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.deal_jobs_item import DealJobsItem
        from ..models.delivery_terms import DeliveryTerms
        from ..models.keep_document import KeepDocument
        from ..models.price_book import PriceBook
        from ..models.wall import Wall
        terms = self.terms.to_dict()

        walls: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.walls, Unset):
            walls = []
            for walls_item_data in self.walls:
                walls_item = walls_item_data.to_dict()
                walls.append(walls_item)



        wall_ids: list[str] | Unset = UNSET
        if not isinstance(self.wall_ids, Unset):
            wall_ids = self.wall_ids



        jobs: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.jobs, Unset):
            jobs = []
            for jobs_item_data in self.jobs:
                jobs_item = jobs_item_data.to_dict()
                jobs.append(jobs_item)



        job_ids: list[str] | Unset = UNSET
        if not isinstance(self.job_ids, Unset):
            job_ids = self.job_ids



        prices: dict[str, Any] | Unset = UNSET
        if not isinstance(self.prices, Unset):
            prices = self.prices.to_dict()

        price_book = self.price_book

        keep: dict[str, Any] | Unset = UNSET
        if not isinstance(self.keep, Unset):
            keep = self.keep.to_dict()

        seed = self.seed

        seconds = self.seconds

        today: str | Unset = UNSET
        if not isinstance(self.today, Unset):
            today = self.today.isoformat()


        field_dict: dict[str, Any] = {}

        field_dict.update({
            "terms": terms,
        })
        if walls is not UNSET:
            field_dict["walls"] = walls
        if wall_ids is not UNSET:
            field_dict["wall_ids"] = wall_ids
        if jobs is not UNSET:
            field_dict["jobs"] = jobs
        if job_ids is not UNSET:
            field_dict["job_ids"] = job_ids
        if prices is not UNSET:
            field_dict["prices"] = prices
        if price_book is not UNSET:
            field_dict["price_book"] = price_book
        if keep is not UNSET:
            field_dict["keep"] = keep
        if seed is not UNSET:
            field_dict["seed"] = seed
        if seconds is not UNSET:
            field_dict["seconds"] = seconds
        if today is not UNSET:
            field_dict["today"] = today

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.deal_jobs_item import DealJobsItem
        from ..models.delivery_terms import DeliveryTerms
        from ..models.keep_document import KeepDocument
        from ..models.price_book import PriceBook
        from ..models.wall import Wall
        d = dict(src_dict)
        terms = DeliveryTerms.from_dict(d.pop("terms"))




        _walls = d.pop("walls", UNSET)
        walls: list[Wall] | Unset = UNSET
        if _walls is not UNSET:
            walls = []
            for walls_item_data in _walls:
                walls_item = Wall.from_dict(walls_item_data)



                walls.append(walls_item)


        wall_ids = cast(list[str], d.pop("wall_ids", UNSET))


        _jobs = d.pop("jobs", UNSET)
        jobs: list[DealJobsItem] | Unset = UNSET
        if _jobs is not UNSET:
            jobs = []
            for jobs_item_data in _jobs:
                jobs_item = DealJobsItem.from_dict(jobs_item_data)



                jobs.append(jobs_item)


        job_ids = cast(list[str], d.pop("job_ids", UNSET))


        _prices = d.pop("prices", UNSET)
        prices: PriceBook | Unset
        if isinstance(_prices,  Unset):
            prices = UNSET
        else:
            prices = PriceBook.from_dict(_prices)




        price_book = d.pop("price_book", UNSET)

        _keep = d.pop("keep", UNSET)
        keep: KeepDocument | Unset
        if isinstance(_keep,  Unset):
            keep = UNSET
        else:
            keep = KeepDocument.from_dict(_keep)




        seed = d.pop("seed", UNSET)

        seconds = d.pop("seconds", UNSET)

        _today = d.pop("today", UNSET)
        today: datetime.date | Unset
        if isinstance(_today,  Unset):
            today = UNSET
        else:
            today = datetime.date.fromisoformat(_today)




        deal = cls(
            terms=terms,
            walls=walls,
            wall_ids=wall_ids,
            jobs=jobs,
            job_ids=job_ids,
            prices=prices,
            price_book=price_book,
            keep=keep,
            seed=seed,
            seconds=seconds,
            today=today,
        )

        return deal

