"""The command that plans deliveries: which jobs to buy and bring together, and when."""

from __future__ import annotations

import argparse
import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import optimiser as lib
from api.commands import add_command, add_seconds, add_seed
from api.inputs import own_day, read_jobs, read_text
from api.printing import add_printing, printing_of
from optimiser import mm, pounds

if TYPE_CHECKING:
    from optimiser import Deliveries


def add_deliver(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add `scantling deliver` to the command line."""
    command = add_command(
        commands, "deliver", "find which jobs to buy and bring together, and when, at least cost"
    )
    command.add_argument("jobs", type=Path, nargs="+", help="walls (.toml), part lists (.csv)")
    command.add_argument(
        "--prices", type=Path, metavar="FILE", required=True, help="price book (.toml)"
    )
    command.add_argument(
        "--terms", type=Path, metavar="FILE", required=True, help="delivery terms (.toml)"
    )
    command.add_argument(
        "--today", metavar="DATE", help="date from which deliveries can come (default today)"
    )
    command.add_argument(
        "--out", type=Path, metavar="FOLDER", help="folder; each delivery gets one of its own"
    )
    add_printing(command)
    command.add_argument("--json", action="store_true", help="print JSON")
    add_seconds(command, 40)
    add_seed(command)
    command.set_defaults(run=_deliver)


def _deliver(arguments: argparse.Namespace) -> int:
    from api.batch import framed_jobs
    from api.dealing import as_planned, deliveries_document, with_days
    from api.documents import order_papers
    from api.folder import write_cutting, write_files
    from api.rules import default_keep
    from api.watching import cores

    printing = printing_of(arguments)
    book = lib.read_price_book(read_text(arguments.prices), name=arguments.prices.name)
    walls, lists, files = read_jobs(arguments.jobs, book)
    terms, needed = lib.read_terms(read_text(arguments.terms), name=arguments.terms.name)
    framed = framed_jobs(walls, lists, book, files)
    jobs = as_planned(*framed, book, default_keep(), arguments.seed, arguments.seconds, cores())
    jobs = with_days(jobs, needed)
    found = lib.plan_deliveries(
        jobs,
        book,
        terms,
        keep=default_keep(),
        today=arguments.today or own_day(),
        seed=arguments.seed,
        seconds=arguments.seconds,
        workers=cores(),
    )
    if arguments.out is not None:
        by_name = {job.name: job for job in jobs}
        for number, delivery in enumerate(found.deliveries, start=1):
            folder = arguments.out / f"{number}-{delivery.day}"
            write_cutting(delivery.request, delivery.plan, folder, printing)
            own = tuple(by_name[name] for name in delivery.jobs)
            # What a delivery costs is told by its own terms.
            goods = replace(book, terms=lib.OrderTerms())
            order = lib.order_for(delivery.plan, own, goods)
            ordered = order_papers(delivery.request, delivery.plan, (order,), own, printing)
            write_files({"order.csv": lib.order_csv(order), **ordered}, folder)
    if arguments.json:
        print(json.dumps(deliveries_document(found), indent=1, ensure_ascii=False))
    else:
        print(deliveries_text(found))
    return 0


def deliveries_text(found: Deliveries) -> str:
    """Tell each delivery, what all of them cost, and what other ways would."""
    lines = ["DELIVERIES, each planned and checked; money without VAT"]
    for one in found.deliveries:
        lines.append(
            f"  {one.day}  goods {pounds(one.goods):>9}  charge {pounds(one.charge):>7}  "
            f"{one.mass / 1000:>7.0f} kg  longest {mm(one.longest)} mm  {', '.join(one.jobs)}"
        )
    together = "cannot be" if found.together is None else pounds(found.together)
    lines += [
        f"  in all {pounds(found.cost)}; one delivery for each job {pounds(found.one_each)}; "
        f"one for all {together}",
        f"  {_proof(found)}",
        f"  ({found.planned} of {found.batches} batches that may come together were planned)",
    ]
    return "\n".join(lines)


def _proof(found: Deliveries) -> str:
    """Say what is proven: of all plans there could be, or of those made here."""
    if found.cost == found.bound:
        return "proven: nothing costs less, however the batches are planned"
    more = pounds(found.cost - found.bound)
    share = f"{100 * (found.cost - found.bound) / found.cost:.1f} %"
    if found.proven:
        return (
            "proven among the plans made here: no other way to deal the jobs costs less;\n  "
            f"better plans of batches could save {more} ({share}) at most"
        )
    return (
        "not proven: the time ended before every way to deal the jobs was ruled out;\n  "
        f"{more} ({share}) could be saved at most"
    )
