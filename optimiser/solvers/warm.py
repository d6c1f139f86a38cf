"""Compile the solvers' loops once, at set-up, so that a first plan on a fresh machine is quick.

Run as `python -m optimiser.solvers.warm`.
"""

from optimiser.solvers.lengths.solve import warm as warm_lengths
from optimiser.solvers.sheets.warm import warm as warm_sheets


def warm() -> None:
    """Run every compiled loop on a small problem; the results are cached beside the code."""
    warm_lengths()
    warm_sheets()


if __name__ == "__main__":
    warm()
