"""The demo: an invented small firm's week of three walls, an invented price book and rack."""

from __future__ import annotations

from pathlib import Path

import optimiser as lib
from api.batch import Batch, Rules, plan_batch
from api.documents import Printing
from api.drawings import Drawn
from api.folder import write_folder
from api.inputs import read_jobs, read_rack, read_text
from api.rules import default_keep
from api.watching import Watching, cores

SCENARIO = Path(__file__).parent / "demo"
WALLS = ("wall-a.toml", "wall-b.toml", "wall-c.toml")
LISTED = "parts.csv"


def run_demo(
    folder: Path,
    *,
    seconds: float,
    seed: int,
    watching: Watching | None = None,
) -> tuple[Batch, tuple[Drawn, ...]]:
    """Plan the week, compare it with planning one job at a time, and write the folder.

    Return the batch and the drawings of its walls.
    """
    walls, lists, files = read_jobs([SCENARIO / name for name in WALLS])
    quietly = Watching() if watching is None else watching
    batch = plan_batch(
        walls,
        lists,
        lib.read_price_book(read_text(SCENARIO / "price-book.toml"), name="price-book.toml"),
        read_rack(SCENARIO / "rack.csv"),
        Rules(keep=default_keep(), seed=seed, seconds=seconds),
        files=files,
        compare=True,
        watch=None if watching is None else watching.complete,
        tell=None if watching is None else watching.progress,
        cancelled=quietly.cancelled,
        workers=cores(),
    )
    return batch, write_folder(batch, folder, Printing(), workers=cores())
