"""Work done beside other work, and here when nobody else is left to do it."""

from __future__ import annotations

import os
import signal

from api.beside import Beside


def test_work_is_done_in_another_process_and_here_once_that_one_died() -> None:
    with Beside(workers=2) as beside:
        other = beside.ask(os.getpid)()
        os.kill(other, signal.SIGKILL)

        # The first finds out that the other process died, the second is asked for after that.
        assert other != os.getpid()
        assert [beside.ask(os.getpid)() for _ in range(2)] == [os.getpid()] * 2


def test_one_worker_does_the_work_here() -> None:
    with Beside(workers=1) as beside:
        assert beside.ask(os.getpid)() == os.getpid()
