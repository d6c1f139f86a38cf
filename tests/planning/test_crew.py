"""Tasks on several processes: the same results as in one, whatever happens to those who help."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator

import pytest

from optimiser.errors import NoPlan, Problem
from optimiser.planning.crew import Crew


def square(number: int) -> int:
    if number < 0:
        raise NoPlan((Problem("number", "is below 0", "Give another"),))
    return number * number


def with_its_process(number: int) -> tuple[int, int]:
    return number * number, os.getpid()


@pytest.mark.parametrize("workers", [1, 2, 3])
def test_each_task_comes_back_once_with_its_result(workers: int) -> None:
    with Crew(square, workers) as crew:
        found = dict(crew.run(iter(range(20))))
        again = dict(crew.run(iter(range(5))))

    assert found == {number: number * number for number in range(20)}
    assert again == {number: number * number for number in range(5)}


def test_several_workers_are_other_processes_and_know_that_they_are() -> None:
    crews: list[Crew[int, tuple[int, bool]]] = []

    def told(_: int) -> tuple[int, bool]:
        return os.getpid(), crews[0].is_away

    with Crew(told, 2) as crew:
        crews.append(crew)
        seen = [answer for _, answer in crew.run(iter(range(6)))]

    assert all(is_away and process != os.getpid() for process, is_away in seen)
    assert not crew.is_away


@pytest.mark.parametrize("workers", [1, 2])
def test_what_is_raised_in_a_task_is_raised_to_whoever_asked(workers: int) -> None:
    with Crew(square, workers) as crew, pytest.raises(NoPlan):
        list(crew.run(iter([1, -1, 2])))


def test_the_tasks_of_a_process_that_was_ended_are_done_all_the_same() -> None:
    me = os.getpid()

    def fragile(number: int) -> int:
        if number == 3 and os.getpid() != me:
            os.kill(os.getpid(), signal.SIGKILL)
        return square(number)

    with Crew(fragile, 2) as crew:
        found = dict(crew.run(iter(range(8))))

    assert found == {number: number * number for number in range(8)}


def test_work_called_off_ends_and_leaves_no_process_behind() -> None:
    asked: list[int] = []

    def endless() -> Iterator[int]:
        number = 0
        while True:
            asked.append(number)
            yield number
            number += 1

    crew = Crew(with_its_process, 2, cancelled=lambda: len(asked) > 10)
    processes = {answer[1] for _, answer in crew.run(endless())}

    assert len(asked) < 100
    for process in processes:
        with pytest.raises(ProcessLookupError):
            os.kill(process, 0)
