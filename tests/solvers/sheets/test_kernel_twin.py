"""The compiled search and its plain twin take the same steps, and steps can be taken back."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets import kernel, search
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Table, kinds_of, new_table
from optimiser.solvers.sheets.twin import plain_search
from tests.solvers.sheets.shop import a_problem


def a_mixed_problem() -> SheetsProblem:
    return a_problem(
        [(370, 530, 5), (610, 290, 4), (440, 440, 3), (120, 700, 6), (90, 90, 9)],
        [(2000, 1000, 200), (1000, 1000, 105, 2)],
        kerf=3,
        turn=True,
        stages=4,
        keep=(100, 300),
        credit=Fraction(1, 40_000),
    )


def a_started_table(seed: int) -> Table:
    problem = a_mixed_problem()
    table = new_table(problem, kinds_of(problem), seed)
    table.head[c.WINDOW] = 4
    table.head[c.RULE] = 2
    table.head[c.BLINK] = 20
    table.head[c.PATIENCE] = 10_000
    table.head[c.CREDITED] = 1
    table.ratios[c.TARGET] = -1.0
    table.ratios[c.NOW] = table.ratios[c.BEST] = np.inf
    return table


@pytest.mark.filterwarnings("error::RuntimeWarning")
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_compiled_search_and_the_plain_one_end_in_the_same_state(seed: int) -> None:
    compiled, plain = a_started_table(seed), a_started_table(seed)
    histories = [np.full(5, np.inf), np.full(5, np.inf)]

    said = []
    for run, table, history in zip(
        (search.search, plain_search().search), (compiled, plain), histories, strict=True
    ):
        said.append(
            run(
                table.mem,
                table.log,
                table.head,
                table.ratios,
                table.orders,
                table.ranks,
                table.queue,
                history,
                30_000,
            )
        )

    assert said[0] == said[1]
    assert compiled.head[c.TICK] > 50
    assert np.array_equal(compiled.mem, plain.mem)
    assert np.array_equal(compiled.head, plain.head)
    assert np.array_equal(compiled.ratios, plain.ratios)
    assert np.array_equal(histories[0], histories[1])


def test_what_a_step_did_is_taken_back_to_the_last_cell() -> None:
    table = a_started_table(7)
    args = (table.mem, table.log, table.head, table.ratios)
    search.recreate(*args, table.orders, table.ranks, 0, table.queue, 0)
    before = table.saved()

    for _ in range(50):
        kernel.begin(table.head)
        search.ruin(*args, 3)
        sheets = int(table.head[c.N_OPEN])
        search.recreate(*args, table.orders, table.ranks, 1, table.queue, min(3, sheets))
        assert kernel.undo(table.mem, table.log, table.head)

        assert np.array_equal(table.mem, before.mem)
        assert np.array_equal(table.saved().counters, before.counters)


def test_counts_and_money_agree_with_the_trees_after_many_steps() -> None:
    problem = a_mixed_problem()
    table = a_started_table(11)
    args = (table.mem, table.log, table.head, table.ratios)
    search.search(*args, table.orders, table.ranks, table.queue, np.full(5, np.inf), 200_000)

    mem, head = table.mem, table.head
    first = int(head[c.AT_OPEN])
    sheets = [int(sheet) for sheet in mem[first : first + int(head[c.N_OPEN])]]
    types = [table.type_at(kind) for kind in range(len(kinds_of(problem)))]
    waiting = sum(int(mem[at + c.COUNT]) * int(mem[at + c.W]) * int(mem[at + c.H]) for at in types)
    credit = 0
    for sheet in sheets:
        leaf = int(mem[sheet + c.LEFT])
        thick = large = 0
        while leaf:
            assert mem[leaf + c.KIND] == c.LEFTOVER
            across, up = int(mem[leaf + c.W]), int(mem[leaf + c.H])
            thick, large = max(thick, min(across, up)), max(large, across * up)
            width, height = across - problem.kerf, up - problem.kerf
            credit += problem.credit_for(width, height) if min(width, height) > 0 else 0
            leaf = int(mem[leaf + c.BACK])
        assert mem[sheet + c.THICK] == thick
        assert mem[sheet + c.LARGE] == large >> int(head[c.SHIFT])
    assert head[c.UNPLACED] == waiting
    assert head[c.PRICE] == sum(int(mem[mem[sheet + c.SIZE] + c.COST]) for sheet in sheets)
    assert head[c.CREDIT] == credit


def test_every_part_may_take_a_sheet_of_its_own() -> None:
    problem = a_problem([(60, 60, 50)], [(100, 100, 7)])
    table = new_table(problem, kinds_of(problem), 1)

    table.head[c.FRESH] = 1
    args = (table.mem, table.log, table.head, table.ratios)
    search.recreate(*args, table.orders, table.ranks, 0, table.queue, 0)

    assert table.head[c.N_WAIT] == 0
    assert table.head[c.N_OPEN] == 50
    assert table.head[c.PRICE] == 350
