"""Bodies of several documents: walls with price book and rack, a request with its plan."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import optimiser as lib
from api.batch import SPLIT_SAVES, Merchants, Rules
from api.rules import rules_from_document
from optimiser import InvalidInput, Pence, Problem

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest, PartList, PriceBook, Rack, Wall

_RULES = ("keep", "seed", "seconds", "access", "fewer_layouts")
_MERCHANTS = ("merchants", "split_saves")
_KEEPING = ("keep_by_history", "coming")
BATCH_FIELDS = ("walls", "jobs", "prices", *_MERCHANTS, "rack", "compare", *_KEEPING, *_RULES)
MOST_MERCHANTS = 10
# A job as it is written in a body, and as it is kept.
_JOB_FIELDS = ("name", "client", "needed", "notes", "parts")


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchBody:
    """What a batch body asks for. `dates`: client and date needed of jobs with listed parts.

    `coming_walls` and `coming_lists` are jobs not bought yet, for which offcuts may be kept.
    """

    walls: tuple[Wall, ...]
    part_lists: tuple[PartList, ...]
    dates: Mapping[str, tuple[str, str]]
    book: PriceBook
    merchants: Merchants
    rack: Rack
    rules: Rules
    compare: bool
    by_history: bool
    coming_walls: tuple[Wall, ...] = ()
    coming_lists: tuple[PartList, ...] = ()

    @property
    def listed(self) -> int:
        """Return how many listed parts it names, those of jobs to come among them."""
        lists = (*self.part_lists, *self.coming_lists)
        counts = [part.quantity for one in lists for _, part in one.lengths]
        return sum(counts) + sum(part.quantity for one in lists for _, part in one.boards)


def read_batch(body: bytes) -> BatchBody:
    """Read walls, prices, rack and rules, all faults of all of them at once."""
    document = only(read_object(body), BATCH_FIELDS)
    problems: list[Problem] = []
    walls, jobs = document.get("walls", []), document.get("jobs", [])
    if not isinstance(walls, list) or not isinstance(jobs, list) or not (walls or jobs):
        trouble, remedy = "is missing or empty", "Give a list of walls, or of jobs with parts"
        problems.append(Problem("body.walls", trouble, remedy))
        walls, jobs = [], []
    for name in ("compare", "keep_by_history"):
        if not isinstance(document.get(name, False), bool):
            problems.append(Problem(f"body.{name}", "is not true or false", "Give true or false"))
    books, least = _read_books(document, problems)
    read = _read_walls(walls, "body.walls", problems, books[0] if books else None)
    coming_walls, coming_lists = _read_coming(document, problems)
    lists, dates = _read_jobs(jobs, problems)
    rack = lib.Rack()
    rules: Rules | None = None
    try:
        rack = lib.rack_from_document(document.get("rack", []), name="body.rack")
    except InvalidInput as fault:
        problems += fault.problems
    try:
        rules = rules_from_document({key: document[key] for key in _RULES if key in document})
    except InvalidInput as fault:
        problems += fault.problems
    if problems or rules is None:
        raise InvalidInput(tuple(problems))
    return BatchBody(
        walls=tuple(read),
        book=books[0],
        merchants=Merchants(others=tuple(books[1:]), split_saves=least),
        part_lists=lists,
        dates=dates,
        rack=rack,
        rules=rules,
        compare=document.get("compare", False),
        by_history=document.get("keep_by_history", False),
        coming_walls=coming_walls,
        coming_lists=coming_lists,
    )


def _read_walls(
    walls: list[Any], name: str, problems: list[Problem], book: PriceBook | None = None
) -> list[Wall]:
    read: list[Wall] = []
    for number, wall in enumerate(walls):
        try:
            read.append(lib.wall_from_document(wall, name=f"{name}[{number}]", book=book))
        except InvalidInput as fault:
            problems += fault.problems
    return read


def _read_coming(
    document: dict[str, Any], problems: list[Problem]
) -> tuple[tuple[Wall, ...], tuple[PartList, ...]]:
    """Read the walls and the listed parts of jobs that are not bought yet."""
    if "coming" not in document:
        return (), ()
    coming = document["coming"]
    remedy = "Give walls and jobs of their own, as for the batch, and keep_by_history true"
    if (
        not isinstance(coming, dict)
        or not set(coming) <= {"walls", "jobs"}
        or not all(isinstance(each, list) for each in coming.values())
    ):
        trouble = "is not an object with lists of walls and jobs"
        problems.append(Problem("body.coming", trouble, remedy))
        return (), ()
    if document.get("keep_by_history") is not True:
        problems.append(Problem("body.coming", "stands without keep_by_history", remedy))
    walls = _read_walls(coming.get("walls", []), "body.coming.walls", problems)
    lists, _ = _read_jobs(coming.get("jobs", []), problems)
    return tuple(walls), lists


def _read_books(document: dict[str, Any], problems: list[Problem]) -> tuple[list[PriceBook], Pence]:
    """Read the prices of one merchant, or of several of whom the cheapest are chosen."""
    many = document.get("merchants", [])
    if not isinstance(many, list) or len(many) > MOST_MERCHANTS:
        trouble = f"is not a list of at most {MOST_MERCHANTS} price books"
        problems.append(Problem("body.merchants", trouble, "Give a list of price books"))
        many = []
    given = [("body.prices", document.get("prices"))] if "prices" in document or not many else []
    given += [(f"body.merchants[{number}]", book) for number, book in enumerate(many)]
    books = []
    for name, book in given:
        try:
            books.append(lib.price_book_from_document(book, name=name))
        except InvalidInput as fault:
            problems += fault.problems
    if "split_saves" in document and "merchants" not in document:
        remedy = "Name several merchants' prices as well, or leave it out"
        problems.append(Problem("body.split_saves", "stands without merchants", remedy))
    least = SPLIT_SAVES
    try:
        least = lib.pence(document["split_saves"]) if "split_saves" in document else SPLIT_SAVES
    except ValueError as trouble:
        problems.append(Problem("body.split_saves", str(trouble), 'Give a sum such as "50.00"'))
    return books, least


def _read_jobs(
    jobs: list[object], problems: list[Problem]
) -> tuple[tuple[PartList, ...], dict[str, tuple[str, str]]]:
    """Read jobs with parts of their own: each with name, client, needed and parts."""
    lists: list[PartList] = []
    dates: dict[str, tuple[str, str]] = {}
    for number, job in enumerate(jobs):
        where = f"body.jobs[{number}]"
        if not isinstance(job, dict) or not isinstance(job.get("name"), str):
            remedy = 'Give {"name": …, "parts": {"lengths": […], "boards": […]}}'
            problems.append(Problem(where, "is no job with a name and parts", remedy))
            continue
        strange = sorted(set(job) - set(_JOB_FIELDS))
        strange += [key for key in ("client", "needed") if not isinstance(job.get(key, ""), str)]
        if strange:
            remedy = f"Use only {', '.join(_JOB_FIELDS)}, and text for client and needed"
            problems.append(Problem(where, f"cannot say {', '.join(strange)}"[:300], remedy))
        try:
            parts = parts_of_job(job.get("parts", {}), job["name"], name=f"{where}.parts")
        except InvalidInput as fault:
            problems += fault.problems
            continue
        lists.append(parts)
        if parts.lengths or parts.boards:
            dates[job["name"]] = (str(job.get("client", "")), str(job.get("needed", "")))
    return tuple(lists), dates


def parts_of_job(content: object, job: str, *, name: str) -> PartList:
    """Read the listed parts of one job. Raises InvalidInput, for a part of another job too."""
    parts = lib.part_list_from_document(content, name=name)
    named = [(part.id, part.job) for _, part in parts.lengths]
    named += [(part.id, part.job) for _, part in parts.boards]
    of_others = [(id_, other) for id_, other in named if other != job]
    if of_others:
        trouble = f"part {of_others[0][0]!r} says job {of_others[0][1]!r}, not {job!r}"
        remedy = "Name one job in both places, or put the part under its own job"
        raise InvalidInput((Problem(name, trouble, remedy),))
    return parts


def read_pair(body: bytes) -> tuple[CuttingRequest, CuttingPlan]:
    """Read a request and the plan to check against it."""
    document = only(read_object(body), ("request", "plan"))
    request = lib.request_from_document(document.get("request"), name="body.request")
    return request, lib.plan_from_document(document.get("plan"), name="body.plan")


def only(document: dict[str, Any], known: tuple[str, ...]) -> dict[str, Any]:
    """Return a body that has no fields but these. Raises InvalidInput."""
    unknown = sorted(set(document) - set(known))
    if unknown:
        raise _fault(f"has unknown fields {unknown}", f"Use only {', '.join(known)}")
    return document


def name_of_book(document: dict[str, Any]) -> str:
    """Take the name of the price book out of a body. Raises InvalidInput."""
    name = document.pop("price_book")
    if not isinstance(name, str):
        trouble, remedy = "is not a text", "Give the name of a kept price book"
    elif "prices" in document:
        trouble, remedy = "stands beside prices", "Give one of the two"
    else:
        return name
    raise InvalidInput((Problem("body.price_book", trouble, remedy),))


def read_object(body: bytes) -> dict[str, Any]:
    """Read a JSON object. Raises InvalidInput when the body is none."""
    return _object_in(read_json(body))


def _object_in(document: object) -> dict[str, Any]:
    if not isinstance(document, dict):
        raise _fault("is not a JSON object", "Send an object")
    return document


def read_json(body: bytes) -> Any:
    """Read JSON of any kind. Raises InvalidInput when the body is none."""
    try:
        return json.loads(body)
    except UnicodeDecodeError:
        raise _fault("is not text in UTF-8", "Send JSON in UTF-8") from None
    except RecursionError:
        raise _fault("is nested too deeply", "Lay it out as the schema says") from None
    except ValueError as trouble:
        raise _fault(f"is not JSON: {trouble}", "Mend the text at that place") from None


def _fault(trouble: str, remedy: str) -> InvalidInput:
    return InvalidInput((Problem("body", trouble, remedy),))
