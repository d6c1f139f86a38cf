"""How a service is run: from the environment, overridden by the command line."""

from __future__ import annotations

import math
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from optimiser import InvalidInput, Problem

MOST_BYTES = 5_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """`public`: every call needs a key. `rate`: calls a second that one key may make for long.

    `hourly`: seconds of planning that one firm may ask for within an hour, 0 for any number.
    """

    store: str
    public: bool = False
    workers: int = 1
    rate: float = 50.0
    hourly: float = 0.0
    most_bytes: int = MOST_BYTES


def default_store() -> str:
    """Return the URL of the store that is used when none is named: a file of the user's own."""
    home = os.environ.get("XDG_DATA_HOME") or os.environ.get("LOCALAPPDATA")
    folder = Path(home) if home else Path.home() / ".local" / "share"
    return f"sqlite:///{folder / 'scantling' / 'store.db'}"


def settings_from(
    environment: Mapping[str, str],
    *,
    store: str | None = None,
    public: bool = False,
    workers: int | None = None,
) -> Settings:
    """Read the settings. Raises InvalidInput with every fault of them."""
    problems: list[Problem] = []

    def number(name: str, default: float, least: float) -> float:
        text = environment.get(name, "")
        try:
            found = float(text) if text else default
        except ValueError:
            found = least - 1
        if not math.isfinite(found) or found < least:
            trouble, remedy = f"{text!r} is no number from {least:g} on", f"Give {default:g}, say"
            problems.append(Problem(name, trouble, remedy))
            return default
        return found

    made = Settings(
        store=store or environment.get("SCANTLING_STORE") or default_store(),
        public=public,
        workers=int(number("SCANTLING_WORKERS", 1, 0)) if workers is None else workers,
        rate=number("SCANTLING_RATE", 50, 1),
        hourly=number("SCANTLING_HOURLY_SECONDS", 0, 0),
        most_bytes=int(number("SCANTLING_MOST_BYTES", MOST_BYTES, 1)),
    )
    if problems:
        raise InvalidInput(tuple(problems))
    return made
