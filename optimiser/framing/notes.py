"""What comes to light while a wall is settled: defaults taken, faults of the input, findings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from optimiser.domain.finding import Finding
from optimiser.domain.frame import Default
from optimiser.errors import InvalidInput, Problem
from optimiser.units import Tenths, mm

T = TypeVar("T")


@dataclass(slots=True)
class Notes:
    """What comes to light on the way: defaults taken, faults of the input, findings."""

    defaults: list[Default] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def take(self, name: str, given: T | None, default: T, show: Callable[[T], str]) -> T:
        """Return what was given, or the default, which is then named."""
        if given is not None:
            return given
        self.defaults.append(Default(field=name, value=show(default)))
        return default

    def size(self, name: str, given: Tenths | None, default: int) -> int:
        """Like `take`, for a size."""
        return self.take(name, given, Tenths(default), lambda size: f"{mm(size)} mm")

    def problem(self, name: str, trouble: str, remedy: str) -> None:
        """Record one fault of the input."""
        self.problems.append(Problem(name, trouble, remedy))

    def refuse(self) -> None:
        """Raise InvalidInput with every fault, if there is one."""
        if self.problems:
            raise InvalidInput(tuple(self.problems))
