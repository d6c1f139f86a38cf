"""One way in which a plan is not a plan, or a frame no frame. A checker lists all, mends none."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """Where a plan or a frame is wrong, and how."""

    where: str
    what: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}"
