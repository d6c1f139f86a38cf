"""What the commands of the command line share: how one is added, its time to think, its lines."""

from __future__ import annotations

import argparse
import textwrap

_WIDTH = 80  # columns of a terminal as it comes


def add_command(
    commands: argparse._SubParsersAction[argparse.ArgumentParser], name: str, says: str
) -> argparse.ArgumentParser:
    """Add a command that says what it does in the list of commands and above its own options."""
    return commands.add_parser(name, help=says, description=f"{says[:1].upper()}{says[1:]}.")


def add_seconds(command: argparse.ArgumentParser, default: float) -> None:
    """Let a command be told how long to think."""
    command.add_argument(
        "--seconds",
        type=float,
        default=default,
        metavar="S",
        help=f"seconds to think (default {default:g})",
    )


def add_seed(command: argparse.ArgumentParser) -> None:
    """Let a command be told where its search begins."""
    command.add_argument(
        "--seed",
        type=int,
        default=1,
        metavar="N",
        help="whole number that the search starts from (default 1)",
    )


def add_keep(command: argparse.ArgumentParser) -> None:
    """Let a command be told what of the stock is kept, and what that is worth."""
    command.add_argument(
        "--keep-length", default="600", metavar="MM", help="shortest offcut kept (default 600)"
    )
    command.add_argument(
        "--keep-width",
        default="300",
        metavar="MM",
        help="narrowest board offcut kept (default 300)",
    )
    command.add_argument(
        "--keep-height", default="300", metavar="MM", help="its other side, at least (default 300)"
    )
    command.add_argument(
        "--credit",
        default="0.5",
        metavar="SHARE",
        help="what an offcut is worth, share of its price (default 0.5)",
    )


def wrapped(text: str, *, indent: str, further: str = "  ") -> list[str]:
    """Break a text into lines for a terminal, all but the first indented by `further` more."""
    return textwrap.wrap(
        text,
        width=_WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + further,
        break_long_words=False,
        break_on_hyphens=False,
    )
