"""The one way a function is compiled here: typed, and kept on disk between runs."""

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
