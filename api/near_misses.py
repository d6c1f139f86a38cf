"""The command that finds near misses: which dimension, eased a little, would save stock."""

from __future__ import annotations

import argparse
import json
from dataclasses import replace
from fnmatch import fnmatchcase
from pathlib import Path
from typing import TYPE_CHECKING, Any

import optimiser as lib
from api.commands import add_command, add_seconds
from api.inputs import read_bytes
from optimiser import InvalidInput, Problem, Tenths, mm, pounds

if TYPE_CHECKING:
    from optimiser import CuttingRequest, EasingRun, NearMiss

# Sets that are told, and easings of one set; the JSON has all of them.
MOST_TOLD = 5
MOST_RUNS = 6
# Fields of a wall that are told of one run; the JSON has all of each part.
MOST_FIELDS = 3
_REMEDY = "Give a pattern of part ids or names and a size, such as 'A/*=3'"


def add_ease(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add `scantling ease` to the command line."""
    command = add_command(
        commands, "ease", "find which dimension, eased by a few mm, would save stock"
    )
    command.add_argument("request", type=Path, help="cutting request (.json)")
    command.add_argument("plan", type=Path, help="the plan to do better than (.json)")
    command.add_argument(
        "--ease",
        metavar="PARTS=MM",
        action="append",
        default=[],
        help="how much smaller parts may be whose id or name fits, e.g. 'A/*=3'",
    )
    command.add_argument(
        "--saving", default="0.01", metavar="SUM", help="least saving that counts (default 0.01)"
    )
    add_seconds(command, 8)
    command.add_argument("--json", action="store_true", help="print JSON")
    command.set_defaults(run=_ease)


def _ease(arguments: argparse.Namespace) -> int:
    request = lib.read_request(read_bytes(arguments.request), name=arguments.request.name)
    plan = lib.read_plan(read_bytes(arguments.plan), name=arguments.plan.name)
    for text in arguments.ease:
        request = _with_ease(request, text)
    if not any(part.ease for item in request.materials for part in item.parts):
        remedy = "Say of some parts by how many mm they may be smaller, such as --ease 'A/*=3'"
        raise InvalidInput((Problem("--ease", "is missing, and no part has an ease", remedy),))
    found = lib.near_misses(
        request, plan, saving=_money(arguments.saving), seconds=arguments.seconds
    )
    if arguments.json:
        print(
            json.dumps([near_miss_document(miss) for miss in found], indent=1, ensure_ascii=False)
        )
    else:
        print(near_misses_text(found))
    return 0


def _money(text: str) -> lib.Pence:
    try:
        return lib.pence(text)
    except ValueError as trouble:
        remedy = "Give a sum such as 5.00"
        raise InvalidInput((Problem("--saving", str(trouble), remedy),)) from None


def _with_ease(request: CuttingRequest, text: str) -> CuttingRequest:
    pattern, _, size = text.rpartition("=")
    try:
        ease = lib.tenths(size)
    except ValueError as trouble:
        raise InvalidInput((Problem("--ease", str(trouble), _REMEDY),)) from None
    return with_ease(request, pattern, ease, field="--ease", remedy=_REMEDY)


def with_ease(
    request: CuttingRequest, pattern: str, ease: Tenths, *, field: str, remedy: str
) -> CuttingRequest:
    """Give the parts that a pattern fits their ease.

    Raises InvalidInput, at the field and with the remedy given, for a pattern that fits none: it is
    a slip.
    """
    parts = [part for item in request.materials for part in item.parts]
    meant = {
        part.id
        for part in parts
        if fnmatchcase(part.id, pattern) or fnmatchcase(part.name, pattern)
    }
    if not meant:
        raise InvalidInput((Problem(field, f"no part fits {pattern!r}", remedy),))
    return replace(
        request,
        lengths=tuple(
            replace(
                item,
                parts=tuple(replace(p, ease=ease) if p.id in meant else p for p in item.parts),
            )
            for item in request.lengths
        ),
        sheets=tuple(
            replace(
                item,
                parts=tuple(replace(p, ease=ease) if p.id in meant else p for p in item.parts),
            )
            for item in request.sheets
        ),
    )


def near_misses_text(found: tuple[NearMiss, ...]) -> str:
    """Tell each set of easings, best saving per millimetre first."""
    if not found:
        return "No set of easings was found that saves so much."
    lines = ["NEAR MISSES, best saving per mm first"]
    for miss in found[:MOST_TOLD]:
        lines.append(
            f"  {miss.material}: saves {pounds(miss.saving)} for {mm(miss.eased)} mm in all "
            f"({pounds(round(miss.per_mm))} a mm)"
        )
        lines += [f"      {told}" for told in told_runs(miss)]
        if not miss.certain:
            lines.append("      not proven that this saving needs the easing")
        if not miss.fewest:
            lines.append("      fewer easings may do; not all smaller sets could be ruled out")
    if len(found) > MOST_TOLD:
        more = len(found) - MOST_TOLD
        save = "saves" if more == 1 else "save"
        lines.append(f"  and {more} more that {save} less per mm; --json has them all")
    return "\n".join(lines)


def told_runs(miss: NearMiss) -> list[str]:
    """Tell the easings of a set, those that ask for most first, and how many more it takes."""
    runs = sorted(miss.runs, key=lambda run: -sum(one.by for one in run.easings))
    told = [easing_text(run) for run in runs[:MOST_RUNS]]
    if rest := runs[MOST_RUNS:]:
        parts = sum(len(run.parts) for run in rest)
        eased = mm(Tenths(sum(one.by for run in rest for one in run.easings)))
        more = "1 more part, {} mm" if parts == 1 else f"{parts} more parts, {{}} mm in all"
        them = "it" if parts == 1 else "them"
        told.append(f"and {more.format(eased)}: the saving needs {them} too")
    return told


def easing_text(run: EasingRun) -> str:
    """Tell in one line which parts are eased, by how much, and where in the wall's file to do it.

    "3 parts A/s3 to A/s5" where their marks count on, else each by its id.
    """
    one = run.easings[0]
    named = f" ({one.name})" if one.name else ""
    sizes = {easing.asked: easing.eased for easing in run.easings}
    least, most = min(sizes), max(sizes)
    size = f"{mm(most)} -> {mm(sizes[most])}"
    if least < most:
        size = f"{mm(least)} to {mm(most)} -> {mm(sizes[least])} to {mm(sizes[most])}"
    each = " each" if len(run.parts) > 1 else ""
    line = (
        f"job {one.job}: {one.dimension} of {part_names(run.parts)}{named} "
        f"{size} ({mm(one.by)} less{each})"
    )
    if not run.fields:
        return f"{line}, from a part list"
    others = " and others" if len(run.fields) > MOST_FIELDS else ""
    return f"{line}, from {', '.join(run.fields[:MOST_FIELDS])}{others}"


def part_names(parts: tuple[str, ...]) -> str:
    """Name parts by their ids, those whose last number counts on as one run."""
    runs: list[list[str]] = []
    for part in sorted(parts, key=_counted):
        stem, number = _counted(part)
        if runs and number > 0 and _counted(runs[-1][-1]) == (stem, number - 1):
            runs[-1].append(part)
        else:
            runs.append([part])
    told = ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)
    return told if len(parts) == 1 else f"{len(parts)} parts {told}"


def _counted(part: str) -> tuple[str, int]:
    """Return an id's stem and the number it ends with, -1 where it ends with none."""
    stem = part.rstrip("0123456789")
    digits = part[len(stem) :]
    return stem, int(digits[:9]) if digits else -1


def near_miss_document(miss: NearMiss) -> dict[str, Any]:
    """Write a near miss as plain values, ready for JSON."""
    return {
        "material": miss.material,
        "saving": pounds(miss.saving),
        "purchase": pounds(miss.purchase),
        "eased_mm": mm(miss.eased),
        "certain": miss.certain,
        "fewest": miss.fewest,
        "easings": [
            {
                "part": one.part,
                "job": one.job,
                "name": one.name,
                "dimension": one.dimension,
                "asked_mm": mm(one.asked),
                "eased_mm": mm(one.eased),
                "fields": list(one.fields),
            }
            for one in miss.easings
        ],
        "told": told_runs(miss),
        "request": lib.request_document(miss.request),
        "plan": lib.plan_document(miss.plan),
    }
