"""Work done beside other work, in a process of its own.

The process is started anew and not forked: solvers may have left threads in this one, and no
thread outlives a fork. It loads what it needs itself.
"""

from __future__ import annotations

import signal
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from types import TracebackType
from typing import ParamSpec, TypeVar

_P = ParamSpec("_P")
_ResultT = TypeVar("_ResultT")


class Beside:
    """Use as a context: what is asked within it is done beside it, where `workers` allow."""

    def __init__(self, workers: int) -> None:
        self._pool = None
        if workers > 1:
            context = get_context("spawn")
            self._pool = ProcessPoolExecutor(1, mp_context=context, initializer=_keep_quiet)

    def __enter__(self) -> Beside:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self._pool is not None:
            self._pool.shutdown(cancel_futures=True)

    def ask(
        self, work: Callable[_P, _ResultT], *given: _P.args, **named: _P.kwargs
    ) -> Callable[[], _ResultT]:
        """Begin a piece of work; return what waits for its result.

        Work, what it is given and its result travel between processes, so they can be pickled. It
        is done here when asked for where there is no other process, or that one died.
        """
        if self._pool is None:
            return lambda: work(*given, **named)
        try:
            begun = self._pool.submit(work, *given, **named)
        except BrokenProcessPool:
            return lambda: work(*given, **named)

        def result() -> _ResultT:
            try:
                return begun.result()
            except BrokenProcessPool:
                return work(*given, **named)

        return result


def _keep_quiet() -> None:
    # Ctrl-C reaches every process of a terminal: who asked decides what it means.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
