"""The command that weighs spares: how many keep a second trip unlikely, and what they cost."""

from __future__ import annotations

import argparse
import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

import optimiser as lib
from api.commands import add_command, wrapped
from api.inputs import read_bytes
from optimiser import InvalidInput, Problem, pounds

if TYPE_CHECKING:
    from optimiser import Breakage, SparesTable


def add_spares(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add `scantling spares` to the command line."""
    command = add_command(
        commands, "spares", "work out how many spares keep a second trip unlikely, and their cost"
    )
    command.add_argument("request", type=Path, help="cutting request (.json)")
    command.add_argument("plan", type=Path, help="cutting plan (.json)")
    command.add_argument(
        "--handling",
        choices=[kind.value for kind in lib.Handling],
        default="usual",
        help="how stock and parts are handled (default usual)",
    )
    command.add_argument(
        "--rate",
        metavar="MATERIAL=PIECE,PART",
        action="append",
        default=[],
        help="own rates in percent: pieces that break, parts that are spoiled",
    )
    command.add_argument(
        "--level",
        metavar="PERCENT",
        action="append",
        default=[],
        help="chance of a second trip to keep within (default 20, 10, 5, 2 and 1)",
    )
    command.add_argument(
        "--out", type=Path, metavar="FOLDER", help="folder for spares.svg and spares.json"
    )
    command.add_argument("--json", action="store_true", help="print JSON")
    command.set_defaults(run=_spares)


def _spares(arguments: argparse.Namespace) -> int:
    from api.folder import write_files

    request = lib.read_request(read_bytes(arguments.request), name=arguments.request.name)
    plan = lib.read_plan(read_bytes(arguments.plan), name=arguments.plan.name)
    breakage = lib.usual_breakage(request, lib.Handling(arguments.handling))
    for text in arguments.rate:
        breakage = _with_rate(breakage, text)
    levels = tuple(_share("--level", text) for text in arguments.level)
    table = (
        lib.spares_by_risk(request, plan, breakage, levels)
        if levels
        else lib.spares_by_risk(request, plan, breakage)
    )
    document = json.dumps(spares_document(table), indent=1, ensure_ascii=False)
    print(document if arguments.json else spares_text(table))
    if arguments.out is not None:
        drawn = lib.draw_spares(table, title="Spares by risk")
        write_files({"spares.svg": drawn, "spares.json": document + "\n"}, arguments.out)
    return 0


def _share(field: str, text: str) -> Fraction:
    try:
        share = Fraction(text.strip().replace(",", ".")) / 100
    except (ValueError, ZeroDivisionError):
        trouble = f"{text[:40]!r} is not a number of percent"
        raise InvalidInput((Problem(field, trouble, "Give a number such as 5"),)) from None
    return share


def _with_rate(breakage: tuple[Breakage, ...], text: str) -> tuple[Breakage, ...]:
    name, _, rates = text.rpartition("=")
    both = rates.split(",")
    if len(both) != 2:
        remedy = "Give MATERIAL=PIECE,PART in percent, such as mdf-12=1,0.5"
        raise InvalidInput((Problem("--rate", f"{text[:60]!r} has not two rates", remedy),))
    known = [item.material for item in breakage]
    if name not in known:
        remedy = f"Name one of {', '.join(known)}"
        raise InvalidInput((Problem("--rate", f"there is no material {name!r}", remedy),))
    piece, part = (_share("--rate", one) for one in both)
    return tuple(
        replace(item, piece=piece, part=part) if item.material == name else item
        for item in breakage
    )


def spares_text(table: SparesTable) -> str:
    """Tell rates and levels as two small tables."""
    lines = [
        "SPARES BY RISK (breakage: common practice, no source, unless given with --rate)",
        f"  {'stock':<30} {'pieces':>6} {'breaks':>7} {'parts':>6} {'spoiled':>8} "
        f"{'by offcuts':>10}",
    ]
    lines += [
        f"  {item.stock[:30]:<30} {item.pieces:>6} {100 * float(item.breakage.piece):>6.1f}% "
        f"{item.large + item.small:>6} {100 * float(item.breakage.part):>7.1f}% "
        f"{item.from_offcuts:>10}"
        for item in table.exposures
    ]
    lines.append(f"  chance of a second trip without spares: {100 * table.chance_without:.1f} %")
    for level in table.levels:
        # Of "3 × stock" no line ends with the sign.
        named = ", ".join(f"{n}\u00a0×\u00a0{stock}" for _, stock, n in level.spares) or "no spare"
        short = "" if level.reached else " (NOT reached)"
        head = f"at most {100 * float(level.level):g} %{short}: {pounds(level.cost)}, leaves "
        lines.append(f"  {head}{100 * level.chance:.2f} %")
        spares = wrapped(named, indent="      ", further="")
        lines += [line.replace("\u00a0", " ") for line in spares]
    return "\n".join(lines)


def spares_document(table: SparesTable) -> dict[str, Any]:
    """Write the table as plain values, ready for JSON."""
    return {
        "chance_without": round(table.chance_without, 6),
        "exposures": [
            {
                "material": item.material,
                "stock": item.stock,
                "pieces": item.pieces,
                "large_parts": item.large,
                "small_parts": item.small,
                "from_offcuts": item.from_offcuts,
                "parts_of_a_spare": item.yields,
                "piece_rate": float(item.breakage.piece),
                "part_rate": float(item.breakage.part),
            }
            for item in table.exposures
        ],
        "levels": [
            {
                "level": float(level.level),
                "reached": level.reached,
                "chance": round(level.chance, 6),
                "cost": pounds(level.cost),
                "spares": [
                    {"material": material, "stock": stock, "count": count}
                    for material, stock, count in level.spares
                ],
            }
            for level in table.levels
        ],
    }
