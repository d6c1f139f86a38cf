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
    table.head[c.WINDOW] = 3
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
    search.recreate(*args, table.ranks, 0, table.queue, 0)
    before = table.mem.copy()

    for _ in range(50):
        table.head[c.LOGGED] = 0
        search.ruin(*args)
        sheets = int(table.mem[0, c.N_OPEN])
        search.recreate(*args, table.ranks, 1, table.queue, min(3, sheets))
        assert kernel.undo(table.mem, table.log, table.head)

        assert np.array_equal(table.mem, before)


def test_counts_and_money_agree_with_the_trees_after_many_steps() -> None:
    problem = a_mixed_problem()
    table = a_started_table(11)
    args = (table.mem, table.log, table.head, table.ratios)
    search.search(*args, table.ranks, table.queue, np.full(5, np.inf), 200_000)

    mem = table.mem
    roots = [int(mem[k, c.OPEN]) for k in range(int(mem[0, c.N_OPEN]))]
    waiting = sum(
        int(mem[row, c.COUNT] * mem[row, c.W] * mem[row, c.H])
        for row in range(table.first_kind, table.first_kind + len(kinds_of(problem)))
    )
    credit = 0
    for root in roots:
        leaf = int(mem[root, c.LEFT])
        while leaf:
            assert mem[leaf, c.KIND] == c.LEFTOVER
            width, height = (int(mem[leaf, side]) - problem.kerf for side in (c.W, c.H))
            credit += problem.credit_for(width, height) if min(width, height) > 0 else 0
            leaf = int(mem[leaf, c.BACK])
    assert mem[0, c.UNPLACED] == waiting
    assert mem[0, c.PRICE] == sum(int(mem[mem[root, c.SIZE], c.COST]) for root in roots)
    assert mem[0, c.CREDIT] == credit
