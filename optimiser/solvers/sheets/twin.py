"""The compiled steps as plain Python: the same lines, so that a test can hold one to the other.

Compiled whole numbers have 64 bits and silently run over; Python's do not. Slow, for tests only.
"""

from __future__ import annotations

from types import FunctionType, ModuleType, SimpleNamespace
from typing import Any

from optimiser.solvers.sheets import kernel, search


def plain_twin(*modules: ModuleType) -> SimpleNamespace:
    """Return the compiled functions of modules as plain ones that call each other, by name."""
    shared: dict[str, Any] = {}
    for module in modules:
        shared.update(vars(module))
    twins = {
        name: FunctionType(value.py_func.__code__, shared, name, value.py_func.__defaults__)
        for name, value in shared.items()
        if hasattr(value, "py_func")
    }
    for name, twin in twins.items():
        twin.__kwdefaults__ = shared[name].py_func.__kwdefaults__
    shared.update(twins)
    return SimpleNamespace(**twins)


def plain_search() -> SimpleNamespace:
    """Return the plain twin of the whole search."""
    return plain_twin(kernel, search)
