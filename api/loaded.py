"""All code that a run needs, loaded once in the process from which runs' processes are forked.

Nothing may be planned here: solvers start threads, and no thread outlives a fork.
"""

from __future__ import annotations

import optimiser as lib
from api import working

# The library loads names when they are first asked for.
LOADED = (
    working.main,
    lib.buy_from,
    lib.compare_batch,
    lib.draw_boarding,
    lib.draw_length_plan,
    lib.draw_pictorial,
    lib.draw_sheet_layout,
    lib.frame_wall,
    lib.job_shares,
    lib.plan_cutting,
)
