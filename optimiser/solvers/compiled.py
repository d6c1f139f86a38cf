"""How functions are compiled here: typed, and kept on disk between runs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias, TypeVar, cast

import numpy as np
from numba import njit
from numpy.typing import NDArray

Small: TypeAlias = NDArray[np.int32]
Whole: TypeAlias = NDArray[np.int64]
Real: TypeAlias = NDArray[np.float64]

# Any: a compiled function keeps the signature of its plain twin, whatever that is.
F = TypeVar("F", bound=Callable[..., Any])


def compiled(function: F) -> F:
    """Compile at the first call for the types it is called with."""
    return cast("F", njit(cache=True)(function))


def lean(function: F) -> F:
    """Compile a function that makes no array, without counting who holds those it is given.

    The counting is an atomic step for each array in each call; it took two fifths of the search.
    A function that does make one is refused when it is compiled.
    """
    # Any: the option is missing from the library's own list of types.
    options: dict[str, Any] = {"cache": True, "_nrt": False}
    return cast("F", njit(**options)(function))
