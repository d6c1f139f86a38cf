"""Where in a TOML text a field stands, so that a fault can quote the line that it is about.

Knows keys, tables and arrays of tables as fitters write them; what it does not find it does not
quote. It judges nothing: `tomllib` has read the text before.
"""

from __future__ import annotations

import re
from dataclasses import replace

from optimiser.errors import Problem

_TABLE = re.compile(r"\s*(\[{1,2})\s*([A-Za-z0-9_.\-\s]+?)\s*\]{1,2}\s*(#.*)?")
_KEY = re.compile(r"\s*([A-Za-z0-9_\-]+)\s*=")
_NAME = re.compile(r"""\s*name\s*=\s*["']([^"']+)["']""")
_AT = re.compile(r"\(at line (\d+), column \d+\)")
# What the last part of a field's name says about its unit.
UNITS = ("_mm", "_kg", "_in", "_w")
_MOST_SHOWN = 80
_LIST_BEGINS = re.compile(r"=\s*\[\s*(#.*)?$")
_LIST_ENDS = re.compile(r"\s*\]\s*(#.*)?$")
_ITEM = re.compile(r"\s*\{")
# The last step of a field within a list: "stock[0].price" is in "stock[0]", and that in "stock".
_INNER = re.compile(r"(.+\[\d+\])\.\w+|(.+\w)\[\d+\]")


def lines_of(text: str) -> dict[str, int]:
    """Return the number, from 1, of the line on which each field of a TOML text stands.

    Fields are named as faults name them: "site.clear_width_mm", "niches[1].x_mm".
    """
    found: dict[str, int] = {}
    counted: dict[str, int] = {}
    named: dict[str, str] = {}
    table = ""
    listed, place = "", 0
    for number, line in enumerate(text.splitlines(), start=1):
        # A list over several lines, such as a price book's stock: an item begins with a brace.
        if listed:
            if _ITEM.match(line):
                found[f"{listed}[{place}]"] = number
                place += 1
            if _LIST_ENDS.match(line):
                listed = ""
            continue
        head = _TABLE.fullmatch(line)
        if head is not None:
            table = _path(head[2].replace(" ", ""), counted, is_new=head[1] == "[[")
            found.setdefault(table, number)
            continue
        key = _KEY.match(line)
        if key is not None:
            field = f"{table}.{key[1]}" if table else key[1]
            found.setdefault(field, number)
            if _LIST_BEGINS.search(line):
                listed, place = field, 0
        name = _NAME.match(line)
        if name is not None and table.endswith("]"):
            named[table] = name[1]
    # A niche or a step is also found under its name: "niches.left niche.depth_mm".
    for field, number in list(found.items()):
        table, dot, key_name = field.rpartition(".") if field not in named else (field, "", "")
        if table in named:
            array = table.rpartition("[")[0]
            found.setdefault(f"{array}.{named[table]}{dot}{key_name}", number)
    return found


def _path(name: str, counted: dict[str, int], *, is_new: bool) -> str:
    """Return a table's name with the place of each array of tables on the way to it."""
    path = ""
    steps = name.split(".")
    for i, step in enumerate(steps):
        path = f"{path}.{step}" if path else step
        if is_new and i == len(steps) - 1:
            counted[path] = counted.get(path, -1) + 1
        if path in counted:
            path = f"{path}[{counted[path]}]"
    return path


def quote_lines(problems: tuple[Problem, ...], text: str) -> tuple[Problem, ...]:
    """Return the problems of a TOML text, each with the line that it is about, where it is found.

    A field may be named with or without its unit, and after the text's own name and a colon.
    """
    found = lines_of(text)
    plain = {_without_unit(field): number for field, number in found.items()}
    shown = text.splitlines()
    made: list[Problem] = []
    for problem in problems:
        # Of fields that contradict each other, that of the first one's line is shown.
        field = problem.field.rsplit(": ", 1)[-1]
        number = found.get(field, plain.get(_without_unit(field))) or _item(field, found, shown)
        at = _AT.search(problem.trouble)
        if at is not None:
            number = int(at[1])
        if number is None or not 0 < number <= len(shown):
            made.append(problem)
            continue
        line = shown[number - 1].strip()[:_MOST_SHOWN]
        made.append(replace(problem, trouble=f"{problem.trouble}; line {number}: {line}"))
    return tuple(made)


def _item(field: str, found: dict[str, int], shown: list[str]) -> int | None:
    """Return the line of the list's item that a field is in, or of the list; None for a table's."""
    while (step := _INNER.fullmatch(field)) is not None:
        field = step[1] or step[2]
        number = found.get(field)
        if number is not None:
            return None if _TABLE.fullmatch(shown[number - 1]) else number
    return None


def _without_unit(field: str) -> str:
    for unit in UNITS:
        if field.endswith(unit):
            return field.removesuffix(unit)
    return field
