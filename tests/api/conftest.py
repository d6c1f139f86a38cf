"""Compiles the kernels once, so that no test's small budget goes into that."""

from __future__ import annotations

import pytest

from optimiser.solvers.warm import warm


@pytest.fixture(scope="session", autouse=True)
def _warm_kernels() -> None:
    warm()
