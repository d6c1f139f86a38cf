"""What a check says about a wall: a stop, a warning or a note, with figures and remedy."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Severity(Enum):
    """A stop forbids buying; a warning asks for a decision; a note is for the record."""

    STOP = "stop"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Change:
    """A field of the wall's file and how it must read, in the file's own unit ("" for left out)."""

    field: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One result of one rule: `trouble` carries the figures, `source` where the rule is from.

    `change` is the smallest change of the wall's file that clears it, where one can be worked out.
    """

    rule: str
    severity: Severity
    trouble: str
    remedy: str
    source: str
    change: tuple[Change, ...] = ()
