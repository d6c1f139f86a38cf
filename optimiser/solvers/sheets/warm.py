"""Compiles all that the solver of boards needs in a few small runs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import count

from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.problem import Sheet, SheetsProblem
from optimiser.solvers.sheets.rooms import weights_of_rooms
from optimiser.solvers.sheets.solve import solve


def warm() -> None:
    """Run every compiled loop once; what comes of it is kept on disk where that is possible."""
    problem = SheetsProblem(
        widths=(60, 50, 40, 30),
        heights=(50, 40, 30, 20),
        demands=(3, 3, 3, 3),
        turns=(False, True, True, True),
        kerf=1,
        sheets=(
            Sheet(width=100, height=120, cost=10),
            Sheet(width=90, height=90, cost=7, available=1),
        ),
        max_stages=None,
        keep=(10, 10),
        credit=Fraction(1, 10_000),
    )
    # A clock that counts its readings: compiling takes no time on it.
    for stages in (None, 3):
        staged = replace(problem, max_stages=stages)
        known = solve(staged, budget=Budget(300.0, count().__next__, 0.0), seed=0)
        solve(staged, budget=Budget(60.0, count().__next__, 0.0), seed=0, known=known)
    weights_of_rooms(problem, (3, 2, 1, 0), ((30, 20), (100, 100)))
