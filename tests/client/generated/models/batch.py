from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, BinaryIO, TextIO, TYPE_CHECKING, Generator

from attrs import define as _attrs_define
from attrs import field as _attrs_field

from ..types import UNSET, Unset

from ..types import UNSET, Unset
from typing import cast

if TYPE_CHECKING:
  from ..models.access_document import AccessDocument
  from ..models.batch_coming import BatchComing
  from ..models.batch_jobs_item import BatchJobsItem
  from ..models.keep_document import KeepDocument
  from ..models.price_book import PriceBook
  from ..models.rack_offcut import RackOffcut
  from ..models.wall import Wall





T = TypeVar("T", bound="Batch")



@_attrs_define
class Batch:
    """ 
        Attributes:
            walls (list[Wall] | Unset):
            wall_ids (list[str] | Unset):
            jobs (list[BatchJobsItem] | Unset):
            job_ids (list[str] | Unset):
            prices (PriceBook | Unset):
            price_book (str | Unset):
            merchants (list[PriceBook] | Unset):
            price_books (list[str] | Unset):
            split_saves (str | Unset):
            rack (list[RackOffcut] | Unset):
            keep (KeepDocument | Unset):
            seed (int | Unset):
            seconds (float | Unset):
            access (list[AccessDocument] | Unset):
            fewer_layouts (bool | Unset):
            compare (bool | Unset):
            keep_by_history (bool | Unset):
            coming (BatchComing | Unset):
            coming_job_ids (list[str] | Unset):
     """

    walls: list[Wall] | Unset = UNSET
    wall_ids: list[str] | Unset = UNSET
    jobs: list[BatchJobsItem] | Unset = UNSET
    job_ids: list[str] | Unset = UNSET
    prices: PriceBook | Unset = UNSET
    price_book: str | Unset = UNSET
    merchants: list[PriceBook] | Unset = UNSET
    price_books: list[str] | Unset = UNSET
    split_saves: str | Unset = UNSET
    rack: list[RackOffcut] | Unset = UNSET
    keep: KeepDocument | Unset = UNSET
    seed: int | Unset = UNSET
    seconds: float | Unset = UNSET
    access: list[AccessDocument] | Unset = UNSET
    fewer_layouts: bool | Unset = UNSET
    compare: bool | Unset = UNSET
    keep_by_history: bool | Unset = UNSET
    coming: BatchComing | Unset = UNSET
    coming_job_ids: list[str] | Unset = UNSET





    def to_dict(self) -> dict[str, Any]:
        from ..models.access_document import AccessDocument
        from ..models.batch_coming import BatchComing
        from ..models.batch_jobs_item import BatchJobsItem
        from ..models.keep_document import KeepDocument
        from ..models.price_book import PriceBook
        from ..models.rack_offcut import RackOffcut
        from ..models.wall import Wall
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

        merchants: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.merchants, Unset):
            merchants = []
            for merchants_item_data in self.merchants:
                merchants_item = merchants_item_data.to_dict()
                merchants.append(merchants_item)



        price_books: list[str] | Unset = UNSET
        if not isinstance(self.price_books, Unset):
            price_books = self.price_books



        split_saves = self.split_saves

        rack: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.rack, Unset):
            rack = []
            for rack_item_data in self.rack:
                rack_item = rack_item_data.to_dict()
                rack.append(rack_item)



        keep: dict[str, Any] | Unset = UNSET
        if not isinstance(self.keep, Unset):
            keep = self.keep.to_dict()

        seed = self.seed

        seconds = self.seconds

        access: list[dict[str, Any]] | Unset = UNSET
        if not isinstance(self.access, Unset):
            access = []
            for access_item_data in self.access:
                access_item = access_item_data.to_dict()
                access.append(access_item)



        fewer_layouts = self.fewer_layouts

        compare = self.compare

        keep_by_history = self.keep_by_history

        coming: dict[str, Any] | Unset = UNSET
        if not isinstance(self.coming, Unset):
            coming = self.coming.to_dict()

        coming_job_ids: list[str] | Unset = UNSET
        if not isinstance(self.coming_job_ids, Unset):
            coming_job_ids = self.coming_job_ids




        field_dict: dict[str, Any] = {}

        field_dict.update({
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
        if merchants is not UNSET:
            field_dict["merchants"] = merchants
        if price_books is not UNSET:
            field_dict["price_books"] = price_books
        if split_saves is not UNSET:
            field_dict["split_saves"] = split_saves
        if rack is not UNSET:
            field_dict["rack"] = rack
        if keep is not UNSET:
            field_dict["keep"] = keep
        if seed is not UNSET:
            field_dict["seed"] = seed
        if seconds is not UNSET:
            field_dict["seconds"] = seconds
        if access is not UNSET:
            field_dict["access"] = access
        if fewer_layouts is not UNSET:
            field_dict["fewer_layouts"] = fewer_layouts
        if compare is not UNSET:
            field_dict["compare"] = compare
        if keep_by_history is not UNSET:
            field_dict["keep_by_history"] = keep_by_history
        if coming is not UNSET:
            field_dict["coming"] = coming
        if coming_job_ids is not UNSET:
            field_dict["coming_job_ids"] = coming_job_ids

        return field_dict



    @classmethod
    def from_dict(cls: type[T], src_dict: Mapping[str, Any]) -> T:
        from ..models.access_document import AccessDocument
        from ..models.batch_coming import BatchComing
        from ..models.batch_jobs_item import BatchJobsItem
        from ..models.keep_document import KeepDocument
        from ..models.price_book import PriceBook
        from ..models.rack_offcut import RackOffcut
        from ..models.wall import Wall
        d = dict(src_dict)
        _walls = d.pop("walls", UNSET)
        walls: list[Wall] | Unset = UNSET
        if _walls is not UNSET:
            walls = []
            for walls_item_data in _walls:
                walls_item = Wall.from_dict(walls_item_data)



                walls.append(walls_item)


        wall_ids = cast(list[str], d.pop("wall_ids", UNSET))


        _jobs = d.pop("jobs", UNSET)
        jobs: list[BatchJobsItem] | Unset = UNSET
        if _jobs is not UNSET:
            jobs = []
            for jobs_item_data in _jobs:
                jobs_item = BatchJobsItem.from_dict(jobs_item_data)



                jobs.append(jobs_item)


        job_ids = cast(list[str], d.pop("job_ids", UNSET))


        _prices = d.pop("prices", UNSET)
        prices: PriceBook | Unset
        if isinstance(_prices,  Unset):
            prices = UNSET
        else:
            prices = PriceBook.from_dict(_prices)




        price_book = d.pop("price_book", UNSET)

        _merchants = d.pop("merchants", UNSET)
        merchants: list[PriceBook] | Unset = UNSET
        if _merchants is not UNSET:
            merchants = []
            for merchants_item_data in _merchants:
                merchants_item = PriceBook.from_dict(merchants_item_data)



                merchants.append(merchants_item)


        price_books = cast(list[str], d.pop("price_books", UNSET))


        split_saves = d.pop("split_saves", UNSET)

        _rack = d.pop("rack", UNSET)
        rack: list[RackOffcut] | Unset = UNSET
        if _rack is not UNSET:
            rack = []
            for rack_item_data in _rack:
                rack_item = RackOffcut.from_dict(rack_item_data)



                rack.append(rack_item)


        _keep = d.pop("keep", UNSET)
        keep: KeepDocument | Unset
        if isinstance(_keep,  Unset):
            keep = UNSET
        else:
            keep = KeepDocument.from_dict(_keep)




        seed = d.pop("seed", UNSET)

        seconds = d.pop("seconds", UNSET)

        _access = d.pop("access", UNSET)
        access: list[AccessDocument] | Unset = UNSET
        if _access is not UNSET:
            access = []
            for access_item_data in _access:
                access_item = AccessDocument.from_dict(access_item_data)



                access.append(access_item)


        fewer_layouts = d.pop("fewer_layouts", UNSET)

        compare = d.pop("compare", UNSET)

        keep_by_history = d.pop("keep_by_history", UNSET)

        _coming = d.pop("coming", UNSET)
        coming: BatchComing | Unset
        if isinstance(_coming,  Unset):
            coming = UNSET
        else:
            coming = BatchComing.from_dict(_coming)




        coming_job_ids = cast(list[str], d.pop("coming_job_ids", UNSET))


        batch = cls(
            walls=walls,
            wall_ids=wall_ids,
            jobs=jobs,
            job_ids=job_ids,
            prices=prices,
            price_book=price_book,
            merchants=merchants,
            price_books=price_books,
            split_saves=split_saves,
            rack=rack,
            keep=keep,
            seed=seed,
            seconds=seconds,
            access=access,
            fewer_layouts=fewer_layouts,
            compare=compare,
            keep_by_history=keep_by_history,
            coming=coming,
            coming_job_ids=coming_job_ids,
        )

        return batch

