"""The command line. Exit code 0: fine; 1: a finding stops it, or no plan; 2: bad input; 3: our bug.

Heavy modules are imported inside the commands that need them, so that --help is quick.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from api.commands import add_command, add_keep, add_seconds, add_seed, wrapped
from api.deliver import add_deliver
from api.mishaps import add_replan
from api.near_misses import add_ease
from api.printing import add_paper, add_printing, printing_of
from api.service_commands import add_service_commands
from api.spares import add_spares
from optimiser import InvalidInput, NoPlan, PlanRefused

if TYPE_CHECKING:
    from api.batch import Rules
    from optimiser import PriceBook

FINE, FINDING, BAD_INPUT, OUR_FAULT = 0, 1, 2, 3


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    arguments = _parser().parse_args(argv)
    command: Callable[[argparse.Namespace], int] = arguments.run
    try:
        return _until_read(command, arguments)
    except InvalidInput as fault:
        return _refuse(fault, "cannot be used as it stands", BAD_INPUT)
    except NoPlan as fault:
        return _refuse(fault, "no plan", FINDING)
    except PlanRefused as fault:
        return _refuse(fault, "a plan or a frame failed its check; nothing was written", OUR_FAULT)
    except OSError as trouble:
        print(f"scantling: {trouble.filename}: {trouble.strerror}", file=sys.stderr)
        return BAD_INPUT
    except KeyboardInterrupt:
        print("scantling: stopped; nothing was written", file=sys.stderr)
        return 130


def _until_read(command: Callable[[argparse.Namespace], int], arguments: argparse.Namespace) -> int:
    """Run a command; that nobody reads its results to the end is no fault."""
    try:
        code = command(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        # Nothing more may be written to them at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    return code


def _refuse(fault: InvalidInput | NoPlan | PlanRefused, heading: str, code: int) -> int:
    print(f"scantling: {heading}:", file=sys.stderr)
    for problem in fault.problems:
        # A log or a program that reads this gets one line for each.
        lines = wrapped(str(problem), indent="  ") if sys.stderr.isatty() else [f"  {problem}"]
        print("\n".join(lines), file=sys.stderr)
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="scantling",
        description="Boarded timber walls to parts, one cutting plan over jobs, stock and rack, "
        "and the order.",
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    demo = add_command(commands, "demo", "plan the invented week and write a folder to look at")
    demo.add_argument(
        "--out", type=Path, metavar="FOLDER", default=Path("out/demo"), help="folder to write"
    )
    add_seconds(demo, 2)
    add_seed(demo)
    demo.set_defaults(run=_demo)

    _add_frame(commands)
    plan = add_command(
        commands, "plan", "make one cutting plan and one order of walls and part lists"
    )
    plan.add_argument("jobs", type=Path, nargs="+", help="walls (.toml), part lists (.csv, .xlsx)")
    plan.add_argument(
        "--prices",
        type=Path,
        metavar="FILE",
        required=True,
        action="append",
        help="price book (.toml); given again, the cheapest merchant or two are chosen",
    )
    plan.add_argument(
        "--split-saves",
        metavar="SUM",
        help="order from two merchants where that saves more than so much (default 50.00)",
    )
    plan.add_argument(
        "--buyer", default="", metavar="NAME", help="who orders; writes each order as UBL XML too"
    )
    plan.add_argument("--rack", type=Path, metavar="FILE", help="rack file (.csv, .xlsx)")
    plan.add_argument(
        "--out", type=Path, metavar="FOLDER", help="folder for plan, order and drawings"
    )
    plan.add_argument("--compare", action="store_true", help="also plan without batch and rack")
    plan.add_argument("--json", action="store_true", help="print JSON")
    plan.add_argument(
        "--access",
        metavar="JOB=LENGTH,WIDTHxHEIGHT",
        action="append",
        default=[],
        help="longest part and largest board part that can be carried in to a job, mm",
    )
    plan.add_argument(
        "--fewer-layouts",
        action="store_true",
        help="pay up to 0.25 %% more where that saves different layouts of lengths",
    )
    plan.add_argument(
        "--use-cut-outs",
        action="store_true",
        help="cut parts of boards from what is cut out of others, where that saves",
    )
    add_keep(plan)
    add_printing(plan)
    plan.add_argument(
        "--rack-history",
        type=Path,
        metavar="FILE",
        help="what became of offcuts (.csv, .xlsx): keep rules follow from it",
    )
    plan.add_argument(
        "--coming",
        type=Path,
        metavar="FILE",
        nargs="+",
        default=[],
        help="part lists of jobs not bought yet, with --rack-history",
    )
    add_seconds(plan, 5)
    add_seed(plan)
    plan.set_defaults(run=_plan)

    cut = add_command(commands, "cut", "plan a cutting request, parts and stock in one JSON file")
    cut.add_argument("request", type=Path, help="cutting request (.json)")
    cut.add_argument(
        "--out",
        type=Path,
        metavar="FOLDER",
        help="folder for plan and diagrams; else to the terminal",
    )
    add_printing(cut)
    cut.set_defaults(run=_cut)

    check = add_command(commands, "check", "check a plan against its request")
    check.add_argument("request", type=Path, help="cutting request (.json)")
    check.add_argument("plan", type=Path, help="cutting plan (.json)")
    check.add_argument("--json", action="store_true", help="print JSON")
    check.set_defaults(run=_check)

    add_replan(commands)
    add_ease(commands)
    add_spares(commands)
    add_deliver(commands)
    add_service_commands(commands)
    return parser


def _add_frame(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    frame = add_command(
        commands, "frame", "make one wall into parts, with findings, drawings and set-out sheet"
    )
    source = frame.add_mutually_exclusive_group(required=True)
    source.add_argument("wall", type=Path, nargs="?", help="wall file (.toml)")
    source.add_argument("--new", type=Path, metavar="FILE", help="write a wall file to start from")
    frame.add_argument(
        "--prices", type=Path, metavar="FILE", help="price book (.toml); a wall needs one"
    )
    frame.add_argument("--out", type=Path, metavar="FOLDER", help="folder for the drawings")
    frame.add_argument(
        "--section-at",
        metavar="HEIGHT",
        action="append",
        default=[],
        help="also draw the plan at this height above the floor datum, mm; may be given again",
    )
    add_paper(frame)
    frame.add_argument("--json", action="store_true", help="print JSON")
    frame.set_defaults(run=_frame)


def _rules(arguments: argparse.Namespace) -> Rules:
    from api.rules import rules_from_text

    return rules_from_text(
        length=arguments.keep_length,
        width=arguments.keep_width,
        height=arguments.keep_height,
        credit=arguments.credit,
        seed=arguments.seed,
        seconds=arguments.seconds,
        access=arguments.access,
        fewer_layouts=arguments.fewer_layouts,
    )


def _demo(arguments: argparse.Namespace) -> int:
    from api.demo_run import run_demo
    from api.demo_store import fill_store
    from api.report import batch_report
    from api.watching import Watching

    with Watching() as watching:
        batch, walls = run_demo(
            arguments.out, seconds=arguments.seconds, seed=arguments.seed, watching=watching
        )
    print(batch_report(batch))
    print(f"Written to {arguments.out}: open {arguments.out / 'index.html'}")
    file = (arguments.out / "store.db").resolve()
    is_new = fill_store(f"sqlite:///{file}", batch, walls)
    said = "filled with the demo" if is_new else "kept as it was; delete it to fill it anew"
    print(f"Store {said}: {file}")
    print("To use the pages: make serve, or scantling serve --store", f"sqlite:///{file}")
    print("Then open http://127.0.0.1:8000/")
    return FINE


def _new(path: Path) -> int:
    """Write a wall file to start from; never over a file that is there."""
    import optimiser as lib

    try:
        with path.open("x", encoding="utf-8", newline="") as file:
            file.write(lib.new_wall())
    except FileExistsError:
        remedy = "Give another name, or move the file away first"
        raise InvalidInput((lib.Problem(str(path), "is there already", remedy),)) from None
    print(f"Written: {path}. Fill it in, then: scantling frame {path} --prices PRICES.toml")
    return FINE


def _frame(arguments: argparse.Namespace) -> int:
    import optimiser as lib
    from api.drawings import drawing_files, set_out_sheets, wall_drawings
    from api.folder import write_files
    from api.framed import WallFile, frame_all
    from api.inputs import read_text
    from api.report import frame_report
    from api.rules import heights_from_text
    from api.values import frame_document

    if arguments.new is not None:
        return _new(arguments.new)
    if arguments.prices is None:
        remedy = "Name the price book that the wall's materials are in"
        raise InvalidInput((lib.Problem("--prices", "is missing", remedy),))
    file = WallFile(name=arguments.wall.name, text=read_text(arguments.wall))
    book = lib.read_price_book(read_text(arguments.prices), name=arguments.prices.name)
    wall = lib.read_wall(file.text, name=file.name, book=book)
    (frame,) = frame_all((wall,), book, {wall.job: file})
    cut_at = heights_from_text(arguments.section_at, frame)
    if arguments.json:
        print(json.dumps(frame_document(frame), indent=1))
    else:
        print(frame_report(frame, book))
    if arguments.out is not None:
        paper = lib.Paper[arguments.paper.upper()]
        printed = lib.walls_pdf((frame,), title=f"Job {frame.job}", paper=paper, cut_at=cut_at)
        drawn = drawing_files(drawing.drawn() for drawing in wall_drawings((frame,), cut_at))
        files: dict[str, str | bytes] = {**drawn, **set_out_sheets((frame,)), "walls.pdf": printed}
        write_files(files, arguments.out)
    stopped = any(finding.severity is lib.Severity.STOP for finding in frame.findings)
    return FINDING if stopped else FINE


def _plan(arguments: argparse.Namespace) -> int:
    from dataclasses import replace

    from api.batch import plan_batch
    from api.folder import order_files, write_files, write_folder
    from api.inputs import own_day, read_history, read_jobs, read_merchants, read_rack
    from api.report import batch_report
    from api.values import batch_document
    from api.watching import Watching, cores

    printing = printing_of(arguments)
    history = read_history(arguments.rack_history, arguments.coming)
    book, merchants = read_merchants(arguments.prices, arguments.split_saves)
    walls, lists, files = read_jobs(arguments.jobs, book)
    if arguments.use_cut_outs:
        book = _with_cut_outs(book)
        merchants = replace(merchants, others=tuple(map(_with_cut_outs, merchants.others)))
    with Watching() as watching:
        batch = plan_batch(
            walls,
            lists,
            book,
            read_rack(arguments.rack),
            replace(_rules(arguments), history=history),
            files=files,
            merchants=merchants,
            compare=arguments.compare,
            watch=watching.complete,
            tell=watching.progress,
            cancelled=watching.cancelled,
            workers=cores(),
        )
    if arguments.out is not None:
        write_folder(batch, arguments.out, printing, workers=cores())
        if arguments.buyer:
            orders = order_files(batch.orders, buyer=arguments.buyer, issued=own_day())
            write_files(orders, arguments.out)
    if arguments.json:
        print(json.dumps(batch_document(batch), indent=1, ensure_ascii=False))
    else:
        print(batch_report(batch))
        if arguments.out is not None:
            print(f"Written to {arguments.out}: open {arguments.out / 'index.html'}")
    return FINE


def _with_cut_outs(book: PriceBook) -> PriceBook:
    """Return the price book with the cut-outs of every board used as stock."""
    from dataclasses import replace

    sheets = tuple(replace(item, use_cut_outs=True) for item in book.sheets)
    return replace(book, sheets=sheets)


def _cut(arguments: argparse.Namespace) -> int:
    import optimiser as lib
    from api.folder import write_cutting
    from api.inputs import read_bytes
    from api.watching import Watching, cores

    printing = printing_of(arguments)
    request = lib.read_request(read_bytes(arguments.request), name=arguments.request.name)
    with Watching() as watching:
        plan = lib.plan_cutting(
            request,
            watch=watching.complete,
            tell=watching.progress,
            cancelled=watching.cancelled,
            workers=cores(),
        )
    if arguments.out is None:
        print(json.dumps(lib.plan_document(plan), indent=1, ensure_ascii=False))
    else:
        write_cutting(request, plan, arguments.out, printing)
        print(f"Written to {arguments.out}: plan.json and {arguments.out / 'diagrams'}")
    return FINE


def _check(arguments: argparse.Namespace) -> int:
    import optimiser as lib
    from api.inputs import read_bytes

    request = lib.read_request(read_bytes(arguments.request), name=arguments.request.name)
    plan = lib.read_plan(read_bytes(arguments.plan), name=arguments.plan.name)
    faults = lib.check_plan(request, plan)
    if arguments.json:
        found = [{"where": fault.where, "what": fault.what} for fault in faults]
        print(json.dumps({"sound": not faults, "faults": found}, indent=1))
    elif faults:
        print("\n".join(map(str, faults)))
    else:
        print("The plan is sound.")
    return FINDING if faults else FINE


if __name__ == "__main__":
    sys.exit(main())
