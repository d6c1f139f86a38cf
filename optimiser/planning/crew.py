"""Does tasks on several processes at once, or in this one: which, makes no difference to callers.

The others are forked from this process, so that they know the request already and only a task's
name and its result travel. A task is handed out when somebody is free for it, so that it can be
given the time there is then.
"""

from __future__ import annotations

import multiprocessing
import signal
from collections.abc import Callable, Iterator
from contextlib import suppress
from multiprocessing.connection import wait
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from optimiser.solvers.protocol import never

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

TaskT = TypeVar("TaskT")
ResultT = TypeVar("ResultT")

# Seconds between two looks at whether the work was called off.
LOOK = 0.05


class Crew(Generic[TaskT, ResultT]):
    """So many processes that do tasks; with one worker all is done in this process.

    `do` must return what can be pickled where there are several. Work called off while others are
    at it is dropped.
    """

    def __init__(
        self,
        do: Callable[[TaskT], ResultT],
        workers: int = 1,
        cancelled: Callable[[], bool] = never,
    ) -> None:
        self._do = do
        self._cancelled = cancelled
        self._hands: list[Connection] = []
        self._processes: list[BaseProcess] = []
        self.workers = workers if workers > 1 and _can_fork() else 1
        # True in a process that was forked for the work: it must not talk to whoever watches.
        self.is_away = False

    def __enter__(self) -> Crew[TaskT, ResultT]:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def start(self) -> None:
        """Fork the processes; best done before this one starts threads of its own."""
        if self.workers == 1 or self._processes:
            return
        context = multiprocessing.get_context("fork")
        for _ in range(self.workers):
            here, there = context.Pipe()
            process = context.Process(
                target=self._serve, args=(there, [*self._hands, here]), daemon=True
            )
            process.start()
            there.close()
            self._hands.append(here)
            self._processes.append(process)

    def close(self) -> None:
        """End the processes, whatever they are at."""
        for hand in self._hands:
            hand.close()
        for process in self._processes:
            process.kill()
            process.join()
        self._hands, self._processes = [], []

    def run(self, tasks: Iterator[TaskT]) -> Iterator[tuple[TaskT, ResultT]]:
        """Yield each task with its result as it is done; tasks are taken one by one, in order.

        Ends early when the work is called off.
        """
        self.start()
        if not self._hands:
            for task in tasks:
                yield task, self._do(task)
            return
        busy: dict[Connection, TaskT] = {}
        idle = list(self._hands)
        while True:
            while idle and (fresh := next(tasks, None)) is not None:
                hand = idle.pop()
                busy[hand] = fresh
                with suppress(OSError):
                    hand.send(fresh)
            if not busy:
                return
            ready = wait(list(busy), LOOK)
            for hand in [each for each in busy if each in ready]:
                task = busy.pop(hand)
                try:
                    result, trouble = hand.recv()
                except (EOFError, OSError):
                    # Somebody ended that process: do its task here, and go on with the others.
                    self._hands.remove(hand)
                    yield task, self._do(task)
                    continue
                idle.append(hand)
                if trouble is not None:
                    raise trouble
                yield task, result
            if self._cancelled():
                self.close()
                return

    def _serve(self, hand: Connection, others: list[Connection]) -> None:
        """Do tasks until nobody asks any more."""
        signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for whoever asks.
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        self.is_away = True
        for other in others:
            other.close()
        with suppress(EOFError, OSError):
            while True:
                task = hand.recv()
                try:
                    answer: tuple[Any, Exception | None] = (self._do(task), None)
                except Exception as trouble:
                    answer = (None, trouble)
                hand.send(answer)


def _can_fork() -> bool:
    """Return whether this system forks, and this process may have children."""
    return (
        "fork" in multiprocessing.get_all_start_methods()
        and not multiprocessing.current_process().daemon
    )
