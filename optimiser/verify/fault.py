"""One way in which a plan is not a plan. The checker lists every fault and never mends one."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """Where the plan is wrong, and how."""

    where: str
    what: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}"
