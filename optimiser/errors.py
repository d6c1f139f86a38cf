"""What a caller can meet and put right.

Three roads and no others: bad input raises `InvalidInput` (every fault of it at once), a request
that no plan can meet raises `NoPlan` (with what is missing), and a plan that the checker refuses
raises `PlanRefused`, which is always a bug of ours. Each carries values, never a bare sentence, so
that the command line, the pages and the service can say it their own way.
"""

from __future__ import annotations

from dataclasses import dataclass
from dataclasses import field as dataclass_field


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing the caller can put right: where it is, what it is, what to do about it.

    `row` and `column` are those of a table's cell, as a spreadsheet counts them, where it is one.
    """

    field: str
    trouble: str
    remedy: str
    row: int | None = dataclass_field(default=None, compare=False)
    column: str | None = dataclass_field(default=None, compare=False)

    def __str__(self) -> str:
        remedy = self.remedy[:1].upper() + self.remedy[1:]
        file, _, field = f": {self.field}".rpartition(": ")
        # A contradiction names all its fields with their values, the first of them being this one.
        if self.trouble.startswith(f"{field} "):
            return f"{file}: {self.trouble}. {remedy}.".removeprefix(": ")
        return f"{self.field}: {self.trouble}. {remedy}."


class _Problems(ValueError):
    def __init__(self, problems: tuple[Problem, ...]) -> None:
        # The tuple is the only argument, so the error survives pickling between processes.
        super().__init__(problems)
        self.problems = problems

    def __str__(self) -> str:
        return "\n".join(map(str, self.problems))


class InvalidInput(_Problems):
    """The input cannot be used as it stands; every reason is listed."""


class NoPlan(_Problems):
    """The input is sound but no cutting plan can meet it; what is missing is listed."""


class PlanRefused(_Problems):
    """A plan or a frame failed its check. Nobody gets it: a fault of the program, not the input."""


def invalid(field: str, trouble: str, remedy: str) -> InvalidInput:
    """Make the error for a single fault."""
    return InvalidInput((Problem(field, trouble, remedy),))
