"""Why the store does not do what it was asked: it is not there, or its state does not allow it."""

from __future__ import annotations

from optimiser import Problem


class Missing(Exception):
    """The firm has no such thing; whether another firm has one is nobody's business."""

    def __init__(self, kind: str, id_: str) -> None:
        super().__init__(kind, id_)
        self.kind = kind
        self.id = id_

    def __str__(self) -> str:
        return f"there is no {self.kind} {self.id!r}"


class Conflict(Exception):
    """The state of things does not allow it; nothing was changed."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem)
        self.problem = problem

    def __str__(self) -> str:
        return str(self.problem)


class TooMuch(Conflict):
    """The firm has had its share for now; `wait` says for how many seconds."""

    def __init__(self, problem: Problem, wait: float) -> None:
        super().__init__(problem)
        self.wait = wait


class Stale(Conflict):
    """Somebody else changed it since the caller read it."""
