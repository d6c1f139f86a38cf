"""The flags of every command that prints: paper, sheet of labels, where their codes lead."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from api.documents import Printing


def add_paper(command: argparse.ArgumentParser) -> None:
    """Add the flag that says on what paper documents are printed."""
    command.add_argument(
        "--paper", choices=("a4", "a3"), default="a4", help="paper of the PDFs (default a4)"
    )


def add_printing(command: argparse.ArgumentParser) -> None:
    """Add the flags of a command that prints a plan."""
    add_paper(command)
    command.add_argument(
        "--label-sheet", type=Path, metavar="FILE", help="sizes of the sheet of labels (.toml)"
    )
    command.add_argument(
        "--first-label",
        type=int,
        default=1,
        metavar="N",
        help="first label still on the sheet (default 1)",
    )
    command.add_argument(
        "--saw-address",
        default="",
        metavar="URL",
        help="address that the labels' codes lead to; else they hold part and job",
    )


def printing_of(arguments: argparse.Namespace) -> Printing:
    """Return how to print from the flags of `add_printing`. Raises InvalidInput."""
    from api.documents import printing_from_text

    return printing_from_text(
        paper=arguments.paper,
        sheet=arguments.label_sheet,
        first=arguments.first_label,
        saw_address=arguments.saw_address,
    )
