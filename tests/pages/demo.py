"""The demo's week: one wall of it thought about briefly, or for pictures the whole as it is."""

from __future__ import annotations

import optimiser as lib
from api.batch import Batch, Rules, plan_batch
from api.demo_run import SCENARIO, WALLS
from api.inputs import read_jobs, read_rack, read_text
from api.rules import default_keep


def a_demo_batch(*, is_whole: bool = False) -> Batch:
    names = WALLS if is_whole else WALLS[:1]
    walls, lists, _ = read_jobs([SCENARIO / name for name in names])
    book = lib.read_price_book(read_text(SCENARIO / "price-book.toml"), name="price-book.toml")
    rules = Rules(keep=default_keep(), seed=1, seconds=2.0 if is_whole else 0.3)
    return plan_batch(walls, lists, book, read_rack(SCENARIO / "rack.csv"), rules, compare=True)
