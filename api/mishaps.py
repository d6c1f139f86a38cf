"""The command that replans after a mishap: marks on a plan in, the rest and its diagrams out."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import TYPE_CHECKING

import optimiser as lib
from api.commands import add_command, add_seconds, wrapped
from api.inputs import read_bytes, read_text
from api.printing import add_printing, printing_of
from api.words import counted
from optimiser import pounds

if TYPE_CHECKING:
    from optimiser import Continuation


def add_replan(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add `scantling replan` to the command line."""
    command = add_command(
        commands, "replan", "plan the rest after a mishap, from marks on a plan (.toml)"
    )
    command.add_argument("request", type=Path, help="cutting request (.json)")
    command.add_argument("plan", type=Path, help="the plan that was being cut (.json)")
    command.add_argument("marks", type=Path, help="what is cut, started, spoiled, damaged (.toml)")
    command.add_argument(
        "--out", type=Path, metavar="FOLDER", help="folder for the rest's request, plan, diagrams"
    )
    add_printing(command)
    command.add_argument("--json", action="store_true", help="print JSON")
    add_seconds(command, 1.0)
    command.set_defaults(run=_replan)


def _replan(arguments: argparse.Namespace) -> int:
    from api.folder import write_cutting

    request = lib.read_request(read_bytes(arguments.request), name=arguments.request.name)
    plan = lib.read_plan(read_bytes(arguments.plan), name=arguments.plan.name)
    marks = lib.read_marks(read_text(arguments.marks), name=arguments.marks.name)
    printing = printing_of(arguments)
    continuation = lib.replan(request, plan, marks, seconds=arguments.seconds)
    rest = continuation.rest
    if arguments.out is not None and rest is not None:
        write_cutting(rest.request, rest.plan, arguments.out, printing)
    if arguments.json:
        document = lib.continuation_document(continuation)
        print(json.dumps(document, indent=1, ensure_ascii=False))
    else:
        print(continuation_text(continuation))
        if arguments.out is not None and rest is not None:
            print(f"Written to {arguments.out}: request.json, plan.json and diagrams")
    return 0


def continuation_text(continuation: Continuation) -> str:
    """Tell what is done, how the rest goes on, and what must be bought for it."""
    done = sum(count for _, count in continuation.finished)
    rest = continuation.rest
    if rest is None:
        said = counted(done, "part", "parts")
        return f"Every part is cut and good: {said}. Nothing is left to do."
    money = rest.plan.money
    to_go = sum(part.quantity for item in rest.request.materials for part in item.parts)
    lines = [
        f"REST OF THE PLAN, checked, in {rest.plan.seconds:.1f} s",
        f"  {counted(done, 'part is', 'parts are')} cut and good, "
        f"{counted(to_go, 'is', 'are')} still to be cut",
        *wrapped(
            f"unfinished pieces: {rest.as_planned} go on as drawn, {rest.filled} take further "
            f"parts where they had room, {rest.changed} are cut in another way or stay whole",
            indent="  ",
        ),
    ]
    hands = {(piece.material, piece.id) for piece in rest.in_hand}
    for item in rest.plan.materials:
        bought: dict[str, int] = {}
        for layout in item.layouts:
            if layout.bought and (item.material, layout.stock) not in hands:
                bought[layout.stock] = bought.get(layout.stock, 0) + layout.count
        lines += [f"  buy {count} × {stock}" for stock, count in bought.items()]
    if money.purchase == 0:
        lines.append("  nothing more to buy")
    elif rest.plan.proven:
        lines.append(f"  extra purchase {pounds(money.purchase)}: proven, no way on costs less")
    else:
        lines.append(
            f"  extra purchase {pounds(money.purchase)}: no way on costs less than "
            f"{pounds(rest.plan.bound)}"
        )
    return "\n".join(lines)
